import type { Duty, Station } from "../../book/stations.ts";
import { daysOwed, fitsAlone } from "../../science/recurring-work.ts";
import type { DayCapacity } from "../capacity.ts";
import { type HandClass, handClasses, handRanks } from "../hand-order.ts";
import type { Logbook } from "../logbook.ts";
import { handCases } from "../reached-by-cases.ts";
import { type Fit, fitOf } from "./fit.ts";
import { keptPlan } from "./kept-plan.ts";
import { type MoveWhy, moveWhy } from "./moves.ts";
import { daysShort } from "./spread.ts";
import { doneDays, horizonOf, type Job, type RoomJob, roomWork, visitedBy, yesterdaysPlan } from "./work.ts";

/** The plan of a room: what to do on each of the coming days, within what one keeper can do. */
export interface RoomPlan {
  /** The first day. */
  readonly day: number;
  readonly days: readonly PlannedDay[];
  /** Tanks and systems on which a duty was done on the first day already; they are off what it holds. */
  readonly doneTanks: number;
  /** Days that ended, or would end, with a duty owed, over all duties. */
  readonly daysLate: number;
  /** What the plan costs, as `science/recurring-work.ts` counts, with all days that were looked at; and what no plan can go below. */
  readonly cost: number;
  readonly bound: number;
  /** It was shown that no plan costs less. */
  readonly isBest: boolean;
  /** Placed on a day that the plan of yesterday did not have for it. */
  readonly moved: readonly PlannedWork[];
  /** Work that no single day holds. */
  readonly tooLarge: readonly RoomJob[];
  /** Whether the room fits its keeper. */
  readonly fit: Fit;
  readonly jobs: readonly RoomJob[];
}

export interface PlannedDay {
  readonly day: number;
  /** The reason of an absence, perhaps empty; undefined on a day with work. */
  readonly away: string | undefined;
  /** In the order of a round: from the clean to the dirty. */
  readonly stops: readonly PlannedStop[];
  /** What someone else does, as nobody works on the day. */
  readonly covered: readonly PlannedWork[];
  /** Tanks and systems with hands in the water. */
  readonly tanks: number;
  /** New water, the least and the most that will do. */
  readonly litres: { readonly low: number; readonly high: number };
  /** Of what is known. */
  readonly minutes: number;
  /** What the day holds by the room; NaN where it is not stated. */
  readonly holds: DayCapacity;
  /** Due on the day or before, and still owed when it ends. */
  readonly owed: readonly Job[];
}

export interface PlannedStop {
  readonly at: Station;
  readonly stage: HandClass;
  readonly work: readonly PlannedWork[];
}

export interface PlannedWork {
  readonly job: Job;
  readonly day: number;
  /** Days past due when it is done; below 0 early. */
  readonly late: number;
  /** Whether the plan of yesterday had it on no such day. */
  readonly isMoved: boolean;
  /** The day it was moved from; NaN where it was not, or is done once more than planned. */
  readonly movedFrom: number;
  /** Why it was moved; undefined where it was not, or from no day. */
  readonly why: MoveWhy | undefined;
}

const notMoved = { isMoved: false, movedFrom: Number.NaN, why: undefined };

/** The plan from a day on, with what is known at its end. @param days how many are shown */
export function roomPlan(logbook: Logbook, day: number, days: number): RoomPlan {
  const { book } = logbook;
  const horizon = horizonOf(book, day, days);
  const before = yesterdaysPlan(logbook, day, horizon);
  const work = roomWork(logbook, day, horizon, day, before.daysOf);
  const { jobs, fixed, problem, doneTanks, capacities } = work;
  const { days: done, cost, bound, isBest } = keptPlan(problem);
  const planned = Array.from({ length: days }, (): PlannedWork[] => []);
  const covered = Array.from({ length: days }, (): PlannedWork[] => []);
  const owed = Array.from({ length: days }, (): Job[] => []);
  const moved: PlannedWork[] = [];
  for (const job of fixed) {
    const at = job.day - day;
    const own = { job, day: job.day, late: job.day - job.due, ...notMoved };
    (job.isCovered ? covered : planned)[at]?.push(own);
    for (let late = Math.max(job.due - day, 0); late < Math.min(at, days); late++) owed[late]!.push(job);
  }
  const byDuty = new Map<Duty, number[]>();
  jobs.forEach(({ due: { duty } }, index) => {
    const known = byDuty.get(duty);
    if (known === undefined) byDuty.set(duty, [index]);
    else known.push(index);
  });
  for (const [duty, indices] of byDuty) {
    const [first] = indices;
    const job = jobs[first!]!;
    const { times, intervalDays } = job;
    const all = indices.flatMap((index) => done[index]!).sort((a, b) => a - b);
    const from = movesOf(before.daysOf(duty, 0), all);
    const past = times === 1 ? [] : doneDays(logbook, duty, day);
    let due = job.dueDay;
    let previous: number | undefined;
    all.forEach((at, which) => {
      const movedFrom = from.get(day + at);
      const isMoved = movedFrom !== undefined;
      if (times > 1) due = dueOfTimes([...past, ...all.slice(0, which).map((each) => day + each)]);
      const late = day + at - due;
      const index = indices.find((each) => done[each]!.includes(at))!;
      const why =
        movedFrom === undefined || Number.isNaN(movedFrom)
          ? undefined
          : moveWhy({ work, done, before }, index, movedFrom - day, times === 1 ? previous : undefined);
      const own: PlannedWork = {
        ...{ job, day: day + at, isMoved, movedFrom: movedFrom ?? Number.NaN, why },
        // A time of several that comes before it must is not early.
        late: times > 1 ? Math.max(0, late) : late,
      };
      const isOpen = problem.days[at]!.isOpen;
      (isOpen ? planned : covered)[at]?.push(own);
      if (isMoved && at < days) moved.push(own);
      previous = isMoved ? day + at : undefined;
      due = day + at + intervalDays;
    });
    const short =
      times === 1
        ? daysOwed(problem, problem.jobs[first!]!, all)
        : daysShort([...past, ...all.map((at) => day + at)], times, intervalDays, day, days)
            .map((each) => each - day)
            .filter((at) => day + at > job.due.due);
    for (const at of short) owed[at]?.push(job);

    function dueOfTimes(known: readonly number[]): number {
      const enough = known.at(-times);
      return enough === undefined ? job.due.due : Math.max(enough + intervalDays, job.due.due);
    }
  }
  const stopsOf = stopping(logbook, day);
  return {
    day,
    doneTanks,
    days: planned.map((work, at) => ({
      day: day + at,
      away: capacities[at]!.away,
      stops: stopsOf(work),
      covered: covered[at]!,
      tanks: visitedBy(work.map(({ job }) => job)),
      litres: {
        low: work.reduce((sum, { job }) => sum + (job.litres?.low ?? 0), 0),
        high: work.reduce((sum, { job }) => sum + (job.litres?.high ?? 0), 0),
      },
      minutes: work.reduce((sum, { job }) => sum + (job.time.minutes || 0), 0),
      holds: capacities[at]!,
      owed: owed[at]!,
    })),
    daysLate: owed.reduce((sum, each) => sum + each.length, 0),
    cost,
    bound,
    isBest,
    moved,
    tooLarge: jobs.filter(({ which }, index) => which === 0 && isTooLarge(index)),
    fit: fitOf(book, jobs),
    jobs,
  };

  /** The days a duty has now and did not have yesterday, each with the one it gave up for it, in order; NaN where it gave up none. */
  function movesOf(had: readonly number[] | undefined, now: readonly number[]): ReadonlyMap<number, number> {
    if (had === undefined) return new Map();
    const given = had.filter((each) => each >= day && !now.includes(each - day)).sort((a, b) => a - b);
    const taken = now.filter((at) => at < horizon - 1 && !had.includes(day + at));
    return new Map(taken.map((at, index) => [day + at, given[index] ?? Number.NaN]));
  }

  /** Of the first day some is done already: it says nothing of what a day holds. */
  function isTooLarge(index: number): boolean {
    const later = problem.days.slice(1).filter(({ isOpen }) => isOpen);
    return later.length > 0 && !later.some((each) => fitsAlone(problem.jobs[index]!, each));
  }
}

/** The work of a day by place, in the order of hands as it is known today. */
function stopping(logbook: Logbook, day: number): (work: readonly PlannedWork[]) => PlannedStop[] {
  const { stations } = logbook.book;
  const rankOf = handRanks(logbook, day, handCases(logbook, day));
  const ranks = stations.map((station) => rankOf(station).is);
  const orderOf = ({ at, stage }: PlannedStop): number =>
    at.kind === "room" ? handClasses.length : handClasses.indexOf(stage);
  return (work) => {
    const byPlace = new Map<Station, PlannedWork[]>();
    for (const each of work) {
      const known = byPlace.get(each.job.at);
      if (known === undefined) byPlace.set(each.job.at, [each]);
      else known.push(each);
    }
    return [...byPlace]
      .map(([at, each]): PlannedStop => ({ at, stage: ranks[at.id]!, work: each }))
      .sort((a, b) => orderOf(a) - orderOf(b) || a.at.id - b.at.id);
  };
}
