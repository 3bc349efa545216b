import { isoOf, spokenDay } from "../book/dates.ts";
import { type Parameter, parameters } from "../book/parameters.ts";
import type { Tank } from "../book/stations.ts";
import type { Ledger } from "../room/ledger.ts";
import { type WaterTrend, waterTrend } from "../room/water.ts";
import { type Why, whyEntry, whyStated } from "../room/why.ts";
import { isOutside } from "../science/result.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";
import { limitText, percent, readingText } from "./words.ts";

/** Where water heads: a limit that will be met although the water is changed as stated. */

export const trendPages = [
  page({
    code: "trend/crosses",
    severity: "information",
    since: "0.1",
    title: "Heading for a limit",
    says: "From the tests of the last weeks, with all changes taken out, so much is produced a day that the limit will be met on the day given, although water is changed as stated. It stands at the last reading.",
    whatToDo: "Feed less, change more or more often; the finding says what change would hold it.",
    raises: `tank dam
  volume 100 L
  limits nitrate <= 50 mg/L
  every 7 d change 10 %
2026-02-01
  dam test nitrate 15.0
  dam change 10 %
2026-02-08
  dam test nitrate 20.5
  dam change 10 %
2026-02-15
  dam test nitrate 25.4
  dam change 10 %
2026-02-22
  dam test nitrate 29.9
  dam change 10 %
2026-03-01
  dam test nitrate 33.9
  dam change 10 %
2026-03-08
  dam test nitrate 37.5
  dam change 10 %
2026-03-15
  dam test nitrate 40.8
#                  ^^^^ trend/crosses
  dam change 10 %`,
    fine: `tank dam
  volume 100 L
  limits nitrate <= 50 mg/L
  every 7 d change 50 %
2026-02-01
  dam test nitrate 20
  dam change 50 %
2026-02-08
  dam test nitrate 17
  dam change 50 %
2026-02-15
  dam test nitrate 15.5
  dam change 50 %
2026-02-22
  dam test nitrate 14.75
  dam change 50 %
2026-03-01
  dam test nitrate 14.38
  dam change 50 %
2026-03-08
  dam test nitrate 14.19
  dam change 50 %
2026-03-15
  dam test nitrate 14.09
  dam change 50 %`,
    source:
      "Production: Theil-Sen (Theil 1950; Sen 1968) on pairs of readings with the exchanges between taken out; censored readings after Akritas, Murphy & LaValley 1995.",
  }),
] as const;

/** So far ahead a crossing is worth saying. */
const horizonDays = 60;

/** Crossings ahead, one a parameter and tank. */
export function trendFindings(ledger: Ledger, day: number): RowFinding[] {
  const findings: RowFinding[] = [];
  const tanks = ledger.body?.tanks ?? [];
  for (const parameter of parameters) {
    if (ledger.readings[parameter.id] === undefined) continue;
    // Water that is shared crosses once: the first of the limits of its tanks.
    const found = differentlyLimited(tanks, parameter)
      .map((tank) => ({ tank, trend: waterTrend(ledger, parameter, tank, day) }))
      .flatMap(({ tank, trend }) => (trend === undefined ? [] : [{ tank, trend }]))
      .sort((a, b) => daysTo(a.trend) - daysTo(b.trend))
      .map(({ tank, trend }) => crossing(ledger, trend, tank.name, day))
      .find((each) => each !== undefined);
    if (found !== undefined) findings.push(found);
  }
  return findings;
}

/** The first of the tanks with each limit of a parameter. */
function differentlyLimited(tanks: readonly Tank[], { id }: Parameter): Tank[] {
  const seen = new Map<string, Tank>();
  for (const tank of tanks) {
    const limit = tank.limits.get(id);
    const key = limit === undefined ? "" : `${limit.low} ${limit.high}`;
    if (limit !== undefined && !seen.has(key)) seen.set(key, tank);
  }
  return [...seen.values()];
}

const daysTo = (trend: WaterTrend): number => trend.forecast?.days ?? Number.POSITIVE_INFINITY;

/** Whether water is heading for its limit so that it is worth saying: it will be met before long, at a rate that is one. */
export function isHeadingForLimit({ forecast, limit, production }: WaterTrend): boolean {
  if (forecast === undefined || limit === undefined || isOutside(production)) return false;
  if (!(forecast.days > 0 && forecast.days <= horizonDays)) return false;
  // A rate that may as well be none is no trend.
  return !isOutside(production.interval) && !(production.interval.low <= 0 && production.interval.high >= 0);
}

function crossing(ledger: Ledger, trend: WaterTrend, tankName: string, day: number): RowFinding | undefined {
  const { forecast, limit, parameter, duty, holding } = trend;
  if (forecast === undefined || limit === undefined || !isHeadingForLimit(trend)) return undefined;
  const series = ledger.readings[parameter.id]!;
  const last = series.from(day + 1) - 1;
  const { book } = ledger;
  const on = (days: number): string =>
    Number.isFinite(days) ? spokenDay(day + Math.ceil(days), day) : "never";
  const earliest = on(forecast.earliestDays);
  const latest = on(forecast.latestDays);
  const span = earliest === latest ? "" : ` (${earliest} to ${latest})`;
  const changed =
    duty === undefined
      ? "no change is stated"
      : `although ${percent(duty.fraction)} is changed every ${duty.everyDays} days`;
  const hold =
    holding === undefined || isOutside(holding) || holding <= (duty?.fraction ?? 0)
      ? ""
      : `; ${percent(holding)} each time would hold it`;
  return {
    code: "trend/crosses",
    severity: () => (forecast.days <= (duty?.everyDays ?? 7) ? "warning" : "information"),
    block: series.block[last]!,
    row: series.row[last]!,
    slots: ["reading"],
    message: () =>
      `${parameter.name} in ${tankName} meets its limit (${limitText(book, limit)}) about ${on(forecast.days)}${span}, ${changed}${hold}`,
    related: () => [{ place: limit.place, message: `limit stated in ${limit.by}` }],
    ...(ledger.body?.system === undefined ? {} : { about: ledger.body.system }),
    why: () => whyTrend(ledger, trend, day),
  };
}

/** Why water is where it is and heads where it heads. */
export function whyTrend(ledger: Ledger, trend: WaterTrend, day: number): Why {
  const { parameter, production, level, duty, limit, forecast, holding, steady } = trend;
  const { book } = ledger;
  const text = (value: number): string => readingText(book, parameter, value);
  const series = ledger.readings[parameter.id]!;
  const end = series.from(day + 1);
  const readings: Why[] = [];
  for (let at = Math.max(0, end - trend.readings.length); at < end; at++)
    readings.push(whyEntry({ block: series.block[at]!, row: series.row[at]! }));
  const from: Why[] = [];
  if (isOutside(production)) {
    from.push({ what: "production per day", value: production.outside, from: readings });
  } else {
    const { interval } = production;
    from.push({
      what: "production per day",
      value: isOutside(interval)
        ? `${text(production.rateMgLDay)} (${interval.outside})`
        : `${text(production.rateMgLDay)} (${text(interval.low)} to ${text(interval.high)}, ${percent(production.confidence)})`,
      formula:
        "median over pairs of readings of (y2 - a y1 - d) / b, where a is what is left of the old water, d what the source brought, b the days that count",
      source:
        "Theil 1950; Sen 1968, J. Am. Stat. Assoc. 63:1379; censored readings: Akritas, Murphy & LaValley 1995, J. Am. Stat. Assoc. 90:170",
      from: readings,
    });
    from.push({
      what: "changes taken out",
      value: String(trend.exchanges.filter((each) => each.fraction > 0).length),
      formula: "C(1 - f) + Cs f",
      from: [],
    });
  }
  if (duty !== undefined)
    from.push({
      what: "changed as a duty",
      value: `${percent(duty.fraction)} every ${duty.everyDays} d, source ${text(duty.sourceMgL)}`,
      from: [whyStated(duty.duty.place)],
    });
  if (steady !== undefined && !isOutside(steady))
    from.push({
      what: "steady state before a change",
      value: text(steady),
      formula: "Cs + g d / f",
      from: [],
    });
  if (holding !== undefined)
    from.push({
      what: "change that holds the limit",
      value: isOutside(holding) ? holding.outside : percent(holding),
      formula: "f = g d / (limit - Cs)",
      from: [],
    });
  if (limit !== undefined) from.push(whyStated(limit.place));
  if (forecast !== undefined && Number.isFinite(forecast.days))
    from.push({ what: "meets the limit", value: isoOf(day + Math.ceil(forecast.days)), from: [] });
  return {
    what: `${parameter.name} today`,
    value:
      level === undefined ? "not known" : `${text(level.best)} (${text(level.low)} to ${text(level.high)})`,
    from,
  };
}
