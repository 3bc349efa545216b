import { planReport } from "../../features/plan-report.ts";
import { roomPlan } from "../../room/planner/plan.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { open } from "../open.ts";
import { planOf } from "../plan/report.ts";
import { printJson, tellUnread } from "../report.ts";
import { formOption, writeReport } from "../report-form.ts";
import type { PlanReport } from "../schema.ts";
import { Status, Trouble } from "../world.ts";

export const plan: Command = {
  word: "plan",
  takes: "[DIR|-]",
  summary: "the plan of the next 14 days within what one keeper can do, and whether the room fits at all",
  about:
    "Puts all duties that come at an interval on the coming days: each tank at its own, within the tanks, litres and minutes that the room states as " +
    "capacity, with the least waiting, and before days away what can be done before them. Says plainly when the room does not fit, by how much, " +
    "and what would do. Minutes are stated (takes clean 20 min), or learned from entries with a time of day.",
  options: [
    jsonOption,
    asOfOption,
    formOption,
    { name: "days", value: "N", doc: "so many days, 1 to 60 (14)" },
  ],
  examples: [
    ["standpipe plan samples/cellar", "the sample room"],
    ["standpipe plan --days 7 --format html > week.html", "a week, to print"],
  ],
  run: runPlan,
};

async function runPlan(call: Call): Promise<Status> {
  const { world } = call;
  // Read first: what is wrong with the call is told before files are read.
  const days = daysOf(call.value("days"));
  const { logbooks, unread } = await open(call, call.words);
  const plans = logbooks.map((opened) => {
    const { logbook } = opened.checked;
    return { opened, plan: roomPlan(logbook, logbook.today(world.day), days) };
  });
  if (call.has("json")) {
    const report: PlanReport = {
      standpipe: 1,
      command: "plan",
      logbooks: plans.map((each) => planOf(each.opened, each.plan)),
      unread: [...unread],
    };
    printJson(world, report);
  } else {
    writeReport(
      call,
      planReport(
        plans.map((each) => ({
          title: each.opened.checked.book.title || (plans.length > 1 ? each.opened.folder : ""),
          plan: each.plan,
        })),
      ),
    );
    tellUnread(call, unread);
  }
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}

const mostDays = 60;

function daysOf(text: string | undefined): number {
  if (text === undefined) return 14;
  const days = /^\d+$/.test(text) ? Number(text) : 0;
  if (days < 1 || days > mostDays) throw new Trouble(`--days takes 1 to ${mostDays} days, not “${text}”`);
  return days;
}
