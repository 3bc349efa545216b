import { Kind } from "../book/entries/registry.ts";
import { courses, there } from "./course.ts";
import { keptOfAnimals } from "./kept.ts";
import { keptOfFound } from "./kept-of-found.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import { isDeath } from "./losses.ts";
import { type Movement, movements } from "./movement.ts";

/** Deaths and animal-days of the room, day by day. What a water adds is kept until its ledger is derived again. */
export interface DailyDeaths {
  /** The day of index 0. */
  readonly first: number;
  /** Animals times the part of the day that they were there. */
  readonly animalDays: Float64Array;
  readonly died: Float64Array;
  /** In order of time. */
  readonly deaths: readonly Movement[];
  /** Deaths of animals that the book did not know of: so many in how many animal-days nobody can tell, so they are left out. */
  readonly unknown: number;
}

interface OfLedger {
  readonly first: number;
  readonly last: number;
  /** From the first day to the last, both included. */
  readonly animalDays: Float64Array;
  /** Animals after the last of the entries. */
  readonly after: number;
  readonly deaths: readonly Movement[];
  readonly unknown: readonly Movement[];
}

/** Up to the end of a day, of the last forty years at least: a slip in a year must not make centuries of days. */
export function dailyDeaths(logbook: Logbook, until: number): DailyDeaths {
  const span = Math.floor(until / spanDays);
  const parts = logbook.ledgers.map((ledger) => ofLedger(ledger, span));
  return keptOfFound(logbook, `daily deaths ${until}`, parts, () => ({
    value: addedUp(parts, until),
    blocks: [],
  }));
}

/** What is kept of a water is so for all days of such a span. */
const spanDays = 3650;
const spansBefore = 4;

function addedUp(parts: readonly (OfLedger | undefined)[], until: number): DailyDeaths {
  const all = parts.filter((part) => part !== undefined && part.first <= until) as OfLedger[];
  const first = Math.min(until + 1, ...all.map((part) => part.first));
  const days = until - first + 1;
  const sums = new Float64Array(days);
  const died = new Float64Array(days);
  for (const { first: from, last, animalDays: own, after } of all) {
    const [begin, end] = [from - first, Math.min(until, last) - first];
    for (let at = begin; at <= end; at++) sums[at]! += own[at - begin]!;
    for (let at = end + 1; at < days; at++) sums[at]! += after;
  }
  const isUntil = ({ time }: Movement): boolean => time < until + 1;
  // Of deaths of the same minute those of the first water are the first: sorting keeps what is equal in place.
  const deaths = all.flatMap((part) => part.deaths.filter(isUntil)).sort((a, b) => a.time - b.time);
  for (const { time, animals } of deaths) died[Math.floor(time) - first]! += animals;
  const unknown = all.flatMap((part) => part.unknown.filter(isUntil));
  return {
    first,
    animalDays: sums,
    died,
    deaths,
    unknown: unknown.reduce((sum, { animals }) => sum + animals, 0),
  };
}

const ofLedger = (ledger: Ledger, span: number): OfLedger | undefined =>
  keptOfAnimals(ledger, `daily deaths ${span}`, () => {
    const [begin, end] = [(span - spansBefore) * spanDays, (span + 1) * spanDays - 1];
    const all = courses(ledger).filter(({ at }) => at.length > 0);
    const times = all.flatMap(({ series, at }) => [series.time[at[0]!]!, series.time[at.at(-1)!]!]);
    if (times.length === 0) return undefined;
    const first = Math.max(begin, Math.floor(Math.min(...times)));
    if (first > end) return undefined;
    // All of its entries may stand before the days that are looked at.
    const last = Math.max(first - 1, Math.min(end, Math.floor(Math.max(...times))));
    const sums = new Float64Array(last - first + 1);
    const lost: Movement[] = [];
    let after = 0;
    for (const course of all) {
      const { series, at } = course;
      // Between two entries the number stands still, so that the days there are all alike.
      at.forEach((entry, index) => {
        const animals = there(series.second[entry]!);
        const from = Math.max(first, series.time[entry]!);
        const next = at[index + 1];
        const to = next === undefined ? last + 1 : Math.min(last + 1, series.time[next]!);
        addDays(sums, first, animals, from, to);
      });
      after += there(series.second[at.at(-1)!]!);
      lost.push(...movements(ledger, course, first, end + 1, Kind.lose).filter(isDeath));
    }
    lost.sort((a, b) => a.time - b.time);
    return {
      first,
      last,
      animalDays: sums,
      after,
      deaths: lost.filter(({ before }) => before > 0),
      unknown: lost.filter(({ before }) => !(before > 0)),
    };
  });

/** Adds so many animals from one time to another to the days that it touches. */
function addDays(sums: Float64Array, first: number, animals: number, from: number, to: number): void {
  if (animals === 0) return;
  for (let day = Math.floor(from); day < to; day++)
    sums[day - first]! += animals * (Math.min(to, day + 1) - Math.max(from, day));
}
