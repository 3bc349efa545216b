import type { Parameter } from "../book/parameters.ts";
import type { Remedy } from "../book/stations.ts";
import { afterChange, afterDecay } from "../science/dilution.ts";
import type { Span } from "../science/mass-balance.ts";
import type { Ledger } from "./ledger.ts";
import type { Series } from "./series.ts";
import { isOver, isSameDose } from "./solutes.ts";
import { balanceUntil, settledTime, sourceLevel } from "./water.ts";

/**
 * What was in a body of water at a time that is past. A ledger keeps what happened in columns, so this is looked up and computed from
 * there; the log is not read again.
 */

/** Less than the time from one line of a minute to the next (`settledTime`): what stands in the line itself counts. */
export const justAfter = 1e-9;

/** A level before a change of water and after it. */
export interface LevelAcross {
  readonly before: Span;
  readonly after: Span;
  readonly sourceMgL: number;
}

/** What a change did to a parameter, by what was known just then; undefined without a production from which the level follows. */
export function levelAcross(ledger: Ledger, parameter: Parameter, exchange: number): LevelAcross | undefined {
  const { exchanges, book } = ledger;
  const before = balanceUntil(ledger, parameter, settledTime(exchanges, exchange))?.level;
  if (before === undefined) return undefined;
  const fraction = exchanges.first[exchange]!;
  const sourceMgL = sourceLevel(book.waters[exchanges.tag[exchange]!], parameter);
  const across = (level: number): number => afterChange(level, fraction, sourceMgL);
  return {
    before,
    after: { best: across(before.best), low: across(before.low), high: across(before.high) },
    sourceMgL,
  };
}

/** A dose, or a change of water after one, with what it did to what is in the water. */
export interface RemedyStep {
  readonly is: "dose" | "change";
  readonly series: Series;
  readonly index: number;
  /** In days, the order of the lines settled. */
  readonly time: number;
  /** Days since the step before, and what was left after it; 0 for the first. */
  readonly days: number;
  readonly left: number;
  /** What decay since then left. */
  readonly before: number;
  readonly after: number;
}

/**
 * The doses of a remedy and the changes of water after the first of them, before a time, in order.
 * @param from the first dose that counts, by its index among the doses
 */
export function remedySteps(ledger: Ledger, remedy: Remedy, until: number, from = 0): RemedyStep[] {
  const { doses, exchanges } = ledger;
  const steps: RemedyStep[] = [];
  let level = 0;
  let time = Number.NaN;
  const take = (is: RemedyStep["is"], series: Series, index: number): void => {
    const now = settledTime(series, index);
    const days = steps.length === 0 ? 0 : now - time;
    const before =
      steps.length === 0
        ? is === "dose"
          ? doses.second[index]!
          : 0
        : decayed(level, days, remedy.halfLifeDays);
    const after = is === "dose" ? before + doses.first[index]! : before * (1 - exchanges.first[index]!);
    steps.push({ is, series, index, time: now, days, left: level, before, after });
    level = after;
    time = now;
  };
  let next = -1;
  for (let dose = from; dose < doses.length; dose++) {
    if (doses.tag[dose] !== remedy.id) continue;
    const now = settledTime(doses, dose);
    if (now >= until) break;
    if (next < 0) next = exchanges.from(doses.time[dose]!);
    for (; next < exchanges.length && settledTime(exchanges, next) < now; next++)
      if (steps.length > 0 && exchanges.first[next]! > 0) take("change", exchanges, next);
    take("dose", doses, dose);
  }
  if (next < 0) return steps;
  for (; next < exchanges.length && settledTime(exchanges, next) < until; next++)
    if (exchanges.first[next]! > 0) take("change", exchanges, next);
  return steps;
}

/** What is left of a level after some days, by the half-life stated; all of it where none is. */
export function decayed(level: number, days: number, halfLifeDays: number): number {
  return Number.isNaN(halfLifeDays) || days <= 0 ? level : afterDecay(level, days, halfLifeDays);
}

/** What of a remedy is in the water at a time; NaN if a dose could not be computed. */
export function remedyAt(ledger: Ledger, remedy: Remedy, time: number): number {
  const from = lastDose(ledger, remedy, time);
  const last = from < 0 ? undefined : remedySteps(ledger, remedy, time, from).at(-1);
  return last === undefined ? 0 : decayed(last.after, time - last.time, remedy.halfLifeDays);
}

/** The index of the last dose of a remedy before a time; -1 if there is none. */
export function lastDose(ledger: Ledger, remedy: Remedy, until: number): number {
  const { doses } = ledger;
  for (let at = doses.from(until) - 1; at >= 0; at--)
    if (doses.tag[at] === remedy.id && settledTime(doses, at) < until) return at;
  return -1;
}

/** So little of what a dose made was there before it that its course may be told from there. */
const nothingMuch = 0.005;

/** The dose from which what is in the water at a time can be told: before it there was next to none. */
export function firstDoseOf(ledger: Ledger, remedy: Remedy, until: number): number {
  const { doses } = ledger;
  let at = lastDose(ledger, remedy, until);
  for (let dose = at; dose >= 0; dose--) {
    if (doses.tag[dose] !== remedy.id) continue;
    at = dose;
    const [added, before] = [doses.first[dose]!, doses.second[dose]!];
    if (before <= nothingMuch * (before + added)) break;
  }
  return at;
}

/** A course of doses as it stood at a time. */
export interface CourseThen {
  /** Doses given in it. */
  readonly given: number;
  /** Its last dose, and the one before in the same course, by their indexes; -1 if there is none. */
  readonly last: number;
  readonly previous: number;
  /** New water since the last dose, as a fraction. */
  readonly changed: number;
}

/** The course of a remedy that was running, or had ended, at a time; undefined if it was never given. */
export function courseUntil(ledger: Ledger, remedy: Remedy, until: number): CourseThen | undefined {
  const { doses } = ledger;
  let given = 0;
  let last = -1;
  let previous = -1;
  for (let at = 0; at < doses.length && settledTime(doses, at) < until; at++) {
    if (doses.tag[at] !== remedy.id) continue;
    if (last < 0 || !isSameDose(remedy, doses.time[last]!, doses.time[at]!)) {
      const isNew = last < 0 || isOver(remedy, given, doses.time[at]! - doses.time[last]!);
      given = isNew ? 1 : given + 1;
      previous = isNew ? -1 : last;
    }
    last = at;
  }
  return last < 0
    ? undefined
    : { given, last, previous, changed: changedBetween(ledger, settledTime(doses, last), until) };
}

/** New water that came in between two settled times, as a fraction: 1 less the product of what each change left. */
export function changedBetween({ exchanges }: Ledger, from: number, until: number): number {
  let old = 1;
  for (let at = exchanges.from(from - 1 / 1440); at < exchanges.length; at++) {
    const time = settledTime(exchanges, at);
    if (time >= until) break;
    if (time > from) old *= 1 - exchanges.first[at]!;
  }
  return 1 - old;
}

/** The species that a body of water held at a time, by the book as it was then. */
export function residentsAt({ animals, stock }: Ledger, time: number): number[] {
  const species = new Set<number>();
  const end = animals.from(time + justAfter);
  const seen = new Set<number>();
  const holdings = stock.all();
  for (let at = end - 1; at >= 0 && seen.size < holdings.length; at--) {
    const index = animals.tag[at]!;
    if (seen.has(index)) continue;
    seen.add(index);
    const holding = holdings[index];
    if (holding !== undefined && animals.second[at]! > 0) species.add(holding.species);
  }
  return [...species];
}
