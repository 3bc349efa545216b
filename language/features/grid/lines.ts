import type { Block, Source } from "../../book/source.ts";
import { nextLine } from "../../syntax/blocks.ts";
import { spaces } from "../../syntax/spaces.ts";
import { withoutLineEnd } from "../layout.ts";
import { sameLines } from "./same-lines.ts";

/**
 * The lines of a block that are rows: all that are not blank. Where they begin is found by a scan, without reading them, and kept until the
 * block is edited; a line that an edit leaves as it was keeps its number.
 */
export interface BlockLines {
  readonly text: string;
  /** Offsets in the block. */
  readonly starts: Int32Array;
  /** By line its number; undefined while the numbers are those of the lines. */
  readonly ids: Int32Array | undefined;
  /** A number that no line of the block has had. */
  readonly fresh: number;
}

/** How many blocks were looked through: tests hold the work of an edit against it. */
export const lineCounts = { scanned: 0, cut: 0 };

const kept = new WeakMap<Block, BlockLines>();

export function linesOfBlock(block: Block): BlockLines {
  serialOf(block);
  const known = kept.get(block);
  const { text } = block;
  if (known !== undefined && known.text === text) return known;
  lineCounts.scanned++;
  const starts = startsIn(text);
  const made: BlockLines =
    known === undefined
      ? { text, starts, ids: undefined, fresh: starts.length }
      : { text, starts, ...renumbered(known, text, starts) };
  kept.set(block, made);
  return made;
}

/** Lines that are the same keep their numbers. */
function renumbered(
  known: BlockLines,
  text: string,
  starts: Int32Array,
): { readonly ids: Int32Array; readonly fresh: number } {
  const was = sameLines(
    Array.from(known.starts, (start) => lineText(known.text, start)),
    Array.from(starts, (start) => lineText(text, start)),
  );
  let { fresh } = known;
  const ids = was.map((at) => (at < 0 ? fresh++ : known.ids === undefined ? at : known.ids[at]!));
  return { ids, fresh };
}

/** Where the lines begin that are not blank. */
export function startsIn(text: string): Int32Array {
  const starts: number[] = [];
  for (let start = 0; start < text.length; ) {
    const next = nextLine(text, start);
    if (!isBlank(text, start, next)) starts.push(start);
    start = next;
  }
  return Int32Array.from(starts);
}

const seen = new RegExp(`[^${spaces}\\r\\n]`, "g");

function isBlank(text: string, start: number, end: number): boolean {
  // Most lines have a letter behind two spaces.
  for (let at = start; at < end; at++) {
    const code = text.charCodeAt(at);
    if (code > 0x20 && code < 0x80) return false;
    if (code !== 0x20) break;
  }
  seen.lastIndex = start;
  const found = seen.exec(text);
  return found === null || found.index >= end;
}

/** A line without its line end. */
export function lineText(text: string, start: number): string {
  return text.slice(start, lineEnd(text, start));
}

/** Where the line that begins at an offset ends, without its line end. */
export function lineEnd(text: string, start: number): number {
  return withoutLineEnd(text, start, nextLine(text, start));
}

export const idOfLine = ({ ids }: BlockLines, at: number): number => (ids === undefined ? at : ids[at]!);

/** The line with a number; -1 if it is gone. */
export function lineOfId({ ids, starts }: BlockLines, id: number): number {
  if (ids === undefined) return id < starts.length ? id : -1;
  return ids.indexOf(id);
}

const serials = new WeakMap<Block, number>();
const blocks = new Map<number, WeakRef<Block>>();
let lastSerial = 0;
/** By file and head the blocks that were seen. */
const seenBlocks = new WeakMap<Source, Map<string, Block[]>>();

/** What a block is called from outside. One that was read anew beside another that is new goes on being called as it was. */
export function serialOf(block: Block): number {
  const known = serials.get(block);
  if (known !== undefined) return known;
  const { file } = block;
  let byHead = seenBlocks.get(file);
  if (byHead === undefined) {
    byHead = new Map();
    seenBlocks.set(file, byHead);
  }
  const head = nameOf(block);
  const alike = byHead.get(head) ?? [];
  const before = alike.find((each) => !isThere(each));
  byHead.set(head, [...alike.filter(isThere), block]);
  const serial = (before === undefined ? undefined : serials.get(before)) ?? ++lastSerial;
  const lines = before === undefined ? undefined : kept.get(before);
  // The lines are numbered on from what they were.
  if (lines !== undefined) kept.set(block, lines);
  serials.set(block, serial);
  blocks.set(serial, new WeakRef(block));
  return serial;
}

/** By what a block is known though its head says more or less. */
function nameOf({ kind, definition, text }: Block): string {
  if (definition !== undefined) return `${definition.word} ${definition.name}`;
  const head = lineText(text, 0).replace("\ufeff", "");
  return kind === "day" ? head.slice(0, 10) : head;
}

const isThere = (block: Block): boolean => block.file.blockAt(block.start) === block;

/** The block that is called so; undefined where it is gone. */
export function blockOfSerial(serial: number): Block | undefined {
  const block = blocks.get(serial)?.deref();
  if (block === undefined) {
    blocks.delete(serial);
    return undefined;
  }
  return isThere(block) ? block : undefined;
}
