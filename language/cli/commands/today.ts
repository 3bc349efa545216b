import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { open } from "../open.ts";
import { printJson, tellUnread } from "../report.ts";
import type { TodayReport } from "../schema.ts";
import { dayText } from "../today/print.ts";
import { dayReport } from "../today/report.ts";
import { Status } from "../world.ts";

export const today: Command = {
  word: "today",
  takes: "[DIR|-]",
  summary: "the report of the day: what is due and late, doses, water, the sick, what is coming",
  about:
    "What there is to do today, in the order of a round that carries nothing from the sick to the healthy; then what there is to know. " +
    "A log that says “as-of last-entry” has its last day as today.",
  options: [jsonOption, asOfOption],
  examples: [
    ["standpipe today samples/cellar", "the sample room on its last day"],
    ["standpipe today --as-of 2026-03-14", "as it was on a day"],
  ],
  run: runToday,
};

async function runToday(call: Call): Promise<Status> {
  const { world, terminal } = call;
  const { logbooks, unread } = await open(call, call.words);
  const days = logbooks.map((opened) => dayReport(opened, world.day));
  if (call.has("json")) {
    const report: TodayReport = { standpipe: 1, command: "today", days, unread: [...unread] };
    printJson(world, report);
  } else {
    world.out.write(days.map((day) => dayText(day, terminal)).join("\n\n"));
    tellUnread(call, unread);
  }
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}
