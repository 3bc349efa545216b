import type { Book } from "../../book/book.ts";
import { Kind } from "../../book/entries/registry.ts";
import type { Duty, Station } from "../../book/stations.ts";
import type { RecurringJob, WorkDay, WorkProblem } from "../../science/recurring-work.ts";
import { planWork } from "../../science/recurring-work-plan.ts";
import { dutyLitres } from "../changes-due.ts";
import { actAt, type DueDuty, dutiesOn, dutyOn, placeOf } from "../due.ts";
import type { Logbook } from "../logbook.ts";
import { type ActTime, actTimes } from "./minutes.ts";

/** The duties of a room as recurring work, and what its days hold. */
export interface RoomJob {
  readonly due: DueDuty;
  /** Where it is done: a gear is served at its tank. */
  readonly at: Station;
  /** As it is written when it is done, without the target. */
  readonly act: string;
  readonly intervalDays: number;
  /** New water, the least and the most that will do; undefined where it is no change, or its volume is not known. */
  readonly litres: { readonly low: number; readonly high: number } | undefined;
  readonly time: ActTime;
  /** Whether it makes its tank one of those that can be worked on in a day. */
  readonly isVisit: boolean;
}

export interface RoomWork {
  readonly jobs: readonly RoomJob[];
  readonly problem: WorkProblem;
  /** The first day of the plan. */
  readonly day: number;
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

/**
 * The work of a room from a day on.
 * @param known the last day whose entries count; what was done on the first day of the plan is taken off that day
 * @param before the days another plan had for a duty
 */
export function roomWork(
  logbook: Logbook,
  day: number,
  days: number,
  known: number,
  before?: (duty: Duty) => readonly number[] | undefined,
): RoomWork {
  const { book } = logbook;
  const times = actTimes(logbook, known);
  const all = book.stations
    .flatMap((station) => dutiesOn(logbook.ledgerOf(station), [station], known))
    .filter(({ duty }) => duty.form.when === "every");
  const jobOf = (due: DueDuty): RoomJob => {
    const at = placeOf(book, due.station);
    return {
      due,
      at,
      act: actAt(book, due.duty, at),
      intervalDays: Math.round(due.duty.form.periodDays),
      litres: dutyLitres(book, due.duty),
      time: times(due.duty),
      isVisit: handsIn.has(due.duty.kind) && at.body >= 0,
    };
  };
  const jobs = all.filter(({ due }) => Number.isFinite(due)).map(jobOf);
  const done = all.filter(({ last }) => Math.floor(last) === day).map(jobOf);
  const open = dayOf(book, done);
  return {
    jobs,
    day,
    doneTanks: visitedBy(done),
    problem: {
      days: Array.from({ length: days }, (_, at) => open(day + at, at === 0)),
      ...(before === undefined ? {} : { daysBefore: days - 1 }),
      jobs: jobs.map((job): RecurringJob => {
        const planned = before?.(job.due.duty);
        return {
          place: job.isVisit ? job.at.id : -1,
          intervalDays: job.intervalDays,
          due: job.due.due - day,
          uses: usesOf(job),
          ...(planned === undefined ? {} : { before: planned.map((each) => each - day) }),
        };
      }),
    },
  };
}

/** Litres and minutes; what is not known does not bind. */
export const usesOf = ({ litres, time }: RoomJob): readonly [number, number] => [
  litres?.low ?? 0,
  Number.isNaN(time.minutes) ? 0 : time.minutes,
];

const visitedBy = (jobs: readonly RoomJob[]): number =>
  new Set(jobs.filter(({ isVisit }) => isVisit).map(({ at }) => at.id)).size;

/** What a day holds; the first has the less the more was done on it already. */
function dayOf(
  { capacity, absences }: Book,
  done: readonly RoomJob[],
): (day: number, isFirst: boolean) => WorkDay {
  const orInfinite = (value: number): number => (Number.isNaN(value) ? Number.POSITIVE_INFINITY : value);
  const used = done.map(usesOf);
  const visited = visitedBy(done);
  return (day, isFirst) => {
    const left = (value: number, off: number): number => Math.max(0, orInfinite(value) - (isFirst ? off : 0));
    return {
      isOpen: !absences.some(({ from, until }) => from <= day && day <= until),
      places: left(capacity.tanks, visited),
      resources: [capacity.litres, capacity.minutes].map((value, at) =>
        left(
          value,
          used.reduce((sum, uses) => sum + uses[at]!, 0),
        ),
      ),
    };
  };
}

/**
 * What a plan made yesterday morning had: made anew from the log up to the evening before, so that nothing is to be kept. Only that day's
 * own plan is, and not what it followed itself. A duty that has slipped since, or was done on another day, has none: its days are gone.
 */
export function yesterdaysPlan(
  logbook: Logbook,
  day: number,
  days: number,
): (duty: Duty) => readonly number[] | undefined {
  const yesterday = day - 1;
  const { jobs, problem } = roomWork(logbook, yesterday, days, yesterday - 1);
  const plan = planWork(problem);
  const byDuty = new Map(
    jobs.map(({ due: { duty } }, at) => [duty, plan.days[at]!.map((each) => each + yesterday)]),
  );
  return (duty) => {
    const planned = byDuty.get(duty);
    const done = Math.floor(dutyOn(logbook.ledgerOf(duty.station), duty, day).last);
    const isKept = done >= yesterday ? planned?.includes(done) : !planned?.includes(yesterday);
    return isKept === true ? planned : undefined;
  };
}
