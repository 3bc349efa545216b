/**
 * The animals twice: as they are, and as the log has them. The two part where the keeper cannot see: fry that are
 * eaten, shrimp that die behind the moss. Lots are told apart where the keeper can. Every animal comes from somewhere and goes somewhere: `flows` adds up.
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

/** Animals of one lot, or of none that has a name. */
export interface Part {
  readonly lot: string | undefined;
  readonly animals: number;
}

export type WayIn = "opening" | "arrived" | "born";
export type WayOut = "diedSeen" | "diedUnseen" | "sold" | "shipped";

export class Stock {
  readonly flows = new Map<string, Flow>();
  readonly #there = new Map<string, Map<string, number>>();
  readonly #book = new Map<string, Map<string, number>>();
  /** By tank and species the lots that are there, the oldest first; the rest has no name. */
  readonly #lots = new Map<string, Map<string, number>>();

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

  enter(tank: string, species: string, animals: number, way: WayIn, booked = animals, lot?: string): void {
    this.#flow(species)[way] += animals;
    add(this.#there, tank, species, animals);
    add(this.#book, tank, species, booked);
    if (lot !== undefined) add(this.#lots, `${tank} ${species}`, lot, animals);
  }

  /** @returns which they were: those without a name first, then the oldest lot */
  leave(tank: string, species: string, animals: number, way: WayOut): Part[] {
    const parts = this.#take(tank, species, animals);
    this.#flow(species)[way] += animals;
    add(this.#there, tank, species, -animals);
    if (way !== "diedUnseen") add(this.#book, tank, species, -animals);
    return parts;
  }

  /** @returns which they were, as `leave` */
  move(species: string, animals: number, from: string, to: string): Part[] {
    const parts = this.#take(from, species, animals);
    add(this.#there, from, species, -animals);
    add(this.#there, to, species, animals);
    add(this.#book, from, species, -animals);
    add(this.#book, to, species, animals);
    for (const { lot, animals: moved } of parts)
      if (lot !== undefined) add(this.#lots, `${to} ${species}`, lot, moved);
    return parts;
  }

  /** How many of a lot are there. */
  lotIn(tank: string, species: string, lot: string): number {
    return this.#lots.get(`${tank} ${species}`)?.get(lot) ?? 0;
  }

  /** Moves animals of one lot. */
  pass(species: string, lot: string, animals: number, from: string, to: string): void {
    add(this.#lots, `${from} ${species}`, lot, -animals);
    add(this.#lots, `${to} ${species}`, lot, animals);
    for (const book of [this.#there, this.#book]) {
      add(book, from, species, -animals);
      add(book, to, species, animals);
    }
  }

  /** The lot that all animals of a species in a tank are of; undefined where they are of several or none. */
  onlyLot(tank: string, species: string): string | undefined {
    const lots = [...(this.#lots.get(`${tank} ${species}`) ?? [])].filter(([, animals]) => animals > 0);
    const [first] = lots;
    return lots.length === 1 && first![1] === this.there(tank, species) ? first![0] : undefined;
  }

  /** The log takes over a count. */
  recount(tank: string, species: string, counted: number): void {
    add(this.#book, tank, species, counted - this.booked(tank, species));
  }

  /** The log is put right by an entry, nothing happens to the animals. */
  correctBook(tank: string, species: string, by: number): void {
    add(this.#book, tank, species, by);
  }

  #take(tank: string, species: string, animals: number): Part[] {
    const place = `${tank} ${species}`;
    const lots = [...(this.#lots.get(place) ?? [])];
    const named = lots.reduce((sum, [, number]) => sum + number, 0);
    const nameless = Math.min(animals, Math.max(0, this.there(tank, species) - named));
    const parts: Part[] = nameless > 0 ? [{ lot: undefined, animals: nameless }] : [];
    let open = animals - nameless;
    for (const [lot, number] of lots) {
      const taken = Math.min(open, number);
      if (taken === 0) continue;
      add(this.#lots, place, lot, -taken);
      parts.push({ lot, animals: taken });
      open -= taken;
    }
    return parts;
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
