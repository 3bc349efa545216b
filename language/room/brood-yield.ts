import { median, medianOfSorted } from "../science/median.ts";
import { rankSumP } from "../science/rank-sum.ts";
import { isOutside } from "../science/result.ts";
import { type Share, shareOf, sharesOf } from "./brood-course.ts";
import type { Counted } from "./brood-rows.ts";
import { type Brood, broodsUntil } from "./broods.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Logbook } from "./logbook.ts";

/** What pairs give: how often they spawn, how many eggs, and what becomes of them. */

export interface Yield {
  /** `blue-1 × gold-2`; where no parent is named `praecox in b1`. */
  readonly name: string;
  readonly species: string;
  /** Empty where they are not named. */
  readonly father: string;
  readonly mother: string;
  /** In order of time; births without eggs among them. */
  readonly broods: readonly Brood[];
  readonly spawnings: number;
  /** Days from one spawning, or birth, to the next: the middle one, the shortest and the longest; undefined with less than two. */
  readonly interval: { readonly median: number; readonly least: number; readonly most: number } | undefined;
  /** A spawning, of those that say so: the middle one, and all of them. */
  readonly eggs:
    | { readonly median: number; readonly all: readonly number[]; readonly isAbout: boolean }
    | undefined;
  /** Young a spawning, of those of which it is known; eggs that came to nothing count as 0. */
  readonly young:
    | { readonly median: number; readonly all: readonly number[]; readonly isAbout: boolean }
    | undefined;
  /** In 30 days, from the first spawning to the last; NaN with less than two, or without numbers. */
  readonly eggsAMonth: number;
  readonly youngAMonth: number;
  /** Of all broods together that tell both numbers. */
  readonly shares: readonly Share[];
}

export const yieldFormula =
  "all but those of the last spawning / days from the first spawning to the last × 30";

/** What each pair, or tank, has given up to a day; those that gave most young at a spawning first, where that is known. */
export function yieldsUntil(logbook: Logbook, day: number): readonly Yield[] {
  return keptFor(logbook, `yields ${day}`, () => {
    const byPair = new Map<string, Brood[]>();
    for (const brood of broodsUntil(logbook, day)) {
      if (brood.among > 0) continue;
      const key = `${brood.species} ${pairOf(brood)}`;
      byPair.set(key, [...(byPair.get(key) ?? []), brood]);
    }
    return [...byPair.values()]
      .map((broods) => yieldOf(broods, day))
      .sort(
        (a, b) =>
          (b.young?.median ?? -1) - (a.young?.median ?? -1) ||
          (b.eggs?.median ?? -1) - (a.eggs?.median ?? -1),
      );
  });
}

function pairOf({ parents, species, entries }: Brood): string {
  const { father, mother } = parents;
  if (father === undefined && mother === undefined) return `${species} in ${entries[0]!.tank.name}`;
  return `${father?.name ?? "?"} × ${mother?.name ?? "?"}`;
}

function yieldOf(broods: readonly Brood[], day: number): Yield {
  const [first] = broods;
  const days = broods.map(({ tally }) => (Number.isNaN(tally.spawned) ? tally.hatchedOn : tally.spawned));
  const gaps = days
    .slice(1)
    .map((on, at) => on - days[at]!)
    .filter((gap) => gap > 0)
    .sort((a, b) => a - b);
  const eggs = numbered(broods, ({ tally }) => tally.laid);
  const young = numbered(broods, youngOf);
  return {
    name: pairOf(first!),
    species: first!.species,
    father: first!.parents.father?.name ?? "",
    mother: first!.parents.mother?.name ?? "",
    broods,
    spawnings: broods.length,
    interval:
      gaps.length === 0 ? undefined : { median: medianOfSorted(gaps), least: gaps[0]!, most: gaps.at(-1)! },
    eggs,
    young,
    eggsAMonth: monthly(broods, days, ({ tally }) => tally.laid.count),
    youngAMonth: monthly(broods, days, (brood) => youngOf(brood).count),
    shares: pooled(broods, day),
  };
}

/** The young of a brood; none of eggs that came to nothing; not known of eggs that wait. */
const youngOf = ({ tally }: Brood): Counted =>
  tally.state === "lost" && Number.isNaN(tally.hatchedOn) ? { count: 0, isAbout: false } : tally.hatched;

function numbered(broods: readonly Brood[], of: (brood: Brood) => Counted): Yield["eggs"] {
  const counts = broods.map(of).filter(({ count }) => !Number.isNaN(count));
  if (counts.length === 0) return undefined;
  const all = counts.map(({ count }) => count);
  return {
    median: median(all),
    all,
    isAbout: counts.some(({ isAbout }) => isAbout),
  };
}

function monthly(broods: readonly Brood[], days: readonly number[], of: (brood: Brood) => number): number {
  const span = days.at(-1)! - days[0]!;
  if (!(span > 0)) return Number.NaN;
  return (broods.slice(0, -1).reduce((sum, brood) => sum + of(brood), 0) / span) * 30;
}

/** Shares of all broods together. */
function pooled(broods: readonly Brood[], day: number): Share[] {
  const sums = new Map<Share["what"], { part: Counted; whole: Counted; formula: string }>();
  for (const brood of broods)
    for (const { what, count, outOf, isAbout, share, formula } of sharesOf(brood, day)) {
      // More young than eggs tell nothing of either.
      if (Number.isNaN(share)) continue;
      const known = sums.get(what);
      sums.set(what, {
        part: { count: (known?.part.count ?? 0) + count, isAbout: isAbout || known?.part.isAbout === true },
        whole: { count: (known?.whole.count ?? 0) + outOf, isAbout: false },
        formula,
      });
    }
  return [...sums].flatMap(([what, { part, whole, formula }]) => shareOf(what, part, whole, formula) ?? []);
}

/** What tells two pairs of a species apart. */
export interface Compared {
  readonly best: Yield;
  readonly other: Yield;
  /** Of the rank-sum test on the young, or eggs, of single spawnings; times the number of ways to take two pairs (Bonferroni). */
  readonly p: number;
  readonly of: "young" | "eggs";
  readonly isApart: boolean;
}

/** Fewer spawnings of a pair tell nothing of it. *Common practice, no source*; of 3 and 3 the test can say 0.1 at best. */
const leastSpawnings = 3;

/**
 * The pair of a species that gave most, held against each other pair. Spawnings are compared and not eggs: those of one spawning share its
 * luck. Nobody is ranked by what may be chance.
 */
export function comparedPairs(yields: readonly Yield[], species: string): Compared[] {
  const named = yields.filter((each) => each.species === species);
  const of =
    named.filter(({ young }) => (young?.all.length ?? 0) >= leastSpawnings).length > 1 ? "young" : "eggs";
  const pairs = named
    .filter((each) => (each[of]?.all.length ?? 0) >= leastSpawnings)
    .sort((a, b) => b[of]!.median - a[of]!.median);
  const [best, ...others] = pairs;
  if (best === undefined) return [];
  return others.map((other): Compared => {
    const p = rankSumP(best[of]!.all, other[of]!.all);
    const ways = (pairs.length * others.length) / 2;
    const adjusted = isOutside(p) ? Number.NaN : Math.min(1, p * ways);
    return { best, other, p: adjusted, of, isApart: adjusted < 0.05 };
  });
}
