import { Kind } from "../book/entries/registry.ts";
import { wordOf } from "../book/interner.ts";
import type { Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { compareRates, type Rate, type RateRatio } from "../science/rates.ts";
import { isOutside } from "../science/result.ts";
import { animalDays, type Course, courses } from "./course.ts";
import { keptOfAnimals } from "./kept.ts";
import type { Ledger } from "./ledger.ts";
import { type Movement, movements } from "./movement.ts";
import { type Why, whyEntry } from "./why.ts";

/**
 * A run of losses: more in two weeks than the three months before let expect.
 *
 * On each day with a death those of the last 14 days are held against those of the 90 days before, per animal-day, by the conditional test of
 * two Poisson rates, one-sided. Looking again every day finds something by chance sooner or later: p must therefore be below 0.0005, not 0.05.
 * With deaths that come by chance alone, at an even rate, looked at on every day of a year, that raises an alarm in at most 4 of 100 years for
 * a rate of two a week, and in fewer than 1 of 100 for one a month (simulated: tests/room/losses.test.ts). Where deaths come in bunches
 * without a cause the share is higher, and of many tanks each has its own.
 */
export const runTest = { windowDays: 14, beforeDays: 90, p: 0.0005 } as const;

export interface LossRun {
  readonly tank: Tank;
  readonly species: string;
  /** The loss at which it shows: the last of its day. */
  readonly at: Movement;
  readonly now: Rate;
  readonly before: Rate;
  readonly compared: RateRatio;
  readonly why: Why;
}

/** Whether so many are a run; undefined where there is nothing to hold them against. */
export function comparedRun(now: Rate, before: Rate): RateRatio | undefined {
  const compared = compareRates(now, before);
  return isOutside(compared) || now.count < 2 ? undefined : compared;
}

export const isRun = (compared: RateRatio | undefined): compared is RateRatio =>
  compared !== undefined && compared.asMany < runTest.p;

/** The runs of losses in a water, each at the loss by which it shows; it is told again only after it was over. */
export function lossRuns(ledger: Ledger): readonly LossRun[] {
  return keptOfAnimals(ledger, "loss runs", () =>
    courses(ledger).flatMap((course) => runsOf(ledger, course)),
  );
}

function runsOf(ledger: Ledger, course: Course): LossRun[] {
  const losses = movements(
    ledger,
    course,
    Number.NEGATIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Kind.lose,
  ).filter(isDeath);
  const runs: LossRun[] = [];
  const { windowDays, beforeDays } = runTest;
  let isRunning = false;
  for (const [index, at] of losses.entries()) {
    const end = Math.floor(at.time) + 1;
    const next = losses[index + 1];
    if (next !== undefined && next.time < end) continue;
    const [from, first] = [end - windowDays, end - windowDays - beforeDays];
    const lost = within(losses, index, from, end);
    const earlier = within(losses, index, first, from);
    const now = { count: sumOf(lost), exposure: animalDays(course, from, end) };
    const before = { count: sumOf(earlier), exposure: animalDays(course, first, from) };
    const compared = comparedRun(now, before);
    const isNow = isRun(compared);
    if (isNow && !isRunning)
      runs.push({
        tank: at.tank,
        species: wordOf(course.holding.species),
        at,
        now,
        before,
        compared,
        get why() {
          return whyRun(at, now, before, compared, lost, earlier);
        },
      });
    isRunning = isNow;
  }
  return runs;
}

/** Deaths: not those that the keeper culled, nor what is missing, as that is a count put right and no proof of a death. */
export const isDeath = ({ is, how, animals }: Movement): boolean =>
  is === "lose" && how !== "culled" && how !== "missing" && animals > 0;

/** Those of some losses, up to one of them, within a stretch of time. */
function within(losses: readonly Movement[], last: number, from: number, to: number): Movement[] {
  const found: Movement[] = [];
  for (let at = last; at >= 0 && losses[at]!.time >= from; at--)
    if (losses[at]!.time < to) found.unshift(losses[at]!);
  return found;
}

const sumOf = (losses: readonly Movement[]): number => losses.reduce((sum, { animals }) => sum + animals, 0);

/** So many per 1000 animal-days. */
export const perThousand = ({ count, exposure }: Rate): number => (1000 * count) / exposure;

function whyRun(
  { species, tank }: Movement,
  now: Rate,
  before: Rate,
  { asMany }: RateRatio,
  lost: readonly Movement[],
  earlier: readonly Movement[],
): Why {
  const rate = (what: string, of: Rate, from: readonly Movement[]): Why => ({
    what,
    value: `${of.count} in ${formatNumber(of.exposure)} animal-days`,
    formula: "deaths: no culls, none that are missing; animals x days they were there",
    from: from.map(whyEntry),
  });
  const { windowDays, beforeDays, p } = runTest;
  return {
    what: `losses of ${species} in ${tank.name}`,
    value: `p = ${formatNumber(asMany, 2)}`,
    formula:
      "given all losses, those of the later days are binomial with their share of the animal-days; p is the chance of as many or more. " +
      `Looked at on every day with a loss, so p must be below ${p}`,
    source: "Przyborowski & Wilenski 1940, Biometrika 31:313-323",
    from: [rate(`last ${windowDays} days`, now, lost), rate(`${beforeDays} days before`, before, earlier)],
  };
}
