import { isoOf } from "../../book/dates.ts";
import { moveText } from "../../features/move-words.ts";
import { fixText, verdictText } from "../../features/plan-fit.ts";
import { nearnessText } from "../../features/plan-report.ts";
import type { Fix } from "../../room/planner/fit.ts";
import type { PlannedWork, RoomPlan } from "../../room/planner/plan.ts";
import type { Job } from "../../room/planner/work.ts";
import type { Opened } from "../open.ts";
import type { PlanReport } from "../schema.ts";

type LogbookPlan = PlanReport["logbooks"][number];

/** A plan in the form of `--json`. */
export function planOf({ folder, checked }: Opened, plan: RoomPlan): LogbookPlan {
  const { day, doneTanks, fit, tooLarge, days, daysLate, cost, bound, isBest, moved } = plan;
  return {
    folder,
    title: checked.book.title,
    day: isoOf(day),
    verdict: verdictText(plan),
    nearness: nearnessText(plan),
    fits: fit.demands.every(({ fixes }) => fixes.length === 0),
    allTimes: known(fit.allTimes),
    demands: fit.demands.map(({ of, perDay, capacity, over, unknown, sparedDays, fixes }) => ({
      of,
      perDay,
      capacity: known(capacity),
      over: known(over),
      overAWeek: known(over * 7),
      sparedDays: known(sparedDays),
      unknown,
      fixes: fixes.map((fix) => ({
        is: fix.is,
        at: fix.is === "intervals of" ? fix.at.name : null,
        weekday: fix.is === "no day off" ? fix.weekday : null,
        value: fixValue(fix),
        text: fixText(of, fix),
      })),
    })),
    tooLarge: tooLarge.map(jobOf),
    doneTanks,
    days: days.map(({ day: each, away, tanks, litres, minutes, holds, stops, covered, owed }) => ({
      day: isoOf(each),
      away: away !== undefined,
      reason: away ?? "",
      tanks,
      litres,
      minutes,
      holds: {
        tanks: known(holds.tanks),
        litres: known(holds.litres),
        minutes: known(holds.minutes),
      },
      covered: covered.map(({ job }) => jobOf(job)),
      stops: stops.map(({ at, stage, work }) => ({ at: at.name, stage, work: work.map(workOf) })),
      owed: owed.map(jobOf),
    })),
    daysLate,
    cost,
    bound,
    isBest,
    moved: moved.map((work) => ({
      ...jobOf(work.job),
      day: isoOf(work.day),
      from: Number.isNaN(work.movedFrom) ? null : isoOf(work.movedFrom),
      why: moveText(work, day),
    })),
  };
}

const known = (value: number): number | null => (Number.isFinite(value) ? value : null);
function fixValue(fix: Fix): number {
  switch (fix.is) {
    case "capacity":
      return fix.needed;
    case "one day":
      return fix.more;
    case "no day off":
      return fix.adds;
    default:
      return fix.times;
  }
}

const jobOf = ({ at, of, act, intervalDays, isFixed }: Job): LogbookPlan["tooLarge"][number] => ({
  at: at.name,
  of: of.name,
  act,
  every: known(intervalDays),
  isFixed,
});

const workOf = ({
  job,
  late,
}: PlannedWork): LogbookPlan["days"][number]["stops"][number]["work"][number] => ({
  ...jobOf(job),
  late,
  litres: job.litres ?? null,
  minutes: known(job.time.minutes),
  minutesBy: job.time.by,
});
