import type { Tank } from "../book/stations.ts";
import { lightChanges } from "./light-changes.ts";
import type { Logbook } from "./logbook.ts";
import type { Period } from "./stock-book.ts";

/**
 * The days before something was changed in a tank, and as many after it, that can be held against each other: no change of the light
 * but the one lies in them or just before them.
 *
 * The figures are choices of ours, not measured: algae and plants take days to follow the light, so a week behind each change is left out;
 * six weeks are as many as weekly ratings need for an interval of 95 % and little enough for one season; with less than two weeks on a
 * side nothing is compared.
 */
export const windowChoices = { settlingDays: 7, mostDays: 42, leastDays: 14 } as const;

export interface Windows {
  readonly before: Period;
  readonly after: Period;
  readonly days: number;
  /** Why they are no longer: the log, the tank or a change before, a change after, today, or that they are as long as they get. */
  readonly bound: "begin" | "change before" | "change after" | "today" | "most";
  /** The day at whose end it is known that they grow no more: their last, or that of the next change. Later than today while they can. */
  readonly closes: number;
}

/** No days to compare, with the reason in a few words' worth of data: so many there are, and so many there may still be. */
export interface TooShort {
  readonly days: number;
  readonly bound: Windows["bound"];
  /** The first day on which they are long enough; NaN where they never will be. */
  readonly enough: number;
}

/** @param day of the change: that day itself is before it; what is done to the light does not show on the same day */
export function windowsAround(logbook: Logbook, tank: Tank, day: number, today: number): Windows | TooShort {
  const { settlingDays, mostDays, leastDays } = windowChoices;
  const changes = lightChanges(logbook, tank, today).map(({ row }) => row.day);
  const [earlier, later] = [changes.findLast((each) => each < day), changes.find((each) => each > day)];
  const begin = Math.max(logbook.dayGroups[0]?.day ?? day, Number.isNaN(tank.from) ? 0 : tank.from);
  const settled = earlier === undefined ? Number.NEGATIVE_INFINITY : earlier + settlingDays + 1;
  const first = day + settlingDays + 1;
  const possible = {
    most: mostDays,
    begin: day - begin + 1,
    "change before": day - settled + 1,
    "change after": (later ?? Number.POSITIVE_INFINITY) - first,
    today: Math.min(today, Number.isNaN(tank.until) ? today : tank.until) - first + 1,
  };
  const least = Math.min(...Object.values(possible));
  const bound = boundOf(possible, least);
  const days = Math.max(0, least);
  const { today: _, "change after": untilChange, ...others } = possible;
  const alone = Math.min(...Object.values(others));
  const target = Math.min(alone, untilChange);
  if (days < leastDays)
    return { days, bound, enough: target < leastDays ? Number.NaN : first + leastDays - 1 };
  return {
    before: { from: day - days + 1, to: day },
    after: { from: first, to: first + days - 1 },
    days,
    bound,
    closes: untilChange < alone ? first + untilChange : first + alone - 1,
  };
}

/** Where several bound alike, that which no time mends. */
function boundOf(possible: Readonly<Record<Windows["bound"], number>>, least: number): Windows["bound"] {
  const order = ["change before", "change after", "begin", "most", "today"] as const;
  return order.find((each) => possible[each] === least) ?? "most";
}

export const isTooShort = (windows: Windows | TooShort): windows is TooShort => "enough" in windows;
