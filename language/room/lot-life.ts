import { nameOf } from "../book/interner.ts";
import { type Figure, isOutside, type Outside, outside } from "../science/result.ts";
import { kaplanMeier, medianSurvival, survivalLimits } from "../science/survival.ts";
import { lotCourses } from "./course.ts";
import type { Logbook } from "./logbook.ts";
import { isDeath } from "./losses.ts";
import { bornOfLot, lotStory } from "./lots.ts";
import { type Movement, movements } from "./movement.ts";
import { namesOfParty } from "./party.ts";

/** How long the animals of a lot lived, by the entries that name it: Kaplan & Meier 1958. */
export interface LotLife {
  readonly lot: string;
  /** The day they came or hatched; of several the first. */
  readonly since: number;
  /** Days old on the day asked; NaN where nobody says when they were born. */
  readonly ageDays: number;
  readonly animals: number;
  readonly deaths: number;
  /** Sold, sent, culled, missing: last seen alive. */
  readonly left: number;
  readonly still: number;
  /** At some ages since they came; past the last that was followed there is none. */
  readonly table: readonly LifeStep[];
  /** Days until half of them had died. */
  readonly medianDays: Figure;
  readonly entries: readonly Movement[];
}

export interface LifeStep {
  readonly days: number;
  readonly survival: number;
  /** 95 %; null where nobody had died, or nobody lived. */
  readonly low: number | null;
  readonly high: number | null;
  readonly atRisk: number;
}

const steps = [7, 14, 30, 60, 90, 180, 365, 730, 1095];
/** Each animal is followed by itself. */
const mostAnimals = 20_000;

/**
 * The life of a lot up to the end of a day; a reason where it cannot be told. Each animal is followed from the day it came in; as they are
 * not told apart, those that came first are taken to leave first.
 */
export function lotLife(logbook: Logbook, lot: string, day: number): LotLife | Outside {
  const entries = lotMovements(logbook, lot, day + 1);
  const came = entries.filter(comesIn);
  const first = came[0];
  if (first === undefined) return outside("none came by an entry that names it");
  const goes = entries.filter(
    ({ is, adjusted }) => is === "lose" || is === "sell" || is === "ship" || adjusted < 0,
  );
  if (goes.length === 0 && !entries.some(({ is }) => is === "count"))
    return outside("no later entry names it");
  const times: number[] = [];
  const died: boolean[] = [];
  /** When each animal that is there came in. */
  const there: number[] = [];
  let next = 0;
  const take = (animals: number, time: number, isDead: boolean): void => {
    for (let one = 0; one < animals && next < there.length; one++) {
      times.push(time - there[next++]!);
      died.push(isDead);
    }
  };
  for (const entry of entries) {
    const { is, animals, adjusted, time } = entry;
    const into = is === "arrive" || is === "hatch" ? animals : 0;
    const came = into + Math.max(0, adjusted);
    if (there.length + came > mostAnimals) return outside(`more than ${mostAnimals} are too many to follow`);
    for (let one = 0; one < came; one++) there.push(time);
    if (is === "lose" || is === "sell" || is === "ship") take(animals, time, isDeath(entry));
    if (adjusted < 0) take(-adjusted, time, false);
  }
  const still = there.length - next;
  take(still, day + 1, false);
  const born = bornOfLot(lotStory(logbook, lot)!);
  const deaths = died.filter(Boolean).length;
  return {
    lot,
    since: Math.floor(first.time),
    ageDays: day - born,
    animals: there.length,
    deaths,
    left: there.length - still - deaths,
    still,
    table: steps.flatMap((days) => stepAt(times, died, days)),
    medianDays: medianSurvival(times, died),
    entries,
  };
}

const comesIn = ({ is, adjusted }: Movement): boolean => is === "arrive" || is === "hatch" || adjusted > 0;

function stepAt(times: readonly number[], died: readonly boolean[], days: number): LifeStep[] {
  const at = kaplanMeier(times, died, days);
  // Past the last that was followed nobody knows.
  if (isOutside(at) || days > longest(times)) return [];
  const limits = survivalLimits(at.survival, at.standardError);
  const [low, high] = isOutside(limits) ? [null, null] : [limits.low, limits.high];
  return [{ days, survival: at.survival, low, high, atRisk: at.left }];
}

const longest = (times: readonly number[]): number => times.reduce((most, time) => Math.max(most, time), 0);

/** What happened to a lot in all tanks before a time, in order; moves between tanks change nothing of it and are left out. */
export function lotMovements(logbook: Logbook, lot: string, before: number): Movement[] {
  const number = nameOf(lot);
  return logbook.ledgers
    .flatMap((ledger) =>
      lotCourses(ledger)
        .filter(({ holding }) => namesOfParty(holding.species).lot === number)
        .flatMap((course) => movements(ledger, course, Number.NEGATIVE_INFINITY, before)),
    )
    .filter(({ is, adjusted }) => (is !== "in" && is !== "out") || adjusted !== 0)
    .sort((a, b) => a.time - b.time);
}
