import { spokenDay } from "../book/dates.ts";
import type { Remedy } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Ledger } from "./ledger.ts";
import { decayed, lastDose } from "./past.ts";
import type { Reason } from "./reason.ts";
import { settledTime } from "./water.ts";
import { type Why, whyEntry, whyStated } from "./why.ts";
import { whyRemedy } from "./why-dose.ts";

/** Remedies that speak against letting animals go: in the water still, or given too lately. */

/** Less of a remedy than this share of its target is next to none. A choice of this tool, as in the report of the day. */
export const nextToNone = 0.01;
/** What cannot be computed is asked about for so long after its dose. */
export const unknownDays = 60;

export function remedyReasons(ledger: Ledger, day: number, until: number): Reason[] {
  if (ledger.doses.length === 0) return [];
  return ledger.book.remedies.flatMap((remedy): Reason[] => {
    const dose = lastDose(ledger, remedy, until);
    if (dose < 0) return [];
    const given = Math.floor(ledger.doses.time[dose]!);
    const free = given + Math.ceil(remedy.withdrawalDays);
    const least = leastThatCounts(ledger, remedy, dose);
    const level = levelFrom(ledger, remedy, dose, until, least);
    const isThere = Number.isNaN(level) ? day - given < unknownDays : level > 0;
    const withheld = (): Why => ({
      what: `last dose of ${remedy.name}`,
      value: `${spokenDay(given)}, not to leave before ${spokenDay(free)}`,
      formula: `day of the last dose + ${formatNumber(remedy.withdrawalDays)} d, as you stated`,
      from: [
        whyEntry({ block: ledger.doses.block[dose]!, row: ledger.doses.row[dose]! }),
        whyStated(remedy.place),
      ],
    });
    if (isThere) {
      const gone = goneBy(remedy, level, least, until);
      const why = (): Why => {
        const now = whyRemedy(ledger, remedy, until, `${remedy.name} in the water`);
        return free > day ? { ...now, from: [...now.from, withheld()] } : now;
      };
      // Days that are not stated bound nothing.
      const end = Number.isNaN(free) ? gone : Math.max(free, gone);
      return [{ is: "remedy", until: end, name: remedy.name, amount: level, why }];
    }
    if (!(free > day)) return [];
    return [{ is: "withdrawal", until: free, name: remedy.name, amount: Number.NaN, why: withheld }];
  });
}

/** So much counts as being there: a share of the target, or of what the last dose made where none is stated. */
export function leastThatCounts({ doses }: Ledger, remedy: Remedy, dose: number): number {
  const made = doses.first[dose]! + doses.second[dose]!;
  return nextToNone * (Number.isFinite(remedy.targetLow) ? remedy.targetLow : made);
}

/**
 * What is left at a time of what a dose made, by the changes and the half-life since; 0 once it is less than the least, and then no
 * further change is looked at: a dose of years ago costs a few steps.
 */
function levelFrom(ledger: Ledger, remedy: Remedy, dose: number, until: number, least: number): number {
  const { doses, exchanges } = ledger;
  let time = settledTime(doses, dose);
  let level = doses.first[dose]! + doses.second[dose]!;
  for (let at = exchanges.from(doses.time[dose]!); at < exchanges.length; at++) {
    const now = settledTime(exchanges, at);
    if (now >= until) break;
    if (now <= time) continue;
    level = decayed(level, now - time, remedy.halfLifeDays) * (1 - exchanges.first[at]!);
    if (level < least) return 0;
    time = now;
  }
  level = decayed(level, until - time, remedy.halfLifeDays);
  return level < least ? 0 : level;
}

/** The first day on which it is next to none by its half-life alone; Infinity without one: then water is to be changed. */
function goneBy({ halfLifeDays }: Remedy, level: number, least: number, until: number): number {
  if (Number.isNaN(halfLifeDays) || !(level > 0) || !(least > 0)) return Number.POSITIVE_INFINITY;
  return Math.ceil(until + halfLifeDays * Math.log2(level / least));
}
