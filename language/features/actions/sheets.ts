import { Kind, kindOf } from "../../book/entries/registry.ts";
import { type DayLine, type EntryLine, linesOf, type RowLine } from "../../book/entry.ts";
import { Col, type Facts, floatsPerRow, intsPerRow, kindOfRow } from "../../book/facts.ts";
import { parameters } from "../../book/parameters.ts";
import { unitText, type Value } from "../../book/reading.ts";
import { type Block, Source } from "../../book/source.ts";
import { Piece } from "../../syntax/pieces.ts";
import { lastSheet } from "../completing/sheet.ts";
import { dueEntries } from "../due-entries.ts";
import { lineEndOf, lineOfText } from "../lines.ts";
import type { Span, View } from "../view.ts";
import type { TextEdit } from "./laid-edits.ts";

/** Sheets made from what is due, from entries, and turned back into entries. Offsets are in the block. */

/** A sheet for the tests that are due on the day of a block: a row a tank, its cells marked as not measured. Undefined if none is. */
export function sheetForDue(
  view: View,
  block: Block,
): { readonly lines: string[]; readonly tanks: number } | undefined {
  const due = dueEntries(view, block.day).filter((each) => each.kind === Kind.test);
  if (due.length === 0) return undefined;
  const round = lastSheet(view, block, Number.POSITIVE_INFINITY);
  const wanted = new Set(
    due.flatMap((each) => each.duties.flatMap(({ duty }) => [...(duty.subjects ?? [])])),
  );
  const names = [...wanted].flatMap((id) => parameters[id]?.name ?? []);
  const usual = round?.heads.map((head) => head.split(" ")[0]!) ?? [];
  const heads = inOrderOf(names, usual).map(
    (name) => round?.heads.find((head) => head.split(" ")[0] === name) ?? name,
  );
  const targets = inOrderOf(
    due.map((each) => each.target),
    round?.targets ?? [],
  );
  const rows = targets.map((target) => `    ${[target, ...heads.map(() => "-")].join("  ")}`);
  return { lines: [`  sheet  ${heads.join("  ")}`, ...rows], tanks: targets.length };
}

/** The words in the order in which they stand in another list, those that do not behind. */
function inOrderOf(words: readonly string[], order: readonly string[]): string[] {
  const place = (word: string): number => {
    const at = order.indexOf(word);
    return at < 0 ? order.length : at;
  };
  return [...new Set(words)].sort((a, b) => place(a) - place(b));
}

/** The sheet at an offset as entries: its heads go, each row becomes a test and a count. Undefined where that would not say the same. */
export function sheetAsEntries(block: Block, at: number): TextEdit | undefined {
  const lines = linesOf(block);
  const [first, last] = sheetAround(lines, block, at) ?? [];
  if (first === undefined || last === undefined) return undefined;
  const made = lines.slice(first + 1, last + 1).flatMap((line) => entriesOfRow(block, line as RowLine));
  const from = lineOfText(block.text, lines[first]!.start);
  const to = lineOfText(block.text, lines[last]!.end);
  // The time of the heads counts for the rows below; a comment of the heads, and lines between that are no rows, would be lost.
  const whole = block.text.slice(from.start, to.end);
  if (lines[first]!.time !== undefined || hasOther(block, whole, from.start, lines.slice(first, last + 1)))
    return undefined;
  return checked(block, { start: from.start, end: to.end, text: made.join(lineEndOf(block.text)) });
}

function sheetAround(lines: readonly DayLine[], block: Block, at: number): [number, number] | undefined {
  const here = lines.findIndex((line) => {
    const { start, end } = lineOfText(block.text, line.start);
    return at >= start && at <= end;
  });
  if (here < 0 || lines[here]!.is === "entry") return undefined;
  let first = here;
  while (first >= 0 && lines[first]!.is === "row") first--;
  if (lines[first]?.is !== "sheet") return undefined;
  let last = first;
  while (lines[last + 1]?.is === "row") last++;
  return last === first ? undefined : [first, last];
}

/** Whether a stretch holds lines beside those given, or a comment behind its first. */
function hasOther(block: Block, whole: string, from: number, lines: readonly DayLine[]): boolean {
  const starts = new Set(lines.map((line) => lineOfText(block.text, line.start).start));
  let start = from;
  for (const text of whole.split(/\r\n|\n|\r/)) {
    if (text.trim() !== "" && !starts.has(start)) return true;
    const feed = block.text.slice(start + text.length, start + text.length + 2);
    start += text.length + (feed === "\r\n" ? 2 : 1);
  }
  const head = lineOfText(block.text, lines[0]!.start);
  return block.text.slice(lines[0]!.end, head.end).includes("#");
}

function entriesOfRow(block: Block, row: RowLine): string[] {
  const slice = ({ start, end }: Span): string => block.text.slice(start, end);
  const tests: string[] = [];
  const counts: string[] = [];
  let note = "";
  row.cells.forEach((cell, at) => {
    if (cell.kind === Piece.text) {
      note = slice(cell);
      return;
    }
    const column = row.columns[at];
    if (column === undefined || cell.kind === Piece.dash) return;
    const isBare = unitText(cell) === "" && cell.kind === Piece.quantity;
    const unit = isBare && column.unit !== -1 ? ` ${unitText({ ...cell, unit: column.unit })}` : "";
    (column.parameter === undefined ? counts : tests).push(`${column.word} ${slice(cell)}${unit}`);
  });
  const time = row.time === undefined ? "" : `${slice(row.time)} `;
  const target = row.target === undefined ? "" : slice(row.target);
  const comment = block.text.slice(row.end, lineOfText(block.text, row.end).end).trimEnd();
  const made = [
    ...(tests.length > 0 ? [`test ${tests.join(", ")}`] : []),
    ...(counts.length > 0 ? [`count ${counts.join(", ")}`] : []),
  ];
  if (made.length === 0 && note !== "") made.push("note");
  return made.map((words, at) => {
    const text = at === made.length - 1 ? `${note === "" ? "" : ` ${note}`}${comment}` : "";
    return `  ${at === 0 ? time : ""}${target} ${words}${text}`;
  });
}

/** The tests around an offset, on neighbouring lines, as one sheet. Undefined where there are fewer than two, or it would not say the same. */
export function testsAsSheet(block: Block, at: number): TextEdit | undefined {
  const lines = linesOf(block);
  const isTest = (line: DayLine | undefined): line is EntryLine =>
    line?.is === "entry" && line.counts && line.kind === kindOf(Kind.test) && line.target !== undefined;
  const here = lines.findIndex((line) => {
    const { start, end } = lineOfText(block.text, line.start);
    return at >= start && at <= end;
  });
  if (!isTest(lines[here])) return undefined;
  const areNeighbours = (a: DayLine | undefined, b: DayLine | undefined): boolean =>
    a !== undefined &&
    b !== undefined &&
    /^[^\r\n]*(\r\n|\n|\r)[ \t]*$/.test(block.text.slice(a.end, b.start));
  let first = here;
  while (isTest(lines[first - 1]) && areNeighbours(lines[first - 1], lines[first])) first--;
  let last = here;
  while (isTest(lines[last + 1]) && areNeighbours(lines[last], lines[last + 1])) last++;
  if (last === first) return undefined;
  const tests = lines.slice(first, last + 1) as EntryLine[];
  const heads = new Map<string, Value[]>();
  for (const test of tests)
    for (const { parameter, reading } of test.items) {
      if (parameter === undefined || reading === undefined) return undefined;
      heads.set(parameter.text, [...(heads.get(parameter.text) ?? []), reading]);
    }
  // A unit that all readings of a column have stands in its head.
  const units = new Map(
    [...heads].map(([head, readings]) => {
      const [unit = "", ...more] = new Set(readings.map((reading) => unitText(reading)));
      return [head, more.length === 0 ? unit : ""] as const;
    }),
  );
  const titles = [...heads.keys()].map((head) =>
    units.get(head) === "" ? head : `${head} (${units.get(head)})`,
  );
  const rows = tests.map((test) => rowOf(block, test, [...heads.keys()], units));
  if (rows.includes(undefined)) return undefined;
  const from = lineOfText(block.text, tests[0]!.start);
  const to = lineOfText(block.text, tests.at(-1)!.end);
  const text = [`  sheet  ${titles.join("  ")}`, ...rows].join(lineEndOf(block.text));
  return checked(block, { start: from.start, end: to.end, text });
}

function rowOf(
  block: Block,
  test: EntryLine,
  heads: readonly string[],
  units: ReadonlyMap<string, string>,
): string | undefined {
  const slice = ({ start, end }: Span): string => block.text.slice(start, end);
  const cells = heads.map((head) => {
    const found = test.items.filter((item) => item.parameter?.text === head);
    if (found.length > 1) return undefined;
    const reading = found[0]?.reading;
    if (reading === undefined) return "-";
    const unit = units.get(head);
    return unit === undefined || unit === ""
      ? slice(reading)
      : slice(reading).slice(0, -unit.length).trimEnd();
  });
  if (cells.includes(undefined)) return undefined;
  const time = test.time === undefined ? "" : `${slice(test.time)} `;
  const note = test.note === undefined ? "" : `  ${slice(test.note)}`;
  const comment = block.text.slice(test.end, lineOfText(block.text, test.end).end).trimEnd();
  return `    ${time}${slice(test.target!)}  ${cells.join("  ")}${note}${comment}`;
}

/** The edit, if the block says the same after it: the same rows, in whatever order of kinds. */
function checked(block: Block, edit: TextEdit): TextEdit | undefined {
  const text = block.text.slice(0, edit.start) + edit.text + block.text.slice(edit.end);
  const [made, ...more] = new Source("", text).blocks;
  if (made === undefined || more.length > 0 || said(made.facts) !== said(block.facts)) return undefined;
  return edit;
}

/** What facts say; prose says nothing. */
function said(facts: Facts): string {
  const { count, ints, floats, problems } = facts;
  const rows = Array.from({ length: count }, (_, row) => row).filter(
    (row) => kindOfRow(facts, row) !== Kind.note,
  );
  const said = rows.map((row) => {
    const at = row * intsPerRow;
    const number = row * floatsPerRow;
    return [
      ...ints.slice(at, at + Col.marks),
      // Whether it is an entry of its own or a further item is what is being changed.
      ints[at + Col.marks]! & 0xffff,
      ...Array.from(floats.slice(number, number + floatsPerRow), String),
    ].join();
  });
  return JSON.stringify([said.sort(), problems.map((problem) => problem.code)]);
}
