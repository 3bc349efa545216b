import { kindNumber } from "../../book/entries/registry.ts";
import type { LogBlock, LogLine } from "../log-lines.ts";
import { type LogMatching, type LogText, matchSteps, type Unit, type UnitMatch } from "../match-lines.ts";
import { finish, type Steps } from "../steps.ts";
import { type FileChange, filesChanged } from "./files-changed.ts";
import { type LineMap, lineMap } from "./line-map.ts";
import { type Part, partsOf } from "./parts.ts";

/** What changed between two states of a logbook, as entries and definitions, not as lines. A function of the texts alone. */

export interface Changes {
  /** In the order of the log as it is now; what was removed stands where it stood. */
  readonly list: readonly Change[];
  readonly files: readonly FileChange[];
  readonly counts: ChangeCounts;
  /** Where lines stand now. */
  readonly lines: LineMap;
}

export interface ChangeCounts {
  readonly added: number;
  readonly removed: number;
  readonly corrected: number;
  readonly moved: number;
  /** Lines that say the same, and comments above, at the end of or below a line that are others. */
  readonly comments: number;
  /** Lines of which nothing but white space is another. */
  readonly layout: number;
  /** Lines that say the same in another file, which was not renamed. */
  readonly refiled: number;
}

export type ChangeKind = "added" | "removed" | "corrected" | "moved";

export interface Change {
  readonly is: ChangeKind;
  readonly what:
    | "entry"
    /** The head of a day: the text behind its date. */
    | "day"
    /** The head of a definition: its name and title, the tanks of a group. */
    | "definition"
    | "property"
    /** What cannot be read as an entry or a property: told as it stands. */
    | "line";
  /** As it is written: `dam`, `@rack`, `room`; empty for a definition and a line that names none. */
  readonly station: string;
  /** `tank dam`; empty for what is of a day. */
  readonly definition: string;
  /** The day on which it counts now, of what was removed the day on which it did; NaN for a definition. */
  readonly day: number;
  /** The kind of entry, `sheet` for a row of a round, or of a property its word. */
  readonly word: string;
  readonly before: Side | undefined;
  readonly after: Side | undefined;
  /** What of it is another value; empty for what is new or gone. */
  readonly parts: readonly Part[];
}

/** A line as it is on one side. */
export interface Side {
  readonly path: string;
  /** From 1. */
  readonly number: number;
  /** Offsets in the file, of the line without its white space in front and its comment. */
  readonly start: number;
  readonly end: number;
  /** What it says, its station and time left out: `test nitrate 18 mg/L, pH 7.2`. */
  readonly text: string;
  readonly day: number;
  /** As it is written; empty where none is. */
  readonly time: string;
  /** The word and values of all that it says, for who asks for one. */
  readonly facts: LogLine["facts"];
  readonly station: string;
  readonly definition: string;
}

/** What changed from one state of all files of a logbook to another. A file that has the same text on both sides is not looked at. */
export function changesOf(before: readonly LogText[], after: readonly LogText[]): Changes {
  return finish(changesSteps(before, after));
}

/** The same in pieces. */
export function* changesSteps(before: readonly LogText[], after: readonly LogText[]): Steps<Changes> {
  const was = new Map(before.map(({ path, text }) => [path, text]));
  const same = new Set(after.flatMap(({ path, text }) => (was.get(path) === text ? [path] : [])));
  const isOther = ({ path }: LogText): boolean => !same.has(path);
  const matching = yield* matchSteps(before.filter(isOther), after.filter(isOther));
  yield;
  const files = filesChanged(before, after, matching);
  const lines = lineMap(matching, (path) => same.has(path));
  yield;
  return { ...listOf(matching, files), files, lines };
}

function listOf(
  { units, sameBlocks }: LogMatching,
  files: readonly FileChange[],
): { list: Change[]; counts: ChangeCounts } {
  const list: Change[] = [];
  const counts = { added: 0, removed: 0, corrected: 0, moved: 0, comments: 0, layout: 0, refiled: 0 };
  const renamed = new Map(
    files.flatMap(({ is, path, from }) => (is === "renamed" ? [[from, path] as const] : [])),
  );
  const was = new Set(units.flatMap(({ before }) => (before === undefined ? [] : [blockName(before)])));
  const is = new Set(units.flatMap(({ after }) => (after === undefined ? [] : [blockName(after)])));
  const isRefiled = (from: string, to: string): boolean => from !== to && renamed.get(from) !== to;
  for (const match of units) {
    if (match.is === "same") {
      if (match.isRemarked) counts[remarkOf(match.before, match.after)]++;
      if (match.after.line !== undefined && isRefiled(match.before.block.path, match.after.block.path))
        counts.refiled += Number(isTold(match.after.line));
      continue;
    }
    const change = changeOf(match);
    if (change === undefined) {
      const { before, after } = match;
      // What stands below the last line of a day that is new, or gone, belongs to it.
      const name = blockName((after ?? before)!);
      const isOfBoth = was.has(name) && is.has(name);
      if (before?.line === undefined && after?.line === undefined && isOfBoth)
        counts[remarkOf(before, after)]++;
      continue;
    }
    counts[change.is]++;
    list.push(change);
  }
  for (const { before, after } of sameBlocks)
    if (isRefiled(before.path, after.path)) counts.refiled += linesIn(after);
  return { list, counts };
}

const blockName = ({ block: { kind, name } }: Unit): string => `${kind} ${name}`;

/** Whether a line by itself says something: heads of days and rounds only hold what does. */
const isTold = ({ kind, note }: LogLine): boolean => kind !== "sheet" && (kind !== "head" || note !== "");

/** Lines of a block that say something, without reading them. */
function linesIn({ text, kind }: LogBlock): number {
  const lines = text.split(/\r\n|\r|\n/).filter((line) => /^\s*[^\s#]/.test(line)).length;
  return kind === "day" ? lines - 1 : lines;
}

/** Whether of two units that say the same the comments are others, or nothing but white space. */
function remarkOf(before: Unit | undefined, after: Unit | undefined): "comments" | "layout" {
  return remarks(before) === remarks(after) ? "layout" : "comments";
}

function remarks(unit: Unit | undefined): string {
  if (unit === undefined) return "";
  const found: string[] = [];
  const { line, text, block, start } = unit;
  const above = line === undefined ? text : text.slice(0, block.start + line.start - start);
  for (const each of above.split(/\r\n|\r|\n/)) {
    const comment = each.trim();
    if (comment !== "") found.push(comment);
  }
  if (line !== undefined && line.comment !== "") found.push(line.comment);
  return found.join("\n");
}

/** Undefined for what holds others and says nothing itself: the head of a day or round, what stands below the last line. */
function changeOf({ is, before, after }: Exclude<UnitMatch, { is: "same" }>): Change | undefined {
  const unit = (after ?? before)!;
  const { line, block } = unit;
  if (line === undefined) return undefined;
  const said = line.kind === "head" ? [before?.line?.note, after?.line?.note].some(Boolean) : true;
  if (line.kind === "sheet" || (block.kind === "day" && line.kind === "head" && !said)) return undefined;
  const what = whatOf(line, block);
  const isOfDay = what === "entry" || what === "day" || (what === "line" && block.kind === "day");
  return {
    is,
    what,
    station: what === "day" ? "room" : line.station,
    definition: isOfDay || block.kind !== "definition" ? "" : block.name,
    day: block.day,
    word: line.kind === "row" ? "sheet" : line.word,
    before: before === undefined ? undefined : sideOf(before),
    after: after === undefined ? undefined : sideOf(after),
    parts: before === undefined || after === undefined ? [] : partsOf(before, after),
  };
}

function whatOf({ kind, word }: LogLine, block: LogBlock): Change["what"] {
  if (kind === "head")
    return block.kind === "day" ? "day" : block.kind === "definition" ? "definition" : "line";
  if (kind === "property") return "property";
  if (kind === "row") return "entry";
  return kind === "entry" && kindNumber(word) !== undefined ? "entry" : "line";
}

function sideOf(unit: Unit): Side {
  const { block, number } = unit;
  const line = unit.line!;
  const first = line.text.length - line.text.trimStart().length;
  const bare = line.comment === "" ? line.text : line.text.slice(0, line.text.lastIndexOf(line.comment));
  const start = block.start + line.start + first;
  return {
    path: block.path,
    number,
    start,
    end: Math.max(start, block.start + line.start + bare.trimEnd().length),
    text: textOf(line),
    day: block.day,
    time: line.time,
    facts: line.facts,
    station: line.station,
    definition: block.kind === "definition" ? block.name : "",
  };
}

/** What a line says behind its station; of a row what was read. */
function textOf({ kind, station, content, facts, note }: LogLine): string {
  if (kind === "row") {
    const read = facts.filter(({ value }) => value !== "-").map(({ about, value }) => `${about} ${value}`);
    return ["sheet", [read.join(", "), note].filter(Boolean).join(" ")].filter(Boolean).join(" ");
  }
  return kind === "entry" && content.startsWith(`${station} `) ? content.slice(station.length + 1) : content;
}
