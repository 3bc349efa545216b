import { resolve } from "node:path";
import { laboratoryReport } from "../../features/laboratory/report.ts";
import { laboratorySheet, type SheetChoice, sheetChoices } from "../../features/laboratory-sheet.ts";
import { either, nearest } from "../../quantity/nearest.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { kindOfPath, shownFrom } from "../files.ts";
import { keeperOf, keeperOption } from "../keeper-file.ts";
import { type Opened, open } from "../open.ts";
import { printJson, tellUnread } from "../report.ts";
import { formOption, writeReport } from "../report-form.ts";
import type { SheetReport } from "../schema.ts";
import { sheetReportOf } from "../sheet/report.ts";
import { listed } from "../text.ts";
import { Status, Trouble } from "../world.ts";

export const sheet: Command = {
  word: "sheet",
  takes: "[DIR|-] [CASE]",
  summary: "laboratory sheet: all that a laboratory asks of a case, to send with the samples",
  about:
    "Tank and system, animals and where they came from, signs and losses by day, the water of the last 30 and 90 days, feeding, what was done " +
    "before, treatments with what was in the water, samples and their way. What the log does not say is named as such and left to fill in by " +
    "hand. Without a case it is the one that is open. Of a closed case it is as of the day it was closed.",
  options: [jsonOption, asOfOption, formOption, keeperOption],
  examples: [
    [
      "standpipe sheet samples/cellar flukes-1 --as-of 2025-10-20",
      "the sheet of a case, as it stood on a day",
    ],
    ["standpipe sheet --format html --keeper me.json > sheet.html", "the open case, as a page to print"],
  ],
  run: runSheet,
};

async function runSheet(call: Call): Promise<Status> {
  const { world } = call;
  // Read first: what is wrong with the call is told before files are read.
  const keeper = keeperOf(call);
  const { paths, name } = wordsOf(call);
  const { logbooks, unread } = await open(call, paths);
  const { opened, choice } = chosen(logbooks, name, world.day);
  const made = laboratorySheet(opened.checked, choice.name, keeper, world.day);
  if (made === undefined) throw new Trouble(`${choice.name} is not open on this day`);
  if (call.has("json")) {
    const report: SheetReport = {
      standpipe: 1,
      command: "sheet",
      ...sheetReportOf(opened, made, world.day),
      unread: [...unread],
    };
    printJson(world, report);
  } else {
    writeReport(call, laboratoryReport(made));
    tellUnread(call, unread);
  }
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}

/** Which of the words is a folder and which the case: what is there on disk is the folder. */
function wordsOf({ words, world }: Call): { paths: string[]; name: string | undefined } {
  const [first, second, ...others] = words;
  if (others.length > 0) throw new Trouble("one folder and one case: standpipe sheet DIR CASE");
  if (first === undefined) return { paths: [], name: undefined };
  const isThere = (word: string): boolean => word === "-" || isPath(world.cwd, word);
  if (second === undefined)
    return isThere(first) ? { paths: [first], name: undefined } : { paths: [], name: first };
  return !isThere(first) && isThere(second)
    ? { paths: [second], name: first }
    : { paths: [first], name: second };
}

function isPath(cwd: string, word: string): boolean {
  try {
    kindOfPath(resolve(cwd, word), shownFrom(cwd, false));
    return true;
  } catch (error) {
    if (error instanceof Trouble) return false;
    throw error;
  }
}

/** The case that is asked for, else the one that is open. Throws `Trouble` with the cases there are. */
function chosen(
  logbooks: readonly Opened[],
  name: string | undefined,
  worldDay: number,
): { opened: Opened; choice: SheetChoice } {
  const all = logbooks.flatMap((opened) =>
    sheetChoices(opened.checked, worldDay).map((choice) => ({ opened, choice })),
  );
  if (all.length === 0)
    throw new Trouble("no case is known on this day; signs open one: q1 sick praecox 2 of 9 case flukes-1");
  const fitting = all.filter(({ choice }) =>
    name === undefined ? choice.closed === null : choice.name === name,
  );
  const [found, another] = fitting;
  if (found === undefined)
    throw new Trouble(
      notFound(
        all.map(({ choice }) => choice),
        name,
      ),
    );
  if (another === undefined) return found;
  if (name === undefined)
    throw new Trouble(
      `which case? standpipe sheet DIR CASE: open are ${named(fitting.map(({ choice }) => choice))}`,
    );
  throw new Trouble(
    `several logbooks have a case “${name}”; name one of ${listed(fitting.map(({ opened }) => opened.folder))}`,
  );
}

const named = (choices: readonly SheetChoice[]): string => listed(choices.map((choice) => choice.name));

function notFound(choices: readonly SheetChoice[], name: string | undefined): string {
  if (name === undefined) return `no case is open; closed are ${named(choices)}: standpipe sheet DIR CASE`;
  const near = nearest(
    name,
    choices.map((choice) => choice.name),
  );
  return `no case is called “${name}”; ${near.length > 0 ? `did you mean ${either(near)}?` : `there are ${named(choices)}`}`;
}
