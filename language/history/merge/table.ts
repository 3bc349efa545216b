import { type LogLine, linesOfBlock } from "../log-lines.ts";
import { nameAndUnit, type Round } from "./columns.ts";
import type { Line } from "./outcome.ts";

/** The rows of a round as they stand under the heads of the merged one. */

/** A row, with all its cells: what it says where it is shorter than the heads. */
export interface SeenRow extends LogLine {
  readonly whole: LogLine;
}

/** A row with a cell under each head, whatever is written. */
export const wholeOf = (line: LogLine): LogLine => ("whole" in line ? (line as SeenRow).whole : line);

const none = "-";
const seen = (whole: LogLine, text: string): SeenRow => ({ ...whole, text, whole });

export class Table {
  private readonly columns: readonly string[];
  /** Columns that are left out: their cells stand under another head of the same name, with their unit. */
  private readonly moved: ReadonlyMap<string, string>;
  private readonly head: LogLine;
  private readonly offsets: readonly number[];

  /** @param head the heads as they are written in the merged round */
  constructor(columns: readonly string[], moved: ReadonlyMap<string, string>, head: string) {
    this.columns = columns;
    this.moved = moved;
    this.head = readRound([head])[0]!;
    this.offsets = partsOf(this.head).map(({ start }) => start - this.head.start);
  }

  /** The rows of a version under these heads; undefined where they cannot be written so. */
  see({ rows }: Round, heads: readonly string[]): LogLine[] | undefined {
    const laid = rows.map((row) => this.laid(row, heads));
    const read = readRound([this.head.text, ...laid.map((text, at) => text ?? rows[at]!.text)]).slice(1);
    const isRead = rows.every((row, at) => laid[at] === undefined || this.isWhole(read[at]!, row));
    if (read.length !== rows.length || laid.includes("") || !isRead) return undefined;
    return rows.map((row, at): LogLine => {
      if (laid[at] === undefined) return row;
      const whole = { ...read[at]!, eol: row.eol, minute: row.minute };
      const isKept = this.isInPlace(row, heads);
      return isKept ? seen(whole, row.text) : whole;
    });
  }

  /** A row with a cell under each head; undefined for what has no cells or all of them, empty where two cells fall together. */
  private laid(row: LogLine, heads: readonly string[]): string | undefined {
    if (row.kind !== "row" || row.station === "") return undefined;
    if (row.facts.length === this.columns.length && this.isInPlace(row, heads)) return undefined;
    const cells = this.columns.map(() => none);
    for (const { about, value } of row.facts) {
      const goal = this.moved.get(about);
      const at = this.columns.indexOf(goal ?? about);
      if (at < 0 || value === none) continue;
      if (cells[at] !== none) return "";
      cells[at] = goal === undefined ? value : withUnit(value, nameAndUnit(about)[1]);
    }
    const indent = /^\s*/.exec(row.text)![0];
    let text = indent + [row.time, row.station].filter((each) => each !== "").join(" ");
    cells.forEach((cell, at) => {
      text = text.padEnd(Math.max(this.offsets[at]!, text.length + 2)) + cell;
    });
    const behind = [row.note, row.comment].filter((each) => each !== "").map((each) => `  ${each}`);
    return text + behind.join("");
  }

  /** Whether the cells stand under their heads as they are. */
  private isInPlace({ facts }: LogLine, heads: readonly string[]): boolean {
    return facts.every((_, at) => heads[at] === this.columns[at]);
  }

  private isWhole(read: LogLine, row: LogLine): boolean {
    const isUnder = read.facts.every(({ about }, at) => about === this.columns[at]);
    return (
      read.kind === "row" && read.facts.length === this.columns.length && isUnder && row.note === read.note
    );
  }
}

/** The heads of both versions, laid out above the widest of what stands below. @param head of which they take the place */
export function laidHead(head: LogLine, columns: readonly string[], rounds: readonly Round[]): string {
  const parts = partsOf(head);
  const word = head.parts.find(({ about }) => about === "word")!;
  const lead = head.text.slice(0, word.end - head.start);
  const rows = rounds.flatMap((round) => round.rows);
  const names = rows.map(({ text, time, station }) => {
    const indent = text.length - text.trimStart().length;
    return indent + (time === "" ? 0 : time.length + 1) + station.length;
  });
  let text = lead;
  let at = Math.max(lead.length, ...names) + 2;
  for (const column of columns) {
    text = text.padEnd(at) + column;
    const cells = rows.flatMap(({ facts }) => facts.filter(({ about }) => about === column));
    at += Math.max(column.length, ...cells.map(({ value }) => value.length)) + 2;
  }
  return text + head.text.slice(parts.at(-1)!.end - head.start);
}

/** Under which heads of lines that were written something stands. */
export function filledColumns(head: string, lines: readonly Line[]): ReadonlySet<string> {
  const read = readRound([head, ...lines.map(({ text }) => text)]);
  const cells = read.flatMap(({ facts }) => facts);
  return new Set(cells.filter(({ value }) => value !== none).map(({ about }) => about));
}

const partsOf = (head: LogLine) => head.parts.filter(({ about }) => about === "column");

export function withUnit(value: string, unit: string): string {
  return /^[<>~]?[\d.]+$/.test(value) ? `${value} ${unit}` : value;
}

/** The lines of a round, without the head of its day. @param texts its heads first */
export function readRound(texts: readonly string[]): LogLine[] {
  const text = ["2000-01-01", ...texts].join("\n");
  return linesOfBlock({ kind: "day", text, name: "2000-01-01" }).slice(1);
}
