import { isoOf, spokenDay } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import { isOutside } from "../science/result.ts";
import { type Baseline, daysToAlarm, meanAnimals, rateLimits, rateOf, roomTest } from "./loss-baseline.ts";
import { type RoomAlarm, type RoomChart, seenOn } from "./room-losses.ts";
import { type Why, whyEntry } from "./why.ts";

/** What an alarm of the room follows from. */

export function whyAlarm(chart: RoomChart, alarm: RoomAlarm): Why {
  const { day, from, deaths, expected, sum, k, h, baseline } = alarm;
  return {
    what: `losses of the room, ${isoOf(day)}`,
    value: `S = ${formatNumber(sum)}, alarm at ${formatNumber(h)}`,
    formula:
      "S = max(0, S of the day before + deaths of the day - k), from 0 after an alarm; k = expected deaths of the day x (ratio - 1) / ln ratio, " +
      `brought to a step of the chart: ${formatNumber(k)} that day; ratio to find ${roomTest.ratio}; h: the least by which a false alarm comes in ${roomTest.runDays} days at most once in the mean`,
    source: "Lucas 1985, Technometrics 27:129-144",
    from: [
      {
        what: `since S is above 0, ${isoOf(from)}`,
        value: `${countOf(deaths)} deaths, ${formatNumber(expected)} expected`,
        formula: "deaths: no culls, none that are missing; expected: usual rate x animals of each day",
        from: deaths.map(whyEntry),
      },
      whyBaseline(chart, baseline),
      whyRun(baseline),
    ],
  };
}

const countOf = (deaths: readonly { readonly animals: number }[]): string =>
  formatNumber(deaths.reduce((sum, { animals }) => sum + animals, 0));

/** The usual rate, with the deaths that it rests on. */
export function whyBaseline(chart: RoomChart, baseline: Baseline): Why {
  const { from, to, days, deaths, animalDays } = baseline;
  return {
    what: "usual deaths",
    value: rateText(baseline),
    formula: `deaths / animal-days of the ${roomTest.referenceDays} days that end ${roomTest.gapDays} days before, without those of outbreaks: ${formatNumber(deaths)} in ${formatNumber(animalDays)} on ${days} days, ${spokenDay(from)} to ${spokenDay(to)}; interval: exact, of a Poisson count`,
    source: "Garwood 1936, Biometrika 28:437-442",
    from: chart.daily.deaths
      .filter(({ time }) => time >= from && time < to + 1 && !chart.isOut(Math.floor(time), seenOn(baseline)))
      .map(whyEntry),
  };
}

/** `0.21 (95 %: 0.12 to 0.33) per 1000 animal-days`. */
export function rateText(baseline: Baseline): string {
  const limits = rateLimits(baseline);
  const shown = (rate: number): string => formatNumber(1000 * rate, 2);
  const interval = isOutside(limits) ? "" : ` (95 %: ${shown(limits.low)} to ${shown(limits.high)})`;
  return `${shown(rateOf(baseline))}${interval} per 1000 animal-days`;
}

function whyRun(baseline: Baseline): Why {
  return {
    what: "false alarms",
    value: falseAlarmText(baseline),
    formula: `mean run length of the chart from 0, deaths by chance alone at the usual rate, at ${formatNumber(meanAnimals(baseline))} animals, the mean of the reference: exact, by a Markov chain`,
    source: "Brook & Evans 1972, Biometrika 59:539-549",
    from: [],
  };
}

/** `by chance one alarm in 1040 days; in 260 were the usual rate at the upper end of its interval`. */
export function falseAlarmText(baseline: Baseline): string {
  const limits = rateLimits(baseline);
  const usual = daysToAlarm(baseline, 1);
  if (isOutside(limits) || isOutside(usual)) return "";
  const most = daysToAlarm(baseline, limits.high / rateOf(baseline));
  const least = isOutside(most)
    ? ""
    : `; in ${formatNumber(most, 2)} were the usual rate at the upper end of its interval`;
  return `by chance one alarm in ${formatNumber(usual, 2)} days${least}`;
}
