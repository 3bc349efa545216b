import { dayOf } from "../book/dates.ts";
import { definitionKinds } from "../book/definitions/registry.ts";
import { kindNumber } from "../book/entries/registry.ts";
import { LineRoles } from "../book/line.ts";
import {
  type BlockKind,
  type BlockSpan,
  cutBlocks,
  type DefinitionWord,
  definitionWords,
  nextLine,
} from "../syntax/blocks.ts";
import { type BrokenLine, type LineSink, parseBlock } from "../syntax/parser.ts";
import { Piece, type Pieces } from "../syntax/pieces.ts";
import { isUnseen } from "../syntax/spaces.ts";

/**
 * The blocks of a text and their lines with what each is about, for what compares and merges two texts of a log. Lossless: blocks make up
 * the text, lines their block. Blocks are cut without being read, so that what two texts have in common costs next to nothing.
 */

/** A block of a text, not yet read. */
export interface LogBlock {
  readonly kind: BlockKind;
  readonly path: string;
  /** Offset in its text. */
  readonly start: number;
  readonly text: string;
  /** The day of a day block; NaN where its date is none, and for other blocks. */
  readonly day: number;
  /** What it is of all blocks: `2026-03-01`, `tank dam`; of a broken block its first line. */
  readonly name: string;
}

/** One thing that a line says: of `test nitrate 18 mg/L, pH 7.2` there are two. */
export interface LineFact {
  /** What it is about: `nitrate`, `every change`; of a row the head of its column; empty where the line alone says it. */
  readonly about: string;
  /** What is said of it, white space evened out; empty where being named is all. */
  readonly value: string;
  /** Offsets in the block. */
  readonly start: number;
  readonly end: number;
}

export type LogLineKind =
  | "head"
  | "entry"
  /** The head of a round. */
  | "sheet"
  | "row"
  | "property"
  | "comment"
  | "blank"
  /** What nothing can be read from. */
  | "unread";

export interface LogLine {
  readonly kind: LogLineKind;
  /** Offset in the block. */
  readonly start: number;
  /** Without its line end. */
  readonly text: string;
  /** LF, CRLF, CR, or nothing at the end of a text. */
  readonly eol: string;
  /** Minutes after midnight at which it counts; 0 where no time stands above. */
  readonly minute: number;
  /** The time as it is written on the line; empty where there is none. */
  readonly time: string;
  /** The target of an entry or row, `@rack` for a group; else empty. */
  readonly station: string;
  /** The word of an entry's kind, `test` and `count` of a row alike `row`; of a property its first word. */
  readonly word: string;
  readonly facts: readonly LineFact[];
  /** What of it is no such thing: `time`, `station`, `word`, and `note` for the text at the end. */
  readonly parts: readonly LineFact[];
  /** The text in quotes at the end, with its quotes. */
  readonly note: string;
  /** The comment at its end, with its mark. */
  readonly comment: string;
  /** All it says but its time and comment, white space evened out: two lines with the same content say the same. */
  readonly content: string;
}

const isEntryWord = (word: string): boolean => kindNumber(word) !== undefined;

/** The blocks of a text, in order and without gaps. */
export function blocksOf(text: string, path = ""): LogBlock[] {
  return cutBlocks(text, isEntryWord).map((span) => blockOf(text, span, path));
}

function blockOf(text: string, { kind, start, end }: BlockSpan, path: string): LogBlock {
  const body = text.slice(start, end);
  const lead = body.charCodeAt(0) === 0xfeff ? 1 : 0;
  const base = { kind, path, start, text: body };
  if (kind === "day") {
    const name = body.slice(lead, lead + 10);
    return { ...base, day: dayOf(name), name };
  }
  const first = body.slice(lead, endOfLine(body, 0));
  const words = /^([a-z]+)[ \t]+([^\s"#;,=]+)/.exec(first);
  const name = kind === "definition" ? (words === null ? "room" : `${words[1]} ${words[2]}`) : first.trim();
  return { ...base, day: Number.NaN, name: kind === "prelude" ? "" : name };
}

function endOfLine(text: string, start: number): number {
  let end = nextLine(text, start);
  if (end > start && text.charCodeAt(end - 1) === 0x0a) end--;
  if (end > start && text.charCodeAt(end - 1) === 0x0d) end--;
  return end;
}

/** The lines of a block. Their texts and line ends make up its text. */
export function linesOfBlock(block: LogBlock): LogLine[] {
  const reader = new Reader(block);
  if (block.kind === "day" || block.kind === "definition") parseBlock(block.text, reader);
  const { text } = block;
  const lines: LogLine[] = [];
  let minute = 0;
  for (let start = 0; start < text.length; ) {
    const next = nextLine(text, start);
    const end = endOfLine(text, start);
    const read = reader.lines.get(start);
    const written = text.slice(start, end);
    if (read !== undefined && !Number.isNaN(read.minute)) minute = read.minute;
    const base = { start, text: written, eol: text.slice(end, next) };
    if (read !== undefined)
      lines.push({ ...read, ...base, minute, comment: commentOf(read.end, written, start) });
    else lines.push({ ...nothing, ...base, minute, ...plainLine(written, start, block.kind) });
    start = next;
  }
  return lines;
}

const nothing = {
  time: "",
  station: "",
  word: "",
  facts: [],
  parts: [],
  note: "",
  comment: "",
  content: "",
} as const;

/** A line that the grammar has nothing to say of. */
function plainLine(written: string, start: number, kind: BlockKind): { kind: LogLineKind; content: string } {
  let at = 0;
  while (at < written.length && isUnseen(written, at)) at++;
  if (at === written.length) return { kind: "blank", content: "" };
  const content = written.slice(at).trimEnd();
  if (written[at] === "#") return { kind: "comment", content };
  return { kind: start === 0 && kind !== "prelude" ? "head" : "unread", content };
}

function commentOf(end: number, written: string, start: number): string {
  const mark = written.slice(end - start).search(/(?<!\S)#/);
  return mark < 0 ? "" : written.slice(end - start + mark).trimEnd();
}

type Read = Omit<LogLine, "eol" | "comment" | "text"> & { readonly end: number };

/** Takes the lines of one block from the parser. */
class Reader implements LineSink {
  /** By the offset at which the line begins; without a minute where it states none. */
  readonly lines = new Map<number, Read>();
  private readonly text: string;
  private readonly word: DefinitionWord | undefined;
  private readonly roles = new LineRoles();
  private columns: readonly string[] = [];

  constructor(block: LogBlock) {
    this.text = block.text;
    const word = block.name.split(" ")[0] as DefinitionWord;
    this.word = block.kind === "definition" && definitionWords.includes(word) ? word : undefined;
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
      this.columns = this.headsOf(pieces, role.word + 1, behind);
      const at = { time: role.time, word: role.word };
      this.lines.set(start, this.read("sheet", pieces, start, [], isTitled, at));
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
      ...nothing,
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

  private headsOf(pieces: Pieces, from: number, to: number): string[] {
    const heads: string[] = [];
    for (let at = from; at < to; at++) {
      if (pieces.kind[at] === Piece.columnUnit)
        heads.push(`${heads.pop() ?? ""} ${this.sliceOf(pieces, at)}`);
      else heads.push(this.sliceOf(pieces, at));
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
