import { isoOf, spokenDay } from "../book/dates.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import type { DayCapacity } from "../room/capacity.ts";
import type { HandClass } from "../room/hand-order.ts";
import { type PlannedWork, type RoomPlan, roomPlan } from "../room/planner/plan.ts";
import type { Job } from "../room/planner/work.ts";
import { known } from "./card-parts.ts";
import { moveText } from "./move-words.ts";
import { verdictText } from "./plan-fit.ts";
import { nearnessText } from "./plan-report.ts";

/** The plan of the coming days as plain data, for the board. */

export interface PlanCard {
  /** The first day, as ISO 8601. */
  readonly day: string;
  /** Whether the room fits its keeper on average, and the sentence that says so, with by how much it does not. */
  readonly fits: boolean;
  readonly fit: string;
  /** How near the plan is to the least waiting there can be: a sentence. */
  readonly nearness: string;
  readonly days: readonly PlanCardDay[];
}

export interface PlanCardDay {
  /** ISO 8601, and as it is said. */
  readonly day: string;
  readonly text: string;
  /** The reason of an absence, perhaps empty; null on a day with work. */
  readonly away: string | null;
  /** In the order of hands: from the clean to the dirty. */
  readonly stops: readonly PlanCardStop[];
  /** Tanks and systems with hands in the water, and those of the first day on which a duty was done already. */
  readonly tanks: number;
  readonly doneTanks: number;
  /** New water, the least and the most that will do. */
  readonly litres: { readonly low: number; readonly high: number };
  /** Of what is known. */
  readonly minutes: number;
  /** What the day holds; null where nothing binds. */
  readonly holds: {
    readonly tanks: number | null;
    readonly litres: number | null;
    readonly minutes: number | null;
  };
  /** What someone else does, as nobody works on the day. */
  readonly covered: readonly PlanCardJob[];
  /** Due, and not done when the day ends. */
  readonly owed: readonly PlanCardJob[];
}

export interface PlanCardStop {
  /** The name of the tank, the system or the room. */
  readonly at: string;
  readonly title: string;
  readonly stage: HandClass;
  readonly work: readonly PlanCardWork[];
}

export interface PlanCardJob {
  readonly at: string;
  /** As it is written when it is done, without the target. */
  readonly act: string;
}

export interface PlanCardWork extends PlanCardJob {
  /** Days past due when it is done; below 0 early. */
  readonly late: number;
  readonly litres: { readonly low: number; readonly high: number } | null;
  readonly minutes: number | null;
  /** It has a day of its own, which no plan moves: a dose, a packing. */
  readonly isFixed: boolean;
  /** The plan of yesterday had it on another day: which, in words; empty where it was not moved. */
  readonly moved: string;
  /** Why it was moved, as far as the problem tells; empty where it was not, or from no day. */
  readonly why: string;
}

/** @param day of the world outside; @param days how many are shown */
export function planCard({ logbook }: CheckedLogbook, day: number, days: number): PlanCard {
  return planCardOf(roomPlan(logbook, logbook.today(day), days));
}

export function planCardOf(plan: RoomPlan): PlanCard {
  return {
    day: isoOf(plan.day),
    fits: plan.fit.demands.every(({ fixes }) => fixes.length === 0),
    fit: verdictText(plan),
    nearness: nearnessText(plan),
    days: plan.days.map(({ day, away, stops, covered, tanks, litres, minutes, holds, owed }) => ({
      day: isoOf(day),
      text: spokenDay(day, plan.day),
      away: away ?? null,
      stops: stops.map(({ at, stage, work }) => ({
        at: at.name,
        title: at.title,
        stage,
        work: work.map((each) => workOf(each, plan.day)),
      })),
      tanks,
      doneTanks: day === plan.day ? plan.doneTanks : 0,
      litres,
      minutes,
      holds: heldBy(holds),
      covered: covered.map(({ job }) => jobOf(job)),
      owed: owed.map(jobOf),
    })),
  };
}

const heldBy = ({ tanks, litres, minutes }: DayCapacity): PlanCardDay["holds"] => ({
  tanks: known(tanks),
  litres: known(litres),
  minutes: known(minutes),
});

const jobOf = ({ at, act }: Job): PlanCardJob => ({ at: at.name, act });

const workOf = ({ job, late, isMoved, movedFrom, why }: PlannedWork, today: number): PlanCardWork => ({
  ...jobOf(job),
  late,
  litres: job.litres ?? null,
  minutes: known(job.time.minutes),
  isFixed: job.isFixed,
  moved: !isMoved
    ? ""
    : Number.isNaN(movedFrom)
      ? "once more than planned"
      : `from ${spokenDay(movedFrom, today)}`,
  why: moveText({ why, movedFrom }, today),
});
