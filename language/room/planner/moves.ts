import { fitsAlone, rounding } from "../../science/recurring-work.ts";
import type { Resource } from "./fit.ts";
import type { Freed, Job, RoomJob, RoomWork, YesterdaysPlan } from "./work.ts";

/** Why the plan has work on another day than it had yesterday: what can be read from the problem, and no more. */
export type MoveWhy =
  /** Nobody works on the day it had; why may be empty. */
  | { readonly is: "away"; readonly reason: string }
  /** It is due so long after the time before it, which is on another day itself: this one. */
  | { readonly is: "follows"; readonly day: number }
  /** The day it had holds less by now than it takes, by itself. */
  | { readonly is: "holds no more"; readonly of: Resource }
  /** On the day it had, others take what it would need. */
  | { readonly is: "full"; readonly of: Resource; readonly by: readonly TakenBy[] }
  /** The day it had would hold it still: all the work together waits less this way. */
  | { readonly is: "waits less" };

export interface TakenBy {
  readonly job: Job;
  /** How it comes to be on that day: it has its own; it was moved there; it is planned anew. Undefined: it was there yesterday, too. */
  readonly since: { readonly is: "its day" | "moved" } | Freed | undefined;
}

const resources = ["litres", "minutes"] as const;

/** What a reason is read from: the work of a room, the days of each of its jobs, and the plan of yesterday. */
export interface Planned {
  readonly work: RoomWork;
  /** Days from the first, job by job. */
  readonly done: readonly (readonly number[])[];
  readonly before: YesterdaysPlan;
}

/**
 * @param index of the job
 * @param from the day that it had, from the first of the plan
 * @param previous the time before it, where that was moved as well
 */
export function moveWhy(
  planned: Planned,
  index: number,
  from: number,
  previous: number | undefined,
): MoveWhy {
  const { work, done } = planned;
  const { problem, capacities, day } = work;
  if (previous !== undefined) return { is: "follows", day: previous };
  const held = problem.days[from];
  const job = problem.jobs[index]!;
  if (held === undefined) return { is: "waits less" };
  if (!held.isOpen) return { is: "away", reason: capacities[from]?.away ?? "" };
  const others = work.jobs.flatMap((_, at) => (at !== index && done[at]!.includes(from) ? [at] : []));
  const usedBy = (at: number, of: number): number => problem.jobs[at]!.uses[of]!;
  const placesOf = (some: readonly number[]): Set<number> =>
    new Set(some.flatMap((at) => (problem.jobs[at]!.place < 0 ? [] : [problem.jobs[at]!.place])));
  const places = placesOf(others);
  const isNewPlace = job.place >= 0 && !places.has(job.place);
  const short: { of: Resource; takers: number[] }[] = [];
  if (isNewPlace && places.size + 1 > held.places)
    short.push({ of: "tanks", takers: others.filter((at) => problem.jobs[at]!.place >= 0) });
  resources.forEach((of, at) => {
    const used = others.reduce((sum, other) => sum + usedBy(other, at), 0);
    if (job.uses[at]! > 0 && used + job.uses[at]! > held.resources[at]! + rounding)
      short.push({ of, takers: others.filter((other) => usedBy(other, at) > 0) });
  });
  const [first] = short;
  if (first === undefined) return { is: "waits less" };
  const fixed = work.fixed.filter(
    (each) => each.day === day + from && !each.isCovered && takes(each, first.of),
  );
  if (fixed.length === 0 && !fitsAlone(job, held)) return { is: "holds no more", of: first.of };
  const by = [
    ...fixed.map((each): TakenBy => ({ job: each, since: { is: "its day" } })),
    ...first.takers.map((at): TakenBy => ({ job: work.jobs[at]!, since: sinceOf(planned, at, from) })),
  ];
  // Those that came there go before those that were there yesterday, too.
  return {
    is: "full",
    of: first.of,
    by: by.sort((a, b) => Number(a.since === undefined) - Number(b.since === undefined)),
  };
}

function takes({ isVisit, litres, time }: Job, of: Resource): boolean {
  if (of === "tanks") return isVisit;
  return of === "litres" ? (litres?.low ?? 0) > 0 : time.minutes > 0;
}

function sinceOf({ work, before }: Planned, index: number, from: number): TakenBy["since"] {
  const { due, which } = work.jobs[index] as RoomJob;
  const had = before.daysOf(due.duty, which);
  if (had === undefined) return before.freed(due.duty);
  return had.includes(work.day + from) ? undefined : { is: "moved" };
}
