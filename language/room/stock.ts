/** The book of one species in one tank. */
export interface Holding {
  /** Its place among the holdings of this water, in the order in which they were first named. */
  readonly index: number;
  readonly tank: number;
  /** The number of the species' name. */
  readonly species: number;
  /** Animals by the book; NaN while nothing says how many. */
  animals: number;
  /** Rests on an estimate. */
  isAbout: boolean;
  lastCount: number;
  lastCountTime: number;
}

const keys = ["index", "tank", "species", "animals", "isAbout", "lastCount", "lastCountTime"] as const;

/** How many animals of which species are in which tank of a body of water, by the book. */
export class Stock {
  private holdings = new Map<number, Holding>();

  holding(tank: number, species: number): Holding {
    const key = tank * 0x200000 + species;
    let holding = this.holdings.get(key);
    if (holding === undefined) {
      holding = {
        index: this.holdings.size,
        tank,
        species,
        animals: Number.NaN,
        isAbout: false,
        lastCount: Number.NaN,
        lastCountTime: Number.NaN,
      };
      this.holdings.set(key, holding);
    }
    return holding;
  }

  /** What is known of a species in a tank; undefined if the log never named it there. */
  known(tank: number, species: number): Holding | undefined {
    return this.holdings.get(tank * 0x200000 + species);
  }

  enter(tank: number, species: number, animals: number, isAbout: boolean): Holding {
    const holding = this.holding(tank, species);
    holding.animals = (Number.isNaN(holding.animals) ? 0 : holding.animals) + animals;
    holding.isAbout ||= isAbout;
    return holding;
  }

  leave(tank: number, species: number, animals: number): Holding {
    const holding = this.holding(tank, species);
    // More cannot leave than are there: what the entry says is a finding, and the book goes on from none.
    holding.animals = Math.max(0, holding.animals - animals);
    return holding;
  }

  /** Every holding there ever was, by its index. */
  all(): Holding[] {
    return [...this.holdings.values()];
  }

  /** What is in a tank, or in all of them. */
  in(tank?: number): Holding[] {
    return [...this.holdings.values()].filter(
      (holding) => (tank === undefined || holding.tank === tank) && holding.animals > 0,
    );
  }

  /** Whether all holdings are what they were, in the same order. */
  isAs({ holdings }: ReturnType<Stock["mark"]>): boolean {
    if (holdings.length !== this.holdings.size) return false;
    let at = 0;
    for (const now of this.holdings.values()) {
      const then = holdings[at++]!;
      for (const key of keys) if (!Object.is(now[key], then[key])) return false;
    }
    return true;
  }

  mark(): { readonly holdings: readonly Holding[] } {
    return { holdings: [...this.holdings.values()].map((each) => ({ ...each })) };
  }

  reset(mark: ReturnType<Stock["mark"]>): void {
    this.holdings = new Map(mark.holdings.map((each) => [each.tank * 0x200000 + each.species, { ...each }]));
  }
}
