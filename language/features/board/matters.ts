import { spokenDay } from "../../book/dates.ts";
import { Kind } from "../../book/entries/registry.ts";
import { parameters } from "../../book/parameters.ts";
import type { Duty, Station, Tank } from "../../book/stations.ts";
import { days, limitText, readingSpan, readingText } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import type { DueDuty } from "../../room/due.ts";
import { waterTrend } from "../../room/water.ts";
import { medianOfSorted } from "../../science/median.ts";
import { isOutside } from "../../science/result.ts";
import type { View } from "../view.ts";
import type { Trouble } from "../water-troubles.ts";

/** Why it matters now that something is done: a few words, or none. */

/** So far ahead what happens without a change is worth saying. A choice of this tool. */
const aheadDays = 60;

/** Of a change: what is out of its limits, else what would be first without it. */
export function changeMatters(
  view: View,
  station: Station,
  troubles: readonly Trouble[],
  day: number,
): string {
  const { book, logbook } = view.checked;
  const own = troubles.filter(({ at, tank }) => at.body === station.body && tank.body === station.body);
  const out = own.filter(({ is }) => is !== "heading");
  if (out.length > 0)
    return out
      .map(
        ({ parameter, low, high, limit }) =>
          `${parameter.name} ${readingSpan(book, parameter, low, high)}, limit ${limitText(book, limit)}`,
      )
      .join("; ");
  const ledger = logbook.ledgerOf(station);
  const tanks = station.kind === "tank" ? [station as Tank] : (book.bodies[station.body]?.tanks ?? []);
  let first: { readonly text: string; readonly days: number } | undefined;
  for (const tank of tanks)
    for (const parameter of parameters) {
      if (!tank.limits.has(parameter.id) || ledger.readings[parameter.id] === undefined) continue;
      const trend = waterTrend(ledger, parameter, tank, day);
      if (trend?.unchanged === undefined || trend.limit === undefined || isOutside(trend.production))
        continue;
      const ahead = trend.unchanged.days;
      if (!(ahead > 0 && ahead <= aheadDays) || (first !== undefined && first.days <= ahead)) continue;
      const bound = trend.side === "floor" ? trend.limit.low : trend.limit.high;
      const when = spokenDay(Math.floor(day + ahead), day);
      first = {
        days: ahead,
        text: `without it ${parameter.name} meets ${readingText(book, parameter, bound)} about ${when}`,
      };
    }
  return first?.text ?? "";
}

/** Of a test: where the water stands by reckoning, and how wide that has become. */
export function testMatters(view: View, station: Station, names: readonly string[], day: number): string {
  const { book, logbook } = view.checked;
  const tank = station.kind === "tank" ? (station as Tank) : book.bodies[station.body]?.tanks[0];
  if (tank === undefined || station.body < 0) return "";
  const ledger = logbook.ledgerOf(station);
  const told = names.flatMap((name) => {
    const parameter = parameters.find((each) => each.name === name);
    const level = parameter === undefined ? undefined : waterTrend(ledger, parameter, tank, day)?.level;
    if (parameter === undefined || level === undefined || !Number.isFinite(level.low + level.high)) return [];
    return [`${name} ${readingSpan(book, parameter, Math.max(0, level.low), level.high)}`];
  });
  return told.length === 0 ? "" : `by reckoning now ${told.join(", ")}`;
}

/** So many times tell how often something is done. */
const lastTimes = 6;
/** It is done much less often than is stated from here on: a choice of this tool. */
const slower = 1.25;

/** Of what is owed every so many days: that it has become rarer than is stated. */
export function rhythmMatters({ checked }: View, duty: Duty, day: number): string {
  if (duty.form.when !== "every") return "";
  const done = checked.logbook.ledgerOf(duty.station).duties.done(duty);
  const end = done.from(day + 1);
  const found: number[] = [];
  for (let at = end - 1; at >= 0 && found.length < lastTimes; at--) {
    const on = Math.floor(done.time[at]!);
    if (found.at(-1) !== on) found.push(on);
  }
  const gaps = found
    .slice(1)
    .map((each, at) => found[at]! - each)
    .sort((a, b) => a - b);
  if (gaps.length < 3) return "";
  const median = medianOfSorted(gaps);
  if (!(median > duty.form.periodDays * slower)) return "";
  return `of late every ${formatNumber(median, 2)} days, stated ${days(duty.form.periodDays)}`;
}

/** Why it matters, of one duty. @param names of a test its parameters */
export function dutyMatters(
  view: View,
  { duty, station }: DueDuty,
  troubles: readonly Trouble[],
  day: number,
): string {
  if (duty.kind === Kind.change) {
    const water = changeMatters(view, station, troubles, day);
    if (water !== "") return water;
  }
  return rhythmMatters(view, duty, day);
}
