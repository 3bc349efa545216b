import { spokenDay } from "../../../book/dates.ts";
import { days } from "../../../checks/words.ts";
import { locationOf } from "../../../features/view.ts";
import { dutiesOn } from "../../../room/due.ts";
import type { Follows, Standing } from "../consequence.ts";

interface DutyStanding extends Standing {
  readonly act: string;
  /** Infinity where nothing is owed. */
  readonly owed: number;
  readonly late: number;
}

/** What is due on the day, and what is no longer; a date ahead that is another is a small thing. */
export const duties: Follows<DutyStanding> = {
  is: "duty",
  reach: "station",

  standing({ logbook, book }, day) {
    const found = new Map<string, DutyStanding>();
    for (const station of book.stations)
      for (const { duty, owed, late } of dutiesOn(logbook.ledgerOf(station), [station], day)) {
        const { act, form, place } = duty;
        const key = JSON.stringify([station.name, form.when, act]);
        found.set(key, {
          of: station.name,
          at: locationOf(place),
          terms: act.split(" ", 1),
          act,
          owed,
          late,
        });
      }
    return found;
  },

  wasSo: (then) => isDue(then),

  told(before, after, day) {
    const { act } = (after ?? before)!;
    const words = { before: whenOf(before, day), after: whenOf(after, day) };
    const [was, is] = [isDue(before), isDue(after)];
    if (is && !was) return [{ text: `${act}: now ${words.after}`, tone: "worse", ...words }];
    if (was && !is) {
      const next = after === undefined ? "no longer a duty" : `no longer due, ${words.after}`;
      return [{ text: `${act}: ${next} (it was ${words.before})`, tone: "better", ...words }];
    }
    if (before === undefined || after === undefined || before.owed === after.owed) return [];
    return [
      {
        text: `${act}: ${words.after} (it was: ${words.before})`,
        isSmall: !is,
        tone: is && after.late > before.late ? "worse" : "plain",
        ...words,
      },
    ];
  },
};

const isDue = (state: DutyStanding | undefined): boolean => state !== undefined && state.late >= 0;

function whenOf(state: DutyStanding | undefined, day: number): string {
  if (state === undefined) return "no duty";
  if (state.late > 0) return `${days(state.late)} late`;
  if (state.late === 0) return "due today";
  return Number.isFinite(state.owed) ? `due ${spokenDay(state.owed, day)}` : "nothing due";
}
