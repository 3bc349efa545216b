import { Kind, kindOf } from "../../book/entries/registry.ts";
import { linesOf as readLines } from "../../book/entry.ts";
import { Col, intsPerRow, kindOfRow } from "../../book/facts.ts";
import { nameOf, wordOf } from "../../book/interner.ts";
import { findParameter } from "../../book/parameters.ts";
import type { Block } from "../../book/source.ts";
import { Piece } from "../../syntax/pieces.ts";
import type { Span, View } from "../view.ts";
import { cutBlock, type LineCut } from "./cut.ts";
import { minutesOf } from "./entries.ts";
import type { ColumnId } from "./grid-model.ts";

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
}

export const testColumn = (parameter: string): ColumnId => `test ${parameter}`;
export const countColumn = (species: string): ColumnId => `count ${species}`;

const kept = new WeakMap<Block, { readonly text: string; readonly lines: readonly RoundLine[] }>();

/** The lines of a day that tell of a round. Kept until the block is edited. */
export function roundLines(block: Block): readonly RoundLine[] {
  const known = kept.get(block);
  if (known !== undefined && known.text === block.text) return known.lines;
  const lines = cutBlock(block);
  const minutes = minutesOf(lines);
  const made = lines.flatMap((line, at): RoundLine[] => {
    const values = valuesOf(block, line);
    if (values === undefined || line.tank === undefined) return [];
    const target = block.text.slice(line.tank.start, line.tank.end);
    return [{ block, at, line, target, minute: minutes[at]!, values }];
  });
  kept.set(block, { text: block.text, lines: made });
  return made;
}

function valuesOf(block: Block, line: LineCut): readonly RoundValue[] | undefined {
  if (line.is === "row") return cellsOf(block, line);
  if (line.is !== "entry" || (line.kind !== Kind.test && line.kind !== Kind.count)) return undefined;
  const entry = readLines(block).find(({ start }) => start === line.first);
  if (entry?.is !== "entry") return undefined;
  const isTest = entry.kind === kindOf(Kind.test);
  const slice = ({ start, end }: Span): string => block.text.slice(start, end);
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
        at: { start: value.start, end: value.end },
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
    return [{ column: columnOf(column), text, at: piece, fixed: "" }];
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
  const groups = groupsWith(view, station);
  const lines = blocks
    .flatMap(roundLines)
    .filter(({ target }) => target === station || groups.has(target))
    .sort((a, b) => a.minute - b.minute);
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

/**
 * Whether a block may tell of a round of a place: by its facts, without reading its lines. What a line says that does not count is a problem
 * of its block; the rows of a sheet may hold nothing but dashes.
 */
export function mayTellOf(view: View, station: string): (block: Block) => boolean {
  const name = nameOf(station);
  const groups = groupsWith(view, station);
  return ({ facts, text }) => {
    if (facts.problems.length > 0 && text.includes(station)) return true;
    const { ints, count } = facts;
    for (let row = 0; row < count; row++) {
      const kind = kindOfRow(facts, row);
      if (kind !== Kind.test && kind !== Kind.count) continue;
      const target = ints[row * intsPerRow + Col.target]!;
      if (target === name || (target < 0 && groups.has(`@${wordOf(~target)}`))) return true;
    }
    return hasSheet.test(text) && text.includes(station);
  };
}

const hasSheet = /^[^\S\r\n]+(?:\d{1,2}:\d{2}[^\S\r\n]+)?sheet(?![\w-])/m;

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
