import { nextSum } from "../science/poisson-cusum.ts";
import { type DailyDeaths, dailyDeaths } from "./daily-deaths.ts";
import { keptOfFound } from "./kept-of-found.ts";
import type { Logbook } from "./logbook.ts";
import { type Baseline, meanAnimals, rateOf, roomTest, schemeOf } from "./loss-baseline.ts";
import type { Movement } from "./movement.ts";

/**
 * The deaths of the whole room as a cumulative sum. Expected of a day is the usual rate times the animals of that day, and so is k; the run
 * lengths are those at the mean number of animals.
 */

/** One day of the chart. The figures are NaN on a day of whose reference too little is known: the sum rests at 0. */
export interface ChartDay {
  readonly day: number;
  readonly died: number;
  readonly animalDays: number;
  readonly expected: number;
  readonly k: number;
  readonly h: number;
  readonly sum: number;
  readonly isAlarm: boolean;
}

export interface RoomAlarm {
  readonly day: number;
  /** The last death of the day. */
  readonly at: Movement;
  /** The day since which the sum is above 0. */
  readonly from: number;
  readonly deaths: readonly Movement[];
  readonly expected: number;
  readonly sum: number;
  readonly k: number;
  readonly h: number;
  readonly baseline: Baseline;
}

/** Alarms that follow one another. */
export interface Outbreak {
  readonly first: RoomAlarm;
  readonly alarms: readonly RoomAlarm[];
}

export interface RoomChart {
  readonly daily: DailyDeaths;
  readonly outbreaks: readonly Outbreak[];
  /** A day of it; undefined before the first animal. */
  dayAt(day: number): ChartDay | undefined;
  /** The reference of a day, however little is in it. */
  baselineAt(day: number): Baseline;
  /** Whether a day is of an outbreak that was told before another day, and so not in the reference of that. */
  isOut(day: number, before: number): boolean;
}

/** The chart of the room up to the end of a day. */
export function roomChart(logbook: Logbook, until: number): RoomChart {
  const daily = dailyDeaths(logbook, until);
  return keptOfFound(logbook, `room chart ${until}`, [daily], () => ({
    value: new Chart(daily),
    blocks: [],
  }));
}

/** The day of which it is the reference. */
export const seenOn = ({ to }: Baseline): number => to + roomTest.gapDays + 1;

/**
 * How much wider the deaths of the days of the reference are spread than chance alone would: sum of (died - expected)^2 / expected over its
 * days less one (the index of dispersion, Fisher 1925, recalled). About 1 where they come one by one; NaN where nothing is expected.
 */
export function spreadOf(chart: RoomChart, baseline: Baseline): number {
  const { first, animalDays, died } = chart.daily;
  const rate = rateOf(baseline);
  let sum = 0;
  for (let day = Math.max(first, baseline.from); day <= baseline.to; day++) {
    const expected = rate * animalDays[day - first]!;
    if (expected > 0 && !chart.isOut(day, seenOn(baseline)))
      sum += (died[day - first]! - expected) ** 2 / expected;
  }
  return baseline.deaths > 0 ? sum / (baseline.days - 1) : Number.NaN;
}

/** Adds up the days of the reference as it moves along; a day is in it once, and may be taken out again. */
class Reference {
  private readonly daily: DailyDeaths;
  private readonly isIn: Uint8Array;
  /** The place of the day that told of it, from 1 on; 0 for none. */
  readonly outBy: Int32Array;
  days = 0;
  deaths = 0;
  animalDays = 0;

  constructor(daily: DailyDeaths) {
    this.daily = daily;
    this.isIn = new Uint8Array(daily.died.length);
    this.outBy = new Int32Array(daily.died.length);
  }

  /** Moves on to the reference of a day. @param at its index, one more than the last */
  moveTo(at: number): void {
    const { died, animalDays } = this.daily;
    const enters = at - roomTest.gapDays - 1;
    if (enters >= 0 && animalDays[enters]! > 0 && this.outBy[enters] === 0) {
      this.isIn[enters] = 1;
      this.days++;
      this.deaths += died[enters]!;
      this.animalDays += animalDays[enters]!;
    }
    this.take(enters - roomTest.referenceDays);
  }

  leaveOut(from: number, to: number): void {
    for (let at = from; at <= to; at++) {
      this.outBy[at] = to + 1;
      this.take(at);
    }
  }

  private take(at: number): void {
    if (at < 0 || this.isIn[at] !== 1) return;
    this.isIn[at] = 0;
    this.days--;
    this.deaths -= this.daily.died[at]!;
    this.animalDays -= this.daily.animalDays[at]!;
  }
}

/** The chart in columns, a day each: it is drawn anew after an edit, and objects would cost ten times as much. */
class Chart implements RoomChart {
  readonly daily: DailyDeaths;
  readonly outbreaks: { readonly first: RoomAlarm; readonly alarms: RoomAlarm[] }[] = [];
  private readonly reference: Reference;
  private readonly days: Float64Array;
  private readonly deaths: Float64Array;
  private readonly animalDays: Float64Array;
  private readonly k: Float64Array;
  private readonly h: Float64Array;
  private readonly sum: Float64Array;

  constructor(daily: DailyDeaths) {
    this.daily = daily;
    this.reference = new Reference(daily);
    const { length } = daily.died;
    const column = () => new Float64Array(length);
    [this.days, this.deaths, this.animalDays] = [column(), column(), column()];
    [this.k, this.h, this.sum] = [column().fill(Number.NaN), column().fill(Number.NaN), column()];
    let from = 0;
    let sum = 0;
    for (let at = 0; at < length; at++) {
      if (sum === 0) from = at;
      sum = this.add(at, sum);
      if (!this.isAlarm(at)) continue;
      this.tell(from, at);
      this.reference.leaveOut(from, at);
      sum = 0;
    }
  }

  /** The sum after one more day. */
  private add(at: number, sum: number): number {
    const { reference, daily } = this;
    reference.moveTo(at);
    this.days[at] = reference.days;
    this.deaths[at] = reference.deaths;
    this.animalDays[at] = reference.animalDays;
    const scheme = schemeOf(reference);
    if (scheme === undefined) return 0;
    this.k[at] = (scheme.k * daily.animalDays[at]!) / meanAnimals(reference);
    this.h[at] = scheme.h;
    this.sum[at] = nextSum(sum, daily.died[at]!, this.k[at]!);
    return this.sum[at]!;
  }

  /** The steps of h are fractions: a sum that reaches it must not miss it by its last bit. */
  private isAlarm(at: number): boolean {
    return this.daily.died[at]! > 0 && this.sum[at]! >= this.h[at]! - 1e-9;
  }

  private tell(from: number, to: number): void {
    const { first, deaths } = this.daily;
    const { day, sum, k, h } = this.chartDay(to);
    const since = deaths.filter(({ time }) => time >= first + from && time < day + 1);
    let expected = 0;
    for (let at = from; at <= to; at++) expected += this.chartDay(at).expected;
    const alarm: RoomAlarm = {
      day,
      at: since.at(-1)!,
      from: first + from,
      deaths: since,
      expected,
      sum,
      k,
      h,
      baseline: this.baselineAt(day),
    };
    const last = this.outbreaks.at(-1);
    if (last !== undefined && day - last.alarms.at(-1)!.day < roomTest.apartDays) last.alarms.push(alarm);
    else this.outbreaks.push({ first: alarm, alarms: [alarm] });
  }

  dayAt(day: number): ChartDay | undefined {
    const at = day - this.daily.first;
    return at >= 0 && at < this.days.length ? this.chartDay(at) : undefined;
  }

  private chartDay(at: number): ChartDay {
    const { first, died, animalDays } = this.daily;
    const [k, h] = [this.k[at]!, this.h[at]!];
    const rate = this.deaths[at]! / this.animalDays[at]!;
    return {
      day: first + at,
      died: died[at]!,
      animalDays: animalDays[at]!,
      expected: Number.isNaN(h) ? Number.NaN : rate * animalDays[at]!,
      k,
      h,
      sum: this.sum[at]!,
      isAlarm: this.isAlarm(at),
    };
  }

  baselineAt(day: number): Baseline {
    const at = day - this.daily.first;
    const to = day - roomTest.gapDays - 1;
    return {
      from: to - roomTest.referenceDays + 1,
      to,
      days: this.days[at] ?? 0,
      deaths: this.deaths[at] ?? 0,
      animalDays: this.animalDays[at] ?? 0,
    };
  }

  isOut(day: number, before: number): boolean {
    const by = this.reference.outBy[day - this.daily.first] ?? 0;
    return by > 0 && by - 1 < before - this.daily.first;
  }
}
