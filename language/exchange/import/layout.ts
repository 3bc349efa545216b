import { type Across, findAcross, headsAcross } from "./across.ts";
import { cellsOf, headCellsOf } from "./cells.ts";
import { type Cut, Cutter, ourMark } from "./cutter.ts";
import { dateInLine } from "./date-line.ts";
import { dateLineOf, hasValues, isHead, isRuler, isUnitsRow, isValue, isWhen } from "./layout-rows.ts";
import { isMissing } from "./number.ts";
import { Refused } from "./refused.ts";

/** How a table is laid out, found from its beginning: delimiter, where the heads stand, where the rows begin. */

export interface Layout {
  /** One letter, or `fixed`. */
  readonly delimiter: string;
  /** Of fixed places, where each column ends. */
  readonly edges: readonly number[];
  /** The line of the heads; 0 where there are none. */
  readonly headLine: number;
  readonly heads: readonly string[];
  /** Of a row of units below the heads; empty where there is none. */
  readonly units: readonly string[];
  /** The lines from the heads to the rows, as they stand: a log in pages has them again on each. */
  readonly top: readonly string[];
  /** The line of the first row. */
  readonly firstLine: number;
  /** Dates that stand on lines of their own: how such a line begins, without the date. */
  readonly dateLine: string | undefined;
  /** Above heads that recur, what each stands below: a tank over its columns. Empty where there is nothing. */
  readonly above: readonly string[];
  /** What stands above the heads, `key : value` or on two lines. */
  readonly preamble: readonly string[];
  /** Where heads are dates: `heads` are then those of the rows that are made of each. */
  readonly across: Across | undefined;
}

const delimiters = ["\t", ";", "|", ","];
const linesLooked = 400;

/** @param text the beginning of the file, whole lines or not */
export function layoutOf(text: string, isWhole: boolean): Layout {
  const first = new Cutter("fixed").cut(text, isWhole).slice(0, linesLooked);
  const tooLong = first.find(({ flaw }) => flaw !== "");
  if (first.every(({ raw }) => raw.trim() === "")) {
    throw new Refused(
      tooLong === undefined ? "nothing stands in this file" : `line ${tooLong.line}: ${tooLong.flaw}`,
    );
  }
  if (first.length === 1 && tooLong !== undefined) throw new Refused(`line ${tooLong.line}: ${tooLong.flaw}`);
  const beginning = first.find(({ raw }) => raw.trim() !== "")!.raw.trimStart();
  if (/^<(?:!doctype|html|\?xml)/i.test(beginning))
    throw new Refused("this is a page of markup, not a table");
  if (/^[[{]/.test(beginning) && /^[[{][\s"{[]*$|^[[{]\s*["{[]/.test(beginning))
    throw new Refused("this is JSON, not a table of rows and columns");
  const stated = /^sep=(.)\W*$/i.exec(first[0]!.raw.trim())?.[1];
  const tried = (stated === undefined ? delimiters : [stated]).map((delimiter) =>
    tryDelimiter(text, isWhole, delimiter),
  );
  const best = tried.reduce((a, b) => (b.score > a.score ? b : a));
  const fixed = stated === undefined ? tryFixed(first) : undefined;
  if (fixed !== undefined && fixed.score > best.score) return placed(fixed);
  if (best.score <= 0)
    throw new Refused(
      "no table: its lines have no columns in common, parted by commas, semicolons, tabs, bars or blanks",
    );
  return placed(best);
}

interface Tried {
  readonly delimiter: string;
  readonly edges: readonly number[];
  readonly rows: readonly {
    readonly line: number;
    readonly raw: string;
    readonly cells: readonly string[];
  }[];
  readonly columns: number;
  readonly score: number;
}

function tryDelimiter(text: string, isWhole: boolean, delimiter: string): Tried {
  const cuts = new Cutter(delimiter).cut(text, isWhole).slice(0, linesLooked);
  return scored(cuts, delimiter, []);
}

function scored(cuts: readonly Cut[], delimiter: string, edges: readonly number[]): Tried {
  const rows = cuts
    .filter(({ raw }) => raw.trim() !== "" && !raw.startsWith(ourMark) && !/^sep=.\W*$/i.test(raw.trim()))
    .map(({ line, raw }) => ({
      line,
      raw,
      cells: cellsOf(raw, delimiter, edges).cells.map((cell) => cell.trim()),
    }));
  const often = new Map<number, number>();
  for (const { cells } of rows)
    if (cells.length > 1) often.set(cells.length, (often.get(cells.length) ?? 0) + 1);
  const [columns, count] = [...often].reduce(
    (a, b) => (b[1] > a[1] || (b[1] === a[1] && b[0] > a[0]) ? b : a),
    [0, 0],
  );
  if (columns < 2) return { delimiter, edges, rows, columns, score: 0 };
  const fitting = rows.filter(({ cells }) => cells.length === columns);
  let filled = 0;
  let known = 0;
  for (const { cells } of fitting)
    for (const cell of cells) {
      if (cell === "") continue;
      filled++;
      if (isValue(cell) || isMissing(cell)) known += 1;
      else if (/^[^,;|\t]{1,40}$/.test(cell)) known += 0.5;
    }
  const share = filled === 0 ? 0 : known / filled;
  return { delimiter, edges, rows, columns, score: count * share * share * Math.log2(columns + 1) };
}

/** Columns at fixed places: where all rows have a blank, one ends. */
function tryFixed(cuts: readonly Cut[]): Tried | undefined {
  const isRow = (raw: string): boolean => {
    const words = raw.trim().split(/\s+/);
    return (
      words.length >= 3 &&
      words.filter((word) => isValue(word) || isMissing(word)).length >= words.length * 0.8
    );
  };
  const rows = cuts.filter(({ raw }) => !raw.includes("\t") && isRow(raw));
  if (rows.length < 3) return undefined;
  const width = Math.max(...rows.map(({ raw }) => raw.trimEnd().length));
  const taken = new Uint8Array(width);
  for (const { raw } of rows)
    for (let at = 0; at < raw.length && at < width; at++) if (raw[at] !== " ") taken[at] = 1;
  const edges: number[] = [];
  for (let at = 1; at <= width; at++) if (taken[at - 1] === 1 && taken[at] !== 1) edges.push(at);
  if (edges.length < 3) return undefined;
  return scored(cuts, "fixed", edges);
}

/** Where heads and rows stand among the lines. */
function placed(tried: Tried): Layout {
  const { rows, columns, delimiter, edges } = tried;
  const found = findAcross(rows, delimiter);
  if (found !== undefined) {
    const { at, across } = found;
    const above = rows.slice(0, at);
    const alone = above.flatMap(({ cells }) => {
      const [only, ...more] = cells.filter((cell) => cell !== "");
      return only === undefined || more.length > 0 ? [] : [only];
    });
    return {
      delimiter,
      edges,
      headLine: rows[at]!.line,
      heads: headsAcross(across, alone),
      units: [],
      top: [rows[at]!.raw.trim()],
      firstLine: rows[at + 1]!.line,
      dateLine: undefined,
      above: [],
      preamble: above.map(({ raw }) => raw.trim()),
      across,
    };
  }
  const isNear = (cells: readonly string[]): boolean =>
    Math.abs(cells.length - columns) <= 1 ||
    (cells.length > columns && cells.slice(columns).every((cell) => cell === ""));
  // Of a long table its later half, which no preamble reaches into.
  const late = (rows.length < 20 ? rows.filter(hasValues) : rows.slice(Math.floor(rows.length / 2))).filter(
    ({ cells }) => isNear(cells),
  );
  const values = Array.from({ length: columns }, (_, at) => {
    const filled = late.filter(({ cells }) => (cells[at] ?? "") !== "" && !isMissing(cells[at]!));
    return (
      filled.length > 0 && filled.filter(({ cells }) => isValue(cells[at]!)).length >= filled.length * 0.8
    );
  });
  const inUse = Array.from({ length: columns }, (_, at) =>
    late.some(({ cells }) => (cells[at] ?? "") !== ""),
  ).filter((each) => each).length;
  const isDateColumn = Array.from({ length: columns }, (_, at) => {
    const filled = late.filter(({ cells }) => (cells[at] ?? "") !== "");
    return filled.length > late.length / 2 && filled.every(({ cells }) => isWhen(cells[at]!));
  });
  const hasGaps = isDateColumn.map((_, at) => late.some(({ cells }) => (cells[at] ?? "") === ""));
  const looksLikeRow = ({ cells }: { readonly cells: readonly string[] }): boolean => {
    if (!isNear(cells)) return false;
    let asked = 0;
    let given = 0;
    let hasDate = false;
    for (let at = 0; at < columns; at++) {
      const cell = cells[at] ?? "";
      const isDated = isWhen(cell);
      // A date may be left empty below its like, where that is the habit of the table.
      if (isDateColumn[at] && !isDated && (cell !== "" || !hasGaps[at])) return false;
      if (values[at] && isDated) hasDate = true;
      if (!values[at] || cell === "" || isMissing(cell)) continue;
      asked++;
      if (isValue(cell)) given++;
    }
    // What has its date is a row, be the rest what it may.
    return asked > 0 && given >= asked * (hasDate ? 0.5 : 0.6);
  };
  /** Nothing was measured: it is neither like a row nor unlike one. */
  const saysNothing = ({ cells }: { readonly cells: readonly string[] }): boolean =>
    isNear(cells) && values.every((isOne, at) => !isOne || (cells[at] ?? "") === "" || isMissing(cells[at]!));
  const start = rows.findIndex((row, at) => {
    if (!looksLikeRow(row)) return false;
    const next = rows.slice(at + 1, at + 6).filter((each) => !saysNothing(each));
    return next.filter(looksLikeRow).length >= Math.ceil(next.length * 0.5);
  });
  if (start < 0) throw new Refused("no table: no line holds numbers in columns, as the rows of a table do");
  const dateLine = dateLineOf(rows.slice(0, start + 40), looksLikeRow, start, delimiter);
  // Above the rows, from the bottom: units, rulers, heads.
  let at = start - 1;
  const skip = (): void => {
    while (
      at >= 0 &&
      (isRuler(rows[at]!.cells) ||
        (dateLine !== undefined && dateInLine(rows[at]!.raw, delimiter, dateLine) !== undefined))
    )
      at--;
  };
  skip();
  let units: readonly string[] = [];
  if (at >= 1 && isUnitsRow(rows[at]!.cells) && rows[at - 1] !== undefined) {
    const unitsAt = at--;
    skip();
    if (at >= 0 && isHead(rows[at]!.cells, inUse)) units = headCellsOf(rows[unitsAt]!.raw, delimiter, edges);
    else at = unitsAt;
  }
  const hasHead = at >= 0 && isHead(rows[at]!.cells, inUse);
  const heads = hasHead ? headCellsOf(rows[at]!.raw, delimiter, edges) : [];
  return {
    delimiter,
    edges,
    headLine: hasHead ? rows[at]!.line : 0,
    heads: Array.from({ length: Math.max(columns, heads.length) }, (_, index) => heads[index] ?? ""),
    units: hasHead ? units : [],
    top: hasHead ? rows.slice(at, start).map(({ raw }) => raw.trim()) : [],
    firstLine: rows[start]!.line,
    dateLine,
    above: hasHead && delimiter !== "fixed" ? aboveOf(rows[at - 1]?.cells, heads) : [],
    preamble: rows.slice(0, hasHead ? at : start).map(({ raw }) => raw.trim()),
    across: undefined,
  };
}

/** A line of fewer names above the heads, each going on until the next. */
function aboveOf(cells: readonly string[] | undefined, heads: readonly string[]): readonly string[] {
  const isRepeated = heads.some((head, at) => head !== "" && heads.indexOf(head) !== at);
  const named = cells?.filter((cell) => cell !== "") ?? [];
  if (
    !isRepeated ||
    cells === undefined ||
    cells.length < heads.length - 1 ||
    named.length < 2 ||
    named.some(isValue)
  )
    return [];
  let last = "";
  return heads.map((_, at) => {
    last = cells[at] || last;
    return last;
  });
}
