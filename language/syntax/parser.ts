import {
  EmbeddedActionsParser,
  EOF,
  type IRecognitionException,
  type IToken,
  type TokenType,
} from "chevrotain";
import { noUnit, unitCodeOf } from "../quantity/unit-codes.ts";
import { unitSecondWords } from "../quantity/units.ts";
import { keeperWords } from "./messages.ts";
import { Mark, type MarkKind, Piece, Pieces } from "./pieces.ts";
import * as t from "./tokens.ts";

/**
 * The grammar, with embedded actions: each line becomes pieces, and is handed to a sink when its end is reached.
 *
 * One block is parsed at a time with one parser for all; nothing is built here. A line that the grammar refuses is handed to the sink as
 * broken, and parsing goes on at the next line: the line is the wall.
 */

/** A line that the grammar refuses. Offsets are offsets in the text that is parsed. */
export interface BrokenLine {
  /** The part it stumbled over. */
  readonly start: number;
  readonly end: number;
  /** What was expected there. */
  readonly message: string;
  readonly isHead: boolean;
  /** Where the line's first character that is no white space stands. */
  readonly first: number;
  /** The width of white space before it, a tab counting two. */
  readonly indent: number;
}

/** What a block's lines are handed to. The pieces are used again: a sink copies what it keeps. */
export interface LineSink {
  /** The first line of the block. */
  head(pieces: Pieces): void;
  /** A line below the head. `indent` is its width of white space in columns, a tab counting two. */
  line(pieces: Pieces, indent: number): void;
  broken(line: BrokenLine): void;
}

const markOf = new Map<TokenType, MarkKind>([
  [t.Below, Mark.below],
  [t.Above, Mark.above],
  [t.AtMost, Mark.atMost],
  [t.AtLeast, Mark.atLeast],
  [t.About, Mark.about],
]);

class BlockParser extends EmbeddedActionsParser {
  readonly pieces = new Pieces();
  sink!: LineSink;
  /** The text the tokens were cut from; offsets of pieces are offsets in it. */
  text = "";
  /** False while the head of the block is still to come. */
  pastHead = false;

  // What a quantity has gathered so far. Fields, not locals: the alternatives below are made once and not at each use.
  private sign: IToken | undefined;
  private number!: IToken;
  private higher: IToken | undefined;
  private third: IToken | undefined;
  private last!: IToken;
  private isLengths = false;
  private spelling = "";
  private unitStart = -1;

  constructor(isValidated = false) {
    super(t.allTokens, {
      maxLookahead: 2,
      recoveryEnabled: false,
      // A test validates the grammar; here it would cost each start some milliseconds.
      skipValidations: !isValidated,
      errorMessageProvider: keeperWords,
    });
    this.performSelfAnalysis();
  }

  /** All lines up to the end of the block; the first is the head unless `pastHead`. */
  lines = this.RULE("lines", () => {
    this.MANY(this.pieceOrEnd);
    // Anything but the end of the text here is a piece that the grammar refuses: its line is not handed over.
    this.ACTION(() => {
      if (this.LA(1).tokenType === EOF) this.handOver();
    });
  });

  private pieceOrEnd = () => this.OR(this.pieceKinds);
  private pieceKinds = [
    { ALT: () => this.SUBRULE(this.word) },
    { ALT: () => this.SUBRULE(this.quantity) },
    {
      ALT: () => {
        this.CONSUME(t.EndOfLine);
        this.ACTION(this.handOver);
      },
    },
    { ALT: () => this.plain(this.CONSUME(t.Comma), Piece.comma) },
    { ALT: () => this.plain(this.CONSUME(t.Text), Piece.text) },
    { ALT: () => this.time(this.CONSUME(t.TimeMark)) },
    { ALT: () => this.plain(this.CONSUME(t.DateMark), Piece.date) },
    { ALT: () => this.plain(this.CONSUME(t.OpenText), Piece.openText) },
    { ALT: () => this.plain(this.CONSUME(t.Dash), Piece.dash) },
    { ALT: () => this.plain(this.CONSUME(t.Semicolon), Piece.semicolon) },
    { ALT: () => this.plain(this.CONSUME(t.Equals), Piece.equals) },
    { ALT: () => this.sexed(this.CONSUME(t.SexedCount)) },
    { ALT: () => this.SUBRULE(this.destination) },
    { ALT: () => this.SUBRULE(this.group) },
    { ALT: () => this.SUBRULE(this.columnUnit) },
  ];

  /** `praecox`, `r1 .. r12`. */
  word = this.RULE("word", () => {
    const first = this.CONSUME(t.Word);
    this.higher = undefined;
    this.OPTION(this.upToName);
    this.ACTION(() => {
      const { pieces, higher } = this;
      if (higher === undefined) {
        pieces.add(Piece.word, first.startOffset, endOf(first), first.image);
      } else {
        const at = pieces.add(Piece.nameRange, first.startOffset, endOf(higher), first.image);
        pieces.lastWord[at] = higher.image;
      }
    });
  });
  private upToName = () => {
    this.CONSUME(t.Dots);
    this.higher = this.CONSUME1(t.Word);
  };

  /** `18 mg/L`, `<5`, `23..27 C`, `150 x 55 x 50 cm`. */
  quantity = this.RULE("quantity", () => {
    this.sign = this.higher = this.third = undefined;
    this.isLengths = false;
    this.OPTION(this.signed);
    this.number = this.last = this.CONSUME(t.NumberMark);
    this.OPTION1(this.upTo);
    this.MANY(this.timesNumber);
    this.spelling = "";
    this.unitStart = -1;
    this.OPTION2(this.withUnit);
    this.ACTION(this.addQuantity);
  });
  private signed = () => {
    this.sign = this.OR(this.signs);
  };
  private signs = [
    { ALT: () => this.CONSUME(t.Below) },
    { ALT: () => this.CONSUME(t.Above) },
    { ALT: () => this.CONSUME(t.AtMost) },
    { ALT: () => this.CONSUME(t.AtLeast) },
    { ALT: () => this.CONSUME(t.About) },
  ];
  private upTo = {
    // About so many to so many is a range; below a range is nothing.
    GATE: () => this.sign === undefined || this.sign.tokenType === t.About,
    DEF: () => {
      this.CONSUME(t.Dots);
      this.last = this.higher = this.CONSUME1(t.NumberMark);
    },
  };
  private timesNumber = {
    GATE: () => {
      const isLength = this.sign === undefined && (this.higher === undefined || this.isLengths);
      const hasNext = isTimes(this.LA(1)) && this.LA(2).tokenType === t.NumberMark;
      return isLength && hasNext && this.third === undefined;
    },
    DEF: () => {
      this.OR2([{ ALT: () => this.CONSUME(t.Times) }, { ALT: () => this.CONSUME(t.Word) }]);
      this.last = this.CONSUME2(t.NumberMark);
      if (this.higher === undefined) this.higher = this.last;
      else this.third = this.last;
      this.isLengths = true;
    },
  };
  private withUnit = {
    GATE: () => {
      const { tokenType, image } = this.LA(1);
      // `nitrate 18 pH 7.2`: what is measured next, and no unit.
      if (image === "pH" && numberStarts.has(this.LA(2).tokenType)) return false;
      return tokenType === t.Percent || unitCodeOf(image) !== undefined || unitSecondWords.has(image);
    },
    DEF: () => {
      this.last = this.OR1(this.unitWords);
      this.unitStart = this.last.startOffset;
      this.spelling = this.last.image;
      this.MANY1(this.moreUnitWords);
    },
  };
  private unitWords = [{ ALT: () => this.CONSUME1(t.Word) }, { ALT: () => this.CONSUME(t.Percent) }];
  private moreUnitWords = {
    GATE: () => unitSecondWords.get(this.spelling)?.has(this.LA(1).image) === true,
    DEF: () => {
      this.last = this.CONSUME2(t.Word);
      this.spelling += ` ${this.last.image}`;
    },
  };
  private addQuantity = () => {
    const { pieces, sign, number, higher, last } = this;
    const at = pieces.add(
      this.isLengths ? Piece.lengths : Piece.quantity,
      (sign ?? number).startOffset,
      endOf(last),
      "",
    );
    pieces.value[at] = Number(number.image);
    pieces.second[at] = higher === undefined ? Number.NaN : Number(higher.image);
    pieces.third[at] = this.third === undefined ? Number.NaN : Number(this.third.image);
    pieces.mark[at] =
      higher !== undefined && !this.isLengths
        ? Mark.range
        : sign === undefined
          ? Mark.exact
          : (markOf.get(sign.tokenType) ?? Mark.exact);
    pieces.unit[at] = this.unitStart < 0 ? noUnit : (unitCodeOf(this.spelling) ?? noUnit);
    pieces.unitStart[at] = this.unitStart < 0 ? endOf(last) : this.unitStart;
  };

  /** `-> q1`. */
  destination = this.RULE("destination", () => {
    const mark = this.CONSUME(t.Arrow);
    const name = this.CONSUME(t.Word);
    this.ACTION(() => this.pieces.add(Piece.destination, mark.startOffset, endOf(name), name.image));
  });

  /** `@rack`. */
  group = this.RULE("group", () => {
    const mark = this.CONSUME(t.GroupMark);
    const name = this.CONSUME(t.Word);
    this.ACTION(() => this.pieces.add(Piece.group, mark.startOffset, endOf(name), name.image));
  });

  /** `(mg/L CaCO3)`. */
  columnUnit = this.RULE("columnUnit", () => {
    const open = this.CONSUME(t.Open);
    const first = this.OR([{ ALT: () => this.CONSUME(t.Word) }, { ALT: () => this.CONSUME(t.Percent) }]);
    this.MANY(() => this.CONSUME1(t.Word));
    const close = this.CONSUME(t.Close);
    this.ACTION(() => {
      const name = this.text.slice(first.startOffset, close.startOffset).trim().replace(/\s+/g, " ");
      const at = this.pieces.add(Piece.columnUnit, open.startOffset, endOf(close), name);
      this.pieces.unit[at] = unitCodeOf(name) ?? noUnit;
      this.pieces.unitStart[at] = first.startOffset;
    });
  });

  private plain(token: IToken, kind: (typeof Piece)[keyof typeof Piece]): void {
    this.ACTION(() => this.pieces.add(kind, token.startOffset, endOf(token), ""));
  }

  private time(token: IToken): void {
    this.ACTION(() => {
      const at = this.pieces.add(Piece.time, token.startOffset, endOf(token), "");
      const [hours, minutes] = token.image.split(":");
      const total = Number(hours) * 60 + Number(minutes);
      // 24:00 and above, or 10:75, are no times of day; the reader of the piece says so.
      this.pieces.value[at] = Number(minutes) < 60 && total < 1440 ? total : Number.NaN;
    });
  }

  private sexed(token: IToken): void {
    this.ACTION(() => {
      const at = this.pieces.add(Piece.sexed, token.startOffset, endOf(token), "");
      const [males, females, unsexed] = token.image.split(".");
      this.pieces.value[at] = Number(males);
      this.pieces.second[at] = Number(females);
      this.pieces.third[at] = Number(unsexed);
      this.pieces.mark[at] = Mark.exact;
      this.pieces.unit[at] = noUnit;
    });
  }

  /** Gives the line that ends here to the sink and begins the next. */
  private handOver = () => {
    const { pieces } = this;
    if (pieces.count === 0) return;
    if (!this.pastHead) {
      this.pastHead = true;
      this.sink.head(pieces);
    } else {
      this.sink.line(pieces, this.indentBefore(pieces.start[0]!));
    }
    pieces.clear();
  };

  indentBefore(start: number): number {
    let width = 0;
    for (let at = start - 1; at >= 0; at--) {
      const code = this.text.charCodeAt(at);
      if (code === 0x0a || code === 0x0d) break;
      width += code === 0x09 ? 2 : 1;
    }
    return width;
  }
}

const numberStarts: ReadonlySet<TokenType> = new Set([t.NumberMark, ...markOf.keys()]);
const isTimes = (token: IToken): boolean => token.tokenType === t.Times || token.image === "x";
const endOf = (token: IToken): number => token.startOffset + token.image.length;

/** Throws if the grammar is ambiguous or otherwise wrong. */
export function validateGrammar(): void {
  new BlockParser(true);
}

const parser = new BlockParser();
// The grammar fails by exception on every broken line; their stacks are never read.
const stackDepth = { quiet: 0 };

/**
 * Parses the text of one block and hands its lines to `sink`. Offsets are offsets in `text`. Never throws.
 * @param pastHead true if the text begins below a head (a block of loose lines)
 */
export function parseBlock(text: string, sink: LineSink, pastHead = false): void {
  const all = t.lexer.tokenize(text).tokens;
  parser.text = text;
  parser.sink = sink;
  parser.pastHead = pastHead;
  const depth = Error.stackTraceLimit;
  Error.stackTraceLimit = stackDepth.quiet;
  try {
    // All at once; behind a broken line few at a time and then more, so that many broken lines are not read over and over.
    let lines = Number.POSITIVE_INFINITY;
    for (let from = 0; from < all.length; ) {
      const to = afterLines(all, from, lines);
      const tokens = from === 0 && to === all.length ? all : all.slice(from, to);
      parser.input = tokens;
      parser.pieces.clear();
      parser.lines();
      const error = parser.errors[0];
      if (error === undefined) {
        from = to;
        lines *= 2;
      } else {
        from += reportLine(tokens, error);
        lines = 1;
      }
    }
  } finally {
    Error.stackTraceLimit = depth;
  }
}

/** The index behind so many lines from `from`. */
function afterLines(tokens: readonly IToken[], from: number, lines: number): number {
  if (lines === Number.POSITIVE_INFINITY) return tokens.length;
  let left = lines;
  let at = from;
  while (at < tokens.length && left > 0) if (tokens[at++]!.tokenType === t.EndOfLine) left--;
  return at;
}

/** Hands a line over that the grammar refuses. Returns how many tokens are done with, up to its end. */
function reportLine(tokens: readonly IToken[], error: IRecognitionException): number {
  const before = "previousToken" in error ? (error.previousToken as IToken) : undefined;
  const at = stumble(tokens, error.token, before);
  const bad = tokens[at];
  const start = bad === undefined ? parser.text.length : bad.startOffset;
  const isHead = !parser.pastHead;
  parser.pastHead = true;
  const onLineEnd = bad === undefined || bad.tokenType === t.EndOfLine;
  const previous = tokens[at - 1];
  let begin = at;
  while (begin > 0 && tokens[begin - 1]!.tokenType !== t.EndOfLine) begin--;
  const first = tokens[begin]?.startOffset ?? start;
  const line = { message: error.message, isHead, first, indent: parser.indentBefore(first) };
  if (onLineEnd && previous !== undefined && previous.tokenType !== t.EndOfLine) {
    // What is missing at the end of a line is shown at its last word.
    parser.sink.broken({ ...line, start: previous.startOffset, end: endOf(previous) });
  } else {
    parser.sink.broken({ ...line, start, end: onLineEnd ? start : endOf(bad) });
  }
  let next = at;
  while (next < tokens.length && tokens[next]!.tokenType !== t.EndOfLine) next++;
  return Math.min(next + 1, tokens.length);
}

/** The index of the token the parser stopped at; the number of tokens at the end of the text. */
function stumble(tokens: readonly IToken[], token: IToken, previous: IToken | undefined): number {
  if (Number.isFinite(token.startOffset)) {
    const at = indexAtOffset(tokens, token.startOffset);
    if (at >= 0) return at;
  }
  return previous !== undefined && Number.isFinite(previous.startOffset)
    ? indexAtOffset(tokens, previous.startOffset) + 1
    : tokens.length;
}

function indexAtOffset(tokens: readonly IToken[], offset: number): number {
  let low = 0;
  let high = tokens.length - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const at = tokens[middle]!.startOffset;
    if (at === offset) return middle;
    if (at < offset) low = middle + 1;
    else high = middle - 1;
  }
  return -1;
}
