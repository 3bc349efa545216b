import { mean } from "simple-statistics";
import { ewma, ewmaLimits, individualsLimits, meanMovingRange } from "../../science/control-charts.ts";
import type { Limits } from "../../science/interval.ts";
import { isOutside, type Outside, outside } from "../../science/result.ts";
import { calculation, quantity, result, series } from "../calculation.ts";

/** d2 of a moving range of two. */
const D2 = 1.128;

export const controlChart = calculation({
  name: "control-chart",
  title: "A control chart of readings",
  group: "statistics",
  answers:
    "Which readings of a tank lie beyond what the tank usually does, one by one and as an average that remembers: the first finds a jump, the second a slow drift.",
  inputs: {
    values: series("the readings, in order", "", [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY], 1),
    baseline: quantity("as usual are the first so many", "", [2, 1e6], {
      isWhole: true,
      isSingle: true,
      optional: true,
    }),
    centre: quantity("usual value, if known", "", [-1e12, 1e12], { optional: true }),
    deviation: quantity("usual standard deviation, if known", "", [0, 1e12], {
      isAbove: true,
      optional: true,
    }),
    lambda: quantity("weight of the newest in the average", "", [0, 1], {
      isAbove: true,
      isSingle: true,
      otherwise: "0.2",
    }),
    k: quantity("width of the average's limits", "", [0, 10], {
      isAbove: true,
      otherwise: "3",
    }),
  },
  formula: [
    "single readings: mean ± 3 × MR / 1.128, MR the mean difference of neighbours, both of the baseline",
    "average: z = λ × reading + (1 - λ) × z before, from the mean on",
    "its limits: mean ± k s √(λ / (2 - λ) × (1 - (1 - λ)^2i)) after i readings, s = MR / 1.128",
  ],
  range:
    "readings on an even schedule that do not hang on one another, of a tank in its usual state through the baseline; ten readings are few for that (common practice, no source). Water that is changed weekly is read at the same time before each change",
  sources: [
    "single readings: NIST/SEMATECH e-Handbook of Statistical Methods (2012), 6.3.2.2",
    "average: Roberts 1959, Technometrics 1:239-250; NIST/SEMATECH e-Handbook (2012), 6.3.2.4",
  ],
  caution: "Within the limits means as usual, not well: a tank may be usually wrong.",
  examples: [
    {
      given: "values=49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1",
      gives: { centre: "50.81", range: "1.878", upper: "55.8", lower: "45.82", beyond: "none" },
      from: "NIST/SEMATECH e-Handbook 6.3.2.2: mean 50.81, moving range 1.8778, upper limit 55.8041 (recalled)",
    },
    {
      given:
        "values=52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1 centre=50 deviation=2.0539 lambda=0.3",
      gives: { average: "51.99", "settled-upper": "52.59", "settled-lower": "47.41", drift: "none" },
      from: "NIST/SEMATECH e-Handbook 6.3.2.4: the average ends at 51.99, limits 52.5884 and 47.4115, no point beyond them (recalled)",
    },
  ],
  compute({ values, baseline, centre, deviation, lambda, k }) {
    const usual = usualOf(values, baseline, centre, deviation);
    if (isOutside(usual)) return usual;
    const single = individualsLimits(usual.centre, usual.deviation, 1);
    const averages = ewma(values, lambda, usual.centre);
    const limits = (after: number) => ewmaLimits(usual.centre, usual.deviation, lambda, k, after);
    const [now, settled] = [limits(values.length), limits(Number.POSITIVE_INFINITY)];
    if (isOutside(single)) return single;
    if (isOutside(averages)) return averages;
    if (isOutside(now)) return now;
    if (isOutside(settled)) return settled;
    return [
      result("centre", "mean", "", usual.centre, 4),
      result("range", "mean difference of neighbours", "", usual.deviation * D2, 4),
      result("upper", "upper limit of a reading", "", single.high, 4),
      result("lower", "lower limit of a reading", "", single.low, 4),
      result(
        "beyond",
        "readings beyond them",
        "",
        beyond(values, values, () => single),
      ),
      result("average", "the average now", "", averages.at(-1)!, 4),
      result("average-upper", "its upper limit, now", "", now.high, 4),
      result("average-lower", "its lower limit, now", "", now.low, 4),
      result("settled-upper", "its upper limit in the long run", "", settled.high, 4),
      result("settled-lower", "its lower limit in the long run", "", settled.low, 4),
      result("drift", "readings at which it lay beyond", "", beyond(averages, values, limits)),
    ];
  },
});

interface Usual {
  readonly centre: number;
  readonly deviation: number;
}

/** What is stated, or what the first readings say. */
function usualOf(
  values: readonly number[],
  baseline = values.length,
  centre?: number,
  deviation?: number,
): Usual | Outside {
  if (centre !== undefined && deviation !== undefined) return { centre, deviation };
  if (centre !== undefined || deviation !== undefined)
    return outside("centre and deviation go together: only one of them is given");
  if (baseline > values.length)
    return outside(`baseline: the first ${baseline} are more than the ${values.length} readings there are`);
  const first = values.slice(0, baseline);
  const range = meanMovingRange(first);
  if (isOutside(range)) return range;
  if (range === 0)
    return outside(`the first ${baseline} readings are all the same: the steps of the test are too coarse`);
  return { centre: mean(first), deviation: range / D2 };
}

/** `number 9 (20.1), number 12 (20.4)`: which of a row lie beyond its limits, by the readings there. */
function beyond(
  row: readonly number[],
  readings: readonly number[],
  limits: (after: number) => Limits | Outside,
): string {
  const found = row.flatMap((value, at) => {
    const bounds = limits(at + 1);
    if (isOutside(bounds) || (value >= bounds.low && value <= bounds.high)) return [];
    return [`number ${at + 1} (${readings[at]})`];
  });
  return found.length === 0 ? "none" : found.join(", ");
}
