import { kindNumber } from "../../book/entries/registry.ts";
import type { Block } from "../../book/source.ts";
import { cutBlocks, nextLine } from "../../syntax/blocks.ts";
import { lineEndOf } from "../lines.ts";
import { cutBlock, cutText, type LineCut } from "./cut.ts";
import { type Refusal, refused, type TextEdit } from "./grid-model.ts";
import { lineEnd, linesOfBlock, startsIn } from "./lines.ts";

/** What is done to the lines of one block, and the edits it comes to. */
export class BlockChange {
  readonly block: Block;
  /** By line (its place among those that are rows) what it says now, and what it said. */
  readonly changed = new Map<number, string>();
  readonly deleted = new Set<number>();
  /** Lines that come behind a line; none stands before the head. */
  readonly inserted = new Map<number, string[]>();

  constructor(block: Block) {
    this.block = block;
  }

  lineText(at: number): string {
    const start = linesOfBlock(this.block).starts[at]!;
    return this.changed.get(at) ?? this.block.text.slice(start, lineEnd(this.block.text, start));
  }

  insert(behind: number, lines: readonly string[]): void {
    this.inserted.set(behind, [...(this.inserted.get(behind) ?? []), ...lines]);
  }

  get isWholeGone(): boolean {
    return this.deleted.size === linesOfBlock(this.block).starts.length && this.inserted.size === 0;
  }

  /** In order, offsets in the block. */
  edits(): TextEdit[] {
    const { text } = this.block;
    if (this.isWholeGone) return [wholeBlock(this.block)];
    const { starts } = linesOfBlock(this.block);
    const eol = lineEndOf(this.block.file.text);
    const edits: TextEdit[] = [];
    for (let at = 0; at < starts.length; at++) {
      const start = starts[at]!;
      const end = lineEnd(text, start);
      const next = nextLine(text, start);
      const lines = this.inserted.get(at);
      const isOpen = next === end;
      if (this.deleted.has(at)) {
        edits.push({ start, end: next, text: "" });
      } else {
        const said = this.changed.get(at);
        if (said !== undefined) edits.push(...difference(text.slice(start, end), said, start));
      }
      if (lines !== undefined) {
        const put = isOpen
          ? lines.map((line) => `${eol}${line}`).join("")
          : lines.map((line) => `${line}${eol}`).join("");
        edits.push({ start: next, end: next, text: put });
      }
    }
    const made = merged(edits);
    const [first] = made;
    // What is left of a block that lost its head stands behind the blank line before it, not behind two.
    const above = this.block.file.text.slice(0, this.block.start);
    if (
      this.deleted.has(0) &&
      first?.start === 0 &&
      first.text === "" &&
      /(?:^|[\r\n])[ \t]*$/.test(above.replace(/(?:\r\n|\n|\r)$/, ""))
    ) {
      const blank = /^(?:[ \t]*(?:\r\n|\n|\r))*/.exec(text.slice(first.end))![0].length;
      made[0] = { ...first, end: first.end + blank };
    }
    const last = made.at(-1);
    // The last line of a file may have no end of its own: that of the line above goes.
    const isOpenEnd = last?.end === text.length && !/[\r\n]$/.test(text);
    if (isOpenEnd && last.text === "" && last.start > 0 && /[\r\n]/.test(text[last.start - 1]!))
      made[made.length - 1] = { ...last, start: endBefore(text, last.start) };
    return made;
  }

  /** Why the other lines would not read as they did; undefined where they do. */
  broken(): Refusal | undefined {
    const { block } = this;
    if (this.isWholeGone) return undefined;
    const made = applied(block.text, this.edits());
    const spans = cutBlocks(made, (word) => kindNumber(word) !== undefined);
    if (block.kind !== "day" || Number.isNaN(block.day)) {
      return spans.length <= 1 ? undefined : refused("this would cut the lines below off from their block");
    }
    if (spans.length !== 1 || spans[0]!.kind !== "day")
      return refused("this would cut the lines below off from their day");
    const was = cutBlock(block);
    const now = cutText(made, startsIn(made), true);
    let next = 0;
    for (let at = 0; at < was.length; at++) {
      const isTouched = this.changed.has(at);
      if (!this.deleted.has(at)) {
        const line = now[next++];
        if (line === undefined) return refused("this would change the lines below");
        if (!isTouched && line.is !== was[at]!.is) return refused(wouldChange);
        if (!isTouched && line.is === "row" && heads(line) !== heads(was[at]!) && !this.hasNewHeads(was, at))
          return refused(wouldChange);
      }
      for (const text of this.inserted.get(at) ?? []) {
        const line = now[next++];
        if (line === undefined || made.slice(line.start, line.end) !== text) return refused(wouldChange);
      }
    }
    return next === now.length ? undefined : refused("this would change the lines below");
  }

  /** Whether the heads above a row are changed on purpose. */
  private hasNewHeads(lines: readonly LineCut[], at: number): boolean {
    for (let above = at; above >= 0; above--)
      if (lines[above]!.is === "sheet") return this.changed.has(above) && !this.deleted.has(above);
    return false;
  }
}

const wouldChange = "the lines below would be read as something else";
const heads = ({ columns = [] }: { readonly columns?: readonly { readonly word: string }[] }): string =>
  columns.map(({ word }) => word).join(" ");

/** A block with all that stands below it; of the last of a file the blank line above it instead. */
function wholeBlock({ text, start, file }: Block): TextEdit {
  const whole = { start: 0, end: text.length, text: "" };
  const isLast = start + text.length === file.text.length;
  const above = /(?:\r\n|\n|\r)[ \t]*(\r\n|\n|\r)$/.exec(file.text.slice(0, start));
  const isParted = /(?:\r\n|\n|\r)[ \t]*(?:\r\n|\n|\r)$/.test(text);
  return isLast && above !== null && !isParted ? { ...whole, start: -above[1]!.length } : whole;
}

/** Where the line above the one at an offset ends. */
function endBefore(text: string, start: number): number {
  return start > 1 && text[start - 1] === "\n" && text[start - 2] === "\r" ? start - 2 : start - 1;
}

/** Edits that touch are one. */
function merged(edits: readonly TextEdit[]): TextEdit[] {
  const made: TextEdit[] = [];
  for (const edit of edits) {
    const last = made.at(-1);
    if (last !== undefined && edit.start <= last.end)
      made[made.length - 1] = {
        start: Math.min(last.start, edit.start),
        end: Math.max(last.end, edit.end),
        text: last.text + edit.text,
      };
    else made.push(edit);
  }
  return made;
}

/** The text after edits that are in order. */
export function applied(text: string, edits: readonly TextEdit[]): string {
  let at = 0;
  let made = "";
  for (const edit of edits) {
    made += text.slice(at, edit.start) + edit.text;
    at = edit.end;
  }
  return made + text.slice(at);
}

/** The one stretch in which two lines differ. */
export function difference(before: string, after: string, from: number): TextEdit[] {
  if (before === after) return [];
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start < most && before[start] === after[start]) start++;
  let end = 0;
  while (end < most - start && before.at(-1 - end) === after.at(-1 - end)) end++;
  // A pair of surrogates is one letter.
  if (isPair(before, start) || isPair(after, start)) start--;
  if (isPair(before, before.length - end) || isPair(after, after.length - end)) end--;
  return [
    { start: from + start, end: from + before.length - end, text: after.slice(start, after.length - end) },
  ];
}

function isPair(text: string, at: number): boolean {
  const [left, right] = [text.charCodeAt(at - 1), text.charCodeAt(at)];
  return left >= 0xd800 && left < 0xdc00 && right >= 0xdc00 && right < 0xe000;
}
