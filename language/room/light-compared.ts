import type { Tank } from "../book/stations.ts";
import { isTooShort, type TooShort, type Windows, windowsAround } from "./change-windows.ts";
import { type Compared, comparedIn } from "./compared.ts";
import { type LightChange, lightChanges } from "./light-changes.ts";
import type { Logbook } from "./logbook.ts";
import { type Meanwhile, meanwhileIn, type Routine } from "./meanwhile.ts";
import type { LogRow } from "./rare-rows.ts";
import type { Period } from "./stock-book.ts";

/**
 * A tank before and after a change. It is no experiment: one tank, no control, and a change that is mostly made when things are at their
 * worst, after which they tend to be better whatever is done (A. G. Barnett, J. C. van der Pols & A. J. Dobson 2005, Regression to the mean:
 * what it is and how to deal with it, Int. J. Epidemiol. 34:215-220).
 */
export interface ComparedChange {
  readonly tank: Tank;
  readonly row: LogRow;
  readonly windows: Windows | TooShort;
  readonly compared: readonly Compared[];
  readonly events: readonly Meanwhile[];
  readonly routines: readonly Routine[];
  readonly sisters: readonly Sister[];
}

/**
 * A tank of the same water over which the light did not change meanwhile, with what was seen in it in the same days: what the season, the
 * water and the keeper's eye did to both is in its difference too. It was not chosen by lot, so it is less than a control.
 */
export interface Sister {
  readonly tank: Tank;
  readonly compared: readonly Compared[];
}

/** Of the light, or of anything else that an entry did to one tank. */
export function comparedAround(logbook: Logbook, tank: Tank, row: LogRow, today: number): ComparedChange {
  const windows = windowsAround(logbook, tank, row.day, today);
  if (isTooShort(windows)) return { tank, row, windows, compared: [], events: [], routines: [], sisters: [] };
  return {
    tank,
    row,
    windows,
    compared: comparedIn(logbook, tank, windows),
    ...meanwhileIn(logbook, tank, windows, row),
    sisters: sistersOf(logbook, tank, windows, today),
  };
}

function sistersOf(
  logbook: Logbook,
  tank: Tank,
  { before, after, ...rest }: Windows,
  today: number,
): Sister[] {
  const tanks = logbook.book.bodies[tank.body]?.tanks ?? [];
  const changedIn = (other: Tank): boolean =>
    lightChanges(logbook, other, today).some(({ row }) => row.day >= before.from && row.day <= after.to);
  return tanks
    .filter((other) => other !== tank && !changedIn(other))
    .map((other) => ({
      tank: other,
      compared: comparedIn(logbook, other, { before, after, ...rest }, "without water").filter(
        ({ shift }) => shift !== undefined,
      ),
    }))
    .filter(({ compared }) => compared.length > 0);
}

export interface ClosedChange extends ComparedChange {
  readonly change: LightChange;
}

/** Changes of light whose days after were all over within a period, by tank and in order of time. */
export function lightsClosed(logbook: Logbook, { from, to }: Period): ClosedChange[] {
  return logbook.book.tanks.flatMap((tank) =>
    lightChanges(logbook, tank, to).flatMap((change): ClosedChange[] => {
      const windows = windowsAround(logbook, tank, change.row.day, to);
      if (isTooShort(windows) || windows.closes < from || windows.closes > to) return [];
      return [{ change, ...comparedAround(logbook, tank, change.row, to) }];
    }),
  );
}
