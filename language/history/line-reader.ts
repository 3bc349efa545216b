import { definitionKinds } from "../book/definitions/registry.ts";
import { LineRoles } from "../book/line.ts";
import { type DefinitionWord, definitionWords, nextLine } from "../syntax/blocks.ts";
import type { BrokenLine, LineSink } from "../syntax/parser.ts";
import { Piece, type Pieces } from "../syntax/pieces.ts";
import type { LineFact, LogLine, LogLineKind } from "./log-line.ts";

/** What each line of a block is about, from its pieces. */

export const saysNothing = {
  time: "",
  station: "",
  word: "",
  facts: [],
  parts: [],
  note: "",
  comment: "",
  content: "",
} as const;

/** The end of a line without its line end. */
export function endOfLine(text: string, start: number): number {
  let end = nextLine(text, start);
  if (end > start && text.charCodeAt(end - 1) === 0x0a) end--;
  if (end > start && text.charCodeAt(end - 1) === 0x0d) end--;
  return end;
}

type Read = Omit<LogLine, "eol" | "comment" | "text"> & { readonly end: number };

/** Takes the lines of one block from the parser. */
export class LineReader implements LineSink {
  /** By the offset at which the line begins; without a minute where it states none. */
  readonly lines = new Map<number, Read>();
  private readonly text: string;
  private readonly word: DefinitionWord | undefined;
  private readonly roles = new LineRoles();
  private columns: readonly string[] = [];

  /** @param definition the kind and name of a definition; empty for a day */
  constructor(text: string, definition: string) {
    this.text = text;
    const word = definition.split(" ")[0] as DefinitionWord;
    this.word = definitionWords.includes(word) ? word : undefined;
  }

  head(pieces: Pieces): void {
    const last = pieces.kind[pieces.count - 1];
    const isTitled = last === Piece.text;
    const behind = isTitled ? pieces.count - 1 : pieces.count;
    const start = lineStart(this.text, pieces.start[0]!);
    // Tanks of a group are items of a list, as those of an entry.
    let from = 0;
    while (from < behind && pieces.kind[from] !== Piece.equals) from++;
    const facts = from < behind ? this.items(pieces, from + 1, behind, "") : [];
    this.lines.set(start, this.read("head", pieces, start, facts, isTitled, {}));
  }

  line(pieces: Pieces, indent: number): void {
    const start = lineStart(this.text, pieces.start[0]!);
    if (this.word !== undefined) {
      const facts = this.properties(pieces, this.word);
      this.lines.set(start, this.read("property", pieces, start, facts, false, { word: 0 }));
      return;
    }
    const role = this.roles.roleOf(pieces, indent);
    const isTitled = pieces.count > 1 && pieces.kind[pieces.count - 1] === Piece.text;
    const behind = isTitled ? pieces.count - 1 : pieces.count;
    if (role.is === "sheet") {
      const heads = this.headsOf(pieces, role.word + 1, behind);
      this.columns = heads.map(({ value }) => value);
      const at = { time: role.time, word: role.word };
      const read = this.read("sheet", pieces, start, [], isTitled, at);
      this.lines.set(start, { ...read, parts: [...read.parts, ...heads] });
      return;
    }
    if (role.is === "row") {
      const facts = this.cells(pieces, role.target + 1, behind);
      const at = { time: role.time, station: role.target };
      this.lines.set(start, this.read("row", pieces, start, facts, isTitled, at));
      return;
    }
    const facts = this.items(pieces, role.kindPiece + 1, behind, "");
    const at = { time: role.time, station: role.target, word: role.kindPiece };
    this.lines.set(start, this.read("entry", pieces, start, facts, isTitled, at));
  }

  broken({ isHead, first, indent }: BrokenLine): void {
    const start = lineStart(this.text, first);
    const end = endOfLine(this.text, first);
    const content = this.text.slice(first, end).trimEnd();
    if (!isHead && this.roles.broken(this.text, first, indent)) this.columns = [];
    // A row that cannot be read stays with its round.
    const isRow = !isHead && this.word === undefined && this.roles.isRowAt(indent);
    const isSheet = !isHead && this.word === undefined && !isRow && this.roles.inSheet;
    const kind = isHead ? "head" : isRow ? "row" : isSheet ? "sheet" : "unread";
    const time = isHead ? null : /^(\d{1,2}):(\d{2})(?![\d:])/.exec(this.text.slice(first, first + 6));
    const minute = time === null ? Number.NaN : Number(time[1]) * 60 + Number(time[2]);
    const isTime = minute < 1440 && Number(time?.[2]) < 60;
    this.lines.set(start, {
      ...saysNothing,
      kind,
      start,
      end,
      content,
      minute: isTime ? minute : Number.NaN,
      time: isTime ? time![0] : "",
    });
  }

  private read(
    kind: LogLineKind,
    pieces: Pieces,
    start: number,
    facts: readonly LineFact[],
    isTitled: boolean,
    at: { readonly time?: number; readonly station?: number; readonly word?: number },
  ): Read {
    const last = pieces.count - 1;
    const { time = -1, station = -1, word = -1 } = at;
    const named = Object.entries({ ...at, note: isTitled ? last : -1 });
    const parts = named.filter(([, piece]) => piece >= 0 && piece < pieces.count);
    const said = this.said(pieces, time + 1);
    const rowWord = kind === "row" ? kind : this.sliceOf(pieces, word);
    return {
      kind,
      start,
      end: pieces.end[last]!,
      minute: time < 0 ? Number.NaN : pieces.value[time]!,
      time: this.sliceOf(pieces, time),
      station: this.sliceOf(pieces, station),
      word: rowWord,
      facts,
      parts: parts.map(([about, piece]) => this.part(pieces, about, piece)),
      note: isTitled ? this.sliceOf(pieces, last) : "",
      content:
        kind === "row" ? this.rowContent(this.sliceOf(pieces, station), facts, pieces, isTitled) : said,
    };
  }

  private part(pieces: Pieces, about: string, at: number): LineFact {
    return { about, value: this.sliceOf(pieces, at), start: pieces.start[at]!, end: pieces.end[at]! };
  }

  /** A row says what its cells say under their heads. */
  private rowContent(station: string, facts: readonly LineFact[], pieces: Pieces, isTitled: boolean): string {
    const note = isTitled ? ` ${this.sliceOf(pieces, pieces.count - 1)}` : "";
    return `${station} | ${facts.map(({ about, value }) => `${about} ${value}`).join(" | ")}${note}`;
  }

  /** The pieces from one on, parted by single spaces; none before a comma. */
  private said(pieces: Pieces, from: number, to = pieces.count): string {
    let said = "";
    for (let at = from; at < to; at++) {
      const isMark = pieces.kind[at] === Piece.comma || pieces.kind[at] === Piece.semicolon;
      said += (at > from && !isMark ? " " : "") + evened(this.sliceOf(pieces, at), pieces.kind[at]!);
    }
    return said;
  }

  private sliceOf(pieces: Pieces, at: number): string {
    return at < 0 || at >= pieces.count ? "" : this.text.slice(pieces.start[at]!, pieces.end[at]!);
  }

  /** The items of a list that is parted by commas. */
  private items(pieces: Pieces, from: number, to: number, lead: string): LineFact[] {
    const facts: LineFact[] = [];
    for (let begin = from; begin < to; ) {
      let end = begin;
      while (end < to && pieces.kind[end] !== Piece.comma) end++;
      if (end > begin) facts.push(this.fact(pieces, begin, end, lead));
      begin = end + 1;
    }
    return facts;
  }

  /** Words say what an item is about, all else is said of it. */
  private fact(pieces: Pieces, begin: number, end: number, lead: string): LineFact {
    const words: string[] = lead === "" ? [] : [lead];
    const values: string[] = [];
    for (let at = begin; at < end; at++) {
      const isWord = pieces.kind[at] === Piece.word || pieces.kind[at] === Piece.nameRange;
      (isWord ? words : values).push(evened(this.sliceOf(pieces, at), pieces.kind[at]!));
    }
    return {
      about: words.join(" "),
      value: values.join(" "),
      start: pieces.start[begin]!,
      end: pieces.end[end - 1]!,
    };
  }

  private headsOf(pieces: Pieces, from: number, to: number): LineFact[] {
    const heads: LineFact[] = [];
    for (let at = from; at < to; at++) {
      const head = this.part(pieces, "column", at);
      const isUnit = pieces.kind[at] === Piece.columnUnit;
      const of = isUnit ? heads.pop() : undefined;
      const value = isUnit ? `${of?.value ?? ""} ${head.value}` : head.value;
      heads.push({ ...head, value, start: of?.start ?? head.start });
    }
    return heads;
  }

  private cells(pieces: Pieces, from: number, to: number): LineFact[] {
    const facts: LineFact[] = [];
    for (let at = from; at < to; at++) {
      facts.push({
        about: this.columns[at - from] ?? `column ${at - from + 1}`,
        value: evened(this.sliceOf(pieces, at), pieces.kind[at]!),
        start: pieces.start[at]!,
        end: pieces.end[at]!,
      });
    }
    return facts;
  }

  private properties(pieces: Pieces, word: DefinitionWord): LineFact[] {
    const facts: LineFact[] = [];
    for (let begin = 0; begin < pieces.count; ) {
      let end = begin;
      while (end < pieces.count && pieces.kind[end] !== Piece.semicolon) end++;
      if (end > begin) facts.push(...this.property(pieces, begin, end, word));
      begin = end + 1;
    }
    return facts;
  }

  /** What is declared is about its first word: `units temperature`. */
  private units(pieces: Pieces, begin: number, end: number): LineFact[] {
    const facts: LineFact[] = [];
    for (let from = begin + 1; from < end; ) {
      let to = from;
      while (to < end && pieces.kind[to] !== Piece.comma) to++;
      if (to > from)
        facts.push({
          about: `${this.sliceOf(pieces, begin)} ${this.sliceOf(pieces, from)}`,
          value: this.said(pieces, from + 1, to),
          start: pieces.start[from]!,
          end: pieces.end[to - 1]!,
        });
      from = to + 1;
    }
    return facts;
  }

  private property(pieces: Pieces, begin: number, end: number, definition: DefinitionWord): LineFact[] {
    const word = this.sliceOf(pieces, begin);
    const known = definitionKinds[definition].properties.find((each) => each.word === word);
    if (known?.form === "units") return this.units(pieces, begin, end);
    if (known?.list === true) {
      const facts = this.items(pieces, begin + 1, end, word);
      if (facts.length > 0) return facts;
    }
    // A duty is about its act, and `at least` is another than `at most`.
    if (known?.form === "every" || known?.form === "at") return [this.fact(pieces, begin, end, "")];
    return [
      {
        about: word,
        value: this.said(pieces, begin + 1, end),
        start: pieces.start[begin]!,
        end: pieces.end[end - 1]!,
      },
    ];
  }
}

/** White space inside a piece, as in `18   mg/L`, says nothing; inside a text it is the writer's. */
function evened(text: string, kind: number): string {
  if (kind === Piece.word || kind === Piece.text || kind === Piece.openText) return text;
  return text.replace(/\s+/g, " ");
}

function lineStart(text: string, offset: number): number {
  let at = offset;
  while (at > 0 && text.charCodeAt(at - 1) !== 0x0a && text.charCodeAt(at - 1) !== 0x0d) at--;
  return at;
}
