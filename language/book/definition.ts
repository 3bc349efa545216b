import { didYouMean, nearest } from "../quantity/nearest.ts";
import type { DefinitionWord } from "../syntax/blocks.ts";
import { type BrokenLine, type LineSink, parseBlock } from "../syntax/parser.ts";
import { Piece, type Pieces } from "../syntax/pieces.ts";
import { brokenLine } from "./broken-line.ts";
import { type Compiled, compile } from "./compile.ts";
import { definitionKinds } from "./definitions/registry.ts";
import { type DutyForm, readDuty } from "./duty-form.ts";
import { Matcher } from "./match.ts";
import { type NeedForm, readNeeds } from "./need-form.ts";
import { findParameter } from "./parameters.ts";
import type { Mend, Problem } from "./problem.ts";
import type { DefinitionKind, PropertyKind } from "./property.ts";
import { type Filled, filledBy, readValue, type Value } from "./reading.ts";

/** A definition as it was written: a function of its block's text alone. Units and names are looked up by the book. */
export interface Definition {
  readonly word: DefinitionWord;
  /** Empty for a room, and where it is missing or cannot be one. */
  readonly name: string;
  readonly nameStart: number;
  readonly nameEnd: number;
  readonly title: string;
  /** The tanks of a group: words and ranges of names. */
  readonly members: readonly Value[];
  readonly properties: readonly Property[];
  readonly problems: readonly Problem[];
}

export interface Property {
  readonly word: string;
  readonly start: number;
  readonly end: number;
  readonly filled: Filled;
  readonly duty?: DutyForm;
  readonly needs?: readonly NeedForm[];
  /** Of a list of words, the words. */
  readonly words?: readonly Value[];
  readonly units?: readonly UnitForm[];
}

/** `gallon US`, `ammonia mg/L N`: a dimension, parameter or spelling, and what it is declared to be. */
export interface UnitForm {
  readonly what: string;
  readonly unit: string;
  readonly start: number;
  readonly end: number;
}

const matcher = new Matcher();
const nothing: Filled = { items: [], note: undefined };

class DefinitionReader implements LineSink {
  private name = "";
  private nameStart = 0;
  private nameEnd = 0;
  private title = "";
  private members: Value[] = [];
  private properties: Property[] = [];
  private problems: Problem[] = [];
  private kind!: DefinitionKind;
  private word!: DefinitionWord;
  private text = "";

  read(text: string, word: DefinitionWord): Definition {
    this.name = this.title = "";
    this.nameStart = 0;
    this.nameEnd = word.length;
    this.members = [];
    this.properties = [];
    this.problems = [];
    this.text = text;
    this.word = word;
    this.kind = definitionKinds[word];
    parseBlock(text, this);
    const { name, nameStart, nameEnd, title, members, properties, problems } = this;
    return { word, name, nameStart, nameEnd, title, members, properties, problems };
  }

  head(pieces: Pieces): void {
    let at = 1;
    if (this.word !== "room") {
      if (at < pieces.count && pieces.kind[at] === Piece.word) {
        this.name = pieces.word[at]!;
        this.nameStart = pieces.start[at]!;
        this.nameEnd = pieces.end[at]!;
        if (reserved.has(this.name)) {
          const message = `“${this.name}” is a word of the format and cannot be a name`;
          this.problem("name/reserved", pieces, at, message);
          this.name = "";
        }
        at++;
      } else {
        const shown = Math.min(at, pieces.count - 1);
        const number = pieces.kind[at] === Piece.quantity && at < pieces.count;
        this.problem(
          "definition/name",
          pieces,
          shown,
          number
            ? `a name begins with a letter: ${this.word} t${pieces.value[at]}`
            : `a ${this.word} needs a name: ${this.word} dam`,
        );
        if (number) at++;
      }
    }
    if (at < pieces.count && (pieces.kind[at] === Piece.text || pieces.kind[at] === Piece.openText)) {
      this.title = readValue(pieces, at, this.text).text;
      if (pieces.kind[at] === Piece.openText)
        this.problem("syntax/text", pieces, at, "the text is not closed: a quote is missing at its end");
      at++;
    }
    if (this.word === "group") this.readMembers(pieces, at);
    else if (at < pieces.count)
      this.problem(
        "syntax/head",
        pieces,
        at,
        this.word === "room"
          ? "after room comes its title in quotes, or nothing"
          : `after the name of a ${this.word} comes its title in quotes, or nothing`,
        this.headMends(pieces, at),
      );
  }

  line(pieces: Pieces): void {
    let begin = 0;
    while (begin < pieces.count) {
      let end = begin;
      while (end < pieces.count && pieces.kind[end] !== Piece.semicolon) end++;
      if (end > begin) this.property(pieces, begin, end);
      begin = end + 1;
    }
  }

  broken({ start, end, message, isHead }: BrokenLine): void {
    this.problems.push(brokenLine(this.text, start, end, message, isHead));
  }

  /** What stands behind a name may be a property that belongs on a line of its own, or a title without its quotes. */
  private headMends(pieces: Pieces, at: number): Mend[] {
    const start = pieces.start[at]!;
    const last = pieces.end[pieces.count - 1]!;
    const behind = pieces.end[at - 1]!;
    if (this.kind.properties.some(({ word }) => word === pieces.word[at])) {
      const eol = this.text.includes("\r\n") ? "\r\n" : "\n";
      return [{ title: "Put it on a line of its own", text: `${eol}  `, start: behind, end: start }];
    }
    const isPlain = rangeOf(at, pieces.count).every((piece) => pieces.kind[piece] === Piece.word);
    if (!isPlain || this.title !== "") return [];
    return [
      {
        title: "Put it in quotes",
        text: '"',
        start,
        end: start,
        also: { text: '"', start: last, end: last },
      },
    ];
  }

  private readMembers(pieces: Pieces, begin: number): void {
    let at = begin;
    if (pieces.kind[at] !== Piece.equals || at >= pieces.count) {
      this.problem(
        "definition/members",
        pieces,
        Math.min(at, pieces.count - 1),
        "a group names its tanks: group rack = r1 .. r12, q1",
      );
      return;
    }
    if (at + 1 === pieces.count)
      this.problem("definition/members", pieces, at, "a group names its tanks: group rack = r1 .. r12, q1");
    const isMember = (piece: number): boolean =>
      pieces.kind[piece] === Piece.word || pieces.kind[piece] === Piece.nameRange;
    for (at++; at < pieces.count; at++) {
      if (pieces.kind[at] === Piece.comma) continue;
      if (isMember(at)) {
        this.members.push(readValue(pieces, at, this.text));
        const behind = pieces.end[at - 1]!;
        if (isMember(at - 1)) {
          this.problem("definition/members", pieces, at, "names of tanks are parted by commas", [
            { title: "Put a comma before it", text: ",", start: behind, end: behind },
          ]);
        }
      } else
        this.problem(
          "definition/members",
          pieces,
          at,
          "a group holds names of tanks and ranges of them: r1 .. r12, q1",
        );
    }
  }

  private property(pieces: Pieces, begin: number, end: number): void {
    const start = pieces.start[begin]!;
    const lineEnd = pieces.end[end - 1]!;
    const word = pieces.word[begin]!;
    const kind =
      pieces.kind[begin] === Piece.word ? this.kind.properties.find((each) => each.word === word) : undefined;
    if (kind === undefined) {
      const known = this.kind.properties.map((each) => each.word);
      const twin = known.filter((each) => each === twins[word]);
      const near = twin.length > 0 ? twin : nearest(word, known);
      const mends: Mend[] = near.map((text) => ({ title: `Write “${text}”`, text }));
      // `nitrate 6` belongs to the content of a water, to the limits of a tank.
      const list = ["content", "limits"].find((each) => known.includes(each));
      if (list !== undefined && findParameter(word) !== undefined)
        mends.unshift({ title: `Write “${list} ${word}”`, text: `${list} ${word}` });
      const says = word === "" ? "a property begins with a word" : `a ${this.word} has no property “${word}”`;
      this.problem(
        "definition/property",
        pieces,
        begin,
        near.length > 0 ? says + didYouMean(near) : `${says}; it has ${known.join(", ")}`,
        mends,
      );
      return;
    }
    const earlier = this.properties.find((each) => each.word === word);
    if (earlier !== undefined && kind.many !== true) {
      this.problem("definition/twice", pieces, begin, `“${word}” is said twice; the first counts`);
      return;
    }
    const read = this.fill(kind, pieces, begin, end);
    if (read !== undefined) this.properties.push({ word, start, end: lineEnd, filled: nothing, ...read });
  }

  private fill(
    kind: PropertyKind,
    pieces: Pieces,
    begin: number,
    end: number,
  ): Partial<Property> | undefined {
    switch (kind.form) {
      case "every":
      case "at": {
        const duty = readDuty(pieces, begin, end, this.text, this.problems);
        return duty === undefined ? undefined : { duty };
      }
      case "needs": {
        const needs = readNeeds(pieces, begin, end, this.problems);
        return needs === undefined ? undefined : { needs };
      }
      case "units":
        return { units: this.unitForms(pieces, begin + 1, end) };
      default: {
        const compiled: Compiled = compile(kind);
        matcher.problems = this.problems;
        matcher.match(compiled, pieces, begin, begin + 1, end);
        if (!matcher.counts) return undefined;
        const filled = filledBy(matcher, compiled, pieces, this.text);
        if (kind.slots[0]?.filling.is !== "words") return { filled };
        const words = rangeOf(begin + 1, end).filter((at) => pieces.kind[at] === Piece.word);
        return { filled, words: words.map((at) => readValue(pieces, at, this.text)) };
      }
    }
  }

  private unitForms(pieces: Pieces, begin: number, end: number): UnitForm[] {
    const forms: UnitForm[] = [];
    let at = begin;
    while (at < end) {
      let stop = at;
      while (stop < end && pieces.kind[stop] !== Piece.comma) stop++;
      const wordsOnly = at < stop && rangeOf(at, stop).every((piece) => pieces.kind[piece] === Piece.word);
      if (wordsOnly && stop - at >= 2) {
        const start = pieces.start[at]!;
        const unit = rangeOf(at + 1, stop)
          .map((piece) => pieces.word[piece]!)
          .join(" ");
        forms.push({ what: pieces.word[at]!, unit, start, end: pieces.end[stop - 1]! });
      } else if (at < stop) {
        this.problem(
          "definition/units",
          pieces,
          at,
          "units are declared in pairs: units temperature C, volume L, gallon US",
        );
      }
      at = stop + 1;
    }
    return forms;
  }

  private problem(
    code: string,
    pieces: Pieces,
    at: number,
    message: string,
    mends: readonly Mend[] = [],
  ): void {
    this.problems.push({
      code,
      start: pieces.start[at]!,
      end: pieces.end[at]!,
      message,
      counts: false,
      mends,
    });
  }
}

/** What another kind of definition says of the same. */
const twins: Readonly<Record<string, string>> = { lasts: "keeps", keeps: "lasts" };

const reserved: ReadonlySet<string> = new Set(["room", "sheet", "none"]);
const rangeOf = (from: number, to: number): number[] =>
  Array.from({ length: to - from }, (_, index) => from + index);

const reader = new DefinitionReader();

/** The definition in a block. @param text the block, its head included */
export function readDefinition(text: string, word: DefinitionWord): Definition {
  return reader.read(text, word);
}
