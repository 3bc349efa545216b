import type { Tank } from "../../book/stations.ts";
import type { Logbook } from "../../room/logbook.ts";
import { isFoodOf, needsOn } from "../../room/needs.ts";
import { pantryItem } from "../../room/pantry.ts";
import type { Aim } from "../recent.ts";

/** Foods that the tanks aimed at are short of on a day, to be offered before all others. */

export interface MissingFood {
  readonly name: string;
  /** `frozen 1 of 3 in 7 days`. */
  readonly detail: string;
}

/**
 * What is most overdue first; of a kind the foods in the order in which they are fed, what is gone by the log last.
 * @param fedLately names, the most frequent first
 */
export function missingFoods(
  logbook: Logbook,
  { stations }: Aim,
  day: number,
  fedLately: readonly string[],
): MissingFood[] {
  const needs = stations
    .filter((station) => station.kind === "tank")
    .flatMap((tank) => needsOn(logbook, tank as Tank, day))
    .filter(({ is }) => is === "late" || is === "due")
    .sort((a, b) => Number(b.is === "late") - Number(a.is === "late"));
  if (needs.length === 0) return [];
  const { foods } = logbook.book;
  const rank = (name: string): number => {
    const at = fedLately.indexOf(name);
    return at < 0 ? fedLately.length : at;
  };
  const isGone = (name: string): boolean => pantryItem(logbook, name, day).onHand <= 0;
  const missing = new Map<string, MissingFood>();
  for (const { form, times } of needs) {
    const detail = `${form.food} ${times} of ${form.times} in ${form.periodDays} days`;
    const fitting = [...foods.values()]
      .filter(({ name, kind }) => isFoodOf(form, { food: name, kindOfFood: kind }))
      .map(({ name }) => ({ name, isGone: isGone(name) }))
      .sort((a, b) => Number(a.isGone) - Number(b.isGone) || rank(a.name) - rank(b.name));
    for (const { name, isGone: none } of fitting)
      if (!missing.has(name))
        missing.set(name, { name, detail: none ? `${detail}, none left by the log` : detail });
  }
  return [...missing.values()];
}
