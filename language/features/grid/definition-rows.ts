import { definitionKinds } from "../../book/definitions/registry.ts";
import { unquote } from "../../book/reading.ts";
import type { Block } from "../../book/source.ts";
import type { DefinitionWord } from "../../syntax/blocks.ts";
import { type BrokenLine, type LineSink, parseBlock } from "../../syntax/parser.ts";
import { Piece, type Pieces } from "../../syntax/pieces.ts";
import type { Location, Span, View } from "../view.ts";
import type { RowMaker } from "./found-rows.ts";
import type { ColumnId, Face, GridCell, GridColumn } from "./grid-model.ts";
import { idOfLine, lineEnd, linesOfBlock, serialOf } from "./lines.ts";

/** Definitions as rows: a row a definition, its properties as columns; behind it the lines that are no property. */

/** A property as it stands, read or not. Offsets are in the block. */
export interface PropertyCut extends Span {
  readonly word: string;
  /** All that stands behind its word; undefined where nothing does. */
  readonly values: Span | undefined;
  /** The line it stands in, and whether another shares it. */
  readonly line: Span;
  readonly isAlone: boolean;
}

export interface DefinitionCut {
  readonly word: DefinitionWord;
  readonly name: Span | undefined;
  readonly title: Span | undefined;
  /** Of a group what stands behind `=`. */
  readonly members: Span | undefined;
  /** Where the pieces of the head end. */
  readonly headEnd: number;
  readonly isHeadBroken: boolean;
  readonly properties: readonly PropertyCut[];
  /** Places among the lines that are rows, of those that are not cells: comments, broken lines, properties that there are not. */
  readonly others: readonly number[];
}

const kept = new WeakMap<Block, { readonly text: string; readonly cut: DefinitionCut }>();

export function cutDefinition(block: Block): DefinitionCut {
  const known = kept.get(block);
  if (known !== undefined && known.text === block.text) return known.cut;
  const cut = cutDefinitionText(block.text, block.definition!.word, linesOfBlock(block).starts);
  kept.set(block, { text: block.text, cut });
  return cut;
}

export function cutDefinitionText(
  text: string,
  word: DefinitionWord,
  starts: ArrayLike<number>,
): DefinitionCut {
  const sink = new DefinitionSink(text, word);
  parseBlock(text, sink);
  const read = new Set(sink.lines.map(({ start }) => start));
  const others: number[] = [];
  for (let at = 1; at < starts.length; at++) if (!read.has(starts[at]!)) others.push(at);
  const { name, title, members, headEnd, isHeadBroken, properties } = sink;
  return { word, name, title, members, headEnd, isHeadBroken, properties, others };
}

class DefinitionSink implements LineSink {
  name: Span | undefined;
  title: Span | undefined;
  members: Span | undefined;
  headEnd = 0;
  isHeadBroken = false;
  readonly properties: PropertyCut[] = [];
  /** The lines whose properties are all known. */
  readonly lines: Span[] = [];
  private readonly text: string;
  private readonly word: DefinitionWord;

  constructor(text: string, word: DefinitionWord) {
    this.text = text;
    this.word = word;
  }

  head(pieces: Pieces): void {
    let at = 1;
    const span = (first: number, last = first): Span => ({
      start: pieces.start[first]!,
      end: pieces.end[last]!,
    });
    const last = pieces.count - 1;
    if (this.word !== "room" && at <= last && pieces.kind[at] === Piece.word) this.name = span(at++);
    if (at <= last && pieces.kind[at] === Piece.text) this.title = span(at++);
    if (this.word === "group" && at <= last && pieces.kind[at] === Piece.equals) {
      if (at < last) this.members = span(at + 1, last);
      at = last + 1;
    }
    this.headEnd = pieces.end[last]!;
    this.isHeadBroken = at <= last || (this.word !== "room" && this.name === undefined);
  }

  line(pieces: Pieces): void {
    const start = this.text.lastIndexOf("\n", pieces.start[0]! - 1) + 1;
    const from = Math.max(start, this.text.lastIndexOf("\r", pieces.start[0]! - 1) + 1);
    const line = { start: from, end: lineEnd(this.text, from) };
    const known = definitionKinds[this.word].properties;
    const found: PropertyCut[] = [];
    let isWhole = true;
    for (let begin = 0; begin < pieces.count; ) {
      let end = begin;
      while (end < pieces.count && pieces.kind[end] !== Piece.semicolon) end++;
      if (end > begin) {
        const word = pieces.kind[begin] === Piece.word ? pieces.word[begin]! : "";
        isWhole &&= known.some((each) => each.word === word);
        found.push({
          word,
          start: pieces.start[begin]!,
          end: pieces.end[end - 1]!,
          values:
            end > begin + 1 ? { start: pieces.start[begin + 1]!, end: pieces.end[end - 1]! } : undefined,
          line,
          isAlone: true,
        });
      }
      begin = end + 1;
    }
    if (!isWhole) return;
    this.lines.push(line);
    this.properties.push(...found.map((each) => ({ ...each, isAlone: found.length === 1 })));
  }

  broken({ isHead }: BrokenLine): void {
    if (isHead) this.isHeadBroken = true;
  }
}

type DefinitionsFace = Face & { readonly is: "definitions" };

export function definitionColumns({ of }: DefinitionsFace): readonly GridColumn[] {
  const column = (id: string, title: string, doc: string, isFigure = false): GridColumn => ({
    id,
    title,
    unit: "",
    doc,
    isFigure,
    isComputed: false,
    isShown: true,
  });
  const properties = [...new Map(definitionKinds[of].properties.map((each) => [each.word, each])).values()];
  return [
    ...(of === "room" ? [] : [column("name", "Name", `What the ${of} is called in the log.`)]),
    column("title", "Title", "Its title."),
    ...(of === "group" ? [column("members", "Tanks", "The tanks it has: r1 .. r12, q1.")] : []),
    ...properties.map(({ word, doc, slots }) =>
      column(propertyColumn(word), word, doc, slots.length === 1 && slots[0]!.filling.is === "quantity"),
    ),
    column("comment", "Comment", "What stands behind # at the end of its first line."),
  ];
}

export const propertyColumn = (word: string): ColumnId => `property ${word}`;
export const propertyOfColumn = (id: ColumnId): string | undefined =>
  id.startsWith("property ") ? id.slice(9) : undefined;

export interface DefinitionWritten {
  readonly text: string;
  readonly at: Span | undefined;
  readonly fixed: string;
}

/** What a column of a definition says and where. Offsets are in its block. */
export function definitionCell(text: string, cut: DefinitionCut, id: ColumnId): DefinitionWritten {
  const slice = (at: Span | undefined): DefinitionWritten =>
    at === undefined
      ? { text: "", at: undefined, fixed: "" }
      : { text: text.slice(at.start, at.end), at, fixed: "" };
  const { word } = cut;
  const isBroken = cut.isHeadBroken ? "the head of this definition cannot be read: mend it in the text" : "";
  if (id === "name") return { ...slice(cut.name), fixed: isBroken };
  if (id === "members") return { ...slice(cut.members), fixed: isBroken };
  if (id === "title") {
    const { at, text: written } = slice(cut.title);
    return { text: at === undefined ? "" : unquote(written), at, fixed: isBroken };
  }
  if (id === "comment") {
    const end = lineEnd(text, 0);
    const mark = /(?<!\S)#/.exec(text.slice(cut.headEnd, end));
    if (cut.isHeadBroken || mark === null) return { text: "", at: undefined, fixed: isBroken };
    const start = cut.headEnd + mark.index;
    return { text: text.slice(start + 1, end).trim(), at: { start, end }, fixed: "" };
  }
  const stated = cut.properties.filter(({ word }) => word === propertyOfColumn(id));
  const [only] = stated;
  if (only === undefined) return { text: "", at: undefined, fixed: "" };
  const words = stated.map(({ values }) => (values === undefined ? "" : slice(values).text)).join("; ");
  // Each statement is edited in its own place.
  if (stated.length > 1)
    return { text: words, at: { start: only.start, end: stated.at(-1)!.end }, fixed: "" };
  const kind = definitionKinds[word].properties.find((each) => each.word === only.word);
  // What is one text is shown without its quotes.
  const isText = kind?.slots.length === 1 && kind.slots[0]!.filling.is === "text";
  const isQuoted = isText && /^"(?:[^"\\]|\\.)*"$/s.test(words);
  return {
    text: isQuoted ? unquote(words) : words,
    at: only.values ?? { start: only.start, end: only.end },
    fixed: "",
  };
}

export const definitionId = (block: Block): string => `definition ${serialOf(block)}`;

export function definitionRows(view: View, { of }: DefinitionsFace): readonly RowMaker[] {
  return view.checked.logbook.blocks().flatMap((block): RowMaker[] => {
    if (block.definition?.word !== of) return [];
    const cut = cutDefinition(block);
    const place = ({ start, end }: Span): Location => ({
      path: block.file.path,
      start: block.start + start,
      end: block.start + end,
    });
    const cell = (text: string, at: Span | undefined, fixed: string): GridCell => ({
      text,
      at: at === undefined ? undefined : place(at),
      fixed,
      implied: "",
      state: "",
      detail: "",
      marks: [],
    });
    const lines = linesOfBlock(block);
    const own: RowMaker = {
      id: definitionId(block),
      blocks: [block],
      make: (columns) => ({
        id: definitionId(block),
        is: "definition",
        at: place({ start: 0, end: block.text.trimEnd().length }),
        day: Number.NaN,
        cells: columns.map((id) => {
          const { text, at, fixed } = definitionCell(block.text, cut, id);
          return cell(text, at, fixed);
        }),
      }),
    };
    const others = cut.others.map((at): RowMaker => {
      const start = lines.starts[at]!;
      const end = lineEnd(block.text, start);
      const first = start + /^\s*/.exec(block.text.slice(start, end))![0].length;
      const id = `line ${serialOf(block)} ${idOfLine(lines, at)}`;
      const is = block.text.charCodeAt(first) === 0x23 ? "comment" : "text";
      const row = { id, is, at: place({ start, end }), day: Number.NaN } as const;
      const text = cell(block.text.slice(first, end), { start: first, end }, "");
      return { id, blocks: [block], make: () => ({ ...row, cells: [text] }) };
    });
    return [own, ...others];
  });
}
