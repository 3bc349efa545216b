import { expect } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import type { Finding } from "../../language/checks/finding.ts";

/**
 * Logs that carry their expectations. A comment line `#   ^^^ code` marks the part of the line above that raises a finding;
 * `#^^^` marks from column 0. The marks are comments, so the log stays what it is.
 */
export interface Expected {
  readonly line: number;
  readonly start: number;
  readonly end: number;
  readonly code: string;
}

export function expectedFindings(text: string): Expected[] {
  const expected: Expected[] = [];
  const lines = text.split("\n");
  let subject = -1;
  lines.forEach((line, at) => {
    const mark = /^#( *)(\^+) +([a-z-]+\/[a-z-]+)\s*$/.exec(line);
    if (mark === null) {
      subject = at;
      return;
    }
    // A mark that begins in column 0 or 1 marks from column 0: the comment sign stands in its way.
    const begin = mark[1] === "" ? 0 : 1 + mark[1]!.length;
    const end = mark[1] === "" ? mark[2]!.length + 1 : begin + mark[2]!.length;
    expected.push({ line: subject, start: begin, end, code: mark[3]! });
  });
  return expected;
}

/** Files parted by lines `--- name ---`; without one the text is `log.tank`. */
export function filesOf(text: string): Map<string, string> {
  const files = new Map<string, string>();
  let name = "log.tank";
  let lines: string[] = [];
  for (const line of text.split("\n")) {
    const head = /^--- (\S+) ---$/.exec(line);
    if (head === null) {
      lines.push(line);
      continue;
    }
    if (lines.join("").trim() !== "") files.set(name, lines.join("\n"));
    name = head[1]!;
    lines = [];
  }
  files.set(name, lines.join("\n"));
  return files;
}

/** A logbook of one or more files. Today is the day of the last entry, unless another is given. */
export function logbookOf(text: string): CheckedLogbook {
  const logbook = new CheckedLogbook();
  for (const [path, content] of filesOf(text)) logbook.set(path, content);
  return logbook;
}

export function lastDay(logbook: CheckedLogbook): number {
  logbook.refresh();
  return logbook.logbook.dayGroups.at(-1)?.day ?? dayOf("2026-03-01");
}

/** The findings of a log, as of its last day. */
export function findingsOf(text: string, today?: string): Finding[] {
  const logbook = logbookOf(text);
  return logbook.findings(today === undefined ? lastDay(logbook) : dayOf(today));
}

/** A finding in the form of an expectation. */
export function shown(finding: Finding): Expected & { message: string } {
  const text = finding.block.file.text;
  const offset = finding.block.start + finding.start;
  const before = text.slice(0, offset).split("\n");
  const line = before.length - 1;
  const start = before.at(-1)!.length;
  return {
    line,
    start,
    end: start + (finding.end - finding.start),
    code: finding.code,
    message: finding.message,
  };
}

/**
 * A log with its own findings marked in it: the lines of the log, and below each line a mark for each of its findings. What a test
 * holds against the log as it was written, so that what is not marked shows too.
 * @param families the first parts of codes to show, all if none is named
 */
export function withMarks(text: string, ...families: string[]): string {
  const shownMarks = new Map<number, string[]>();
  for (const finding of findingsOf(text)) {
    if (families.length > 0 && !families.includes(finding.code.split("/")[0]!)) continue;
    const { line, start, end, code } = shown(finding);
    const mark =
      start === 0
        ? `#${"^".repeat(end - 1)} ${code}`
        : `#${" ".repeat(start - 1)}${"^".repeat(end - start)} ${code}`;
    shownMarks.set(line, [...(shownMarks.get(line) ?? []), mark]);
  }
  return text
    .split("\n")
    .flatMap((line, at) => (isMark(line) ? [] : [line, ...(shownMarks.get(at) ?? [])]))
    .join("\n");
}

const isMark = (line: string): boolean => /^#( *)(\^+) +([a-z-]+\/[a-z-]+)\s*$/.test(line);

/** Holds a log against its marks: every mark is a finding at that place, every finding is marked. */
export function expectMarks(text: string, ...families: string[]): void {
  expect(withMarks(text, ...families)).toBe(text);
}
