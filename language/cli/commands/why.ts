import { existsSync } from "node:fs";
import { resolve, sep } from "node:path";
import { doseCaution } from "../../checks/doses.ts";
import { why as answer, whyAt } from "../../features/why.ts";
import type { Why } from "../../room/why.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { extension } from "../files.ts";
import { type Opened, open } from "../open.ts";
import { offsetAt } from "../place.ts";
import { printJson, tellUnread, whyReport } from "../report.ts";
import type { WhyReport } from "../schema.ts";
import { listed } from "../text.ts";
import { whyLines } from "../why-print.ts";
import { Status, Trouble } from "../world.ts";

export const why: Command = {
  word: "why",
  takes: "QUESTION ... [DIR|-]",
  summary: "where a figure comes from: the entries and the formula behind it",
  about:
    "A question is a tank and a parameter, a remedy, a species, words of a duty, or “volume”; “finding”, a code and a tank; or a place " +
    "of a log as check prints it.",
  options: [jsonOption, asOfOption],
  examples: [
    [
      "standpipe why ford nitrate samples/cellar",
      "the level now, what is produced a day, when it meets its limit",
    ],
    ["standpipe why q1 praziquantel samples/cellar", "what of a remedy is in the water"],
    ["standpipe why b2 gertrudae samples/cellar", "how many there are by the book"],
    ["standpipe why dam change samples/cellar", "when a duty is due"],
    ["standpipe why finding dose/above-ceiling h1 samples/cellar", "a finding"],
    ["standpipe why samples/cellar/2026-03.tank:587:26", "what stands at a place"],
  ],
  run: runWhy,
};

async function runWhy(call: Call): Promise<Status> {
  const { words, world, terminal } = call;
  const place = words.length === 1 ? placeOf(words[0]!) : undefined;
  const path = place?.path ?? pathAmong(call);
  const question = place === undefined ? words.slice(0, path === undefined ? undefined : -1) : words;
  if (question.length === 0)
    throw new Trouble("why what? standpipe why TANK FIGURE [DIR], as in: standpipe why dam nitrate");
  const { logbooks, unread } = await open(call, path === undefined ? [] : [path]);
  const { opened, tree } =
    place === undefined ? answerIn(logbooks, question, world.day) : answerAt(logbooks, place, world.day);
  const report: WhyReport = {
    standpipe: 1,
    command: "why",
    question: question.join(" "),
    folder: opened.folder,
    answer: whyReport(opened, tree),
    ...(isAboutRemedy(opened, tree) ? { caution: doseCaution } : {}),
    unread: [...unread],
  };
  if (call.has("json")) printJson(world, report);
  else {
    const lines = whyLines(report.answer, terminal);
    if (report.caution !== undefined) lines.push(terminal.paint("faint", report.caution));
    world.out.write(`${lines.join("\n")}\n`);
    tellUnread(call, unread);
  }
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}

/** The last word, if it is a path: it looks like one, or there is such a folder and the question goes without it. */
function pathAmong({ words, world }: Call): string | undefined {
  const last = words.at(-1);
  if (last === undefined) return undefined;
  const isCode = words.length === 2 && words[0] === "finding";
  const looksSo =
    /^(\.|\.\.|-)$/.test(last) || last.includes("/") || last.includes(sep) || last.endsWith(extension);
  if (looksSo && !isCode) return last;
  return words.length > 2 && existsSync(resolve(world.cwd, last)) ? last : undefined;
}

interface AskedPlace {
  readonly path: string;
  readonly line: number;
  readonly column: number;
}

/** `2026-03.tank:12:3`, as findings are shown. */
function placeOf(word: string): AskedPlace | undefined {
  const [, path, line, column = "1"] = /^(.*\.tank):(\d+)(?::(\d+))?$/s.exec(word) ?? [];
  return path === undefined ? undefined : { path, line: Number(line), column: Number(column) };
}

interface Answered {
  readonly opened: Opened;
  readonly tree: Why;
}

/** Throws `Trouble` where no logbook can answer, or several can. */
function answerIn(logbooks: readonly Opened[], question: readonly string[], day: number): Answered {
  const answers = logbooks.map((opened) => ({
    opened,
    said: answer(opened.checked, day, question.join(" ")),
  }));
  const found = answers.flatMap(({ opened, said }) => ("why" in said ? [{ opened, tree: said.why }] : []));
  if (found.length > 1)
    throw new Trouble(
      `several logbooks can answer; name one of ${listed(found.map(({ opened }) => opened.folder))}`,
    );
  if (found[0] !== undefined) return found[0];
  const [first] = answers;
  throw new Trouble(
    first !== undefined && "problem" in first.said ? first.said.problem : "there is no answer",
  );
}

function answerAt(logbooks: readonly Opened[], { path, line, column }: AskedPlace, day: number): Answered {
  for (const opened of logbooks) {
    const source = [...opened.checked.logbook.sources.values()].find((each) => opened.isAsked(each));
    const offset = source === undefined ? undefined : offsetAt(source, line, column);
    if (source === undefined || offset === undefined) continue;
    const tree = whyAt({ checked: opened.checked, source, worldDay: day }, offset);
    if (tree !== undefined) return { opened, tree };
  }
  throw new Trouble(`${path}:${line}:${column}: nothing is computed here`);
}

const isAboutRemedy = ({ checked }: Opened, tree: Why): boolean =>
  tree.what.split(/[^\p{L}\p{N}_-]+/u).some((word) => checked.book.remedy(word) !== undefined);
