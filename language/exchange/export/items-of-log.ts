import type { Book } from "../../book/book.ts";
import { isoOf } from "../../book/dates.ts";
import { definitionKinds } from "../../book/definitions/registry.ts";
import { type DayLine, linesOnce } from "../../book/entry.ts";
import { nameOf } from "../../book/interner.ts";
import type { Value } from "../../book/reading.ts";
import type { Block, Source } from "../../book/source.ts";
import { nextLine } from "../../syntax/blocks.ts";
import { Piece } from "../../syntax/pieces.ts";
import type { EntryItem, LogItem, RowItem } from "./log-items.ts";
import { cellItems, valueItems } from "./value-items.ts";

/** A logbook as items, file by file and line by line; blank lines and other white space are left out, and nothing else. */
export function* itemsOfLog(
  book: Book,
  sources: readonly Source[],
  pathOf: (source: Source) => string,
): Generator<LogItem> {
  yield { is: "log", standpipe: 1, title: book.title };
  for (const source of sources) {
    yield { is: "file", path: pathOf(source) };
    let line = 1;
    for (const block of source.blocks) {
      const lines = textLines(block.text);
      yield* itemsOfBlock(block, lines, line, book);
      line += lines.length;
    }
  }
}

/** A line of a block: where it stands, and its text without its end. */
interface TextLine {
  readonly start: number;
  readonly text: string;
}

function textLines(text: string): TextLine[] {
  const lines: TextLine[] = [];
  for (let start = 0; start < text.length; ) {
    const next = nextLine(text, start);
    lines.push({ start, text: text.slice(start, next).replace(/[\r\n]+$/, "") });
    start = next;
  }
  return lines;
}

function* itemsOfBlock(
  block: Block,
  lines: readonly TextLine[],
  first: number,
  book: Book,
): Generator<LogItem> {
  const day = block.kind === "day" ? linesOnce(block) : [];
  const date = Number.isNaN(block.day) ? "" : isoOf(block.day);
  let next = 0;
  for (const [at, { start, text }] of lines.entries()) {
    const end = start + text.length;
    const line = first + at;
    const bare = text.replace(/^\uFEFF/, "");
    if (bare.trim() === "") continue;
    while (next < day.length && day[next]!.start < start) next++;
    const read = day[next];
    const item =
      at === 0 && (block.kind === "day" || block.kind === "definition")
        ? headOf(block, bare, line)
        : block.kind === "definition"
          ? propertyOf(block, { start, text }, line, book)
          : read !== undefined && read.start < end
            ? dayItem(block, date, read, text.slice(read.end - start), line, book)
            : undefined;
    yield item ?? { is: bare.trimStart().startsWith("#") ? "comment" : "unread", line, text: bare };
  }
}

function headOf(block: Block, text: string, line: number): LogItem | undefined {
  const { written, comment } = withoutComment(text);
  const { definition } = block;
  if (definition === undefined) {
    const date = Number.isNaN(block.day) ? written.split(" ", 1)[0]! : isoOf(block.day);
    return { is: "day", line, date, written, ...comment };
  }
  const { word, name, title } = definition;
  return { is: "definition", line, word, name, title, written, ...comment };
}

function propertyOf(block: Block, at: TextLine, line: number, book: Book): LogItem | undefined {
  const { written, comment } = withoutComment(at.text);
  if (written === "") return undefined;
  const { word, name, properties } = block.definition!;
  const own = properties.filter(({ start }) => start >= at.start && start < at.start + at.text.length);
  const kinds = definitionKinds[word].properties;
  return {
    is: "property",
    line,
    of: `${word} ${name}`.trim(),
    written,
    words: own.map((property) => property.word),
    values: own.flatMap((property) => {
      const kind = kinds.find((each) => each.word === property.word);
      return kind === undefined || !("slots" in kind)
        ? []
        : valueItems(property.filled.items, kind, block.text, book.units);
    }),
    ...comment,
  };
}

function dayItem(
  block: Block,
  date: string,
  read: DayLine,
  behind: string,
  line: number,
  book: Book,
): LogItem | undefined {
  const { text } = block;
  const tail = behind.trim();
  const comment = tail === "" ? {} : { comment: tail };
  const time = read.time === undefined ? {} : { time: read.time.text };
  const from = (value: Value): string => inOneLine(text.slice(value.end, read.end));
  if (read.is === "sheet") return { is: "sheet", line, date, ...time, written: from(read.word), ...comment };
  const { target } = read;
  if (target === undefined) return undefined;
  const told = {
    line,
    date,
    ...time,
    at: text.slice(target.start, target.end),
    tanks: tanksOf(book, target),
  };
  if (read.is === "row") {
    const values = cellItems(read.cells, read.columns, text, book.units);
    const last = read.cells.at(-1);
    const note = last?.kind === Piece.text ? { note: last.text } : {};
    return { is: "row", ...told, values, written: from(target), ...note, ...comment } satisfies RowItem;
  }
  const { kindWord, kind, items, counts } = read;
  if (kindWord === undefined) return undefined;
  const values = kind === undefined ? [] : valueItems(items, kind, text, book.units);
  const note = read.note === undefined ? {} : { note: read.note.text };
  const entry = text.slice(kindWord.start, kindWord.end);
  return {
    is: "entry",
    ...told,
    entry,
    values,
    written: from(kindWord),
    counts,
    ...note,
    ...comment,
  } satisfies EntryItem;
}

/** The tanks that a target means; none for the room, a gear, or a name that nobody defines. */
function tanksOf(book: Book, { kind, text }: Value): string[] {
  const name = nameOf(text);
  if (kind === Piece.group) return (book.groupTanks(name) ?? []).map((tank) => tank.name);
  const station = book.station(name);
  if (station?.kind === "tank") return [station.name];
  if (station?.kind !== "system") return [];
  return book.bodies[station.body]?.tanks.map((tank) => tank.name) ?? [];
}

/** A line with its white space made one blank each, where it is no part of a text. */
const inOneLine = (text: string): string =>
  /[^\S ]| {2}/.test(text)
    ? text.replace(/"(?:\\.|[^"\\])*"?|\s+/g, (part) => (part.startsWith('"') ? part : " ")).trim()
    : text.trim();

/** What stands before a comment, and the comment. A `#` opens one at the begin of a line and behind white space. */
function withoutComment(text: string): { written: string; comment: { comment?: string } } {
  for (const part of text.matchAll(/"(?:\\.|[^"\\])*"?|#/g)) {
    if (part[0] !== "#" || (part.index > 0 && !/\s/.test(text[part.index - 1]!))) continue;
    const comment = text.slice(part.index).trimEnd();
    return { written: inOneLine(text.slice(0, part.index)), comment: { comment } };
  }
  return { written: inOneLine(text), comment: {} };
}
