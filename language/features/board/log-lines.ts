import type { Book } from "../../book/book.ts";
import { isoOf } from "../../book/dates.ts";
import { kindNumber, kindOf } from "../../book/entries/registry.ts";
import { linesOf } from "../../book/entry.ts";
import { type Block, Source } from "../../book/source.ts";
import { CheckedLogbook } from "../../checks/check.ts";
import { markOf, unsettledWords } from "../../room/unsettled.ts";
import { laidEdits, type TextEdit } from "../actions/laid-edits.ts";
import { startDay } from "../actions/start-day.ts";
import { blocksOn } from "../definition.ts";
import { nameOfFile } from "../files-in-text.ts";
import { lineEndOf, linesOfText, ownEnd } from "../lines.ts";
import type { View } from "../view.ts";

/** Whole lines into today, and out again. */

export interface LinesLogged {
  readonly path: string;
  readonly isNewFile: boolean;
  readonly edits: readonly TextEdit[];
  /** The lines as they are written. */
  readonly written: readonly string[];
  /** The day was begun for them: what was put before its head, perhaps nothing. */
  readonly begun?: string;
}

export interface LinesRefused {
  /** By the place of the line among those given. Nothing is written while one is refused. */
  readonly refused: readonly { readonly line: number; readonly message: string }[];
}

/** The edits that write lines into today's block, which is begun if it is not. @param lines without indentation: `dam change 30 %` */
export function logLines(view: View, lines: readonly string[]): LinesLogged | LinesRefused {
  view.checked.refresh();
  const { logbook, book } = view.checked;
  const today = logbook.today(view.worldDay);
  const refused = refusals(view, lines, today);
  if (refused.length > 0) return { refused };
  const written = groupLines(book, lines);
  const indented = written.map((line) => `  ${line}`);
  const block = blocksOn(view, today).at(-1);
  if (block === undefined) {
    const { path, isNewFile, edits, before } = startDay(view, today, indented);
    const unsettled = unsettledRefusal(view, path, lines);
    if (unsettled !== undefined) return unsettled;
    return { path, isNewFile, edits, written, begun: before };
  }
  const { file } = block;
  const unsettled = unsettledRefusal(view, file.path, lines);
  if (unsettled !== undefined) return unsettled;
  const end = block.start + ownEnd(block.text);
  const text = indented.map((line) => `${lineEndOf(file.text)}${line}`).join("");
  const edits = laidEdits(file, [{ start: end, end, text }]);
  return { path: file.path, isNewFile: false, edits, written };
}

/** Lines that cannot be entries of today, each with its first error, as it would be told in the log: tried beside the definitions alone. */
function refusals(view: View, lines: readonly string[], today: number): { line: number; message: string }[] {
  const broken = lines.flatMap((line, at) => {
    const message = isOneLine(line)
      ? line.trim() === ""
        ? "this is no entry"
        : ""
      : "this is more than one line";
    return message === "" ? [] : [{ line: at, message }];
  });
  if (broken.length > 0) return broken;
  const head = `${isoOf(today)}\n`;
  const indented = lines.map((line) => `  ${line.trim()}\n`);
  const source = new Source("today.tank", head + indented.join(""));
  const trial = new CheckedLogbook();
  const blocks = [...view.checked.logbook.sources.values()].flatMap((each) => each.blocks);
  const definitions = blocks.filter(({ kind }) => kind === "definition").map(({ text }) => text);
  trial.put(new Source("definitions.tank", definitions.join("\n")));
  trial.put(source);
  const errors = trial.findingsIn(source, today).filter(({ severity }) => severity === "error");
  const [block, ...more] = source.blocks;
  const entries = block === undefined ? [] : linesOf(block).filter((line) => line.is === "entry");
  let start = head.length;
  return indented.flatMap((line, at) => {
    const [from, to] = [start, start + line.length];
    start = to;
    const own = errors.find((found) => found.start >= from && found.start < to);
    if (own !== undefined) return [{ line: at, message: own.message }];
    const isEntry = more.length === 0 && entries.some((entry) => entry.start >= from && entry.start < to);
    return isEntry ? [] : [{ line: at, message: "this is no entry" }];
  });
}

const isOneLine = (line: string): boolean => !/[\r\n\u2028\u2029\0]/.test(line);

/** Lines that say the same of every tank of a group are one line of the group; of what is measured or seen each tank keeps its own. */
function groupLines(book: Book, lines: readonly string[]): string[] {
  const left = lines.map((line) => {
    const [, target = "", words = ""] = /^\s*(\S+)\s*(.*?)\s*$/.exec(line) ?? [];
    return { target, words };
  });
  const groups = [...book.groups].sort(([, a], [, b]) => b.tanks.length - a.tanks.length);
  for (const words of new Set(left.map((line) => line.words))) {
    const kind = kindNumber(words.split(/\s/, 1)[0]!);
    if (kind === undefined || kindOf(kind).usual !== true) continue;
    for (const [name, { tanks }] of groups) {
      const places = tanks.map((tank) =>
        left.findIndex((line) => line.words === words && line.target === tank.name),
      );
      if (places.length < 2 || places.includes(-1)) continue;
      for (const at of places) left[at] = { target: "", words: "" };
      left[Math.min(...places)] = { target: `@${name}`, words };
    }
  }
  return left.filter(({ target }) => target !== "").map(({ target, words }) => `${target} ${words}`);
}

/**
 * The edits that take lines out of today again, of like ones the last; refused where one is not there as it was written.
 * @param begun what `logLines` put before the head of a day that it began: where nothing else stands under it, the head goes as well
 */
export function takeBackLines(
  view: View,
  lines: readonly string[],
  begun?: string,
): LinesLogged | LinesRefused {
  view.checked.refresh();
  const today = view.checked.logbook.today(view.worldDay);
  const blocks = blocksOn(view, today);
  const taken = new Map<string, TextEdit[]>();
  const refused: { line: number; message: string }[] = [];
  lines.forEach((line, index) => {
    for (const block of [...blocks].reverse()) {
      const { path } = block.file;
      const edits = taken.get(path) ?? [];
      const found = linesOfText(block.text)
        .map(({ start, end, text }) => ({ start: block.start + start, end: block.start + end, text }))
        .findLast(
          ({ start, text }) =>
            spaced(text) === spaced(line) && !edits.some((edit) => edit.start <= start && start < edit.end),
        );
      if (found === undefined) continue;
      taken.set(path, [...edits, wholeLine(block.file.text, found.start, found.end)]);
      return;
    }
    refused.push({ line: index, message: "this line was changed since, or is gone" });
  });
  if (refused.length > 0) return { refused };
  const [[path, edits] = [view.source.path, []], ...others] = taken;
  // Today in several files is rare, and one edit is of one file: the rest is left where it is.
  if (others.length > 0)
    return { refused: [{ line: 0, message: "these lines stand in several files; take them out there" }] };
  const unsettled = unsettledRefusal(view, path, lines);
  if (unsettled !== undefined) return unsettled;
  const whole = begun === undefined ? undefined : wholeDay(blocks, path, edits, begun);
  const inOrder = whole === undefined ? [...edits].sort((a, b) => a.start - b.start) : [whole];
  return { path, isNewFile: false, edits: inOrder, written: lines };
}

/** Between the marks of a merge nobody knows whether a line would be kept: all of them are refused. */
function unsettledRefusal(
  { checked }: View,
  path: string,
  lines: readonly string[],
): LinesRefused | undefined {
  const file = checked.logbook.sources.get(path);
  if (file === undefined || markOf(file) === undefined) return undefined;
  const message = unsettledWords(nameOfFile(path));
  return { refused: lines.map((_, line) => ({ line, message })) };
}

/** The block of a day of which some edits leave nothing but its head, with what was put before it. */
function wholeDay(
  blocks: readonly Block[],
  path: string,
  edits: readonly TextEdit[],
  begun: string,
): TextEdit | undefined {
  for (const { file, start, text } of blocks) {
    const end = start + text.length;
    if (file.path !== path || !edits.some((edit) => edit.start >= start && edit.end <= end)) continue;
    let left = "";
    let from = start;
    for (const edit of [...edits].sort((a, b) => a.start - b.start)) {
      left += file.text.slice(from, edit.start);
      from = edit.end;
    }
    left += file.text.slice(from, end);
    if (!/^\d{4}-\d{2}-\d{2}\s*$/.test(left)) return undefined;
    const isBefore = file.text.slice(0, start).endsWith(begun);
    return { start: isBefore ? start - begun.length : start, end, text: "" };
  }
  return undefined;
}

const spaced = (text: string): string => text.trim().replace(/\s+/g, " ");

/** A line with the line end before it. */
function wholeLine(text: string, start: number, end: number): TextEdit {
  const before = /(\r\n|\n|\r)$/.exec(text.slice(Math.max(0, start - 2), start))?.[0].length ?? 0;
  return { start: start - before, end, text: "" };
}
