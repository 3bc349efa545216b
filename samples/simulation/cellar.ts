import { FIRST_DAY, MINUTES_A_DAY } from "./calendar.ts";
import { Orders } from "./orders.ts";
import { waters } from "./pantry.ts";
import { Prose } from "./prose.ts";
import { Provisions } from "./provisions.ts";
import { Stream } from "./random.ts";
import { Stock } from "./stock.ts";
import { netVolumesL, tankOf } from "./tanks.ts";
import { Body, NITRATE_PER_N } from "./water.ts";
import { type Entry, type Item, isSheet } from "./writing.ts";

const EVENING = 16 * 60;

/** Something the keeper does at a time of day: it changes the room and leaves lines in the log. */
export interface Act {
  /** Minutes since midnight. */
  readonly minute: number;
  /** The keeper looks at the clock and writes it down. */
  readonly timed: boolean;
  /** @param now minutes since 1970 */
  readonly perform: (now: number) => readonly Item[];
}

/** The room as it is and what the keeper keeps in mind from one day to the next. */
export class Cellar {
  readonly stock = new Stock();
  readonly prose = new Prose();
  readonly orders = new Orders();
  readonly provisions = new Provisions();
  readonly bodies: ReadonlyMap<string, Body>;
  /** For each tank, the days on which it got a kind of food, oldest first. */
  readonly fed = new Map<string, { day: number; kind: string }[]>();
  /** The last day something was done, by a name of the routine's own. */
  readonly lastDone = new Map<string, number>();
  /** Tanks that are not fed on a day, as `day/tank`. */
  readonly fasting = new Set<string>();
  /** Tanks whose change was put off. */
  owed: readonly string[] = [];
  /** Tanks whose water a story changes, as `day/tank`: the rotation leaves them out. */
  readonly handled = new Set<string>();
  /** How many lines the keeper expects to write today; a full day has no room for what can wait. */
  planned = 0;
  #acts: Act[] = [];
  readonly #streams = new Map<string, Stream>();

  constructor() {
    const start = FIRST_DAY * MINUTES_A_DAY;
    this.bodies = new Map(
      [...netVolumesL].map(([name, netL]) => [name, new Body(name, netL, start, firstWater(name, netL))]),
    );
  }

  random(name: string): Stream {
    const known = this.#streams.get(name);
    if (known !== undefined) return known;
    const stream = new Stream(`cellar/${name}`);
    this.#streams.set(name, stream);
    return stream;
  }

  /** The water a tank holds, or a system is. */
  bodyOf(target: string): Body {
    const body = this.bodies.get(target) ?? this.bodies.get(tankOf(target).water);
    if (body === undefined) throw new RangeError(`no water belongs to ${target}`);
    return body;
  }

  /** The keeper will do this today. */
  plan(minute: number, perform: Act["perform"], timed = false, lines = 1): void {
    this.planned += lines;
    this.#acts.push({ minute, timed, perform });
  }

  /** One line at a time of day, with nothing behind it but the writing. */
  planEntry(minute: number, target: string, words: string, text?: string, timed = false): void {
    this.plan(minute, () => [{ target, words, text }], timed);
  }

  /**
   * Does what was planned, in the order of the clock. The keeper looks at it when a round begins, and not on every day.
   * @returns the day's lines
   */
  work(day: number): Item[] {
    const acts = this.#acts.sort((a, b) => a.minute - b.minute);
    this.#acts = [];
    this.planned = 0;
    const clock = this.random("clock");
    const looks = { morning: clock.chance(0.4), evening: clock.chance(0.5) };
    return acts.flatMap(({ minute, timed, perform }) => {
      const items = perform(day * MINUTES_A_DAY + minute);
      const [first, ...others] = items;
      if (first === undefined || isSheet(first)) return items;
      const half = minute < EVENING ? "morning" : "evening";
      const isTimed = timed || looks[half];
      looks[half] = false;
      return isTimed ? [{ ...first, minute } satisfies Entry, ...others] : items;
    });
  }

  daysSince(what: string, day: number): number {
    return day - (this.lastDone.get(what) ?? Number.NEGATIVE_INFINITY);
  }
}

const SOFT_WATERS = new Set(["b2", "b5", "sill"]);
const START_NITRATE_MGL: Readonly<Record<string, number>> = { dam: 14, ford: 12, b7: 15, "rack-water": 14 };

/** The water at the beginning: that of its source, a little used. */
function firstWater(name: string, netL: number) {
  const source = SOFT_WATERS.has(name) ? waters.soft : waters.tap;
  return {
    ammoniaMgN: 0.01 * netL,
    nitriteMgN: 0.005 * netL,
    nitrateMgN: ((START_NITRATE_MGL[name] ?? source.nitrateMgL + 3) / NITRATE_PER_N) * netL,
    alkalinityDkhL: 0.85 * source.alkalinityDkh * netL,
    hardnessDghL: source.hardnessDgh * netL,
  };
}
