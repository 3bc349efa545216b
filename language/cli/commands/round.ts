import { roundSheet } from "../../features/round-sheet.ts";
import { roundSheetHtml } from "../../features/round-sheet-html.ts";
import { roundReport } from "../../features/round-sheet-report.ts";
import { asOfOption, type Call, type Command } from "../command.ts";
import { open } from "../open.ts";
import { tellUnread } from "../report.ts";
import { formOption, writeReport } from "../report-form.ts";
import { Status } from "../world.ts";

export const round: Command = {
  word: "round",
  takes: "[DIR|-]",
  summary: "the round sheet: what is due, to tick off, and boxes for tests, to print for wet hands",
  about:
    "Every tank in the order of hands, the clean before the sick: what is due today to tick, an empty box beside the last value of what is " +
    "tested there, what forbids shipping or copper, lines for deaths and notes. As html it prints on one side of A4 for 24 tanks. " +
    "The editor's command “Type In Round Sheet” has the same heads and rows to type it in.",
  options: [asOfOption, formOption],
  examples: [
    ["standpipe round --format html > round.html", "to print"],
    ["standpipe round samples/cellar", "the sample room on its last day"],
  ],
  run: runRound,
};

async function runRound(call: Call): Promise<Status> {
  const { world } = call;
  const { logbooks, unread } = await open(call, call.words);
  const sheets = logbooks.map(({ checked, folder }) => {
    const sheet = roundSheet(checked, world.day);
    return sheet.title === "" && logbooks.length > 1 ? { ...sheet, title: folder } : sheet;
  });
  if (call.value("format") === "html") world.out.write(roundSheetHtml(sheets));
  else writeReport(call, roundReport(sheets));
  tellUnread(call, unread);
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}
