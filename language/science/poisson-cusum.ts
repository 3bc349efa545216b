/**
 * A cumulative sum of counts that come by chance at a steady rate: Lucas 1985, Counted data CUSUM's, Technometrics 27:129-144. Each day
 * S = max(0, S + count - k), an alarm at S >= h. Run lengths by the Markov chain of Brook & Evans 1972, Biometrika 59:539-549: exact, as k
 * and h are whole numbers of steps, so that the sum only ever takes so many values.
 */
import { notCounted, notPositive } from "./given.ts";
import { type Figure, isOutside, type Outside, outside } from "./result.ts";

/** k and h in steps of which so many are one count. */
export interface CusumChart {
  readonly k: number;
  readonly h: number;
  readonly stepsPerCount: number;
}

export interface CusumDesign {
  readonly chart: CusumChart;
  /** The reference value and the threshold in counts. */
  readonly k: number;
  readonly h: number;
  /** Periods to a false alarm, and to an alarm once the mean is the one to detect; both from a sum of 0. */
  readonly inControl: number;
  readonly outOfControl: number;
}

/** More values of the sum than this are not reckoned with: a second of work. */
const mostStates = 2000;

/** The sum after one more period. Unchecked. @param reference k of the period, in counts */
export function nextSum(sum: number, count: number, reference: number): number {
  return Math.max(0, sum + count - reference);
}

/**
 * The reference value that tells two means apart best: (l1 - l0) / (ln l1 - ln l0), by the ratio of their likelihoods (Lucas 1985). It lies
 * between the two.
 */
export function cusumReference(usualMean: number, meanToDetect: number): Figure {
  const refused = notPositive("usual mean", usualMean) ?? notPositive("mean to detect", meanToDetect);
  if (refused !== undefined) return refused;
  if (!(meanToDetect > usualMean)) return outside("the mean to detect is not above the usual one");
  return (meanToDetect - usualMean) / Math.log(meanToDetect / usualMean);
}

/**
 * The mean number of periods to an alarm.
 * @param startSteps where the sum begins, in steps of the chart; 0 is as after an alarm
 */
export function averageRunLength(mean: number, chart: CusumChart, startSteps = 0): Figure {
  const { k, h, stepsPerCount } = chart;
  const refused =
    notPositive("mean", mean) ??
    notCounted("k", k) ??
    notCounted("h", h) ??
    notCounted("steps", stepsPerCount) ??
    notCounted("start", startSteps);
  if (refused !== undefined) return refused;
  if (k === 0 || h === 0 || stepsPerCount === 0) return outside("k, h and the steps are 1 at least");
  if (startSteps >= h) return outside("the sum begins at its threshold");
  if (h > mostStates) return outside(`the threshold is more than ${mostStates} steps`);
  const runLength = runLengths(mean, chart)[startSteps]!;
  // So long that the chain cannot be told from one that never ends.
  return runLength > 0 && runLength < 1e12 ? runLength : outside("an alarm is too rare to be reckoned");
}

/**
 * Run lengths from each value of the sum: L = 1 + Q L. A step down is k at most, so that elimination meets but k rows at a time; it needs no
 * exchange of rows, as no row of Q sums to more than 1.
 */
function runLengths(mean: number, { k, h, stepsPerCount }: CusumChart): Float64Array {
  const chances = poissonChances(mean, Math.floor((h + k) / stepsPerCount));
  const matrix = new Float64Array(h * h);
  const found = new Float64Array(h).fill(1);
  for (let from = 0; from < h; from++) {
    const row = from * h;
    matrix[row + from] = 1;
    for (let count = 0; count < chances.length; count++) {
      const to = Math.max(0, from + count * stepsPerCount - k);
      if (to >= h) break;
      matrix[row + to]! -= chances[count]!;
    }
  }
  for (let at = 0; at < h; at++) {
    const own = at * h;
    for (let below = at + 1; below <= Math.min(h - 1, at + k); below++) {
      const row = below * h;
      const factor = matrix[row + at]! / matrix[own + at]!;
      if (factor === 0) continue;
      for (let column = at + 1; column < h; column++) matrix[row + column]! -= factor * matrix[own + column]!;
      found[below]! -= factor * found[at]!;
    }
  }
  for (let at = h - 1; at >= 0; at--) {
    const row = at * h;
    let sum = found[at]!;
    for (let column = at + 1; column < h; column++) sum -= matrix[row + column]! * found[column]!;
    found[at] = sum / matrix[row + at]!;
  }
  return found;
}

/** The chances of 0, 1, 2 ... counts, up to so many. */
function poissonChances(mean: number, most: number): number[] {
  const chances: number[] = [];
  let log = -mean;
  for (let count = 0; count <= most; count++) {
    chances.push(Math.exp(log));
    log += Math.log(mean / (count + 1));
  }
  return chances;
}

/**
 * The chart with the least threshold by which a false alarm comes no oftener than wanted. k is brought to the nearest of its steps, which
 * are fine enough for it to be right within 2 %; run lengths are of the chart as it is then.
 * @param ratio of the mean to detect to the usual one
 * @param wantedPeriods mean number of periods to a false alarm, at least
 */
export function cusumDesign(usualMean: number, ratio: number, wantedPeriods: number): CusumDesign | Outside {
  const exact = cusumReference(usualMean, usualMean * ratio);
  if (isOutside(exact)) return exact;
  if (!(wantedPeriods >= 1 && wantedPeriods < 1e9))
    return outside(`a run of ${wantedPeriods} is not within 1 and 1e9`);
  const { k, stepsPerCount } = nearSteps(exact);
  const chartOf = (h: number): CusumChart => ({ k, h, stepsPerCount });
  const lengthOf = (h: number): Figure => averageRunLength(usualMean, chartOf(h));
  let [low, high] = [0, Math.max(1, stepsPerCount)];
  for (;;) {
    const length = lengthOf(high);
    if (isOutside(length)) return length;
    if (length >= wantedPeriods) break;
    [low, high] = [high, high * 2];
  }
  // The run grows with the threshold.
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    const length = lengthOf(middle);
    if (isOutside(length)) return length;
    if (length >= wantedPeriods) high = middle;
    else low = middle;
  }
  const chart = chartOf(high);
  const inControl = lengthOf(high);
  const outOfControl = averageRunLength(usualMean * ratio, chart);
  if (isOutside(inControl)) return inControl;
  if (isOutside(outOfControl)) return outOfControl;
  return { chart, k: k / stepsPerCount, h: high / stepsPerCount, inControl, outOfControl };
}

/** Steps in which k is nearly whole: few, as each value of the sum costs work, and two to a k at least. */
function nearSteps(k: number): { k: number; stepsPerCount: number } {
  const least = k > 5 ? 2 : Math.max(8, Math.ceil(2 / k));
  let best = { k: Math.round(k * least), stepsPerCount: least };
  const miss = (of: typeof best): number => Math.abs(of.k / of.stepsPerCount - k);
  for (let steps = least + 1; steps <= 2 * least || miss(best) > 0.02 * k; steps++) {
    const tried = { k: Math.round(k * steps), stepsPerCount: steps };
    if (miss(tried) < miss(best) - 1e-12) best = tried;
  }
  return best;
}
