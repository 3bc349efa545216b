import { averageRunLength, cusumDesign } from "../science/poisson-cusum.ts";
import { poissonExact } from "../science/rates.ts";
import { type Figure, isOutside, outside } from "../science/result.ts";

/**
 * What the room usually loses, and the scheme by which more than that is told: a cumulative sum of the deaths of each day (Lucas 1985).
 *
 * The reference ends two weeks before the day, so that what begins slowly is not yet in it, and leaves out the days of outbreaks that were
 * told. From 5 deaths the interval of a rate is 1.6 to 11.7: of fewer nothing is said. Thrice the usual, and a false alarm in about three
 * years of looking every day, are choices of this tool. Alarms less than two weeks apart are one outbreak.
 */
export const roomTest = {
  referenceDays: 180,
  gapDays: 14,
  leastDays: 90,
  leastDeaths: 5,
  ratio: 3,
  runDays: 1000,
  apartDays: 14,
} as const;

/** What the room lost over the reference of a day. */
export interface Baseline {
  /** Whole days, both included: the reference as it is meant, whatever of it is left out. */
  readonly from: number;
  readonly to: number;
  /** Days of it with animals, outside of outbreaks. */
  readonly days: number;
  readonly deaths: number;
  readonly animalDays: number;
}

/** Of it, what figures hang on. */
export type Counts = Pick<Baseline, "days" | "deaths" | "animalDays">;

/** Deaths an animal-day. */
export const rateOf = ({ deaths, animalDays }: Counts): number => deaths / animalDays;

/** Animals of a day of the reference, in the mean. */
export const meanAnimals = ({ animalDays, days }: Counts): number => animalDays / days;

export const isEnough = ({ days, deaths }: Counts): boolean =>
  days >= roomTest.leastDays && deaths >= roomTest.leastDeaths;

export interface Scheme {
  /** k of a day with the mean number of animals, and h, in deaths. */
  readonly k: number;
  readonly h: number;
  readonly stepsPerCount: number;
}

const schemes = new Map<number, Scheme | undefined>();

/**
 * The scheme of a baseline; undefined where there is none. It is made for the next of a row of means 5 % apart, so that it need not be made
 * anew each day; as that is above the mean, a false alarm comes no oftener than wanted.
 */
export function schemeOf(baseline: Counts): Scheme | undefined {
  if (!isEnough(baseline)) return undefined;
  const at = Math.ceil(Math.log(rateOf(baseline) * meanAnimals(baseline)) / Math.log(1.05) - 1e-9);
  if (!schemes.has(at)) {
    const design = cusumDesign(1.05 ** at, roomTest.ratio, roomTest.runDays);
    schemes.set(
      at,
      isOutside(design) ? undefined : { k: design.k, h: design.h, stepsPerCount: design.chart.stepsPerCount },
    );
  }
  return schemes.get(at);
}

/** Days to an alarm, were the deaths so many times the rate of the baseline, at its mean number of animals. */
export function daysToAlarm(baseline: Counts, times: number): Figure {
  const scheme = schemeOf(baseline);
  if (scheme === undefined) return outside("too little is known of what the room usually loses");
  const { k, h, stepsPerCount } = scheme;
  const chart = { k: Math.round(k * stepsPerCount), h: Math.round(h * stepsPerCount), stepsPerCount };
  return averageRunLength(rateOf(baseline) * meanAnimals(baseline) * times, chart);
}

/** The exact 95 % interval of the rate of a baseline, deaths an animal-day. */
export const rateLimits = ({ deaths, animalDays }: Counts) => poissonExact(deaths, animalDays);
