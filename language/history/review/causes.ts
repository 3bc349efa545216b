/**
 * The changes that a consequence may follow from, as indices. Of thousands in one water most are no more than their number, and are
 * listed for who asks.
 */
export class Causes {
  private readonly parts: readonly Part[];

  private constructor(parts: readonly Part[]) {
    this.parts = parts;
  }

  /** @param near of its own line, or what names its tank and what it is about; rest what else is in its water */
  static of(near: readonly number[], rest?: Reach): Causes {
    return new Causes([{ near: [...new Set(near)], rest }]);
  }

  /** Of two that are told as one. */
  with(other: Causes): Causes {
    return new Causes([...this.parts, ...other.parts]);
  }

  /** How many are near. */
  get near(): number {
    return this.parts.reduce((most, { near }) => Math.max(most, near.length), 0);
  }

  /** How many there are. */
  get count(): number {
    const rests = new Set(this.parts.flatMap(({ rest }) => (rest === undefined ? [] : [rest])));
    const [first, ...others] = rests;
    const reach = first === undefined ? none : first.with(others);
    const beyond = new Set<number>();
    for (const { near } of this.parts) for (const at of near) if (!reach.has(at)) beyond.add(at);
    return reach.size + beyond.size;
  }

  /** The nearest first, each once. */
  list(most = Number.POSITIVE_INFINITY): number[] {
    const found = new Set<number>();
    for (const { near, rest } of this.parts) {
      for (const list of rest === undefined ? [near] : [near, rest.list])
        for (const at of list) {
          if (found.size >= most) return [...found];
          found.add(at);
        }
    }
    return [...found];
  }
}

interface Part {
  readonly near: readonly number[];
  readonly rest: Reach | undefined;
}

/** All changes that reach one water, for the many consequences in it. */
export class Reach {
  /** The nearest first. */
  readonly list: readonly number[];
  private readonly all: ReadonlySet<number>;
  private readonly joined = new Map<string, Reach>();
  /** Tells it from the others. */
  readonly number = made++;

  constructor(list: readonly number[]) {
    this.all = new Set(list);
    this.list = [...this.all];
  }

  get size(): number {
    return this.all.size;
  }

  has(at: number): boolean {
    return this.all.has(at);
  }

  /** What reaches any of several. */
  with(others: readonly Reach[]): Reach {
    if (others.length === 0) return this;
    const key = others.map(({ number }) => number).join(" ");
    const known = this.joined.get(key) ?? new Reach([this, ...others].flatMap(({ list }) => list));
    this.joined.set(key, known);
    return known;
  }
}

let made = 0;
const none = new Reach([]);
