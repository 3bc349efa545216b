import type { Development, Tank } from "../book/stations.ts";
import { degreeDays } from "../science/development.ts";
import { medianOfSorted } from "../science/median.ts";
import { isOutside } from "../science/result.ts";
import { type Brood, broodsUntil, homeOf } from "./broods.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Logbook } from "./logbook.ts";
import { areTestsAround, type DayWarmth, testsAround, warmthOn } from "./warmth.ts";

/** How eggs and young develop by the warmth of their own water: what it took, and when the next stage is to be expected. */

/** From laid to hatched; from hatched to swimming. */
export type Stage = "hatch" | "swim";

/** A stage that was reached. */
export interface Developed {
  readonly brood: Brood;
  readonly from: number;
  readonly to: number;
  /** NaN where the temperature of a day is not known. */
  readonly degreeDays: number;
  readonly meanC: number;
  /** The share of its days that tests tell of. */
  readonly tested: number;
}

/** A stage that is to come. */
export interface Expected {
  readonly stage: Stage;
  /** The room's own broods, what is stated of the species, or days alone where no temperature is known. */
  readonly by: "own broods" | "stated" | "days alone";
  /** Degree-days; NaN for days alone. */
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  /** The room's own broods that count, each with what it took. */
  readonly own: readonly Developed[];
  /** Own broods that are left out as theirs was another temperature. */
  readonly others: number;
  /** The chance that the next brood lies within the range of the own ones; NaN where they do not count. */
  readonly chance: number;
  readonly stated: Development | undefined;
  readonly baseC: number;
  /** The day it counts from; of a stage whose beginning is itself to come the earliest. */
  readonly from: number;
  /** Degree-days up to the day that is known. */
  readonly soFar: number;
  /** Days; NaN where it never comes to pass at such temperatures. */
  readonly earliest: number;
  readonly likely: number;
  readonly latest: number;
  /** The days that it rests on. */
  readonly warmth: readonly DayWarmth[];
}

/** So many broods of the room's own make a range worth more than what is stated. *Common practice, no source.* */
const leastOwn = 3;
/** Broods whose mean temperatures lie further apart are not told together. *Common practice, no source*; that they must not be, see `ddCaution`. */
export const pooledC = 2;
/** Nobody waits longer. */
const mostDays = 400;

export const ddCaution =
  "degree-days are a local guide: the sum shifts with temperature, so cold and warm broods are not told together (Crisp 1981, Freshw. Biol. 11:361-368, recalled)";
export const ddSource =
  "degree-days above a base: Weltzien, Planas & Fyhn 1999, J. Exp. Mar. Biol. Ecol. 242:201-210 (abstract)";

/** The days of a brood, each with its warmth, from one on and before another. */
function warmthOf(logbook: Logbook, brood: Brood, from: number, to: number, knownDay: number): DayWarmth[] {
  const days: DayWarmth[] = [];
  for (let day = from; day < to; day++) days.push(onDay(logbook, homeOf(brood, day), day, knownDay));
  return days;
}

const onDay = (logbook: Logbook, tank: Tank, day: number, knownDay: number): DayWarmth =>
  warmthOn(logbook.ledgerOf(tank), tank, day, knownDay);

function sumOf(days: readonly DayWarmth[], baseC: number): number {
  const sum = degreeDays(
    days.map(({ meanC }) => meanC),
    baseC,
  );
  return isOutside(sum) ? Number.NaN : sum;
}

export const baseOf = (logbook: Logbook, species: string): number =>
  logbook.bound.species.get(species)?.baseC ?? 0;

/** What a stage took that a brood has reached; undefined where it has not, or nobody knows when it began. */
export function developed(
  logbook: Logbook,
  brood: Brood,
  stage: Stage,
  knownDay: number,
): Developed | undefined {
  const { spawned, hatchedOn, swamOn } = brood.tally;
  const [from, to] = stage === "hatch" ? [spawned, hatchedOn] : [hatchedOn, swamOn];
  if (!(to >= from)) return undefined;
  const waters = [...new Set(brood.entries.map(({ tank }) => logbook.ledgerOf(tank)))];
  const known = keptDeveloped[stage].get(brood);
  if (
    known?.knownDay === knownDay &&
    waters.every((ledger, at) => areTestsAround(ledger, from, to, known.tests[at]))
  )
    return known.took;
  const tests = waters.map((ledger) => testsAround(ledger, from, to));
  const took = tookOf(logbook, brood, { from, to }, knownDay);
  keptDeveloped[stage].set(brood, { knownDay, tests, took });
  return took;
}

/** True for one day and the tests about its days; a brood is another where its entries or the definitions are. */
interface KeptDeveloped {
  readonly knownDay: number;
  readonly tests: readonly Float64Array[];
  readonly took: Developed;
}

const keptDeveloped: Readonly<Record<Stage, WeakMap<Brood, KeptDeveloped>>> = {
  hatch: new WeakMap(),
  swim: new WeakMap(),
};

function tookOf(
  logbook: Logbook,
  brood: Brood,
  { from, to }: Pick<Developed, "from" | "to">,
  knownDay: number,
): Developed {
  const days = warmthOf(logbook, brood, from, to, knownDay);
  const known = days.filter(({ meanC }) => !Number.isNaN(meanC));
  return {
    brood,
    from,
    to,
    degreeDays: sumOf(days, baseOf(logbook, brood.species)),
    meanC: known.reduce((sum, { meanC }) => sum + meanC, 0) / known.length,
    tested: days.length === 0 ? 0 : days.filter(({ by }) => by === "tests").length / days.length,
  };
}

/** What a stage took in every brood of a species that tells, most of its days tested. */
function developedBroods(
  logbook: Logbook,
  species: string,
  stage: Stage,
  knownDay: number,
): readonly Developed[] {
  return keptFor(logbook, `developed ${stage} ${species} ${knownDay}`, () =>
    broodsUntil(logbook, knownDay)
      .filter((brood) => brood.species === species && brood.among === 0)
      .flatMap((brood) => developed(logbook, brood, stage, knownDay) ?? [])
      .filter(({ degreeDays: sum, tested }) => sum > 0 && tested >= 0.5),
  );
}

/** The low end of what is expected of a stage is never above this, whatever the temperature: what is stated, or the most that an own brood took. */
export function mostAtLeast(logbook: Logbook, species: string, stage: Stage, knownDay: number): number {
  return keptFor(logbook, `most ${stage} ${species} ${knownDay}`, () => {
    const known = logbook.bound.species.get(species);
    const stated = stage === "hatch" ? known?.hatches : known?.swims;
    const statedLow = stated === undefined ? 0 : stated.lowDays * (stated.temperatureC - known!.baseC);
    return developedBroods(logbook, species, stage, knownDay).reduce(
      (most, each) => Math.max(most, each.degreeDays),
      statedLow,
    );
  });
}

/** The stage that a brood is to reach next, as `expected` tells it; undefined where nothing is to come, or nothing tells. */
export function nextExpected(logbook: Logbook, brood: Brood, knownDay: number): Expected | undefined {
  const { state } = brood.tally;
  const stage: Stage | undefined = state === "eggs" ? "hatch" : state === "hatched" ? "swim" : undefined;
  return stage === undefined || brood.among > 0 ? undefined : expected(logbook, brood, stage, knownDay);
}

/** When a brood is to be expected to reach a stage, by all that is known on a day; undefined where nothing tells. */
export function expected(
  logbook: Logbook,
  brood: Brood,
  stage: Stage,
  knownDay: number,
): Expected | undefined {
  const species = logbook.bound.species.get(brood.species);
  const stated = stage === "hatch" ? species?.hatches : species?.swims;
  const baseC = species?.baseC ?? 0;
  const begins = beginningOf(logbook, brood, stage, knownDay);
  if (begins === undefined) return undefined;
  const { first, likely: middleFirst, last } = begins;
  const soFarDays = warmthOf(logbook, brood, first, Math.max(first, knownDay + 1), knownDay);
  const early = warmthOf(logbook, brood, first, Math.max(first + 7, knownDay + 1), knownDay);
  const known = early.filter(({ meanC }) => !Number.isNaN(meanC));
  const meanC = known.reduce((sum, day) => sum + day.meanC, 0) / known.length;
  const all = developedBroods(logbook, brood.species, stage, knownDay).filter((each) => each.brood !== brood);
  const own = all.filter((each) => Math.abs(each.meanC - meanC) <= pooledC);
  const base = {
    stage,
    own,
    others: all.length - own.length,
    stated,
    baseC,
    from: first,
    soFar: sumOf(soFarDays, baseC),
  };
  const sums = own.map((each) => each.degreeDays).sort((a, b) => a - b);
  const byOwn = sums.length >= leastOwn;
  const warmAtStated = stated === undefined ? Number.NaN : stated.temperatureC - baseC;
  const low = byOwn ? sums[0]! : (stated?.lowDays ?? Number.NaN) * warmAtStated;
  const high = byOwn ? sums.at(-1)! : (stated?.highDays ?? Number.NaN) * warmAtStated;
  if (known.length < early.length) {
    if (stated === undefined) return undefined;
    return {
      ...base,
      by: "days alone",
      low: Number.NaN,
      middle: Number.NaN,
      high: Number.NaN,
      chance: Number.NaN,
      earliest: first + Math.ceil(stated.lowDays - 1e-9),
      likely: middleFirst + Math.ceil((stated.lowDays + stated.highDays) / 2 - 1e-9),
      latest: last + Math.ceil(stated.highDays - 1e-9),
      warmth: soFarDays,
    };
  }
  if (!(low > 0)) return undefined;
  const middle = byOwn ? medianOfSorted(sums) : (low + high) / 2;
  const reaches = (from: number, sum: number): number =>
    dayReached(logbook, brood, from, sum, baseC, knownDay);
  const latest = reaches(last, high);
  return {
    ...base,
    by: byOwn ? "own broods" : "stated",
    low,
    middle,
    high,
    chance: byOwn ? (sums.length - 1) / (sums.length + 1) : Number.NaN,
    earliest: reaches(first, low),
    likely: reaches(middleFirst, middle),
    latest,
    warmth: warmthOf(logbook, brood, first, Number.isNaN(latest) ? knownDay + 1 : latest, knownDay),
  };
}

/** The days on which a stage may begin: of eggs the first and the last on which they were laid. */
function beginningOf(
  logbook: Logbook,
  brood: Brood,
  stage: Stage,
  knownDay: number,
): { readonly first: number; readonly likely: number; readonly last: number } | undefined {
  const { spawned, lastSpawned, hatchedOn } = brood.tally;
  if (stage === "hatch")
    return Number.isNaN(spawned) ? undefined : { first: spawned, likely: spawned, last: lastSpawned };
  if (!Number.isNaN(hatchedOn)) return { first: hatchedOn, likely: hatchedOn, last: hatchedOn };
  const hatch = expected(logbook, brood, "hatch", knownDay);
  if (hatch === undefined || Number.isNaN(hatch.latest)) return undefined;
  return { first: hatch.earliest, likely: hatch.likely, last: hatch.latest };
}

/** The first day by whose beginning a sum is reached; NaN if it is not in sight. */
function dayReached(
  logbook: Logbook,
  brood: Brood,
  from: number,
  sum: number,
  baseC: number,
  knownDay: number,
): number {
  let reached = 0;
  for (let day = from; day < from + mostDays; day++) {
    if (reached >= sum - 1e-9) return day;
    const { meanC } = onDay(logbook, homeOf(brood, day), day, knownDay);
    if (Number.isNaN(meanC)) return Number.NaN;
    reached += Math.max(0, meanC - baseC);
  }
  return Number.NaN;
}

/** Past what is expected at most by so much, eggs are overdue: a fifth of their time, two days at least. *Common practice, no source.* */
export function graceDays({ from, latest }: Expected): number {
  return Math.max(2, Math.ceil(0.2 * (latest - from)));
}
