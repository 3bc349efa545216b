import type { Tank } from "../book/stations.ts";
import { fastsOf, type Meal, mealsOf } from "./feeding.ts";
import { lastFed } from "./feeds.ts";
import type { Logbook } from "./logbook.ts";

/** A tank that is without food for longer than is usual for it. */
export interface Unfed {
  readonly tank: Tank;
  readonly last: Meal;
  /** Whole days since the day it was fed last. */
  readonly days: number;
  /** The longest time between two days of feeding before, in days. */
  readonly usualDays: number;
}

const lookBackDays = 90;
/** Of fewer days of feeding nobody can say what is usual; and what is two days old is not long. Choices of this tool. */
const leastFedDays = 6;
const leastDays = 3;

/** Undefined where it is not, or a day without food was written of late. Looks further back only where the last days say nothing. */
export function unfedOn(logbook: Logbook, tank: Tank, day: number): Unfed | undefined {
  const last = lastFed(logbook, tank, { time: day + 1 }, lookBackDays);
  if (last === undefined) return undefined;
  const days = day - Math.floor(last.time);
  if (days < leastDays || fastsOf(logbook, tank, day - 1, day).length > 0) return undefined;
  const meals = mealsOf(logbook, tank, day - lookBackDays, day);
  const fedDays = [...new Set(meals.map((meal) => meal.day))];
  const latest = meals.at(-1);
  if (latest === undefined || fedDays.length < leastFedDays) return undefined;
  const usualDays = Math.max(...fedDays.slice(1).map((each, at) => each - fedDays[at]!));
  return days > usualDays ? { tank, last: latest, days, usualDays } : undefined;
}
