import { Kind, kindOf } from "../../book/entries/registry.ts";
import { type EntryLine, linesOf as readLines } from "../../book/entry.ts";
import { Col, intsPerRow, kindOfRow } from "../../book/facts.ts";
import { findParameter } from "../../book/parameters.ts";
import type { Block } from "../../book/source.ts";
import { UNITS } from "../../quantity/units.ts";
import { Piece } from "../../syntax/pieces.ts";
import { spaces } from "../../syntax/spaces.ts";
import type { Span, View } from "../view.ts";
import { cutBlock, type LineCut } from "./cut.ts";
import { cutState, entryOf, lineState, moved } from "./edit-line.ts";
import { minutesOf } from "./entries.ts";
import type { ColumnId } from "./grid-model.ts";
import { linesOfBlock, lineText } from "./lines.ts";

/** What is read and counted in a day block, line by line: in tests, in counts, in the rows of sheets. */

export interface RoundLine {
  readonly block: Block;
  /** Its place among the lines of its block that are rows. */
  readonly at: number;
  readonly line: LineCut;
  /** A name, or `@` and that of a group. */
  readonly target: string;
  readonly minute: number;
  readonly values: readonly RoundValue[];
}

export interface RoundValue {
  readonly column: ColumnId;
  /** As it stands, and where in the block; `-` in a sheet is empty. */
  readonly text: string;
  readonly at: Span;
  readonly fixed: string;
  /** The symbol of the unit that its head states. */
  readonly unit?: string;
}

export const testColumn = (parameter: string): ColumnId => `test ${parameter}`;
export const countColumn = (species: string): ColumnId => `count ${species}`;

const kept = new WeakMap<
  Block,
  { readonly text: string; readonly byPlace: Map<string, readonly RoundLine[]> }
>();

/** A place with all that an entry of it may have as its target. */
export interface RoundPlace {
  readonly name: string;
  readonly targets: ReadonlySet<string>;
  readonly key: string;
}

export function roundPlace(view: View, name: string): RoundPlace {
  const targets = new Set([name, ...groupsWith(view, name)]);
  return { name, targets, key: [...targets].join(" ") };
}

/**
 * The lines of a day that tell of a round of some targets. Kept until the block is edited. Where there is no sheet only the lines that may be of
 * them are read: a log of ten years has one in a hundred.
 */
export function roundLines(block: Block, { targets, key }: RoundPlace): readonly RoundLine[] {
  let known = kept.get(block);
  if (known === undefined || known.text !== block.text) {
    known = { text: block.text, byPlace: new Map() };
    kept.set(block, known);
  }
  const lines = known.byPlace.get(key);
  if (lines !== undefined) return lines;
  const made = hasSheet.test(block.text) ? linesRead(block, targets) : linesFound(block, targets);
  known.byPlace.set(key, made);
  return made;
}

function linesRead(block: Block, targets: ReadonlySet<string>): RoundLine[] {
  const lines = cutBlock(block);
  const minutes = minutesOf(lines);
  return lines.flatMap((line, at): RoundLine[] => {
    if (line.tank === undefined) return [];
    const target = block.text.slice(line.tank.start, line.tank.end);
    const values = targets.has(target) ? valuesOf(block, line) : undefined;
    return values === undefined ? [] : [{ block, at, line, target, minute: minutes[at]!, values }];
  });
}

function linesFound(block: Block, targets: ReadonlySet<string>): RoundLine[] {
  const { text } = block;
  const { starts } = linesOfBlock(block);
  const found: RoundLine[] = [];
  for (let at = 1; at < starts.length; at++) {
    const start = starts[at]!;
    beginsRound.lastIndex = start;
    const target = beginsRound.exec(text)?.[1];
    if (target === undefined || !targets.has(target)) continue;
    const alone = lineState(lineText(text, start), "entry");
    const line = moved(cutState(alone), start);
    const values = valuesOf(block, line, entryOf(alone), start - alone.above.length);
    if (values !== undefined)
      found.push({ block, at, line, target, minute: minuteAt(text, starts, at), values });
  }
  return found;
}

const beginsRound = new RegExp(
  `[${spaces}]*(?:\\d{1,2}:\\d{2}[${spaces}]+)?(@?[^\\s@#",;]+)[${spaces}]+(?:test|count)(?![^${spaces}\\r\\n])`,
  "y",
);

/** The time at which a line counts: its own, or that of the nearest above that has one. */
function minuteAt(text: string, starts: Int32Array, at: number): number {
  for (let line = at; line > 0; line--) {
    const time = /^\s*(\d{1,2}):(\d{2})(?![\d:])/.exec(text.slice(starts[line]!, starts[line]! + 40));
    const minute = time === null ? Number.NaN : Number(time[1]) * 60 + Number(time[2]);
    if (minute < 1440 && Number(time![2]) < 60) return minute;
  }
  return 0;
}

/** @param shift from the offsets of the entry to those of the block */
function valuesOf(
  block: Block,
  line: LineCut,
  read?: EntryLine,
  shift = 0,
): readonly RoundValue[] | undefined {
  if (line.is === "row") return cellsOf(block, line);
  if (line.is !== "entry" || (line.kind !== Kind.test && line.kind !== Kind.count)) return undefined;
  const entry = read ?? readLines(block).find(({ start }) => start === line.first);
  if (entry?.is !== "entry") return undefined;
  const isTest = entry.kind === kindOf(Kind.test);
  const slice = ({ start, end }: Span): string => block.text.slice(start + shift, end + shift);
  return entry.items.flatMap((item): RoundValue[] => {
    const subject = isTest ? item.parameter : item.species;
    const value = isTest ? item.reading : item.animals;
    if (subject === undefined || value === undefined) return [];
    const name = isTest ? (findParameter(subject.text)?.name ?? subject.text) : subject.text;
    // A count of a lot alone is none of the species, and 12 of 14 are two numbers.
    const lot = item.lot === undefined ? "" : ` ${item.lot.text}`;
    const isTwo = item.expected !== undefined;
    return [
      {
        column: isTest ? testColumn(name) : `${countColumn(name)}${lot}`,
        text: slice(isTwo ? { start: value.start, end: item.expected!.end } : value),
        at: { start: value.start + shift, end: value.end + shift },
        fixed: isTwo ? "two numbers stand here: edit them among the entries" : "",
      },
    ];
  });
}

function cellsOf(block: Block, { pieces = [], columns = [] }: LineCut): RoundValue[] {
  return pieces.flatMap((piece, at): RoundValue[] => {
    const column = columns[at];
    if (column === undefined) return [];
    const text = piece.kind === Piece.dash ? "" : block.text.slice(piece.start, piece.end);
    const unit = UNITS[column.unit]?.symbol;
    return [
      {
        column: columnOf(column),
        text,
        at: piece,
        fixed: "",
        ...(unit === undefined || text === "" ? {} : { unit }),
      },
    ];
  });
}

/** What the column of a sheet is called. */
export function columnOf({ parameter, word }: NonNullable<LineCut["columns"]>[number]): ColumnId {
  return parameter === undefined ? countColumn(word) : testColumn(parameter.name);
}

/** A round of a tank: what lines of one time, or of one day, tell together. */
export interface Round {
  readonly id: string;
  readonly station: string;
  readonly day: number;
  readonly minute: number;
  readonly lines: readonly RoundLine[];
  readonly values: ReadonlyMap<ColumnId, RoundValue & { readonly of: RoundLine }>;
}

/** Rounds of one place in some blocks of one day. @param by whether lines of different times are rounds of their own */
export function roundsOf(
  view: View,
  station: string,
  day: number,
  blocks: readonly Block[],
  by: "minute" | "day",
): Round[] {
  const place = roundPlace(view, station);
  return roundsAt(place, day, blocks, by);
}

/** The same for a place that is known. */
export function roundsAt(
  place: RoundPlace,
  day: number,
  blocks: readonly Block[],
  by: "minute" | "day",
): Round[] {
  const station = place.name;
  const lines = blocks.flatMap((block) => roundLines(block, place)).sort((a, b) => a.minute - b.minute);
  const rounds: (Round & { values: Map<ColumnId, RoundValue & { of: RoundLine }>; lines: RoundLine[] })[] =
    [];
  for (const line of lines) {
    const wanted = by === "minute" ? line.minute : -1;
    const same = rounds.filter(({ minute }) => by === "day" || minute === line.minute);
    let round = same.find(({ values }) => line.values.every(({ column }) => !values.has(column)));
    if (round === undefined) {
      round = {
        id: roundId(station, day, wanted, same.length),
        station,
        day,
        minute: line.minute,
        lines: [],
        values: new Map(),
      };
      rounds.push(round);
    }
    round.lines.push(line);
    const isShared = line.target.startsWith("@");
    for (const value of line.values) {
      // One parameter twice in a line: the first is shown, the other stands among the entries.
      if (round.values.has(value.column)) continue;
      const why = isShared ? `written for all of ${line.target}: edit it among the entries` : value.fixed;
      round.values.set(value.column, { ...value, fixed: why, of: line });
    }
  }
  return rounds;
}

/** @param minute -1 for all of a day */
export function roundId(station: string, day: number, minute: number, at: number): string {
  return `round ${station} ${day} ${minute} ${at}`;
}

/** The groups that a tank is in, as targets. */
function groupsWith({ checked }: View, station: string): ReadonlySet<string> {
  const found = new Set<string>();
  for (const [name, { tanks }] of checked.book.groups)
    if (tanks.some((tank) => tank.name === station)) found.add(`@${name}`);
  return found;
}

export const hasSheet = /^[^\S\r\n]*(?:\d{1,2}:\d{2}[^\S\r\n]+)?sheet(?![\w-])/m;

/** The row of facts that a value of a line is; -1 where it does not count. */
export function factOf({ block: { facts } }: RoundLine, { at }: RoundValue, kind: number): number {
  for (let row = 0; row < facts.count; row++) {
    if (kindOfRow(facts, row) !== kind) continue;
    const start = facts.ints[row * intsPerRow + Col.start]!;
    const end = facts.ints[row * intsPerRow + Col.end]!;
    if (at.start >= start && at.end <= end) return row;
  }
  return -1;
}
