import { createToken, Lexer, type TokenType } from "chevrotain";
import { spaces } from "./spaces.ts";

/**
 * The tokens of a `.tank` file.
 *
 * Every character of a text belongs to a token, to white space or to a comment, so the lexer has no errors of its own: what
 * fits nowhere is `Junk`. Words are not told apart here; which of them are units or entry kinds is looked up later.
 */

/** Letters of every script, digits, `-`, `_`, and the marks of unit symbols; no punctuation, arrows or direction controls. */
const letter =
  "A-Za-z_\\u00a3\\u20ac\\u2030\\u00b0\\u00b5\\u00c0-\\u00d6\\u00d8-\\u00f6\\u00f8-\\u1fff\\u2c00-\\u2fef\\u3040-\\ud7ff\\ud800-\\udfff\\uf900-\\ufdff\\ufe70-\\ufefe";
const wordPattern = new RegExp(`[${letter}](?:[${letter}0-9]|[-/](?=[${letter}0-9]))*`);

/** The lexer files the codes above 255 in buckets of 256: a few of each bucket hint them all. */
function everyStart(): number[] {
  const codes: number[] = [];
  for (let code = 0; code < 0x10000; code += code < 0x100 ? 1 : 0x40) codes.push(code);
  return codes;
}
const startOfWords = everyStart().filter(
  (code) => new RegExp(`[${letter}]`).test(String.fromCharCode(code)) || code > 0xff,
);

export const EndOfLine = createToken({ name: "EndOfLine", pattern: /\r\n|\n|\r/, line_breaks: true });
export const Space = createToken({
  name: "Space",
  pattern: new RegExp(`[${spaces}]+`),
  group: Lexer.SKIPPED,
});
export const Comment = createToken({
  name: "Comment",
  pattern: /(?<!\S)#[^\r\n]*/,
  start_chars_hint: ["#"],
  line_breaks: false,
  group: Lexer.SKIPPED,
});
/** What git leaves of a merge (`conflict-mark.ts`); no line has a place for it. */
export const ConflictMark = createToken({
  name: "ConflictMark",
  pattern: /(?<![^\r\n])(?:<{7,}|={7,}|>{7,}|\|{7,})(?![^ \t\r\n])[^\r\n]*/,
  start_chars_hint: ["<", "=", ">", "|"],
  line_breaks: false,
});
export const DateMark = createToken({ name: "DateMark", pattern: /\d{4}-\d{2}-\d{2}(?![\d-])/ });
export const TimeMark = createToken({ name: "TimeMark", pattern: /\d{1,2}:\d{2}(?![\d:])/ });
export const SexedCount = createToken({ name: "SexedCount", pattern: /\d+\.\d+\.\d+(?![\d.])/ });
export const NumberMark = createToken({
  name: "NumberMark",
  pattern: /-?(?:\d+(?:\.(?!\.)\d+)?|\.\d+)/,
});
export const Text = createToken({ name: "Text", pattern: /"(?:[^"\\\r\n]|\\[^\r\n])*"/ });
/** A text that is not closed on its line: the rest of the line is kept as the text that was begun. */
export const OpenText = createToken({ name: "OpenText", pattern: /"[^\r\n]*/ });
export const Word = createToken({
  name: "Word",
  pattern: wordPattern,
  start_chars_hint: startOfWords,
  line_breaks: false,
});
export const GroupMark = createToken({ name: "GroupMark", pattern: /@/ });
export const Percent = createToken({ name: "Percent", pattern: /%/ });
export const Arrow = createToken({ name: "Arrow", pattern: /->|\u2192/ });
export const Dots = createToken({ name: "Dots", pattern: /\.\.|\u2026/ });
export const AtMost = createToken({ name: "AtMost", pattern: /<=|\u2264/ });
export const AtLeast = createToken({ name: "AtLeast", pattern: />=|\u2265/ });
export const Below = createToken({ name: "Below", pattern: /</ });
export const Above = createToken({ name: "Above", pattern: />/ });
export const About = createToken({ name: "About", pattern: /~/ });
/** Between two lengths, also without spaces: `60x30x36`. */
export const Times = createToken({
  name: "Times",
  pattern: /(?<=\d)x(?=\.?\d)|\u00d7/,
  start_chars_hint: ["x", "\u00d7"],
  line_breaks: false,
});
export const Comma = createToken({ name: "Comma", pattern: /,/ });
export const Semicolon = createToken({ name: "Semicolon", pattern: /;/ });
export const Equals = createToken({ name: "Equals", pattern: /=/ });
export const Open = createToken({ name: "Open", pattern: /\(/ });
export const Close = createToken({ name: "Close", pattern: /\)/ });
export const Dash = createToken({ name: "Dash", pattern: /-/ });
export const Junk = createToken({
  name: "Junk",
  pattern: /[^\r\n]/,
  start_chars_hint: everyStart(),
  line_breaks: false,
});

/** In the order of trial: longer and more particular patterns first. */
export const allTokens: TokenType[] = [
  Space,
  Times,
  Word,
  EndOfLine,
  DateMark,
  TimeMark,
  SexedCount,
  NumberMark,
  Percent,
  Comma,
  Comment,
  Text,
  OpenText,
  Arrow,
  ConflictMark,
  Dots,
  AtMost,
  AtLeast,
  Below,
  Above,
  About,
  GroupMark,
  Semicolon,
  Equals,
  Open,
  Close,
  Dash,
  Junk,
];

/** One lexer for all texts; it throws when it is built if a pattern would cost it its fast path. */
export const lexer = new Lexer(allTokens, {
  positionTracking: "onlyOffset",
  ensureOptimizations: true,
  skipValidations: false,
});
