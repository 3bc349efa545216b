import { wilson } from "../science/proportion.ts";
import { isOutside } from "../science/result.ts";
import type { Counted } from "./brood-rows.ts";
import { type Brood, tallyOf } from "./broods.ts";

/** How many of a brood came from one stage to the next. */

export interface Share {
  readonly what: ShareOf;
  readonly count: number;
  readonly outOf: number;
  /** Rests on an estimate: the interval tells of chance alone, not of how well was counted. */
  readonly isAbout: boolean;
  /** NaN where more were counted than there can have been: then there is no share to tell. */
  readonly share: number;
  /** 95 %, Wilson 1927. */
  readonly low: number;
  readonly high: number;
  readonly formula: string;
}

export type ShareOf =
  | "alive of laid"
  | "hatched of laid"
  | "hatched of alive"
  | "swimming of hatched"
  | "alive after 30 days"
  | "alive after 30 days, culls left out";

export const wilsonSource = "Wilson 1927, J. Am. Stat. Assoc. 22:209-212";
/** Survival is told for this many days after hatching. */
export const survivalDays = 30;

/** The shares that a brood tells, in the order of its stages. @param day the last day that counts */
export function sharesOf(brood: Brood, day: number): Share[] {
  const { laid, fertile, alive, hatched, swimming } = brood.tally;
  return [
    shareOf("alive of laid", fertile, laid, "living eggs at their first count / eggs laid"),
    shareOf("hatched of laid", hatched, laid, "hatched / eggs laid"),
    shareOf("hatched of alive", hatched, alive, "hatched / living eggs at their last count"),
    shareOf("swimming of hatched", swimming, hatched, "swimming / hatched"),
    ...survivalShares(brood, day),
  ].filter((share) => share !== undefined);
}

export function shareOf(what: ShareOf, part: Counted, whole: Counted, formula: string): Share | undefined {
  if (Number.isNaN(part.count + whole.count) || whole.count === 0) return undefined;
  const limits = wilson(part.count, whole.count);
  const isShare = !isOutside(limits);
  return {
    what,
    count: part.count,
    outOf: whole.count,
    isAbout: part.isAbout || whole.isAbout,
    share: isShare ? part.count / whole.count : Number.NaN,
    low: isShare ? limits.low : Number.NaN,
    high: isShare ? limits.high : Number.NaN,
    formula,
  };
}

/** Of a brood with a name that is old enough: who is alive on the thirtieth day. Who was sold before is left out of both sides. */
function survivalShares(brood: Brood, day: number): (Share | undefined)[] {
  const until = brood.tally.hatchedOn + survivalDays;
  if (brood.lot === "" || !(until <= day) || brood.entries.some(({ is }) => is === "arrive")) return [];
  const { hatched, living, left, culled } = tallyOf(brood.entries.filter((entry) => entry.day <= until));
  const alive: Counted = {
    count: [...living.values()].reduce((sum, { count }) => sum + count, 0),
    isAbout: [...living.values()].some(({ isAbout }) => isAbout),
  };
  const without = (count: number): Counted => ({ ...hatched, count: hatched.count - count });
  const sold = left > 0 ? " - sold before" : "";
  const all = shareOf("alive after 30 days", alive, without(left), `alive / (hatched${sold})`);
  const uncull = `alive / (hatched${sold} - culled)`;
  return culled > 0
    ? [all, shareOf("alive after 30 days, culls left out", alive, without(left + culled), uncull)]
    : [all];
}

/** Where a brood stands, told apart from what became of it. */
export function totalLiving({ tally }: Brood): Counted {
  const all = [...tally.living.values()];
  return {
    count: all.reduce((sum, { count }) => sum + count, 0),
    isAbout: all.some(({ isAbout }) => isAbout),
  };
}

/** Young older than this are grown: the brood is no longer open. *Common practice, no source.* */
const grownDays = 90;

/** Whether there is something to wait for, or to rear: eggs that may still hatch, young that are not grown. */
export function isOpen({ tally, lot }: Brood, day: number, waitDays: number): boolean {
  const { state, spawned, hatchedOn, swamOn } = tally;
  if (state === "lost" || state === "gone") return false;
  if (state === "eggs") return lot !== "" ? !(day - spawned > 4 * waitDays) : !(day - spawned > waitDays);
  const born = Number.isNaN(hatchedOn) ? swamOn : hatchedOn;
  return day - born <= (lot === "" ? survivalDays : grownDays);
}
