/**
 * A seeded generator: the same seed always gives the same room.
 *
 * xoshiro128** 1.1 by Blackman and Vigna (2021), ACM Trans. Math. Softw. 47(4):36. Every routine draws from a stream
 * of its own name, so that one more draw in one of them leaves all the others as they were.
 */

export type State = [number, number, number, number];

/** One step of xoshiro128**: an unsigned 32-bit number; the state moves on. */
export function nextUint32(state: State): number {
  const result = Math.imul(rotateLeft(Math.imul(state[1], 5), 7), 9) >>> 0;
  const shifted = state[1] << 9;
  state[2] ^= state[0];
  state[3] ^= state[1];
  state[1] ^= state[2];
  state[0] ^= state[3];
  state[2] ^= shifted;
  state[3] = rotateLeft(state[3], 11);
  return result;
}

function rotateLeft(value: number, by: number): number {
  return (value << by) | (value >>> (32 - by));
}

/** A stream of random numbers under a name. */
export class Stream {
  readonly #state: State;

  constructor(name: string) {
    this.#state = stateOf(name);
    for (let warm = 0; warm < 8; warm++) nextUint32(this.#state);
  }

  /** Evenly in [0, 1). */
  share(): number {
    return nextUint32(this.#state) / 2 ** 32;
  }

  /** Evenly in [low, high). */
  between(low: number, high: number): number {
    return low + (high - low) * this.share();
  }

  /** A whole number, `low` and `high` included. */
  whole(low: number, high: number): number {
    return low + Math.floor(this.share() * (high - low + 1));
  }

  chance(probability: number): boolean {
    return this.share() < probability;
  }

  /**
   * Nearly normal, mean 0 and deviation 1: the sum of twelve even draws less six (Irwin-Hall). It needs no
   * transcendental function, so every engine agrees to the last bit.
   */
  noise(): number {
    let sum = -6;
    for (let draw = 0; draw < 12; draw++) sum += this.share();
    return sum;
  }

  pick<T>(from: readonly T[]): T {
    const chosen = from[Math.floor(this.share() * from.length)];
    if (chosen === undefined) throw new RangeError("nothing to pick from");
    return chosen;
  }

  /** The same things in another order (Fisher and Yates). */
  shuffled<T>(things: readonly T[]): T[] {
    const deck = [...things];
    for (let last = deck.length - 1; last > 0; last--) {
      const other = Math.floor(this.share() * (last + 1));
      [deck[last], deck[other]] = [deck[other]!, deck[last]!];
    }
    return deck;
  }
}

/** Four words from a name: FNV-1a (Fowler, Noll, Vo 1991), spread by its own step. */
function stateOf(name: string): State {
  let hash = 0x811c9dc5;
  const word = (salt: number): number => {
    for (const letter of `${name}/${salt}`) {
      hash = Math.imul(hash ^ letter.codePointAt(0)!, 0x01000193) >>> 0;
    }
    return hash;
  };
  return [word(1), word(2), word(3), word(4) | 1];
}
