import type { Book } from "../../book/book.ts";
import { Kind } from "../../book/entries/registry.ts";
import type { Duty, Station } from "../../book/stations.ts";
import {
  mostEarly,
  type RecurringJob,
  type WorkDay,
  type WorkProblem,
} from "../../science/recurring-work.ts";
import { capacityOn, type DayCapacity } from "../capacity.ts";
import { dutyLitres } from "../changes-due.ts";
import { type DueDuty, dutiesOn, dutyOn, placeOf } from "../due.ts";
import type { Logbook } from "../logbook.ts";
import { type FixedWork, fixedWork } from "./fixed.ts";
import { keptPlan } from "./kept-plan.ts";
import { type ActTime, actTimes } from "./minutes.ts";
import { spreadDues } from "./spread.ts";

/** The work of a room: its duties as recurring work, what has a day of its own, and what its days hold. */

/** What the plan tells of any work. */
export interface Job {
  /** What owes it: the tank itself, its system, or a gear that serves it; of an order the room. */
  readonly of: Station;
  /** Where it is done: a gear is served at its tank. */
  readonly at: Station;
  /** As it is written when it is done, without the target. */
  readonly act: string;
  /** NaN for what comes once. */
  readonly intervalDays: number;
  /** New water, the least and the most that will do; undefined where it is no change, or its volume is not known. */
  readonly litres: { readonly low: number; readonly high: number } | undefined;
  readonly time: ActTime;
  /** Whether it makes its tank one of those that can be worked on in a day. */
  readonly isVisit: boolean;
  /** It has a day of its own, which no plan moves. */
  readonly isFixed: boolean;
}

/** A duty, or one of the times of a duty that is owed several times in a period. */
export interface RoomJob extends Job {
  readonly due: DueDuty;
  /** The day it is planned by. */
  readonly dueDay: number;
  /** Which of how many times of its duty. */
  readonly which: number;
  readonly times: number;
}

export interface FixedJob extends Job {
  readonly is: FixedWork["is"];
  readonly day: number;
  readonly due: number;
  /** Someone else does it, as nobody works on that day. */
  readonly isCovered: boolean;
}

export interface RoomWork {
  readonly jobs: readonly RoomJob[];
  readonly fixed: readonly FixedJob[];
  readonly problem: WorkProblem;
  /** The first day of the plan. */
  readonly day: number;
  readonly capacities: readonly DayCapacity[];
  /** Tanks and systems on which a duty was done on that day already. */
  readonly doneTanks: number;
}

/**
 * Work with the hands in the tank: of this a keeper does so many tanks a day. A look, a test, a feeding counts as no tank; its minutes
 * count. *Common practice.*
 */
export const handsIn: ReadonlySet<number> = new Set([
  Kind.change,
  Kind.clean,
  Kind.service,
  Kind.trim,
  Kind.disinfect,
]);

/** A plan looks no further ahead, however long an absence is. */
const mostDays = 60;

/** How many days are planned so that an absence is seen to its end and a day beyond: days shown, and more. */
export function horizonOf({ absences }: Book, day: number, days: number): number {
  let end = day + days;
  for (const { from, until } of absences) if (from <= end && until >= end - 1) end = until + 2;
  return Math.min(end - day, Math.max(days, mostDays));
}

/** The days another plan had for a job. */
export type Before = (duty: Duty, which: number) => readonly number[] | undefined;

/** Why a duty has no days of yesterday's plan: it was done on another day than planned, or not on the planned one, or is of today. */
export type Freed = { readonly is: "done" | "missed"; readonly day: number } | { readonly is: "new" };

export interface YesterdaysPlan {
  readonly daysOf: Before;
  /** Of a duty without days. */
  freed(duty: Duty): Freed;
}

/**
 * The work of a room from a day on.
 * @param known the last day whose entries count; what was done on the first day of the plan is taken off that day
 */
export function roomWork(
  logbook: Logbook,
  day: number,
  days: number,
  known: number,
  before?: Before,
): RoomWork {
  const { book } = logbook;
  const timeOf = actTimes(logbook, known);
  const all = book.stations
    .flatMap((station) => dutiesOn(logbook.ledgerOf(station), [station], known))
    .filter(({ duty }) => duty.form.when !== "at most");
  const capacities = Array.from({ length: days }, (_, at) => capacityOn(book, day + at));
  const fixed = fixedWork(logbook, day, days, known).map((work): FixedJob => {
    const { is, at, act, litres, isVisit, kind, due } = work;
    const { away, covered } = capacities[work.day - day]!;
    return {
      ...{ is, at, of: at, act, litres, isVisit, due, day: work.day, isFixed: true },
      intervalDays: Number.NaN,
      time: timeOf({ station: at, kind }),
      isCovered: away !== undefined && covered.includes(kind),
    };
  });
  const jobsOf = (due: DueDuty): RoomJob[] => {
    const { duty, station } = due;
    const { form } = duty;
    const at = placeOf(book, station);
    const period = Math.round(form.periodDays);
    const times = form.when === "every" ? 1 : form.times;
    const dues =
      times === 1 ? [due.due] : spreadDues(doneDays(logbook, duty, known), times, period, due.due, day);
    return dues.map((dueDay, which) => ({
      due,
      dueDay,
      which,
      times,
      of: station,
      at,
      act: at === station ? duty.act : `${duty.act} ${station.name}`,
      intervalDays: period,
      litres: dutyLitres(book, duty),
      time: timeOf(duty),
      isVisit: handsIn.has(duty.kind) && at.body >= 0,
      isFixed: false,
    }));
  };
  const jobs = all
    .filter(({ due }) => Number.isFinite(due))
    .flatMap(jobsOf)
    .map((job) => doneBy(job, fixed));
  const done = all
    .filter(({ last }) => Math.floor(last) === day)
    .map((due) => jobsOf({ ...due, due: 0 })[0]!);
  const visited = visitedBy(done);
  return {
    jobs,
    fixed,
    day,
    capacities,
    doneTanks: visited,
    problem: {
      days: capacities.map((capacity, at) =>
        workDay(
          capacity,
          fixed.filter((each) => each.day === day + at && !each.isCovered),
          at === 0 ? done : [],
        ),
      ),
      ...(before === undefined ? {} : { daysBefore: days - 1 }),
      jobs: jobs.map((job): RecurringJob => {
        const { duty } = job.due;
        const planned = before?.(duty, job.which);
        const also = capacities.flatMap(({ away, covered }, at) =>
          away !== undefined && covered.includes(duty.kind) ? [at] : [],
        );
        return {
          place: job.isVisit ? job.at.id : -1,
          intervalDays: job.intervalDays,
          due: job.dueDay - day,
          uses: usesOf(job),
          ...(also.length > 0 ? { also } : {}),
          ...(planned === undefined ? {} : { before: planned.map((each) => each - day) }),
        };
      }),
    },
  };
}

/** The days a duty was done in its last period, up to a day. */
export function doneDays(logbook: Logbook, duty: Duty, known: number): number[] {
  const done = logbook.ledgerOf(duty.station).duties.done(duty);
  const days: number[] = [];
  const end = done.from(known + 1);
  for (let at = done.from(known + 1 - Math.round(duty.form.periodDays)); at < end; at++)
    days.push(Math.floor(done.time[at]!));
  return days;
}

/** A change that a course owes does that of the duty which falls on its day or soon after: it then counts from there. */
function doneBy(job: RoomJob, fixed: readonly FixedJob[]): RoomJob {
  const { litres, of, intervalDays, dueDay } = job;
  if (litres === undefined) return job;
  const found = fixed.find(
    (each) =>
      each.at === of &&
      (each.litres?.low ?? 0) >= litres.low - 1e-6 &&
      each.day <= dueDay &&
      each.day >= dueDay - mostEarly(intervalDays),
  );
  return found === undefined ? job : { ...job, dueDay: found.day + intervalDays };
}

/** Litres and minutes; what is not known does not bind. */
export const usesOf = ({ litres, time }: Job): readonly [number, number] => [
  litres?.low ?? 0,
  Number.isNaN(time.minutes) ? 0 : time.minutes,
];

export const visitedBy = (jobs: readonly Job[]): number =>
  new Set(jobs.filter(({ isVisit }) => isVisit).map(({ at }) => at.id)).size;

/** What a day holds beside what has its day: that goes before, and so does what was done already. */
function workDay(
  { tanks, litres, minutes, away }: DayCapacity,
  fixed: readonly Job[],
  done: readonly Job[],
): WorkDay {
  const orInfinite = (value: number): number => (Number.isNaN(value) ? Number.POSITIVE_INFINITY : value);
  const taken = [...fixed, ...done];
  const used = taken.map(usesOf);
  return {
    isOpen: away === undefined,
    places: Math.max(0, orInfinite(tanks) - visitedBy(taken)),
    resources: [litres, minutes].map((value, of) =>
      Math.max(0, orInfinite(value) - used.reduce((sum, uses) => sum + uses[of]!, 0)),
    ),
  };
}

/**
 * What a plan made yesterday morning had: made anew from the log up to the evening before, so that nothing is to be kept. Only that day's
 * own plan is, and not what it followed itself. A duty that has slipped since, or was done on another day, has none: its days are gone.
 */
export function yesterdaysPlan(logbook: Logbook, day: number, days: number): YesterdaysPlan {
  const yesterday = day - 1;
  const { jobs, problem } = roomWork(logbook, yesterday, days, yesterday - 1);
  const plan = keptPlan(problem);
  const byDuty = new Map<Duty, number[][]>();
  jobs.forEach(({ due: { duty } }, at) => {
    const known = byDuty.get(duty) ?? [];
    known.push(plan.days[at]!.map((each) => each + yesterday));
    byDuty.set(duty, known);
  });
  const doneOn = (duty: Duty): number => Math.floor(dutyOn(logbook.ledgerOf(duty.station), duty, day).last);
  return {
    daysOf: (duty, which) => {
      const planned = byDuty.get(duty);
      const all = planned?.flat();
      const done = doneOn(duty);
      const isKept = done >= yesterday ? all?.includes(done) : !all?.includes(yesterday);
      if (isKept !== true) return undefined;
      // Of several times of one duty it does not matter which is which.
      return duty.form.when === "every" || duty.form.times === 1 ? planned![which] : all;
    },
    freed: (duty) => {
      if (!byDuty.has(duty)) return { is: "new" };
      const done = doneOn(duty);
      return done >= yesterday ? { is: "done", day: done } : { is: "missed", day: yesterday };
    },
  };
}
