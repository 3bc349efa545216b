import { isoOf } from "../../book/dates.ts";
import { fixText, verdictText } from "../../features/plan-report.ts";
import type { Fix } from "../../room/planner/fit.ts";
import type { PlannedWork, RoomPlan } from "../../room/planner/plan.ts";
import type { RoomJob } from "../../room/planner/work.ts";
import type { Opened } from "../open.ts";
import type { PlanReport } from "../schema.ts";

type LogbookPlan = PlanReport["logbooks"][number];

/** A plan in the form of `--json`. */
export function planOf({ folder, checked }: Opened, plan: RoomPlan): LogbookPlan {
  const { day, doneTanks, demands, tooLarge, days, daysLate, cost, bound, isBest, moved } = plan;
  return {
    folder,
    title: checked.book.title,
    day: isoOf(day),
    verdict: verdictText(plan),
    fits: demands.every(({ fixes }) => fixes.length === 0),
    demands: demands.map(({ of, perDay, capacity, over, unknown, fixes }) => ({
      of,
      perDay,
      capacity: known(capacity),
      over: known(over),
      unknown,
      fixes: fixes.map((fix) => ({
        is: fix.is,
        at: fix.is === "intervals of" ? fix.at.name : null,
        value: fixValue(fix),
        text: fixText(of, fix),
      })),
    })),
    tooLarge: tooLarge.map(jobOf),
    doneTanks,
    days: days.map(({ day: each, away, tanks, litres, minutes, stops, owed }) => ({
      day: isoOf(each),
      away: away !== undefined,
      reason: away ?? "",
      tanks,
      litres,
      minutes,
      stops: stops.map(({ at, stage, work }) => ({ at: at.name, stage, work: work.map(workOf) })),
      owed: owed.map(jobOf),
    })),
    daysLate,
    cost,
    bound,
    isBest,
    moved: moved.map(({ job, day: each }) => ({ ...jobOf(job), day: isoOf(each) })),
  };
}

const known = (value: number): number | null => (Number.isFinite(value) ? value : null);
const fixValue = (fix: Fix): number => (fix.is === "capacity" ? fix.needed : fix.times);

const jobOf = ({ at, due, act, intervalDays }: RoomJob): LogbookPlan["tooLarge"][number] => ({
  at: at.name,
  of: due.station.name,
  act,
  every: intervalDays,
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
