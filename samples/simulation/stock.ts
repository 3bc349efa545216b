/**
 * The animals twice: as they are, and as the log has them. The two part where the keeper cannot see: fry that are
 * eaten, shrimp that die behind the moss. Every animal comes from somewhere and goes somewhere: `flows` adds up.
 */

export interface Flow {
  opening: number;
  arrived: number;
  born: number;
  diedSeen: number;
  diedUnseen: number;
  sold: number;
  shipped: number;
}

export type WayIn = "opening" | "arrived" | "born";
export type WayOut = "diedSeen" | "diedUnseen" | "sold" | "shipped";

export class Stock {
  readonly flows = new Map<string, Flow>();
  readonly #there = new Map<string, Map<string, number>>();
  readonly #book = new Map<string, Map<string, number>>();

  /** How many there are. */
  there(tank: string, species: string): number {
    return this.#there.get(tank)?.get(species) ?? 0;
  }

  /** How many the log says there are. */
  booked(tank: string, species: string): number {
    return this.#book.get(tank)?.get(species) ?? 0;
  }

  /** The species of a tank, in the order in which they came. */
  speciesIn(tank: string): string[] {
    return [...(this.#there.get(tank) ?? [])].filter(([, animals]) => animals > 0).map(([name]) => name);
  }

  totalThere(species: string): number {
    let sum = 0;
    for (const animals of this.#there.values()) sum += animals.get(species) ?? 0;
    return sum;
  }

  enter(tank: string, species: string, animals: number, way: WayIn, booked = animals): void {
    this.#flow(species)[way] += animals;
    add(this.#there, tank, species, animals);
    add(this.#book, tank, species, booked);
  }

  leave(tank: string, species: string, animals: number, way: WayOut): void {
    this.#flow(species)[way] += animals;
    add(this.#there, tank, species, -animals);
    if (way !== "diedUnseen") add(this.#book, tank, species, -animals);
  }

  move(species: string, animals: number, from: string, to: string): void {
    add(this.#there, from, species, -animals);
    add(this.#there, to, species, animals);
    add(this.#book, from, species, -animals);
    add(this.#book, to, species, animals);
  }

  /** The log takes over a count. */
  recount(tank: string, species: string, counted: number): void {
    add(this.#book, tank, species, counted - this.booked(tank, species));
  }

  /** The log is put right by an entry, nothing happens to the animals. */
  correctBook(tank: string, species: string, by: number): void {
    add(this.#book, tank, species, by);
  }

  #flow(species: string): Flow {
    const known = this.flows.get(species);
    if (known !== undefined) return known;
    const flow: Flow = { opening: 0, arrived: 0, born: 0, diedSeen: 0, diedUnseen: 0, sold: 0, shipped: 0 };
    this.flows.set(species, flow);
    return flow;
  }
}

function add(book: Map<string, Map<string, number>>, tank: string, species: string, animals: number): void {
  const inTank = book.get(tank) ?? new Map<string, number>();
  const now = (inTank.get(species) ?? 0) + animals;
  if (now < 0) throw new RangeError(`${tank}: ${-now} ${species} more leave than are there`);
  book.set(tank, inTank.set(species, now));
}
