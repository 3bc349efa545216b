import { didYouMean, nearest } from "../quantity/nearest.ts";
import { definitionWords, nextLine } from "../syntax/blocks.ts";
import { conflictMark } from "../syntax/conflict-mark.ts";
import { conflictProblem } from "./broken-line.ts";
import { dayOf } from "./dates.ts";
import type { Problem } from "./problem.ts";

/** What is wrong with the heads of blocks, and with what has none. */

export function readDayHead(text: string, lead: number): { day: number; problems: Problem[] } {
  const iso = text.slice(lead, lead + 10);
  const day = dayOf(iso);
  const problems: Problem[] = [];
  const problem = (
    code: string,
    start: number,
    end: number,
    message: string,
    mends: Problem["mends"] = [],
  ): void => {
    problems.push({ code, start, end, message, counts: false, mends });
  };
  if (Number.isNaN(day)) problem("syntax/date", lead, lead + 10, `there is no day ${iso}`);
  const rest = /^[^\S\r\n]*("(?:[^"\\\r\n]|\\[^\r\n])*")?[^\S\r\n]*(?:(?<!\S)#[^\r\n]*)?([^\r\n]*)/.exec(
    text.slice(lead + 10),
  );
  const junk = rest?.[2] ?? "";
  if (junk.trim() !== "") {
    const start = lead + 10 + rest![0].length - junk.length;
    const end = start + junk.trimEnd().length;
    const mends = quoted(junk, start, end);
    problem("syntax/head", start, end, "after a date comes a text in quotes, or nothing", mends);
  }
  return { day, problems };
}

/** Puts words in quotes, where they are no more than words. */
function quoted(words: string, start: number, end: number): Problem["mends"] {
  if (!/^[^",;\\#]+$/.test(words)) return [];
  return [{ title: "Put it in quotes", text: '"', start, end: start, also: { text: '"', start: end, end } }];
}

/** Marks that stand in no block of their own. */
export function marksIn(text: string): Problem[] {
  const problems: Problem[] = [];
  for (let line = 0; line < text.length; line = nextLine(text, line)) {
    const lead = text.charCodeAt(line) === 0xfeff ? 1 : 0;
    const mark = conflictMark(text.slice(line + lead, nextLine(text, line)));
    if (mark !== undefined) problems.push(conflictProblem(line + lead, mark));
  }
  return problems;
}

export function brokenHead(text: string): Problem {
  const lead = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  const line = text.slice(lead, nextLine(text, 0)).trimEnd();
  const first = /^\S+/.exec(line)?.[0] ?? line;
  const end = lead + first.length;
  const problem = (code: string, message: string, mends: Problem["mends"] = []): Problem => ({
    code,
    start: lead,
    end,
    message,
    counts: false,
    mends,
  });
  const date = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(first);
  if (date !== null) {
    const iso = `${date[1]}-${date[2]!.padStart(2, "0")}-${date[3]!.padStart(2, "0")}`;
    const mends = Number.isNaN(dayOf(iso)) ? [] : [{ title: `Write “${iso}”`, text: iso }];
    return problem("syntax/date", "a date is written year, month, day: 2026-03-01", mends);
  }
  if (/^\d/.test(first)) return problem("syntax/date", `“${first}” is no date; a day begins like 2026-03-01`);
  const near = nearest(first, definitionWords);
  return problem(
    "syntax/head",
    `“${first}” opens no block${near.length > 0 ? didYouMean(near) : "; a block begins with a date or a definition, and what belongs to it is indented"}`,
    near.map((word) => ({ title: `Write “${word}”`, text: word })),
  );
}

/** Indented lines before the first block: they belong to nothing, and one finding says so. */
export function looseLines(text: string): Problem[] {
  for (let line = 0; line < text.length; line = nextLine(text, line)) {
    const match = /^[^\S\r\n]*([^\s#][^\r\n]*)/.exec(text.slice(line, nextLine(text, line)));
    if (match === null) continue;
    const start = line + match[0].length - match[1]!.length;
    return [
      {
        code: "syntax/loose",
        start,
        end: start + match[1]!.trimEnd().length,
        message: "this line belongs to no block: a date or a definition is missing above it",
        counts: false,
        mends: [],
      },
    ];
  }
  return [];
}
