import { isoOf, spokenDay } from "../book/dates.ts";
import { outbreakText } from "../checks/room-losses.ts";
import { days } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Logbook } from "../room/logbook.ts";
import {
  type Baseline,
  daysToAlarm,
  isEnough,
  meanAnimals,
  rateLimits,
  rateOf,
  roomTest,
  schemeOf,
} from "../room/loss-baseline.ts";
import { type Outbreak, type RoomChart, roomChart, spreadOf } from "../room/room-losses.ts";
import { falseAlarmText, rateText, whyAlarm, whyBaseline } from "../room/why-room-losses.ts";
import { isOutside } from "../science/result.ts";
import { known, rowLocation, whyCard } from "./card-parts.ts";
import type { WhyCard } from "./cards.ts";
import type { Location } from "./view.ts";

/** What the room loses, against what it usually loses. Plain JSON: null where a figure is not known. */
export interface RoomLossCard {
  readonly day: number;
  /** What is missing to tell what is usual; empty where nothing is. */
  readonly unknown: string;
  readonly baseline: BaselineCard;
  /** How more than that is told; null where it is not known what is usual. */
  readonly scheme: SchemeCard | null;
  /** The sum at the end of the day. */
  readonly sum: number | null;
  /** The days shown, up to the day, as far back as the reference goes; from the first animal on. */
  readonly chart: readonly ChartPoint[];
  /** Those told, the latest first. */
  readonly outbreaks: readonly OutbreakCard[];
  /** Deaths of animals that the book did not know of, all in all: they are in no figure. */
  readonly leftOut: number;
}

export interface BaselineCard {
  /** The reference; both days included. */
  readonly from: number;
  readonly to: number;
  /** With animals, outside of outbreaks. */
  readonly days: number;
  readonly deaths: number;
  readonly animalDays: number;
  /** Deaths in 1000 animal-days, with the exact interval (95 %). */
  readonly perThousand: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** Deaths of a day, at the mean number of animals. */
  readonly aDay: number | null;
  readonly animals: number | null;
  /** How much wider the deaths are spread than by chance, about 1 where they come one by one. */
  readonly spread: number | null;
  readonly text: string;
  readonly why: WhyCard;
}

export interface SchemeCard {
  readonly ratio: number;
  /** Of a day with the mean number of animals, and the threshold, in deaths. */
  readonly k: number;
  readonly h: number;
  /** Days to a false alarm in the mean; were the usual rate at the upper end of its interval; to an alarm at the rate to find. */
  readonly falseAlarmDays: number | null;
  readonly falseAlarmDaysAtHigh: number | null;
  readonly daysToFind: number | null;
  readonly text: string;
}

export interface ChartPoint {
  readonly day: number;
  readonly died: number;
  readonly animals: number;
  /** Null on a day of whose reference too little is known. */
  readonly expected: number | null;
  readonly k: number | null;
  readonly h: number | null;
  readonly sum: number | null;
  readonly isAlarm: boolean;
}

export interface OutbreakCard {
  /** The day since which the sum was above 0, that of the first alarm, that of the last. */
  readonly from: number;
  readonly told: number;
  readonly last: number;
  readonly alarms: number;
  /** From the first day to the last alarm. */
  readonly died: number;
  readonly expected: number;
  /** Less than two weeks since the last alarm. */
  readonly isOpen: boolean;
  readonly text: string;
  /** The death by which it showed. */
  readonly at: Location | null;
  readonly why: WhyCard;
}

/** As of the end of a day. */
export function roomLossCard(logbook: Logbook, day: number): RoomLossCard {
  const chart = roomChart(logbook, day);
  const baseline = chart.baselineAt(day);
  const scheme = schemeCard(baseline);
  const shown = Array.from({ length: roomTest.referenceDays }, (_, at) =>
    chart.dayAt(day - roomTest.referenceDays + 1 + at),
  ).filter((each) => each !== undefined);
  return {
    day,
    unknown: unknownText(baseline, day),
    baseline: baselineCard(chart, baseline),
    scheme,
    sum: scheme === null ? null : (chart.dayAt(day)?.sum ?? null),
    chart: shown.map(({ day: on, died, animalDays, expected, k, h, sum, isAlarm }) => ({
      day: on,
      died,
      animals: animalDays,
      expected: known(expected),
      k: known(k),
      h: known(h),
      sum: Number.isNaN(h) ? null : sum,
      isAlarm,
    })),
    outbreaks: chart.outbreaks.map((each) => outbreakCard(chart, each, day)).reverse(),
    leftOut: chart.daily.unknown,
  };
}

function baselineCard(chart: RoomChart, baseline: Baseline): BaselineCard {
  const { from, to, days: count, deaths, animalDays } = baseline;
  const limits = rateLimits(baseline);
  const [low, high] = isOutside(limits) ? [Number.NaN, Number.NaN] : [limits.low, limits.high];
  return {
    from,
    to,
    days: count,
    deaths,
    animalDays,
    perThousand: known(1000 * rateOf(baseline)),
    low: known(1000 * low),
    high: known(1000 * high),
    aDay: known(rateOf(baseline) * meanAnimals(baseline)),
    animals: known(meanAnimals(baseline)),
    spread: known(spreadOf(chart, baseline)),
    text: animalDays > 0 ? rateText(baseline) : "",
    why: whyCard(whyBaseline(chart, baseline)),
  };
}

/** `3 deaths of the 5, and 60 days of the 90, that it takes: 7 June to 5 December`. */
function unknownText(baseline: Baseline, day: number): string {
  const { from, to, days: count, deaths } = baseline;
  const { leastDays, leastDeaths } = roomTest;
  const missing = [
    ...(deaths < leastDeaths ? [`${formatNumber(deaths)} of the ${leastDeaths} deaths`] : []),
    ...(count < leastDays ? [`${count} of the ${leastDays} days with animals`] : []),
  ];
  const period = `${spokenDay(from, day)} to ${spokenDay(to, day)}, outbreaks left out`;
  if (missing.length > 0)
    return `Not enough yet to tell what the room usually loses: ${missing.join(" and ")} that it takes (${period}).`;
  return schemeOf(baseline) === undefined
    ? `So many die that each day tells by itself: there is no chart (${period}).`
    : "";
}

function schemeCard(baseline: Baseline): SchemeCard | null {
  const scheme = schemeOf(baseline);
  if (scheme === undefined || !isEnough(baseline)) return null;
  const limits = rateLimits(baseline);
  const figure = (times: number): number | null => {
    const found = daysToAlarm(baseline, times);
    return isOutside(found) ? null : found;
  };
  const toFind = figure(roomTest.ratio);
  return {
    ratio: roomTest.ratio,
    k: scheme.k,
    h: scheme.h,
    falseAlarmDays: figure(1),
    falseAlarmDaysAtHigh: isOutside(limits) ? null : figure(limits.high / rateOf(baseline)),
    daysToFind: toFind,
    text: [
      `Poisson CUSUM (Lucas 1985), k ${formatNumber(scheme.k, 2)} a day, alarm at h ${formatNumber(scheme.h)}`,
      falseAlarmText(baseline),
      ...(toFind === null
        ? []
        : [`${roomTest.ratio} times as many deaths are told after ${days(toFind)} in the mean`]),
    ].join("; "),
  };
}

function outbreakCard(chart: RoomChart, outbreak: Outbreak, day: number): OutbreakCard {
  const { first, alarms } = outbreak;
  const last = alarms.at(-1)!;
  let [died, expected] = [0, 0];
  for (let on = first.from; on <= last.day; on++) {
    const each = chart.dayAt(on)!;
    died += each.died;
    if (!Number.isNaN(each.expected)) expected += each.expected;
  }
  return {
    from: first.from,
    told: first.day,
    last: last.day,
    alarms: alarms.length,
    died,
    expected,
    isOpen: day - last.day < roomTest.apartDays,
    text: `told ${outbreakText(outbreak)}: ${formatNumber(died)} died since ${isoOf(first.from)}, ${formatNumber(expected, 2)} expected`,
    at: rowLocation(first.at.block, first.at.row),
    why: whyCard(whyAlarm(chart, first)),
  };
}
