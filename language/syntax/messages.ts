import type { IParserErrorMessageProvider, IToken } from "chevrotain";
import * as t from "./tokens.ts";

/** What the grammar refuses, in the keeper's words: what stands there, and what was expected instead. */
export const keeperWords: IParserErrorMessageProvider = {
  buildMismatchTokenMessage: ({ expected, actual, previous }) => {
    if (previous.tokenType === t.Arrow)
      return `after ${previous.image} comes the name of a tank, not ${shown(actual)}`;
    if (previous.tokenType === t.GroupMark) return `after @ comes the name of a group, not ${shown(actual)}`;
    if (previous.tokenType === t.Dots && expected === t.Word)
      return `a range of names ends with a name, as in r1 .. r12, not ${shown(actual)}`;
    if (previous.tokenType === t.Dots)
      return `a range needs its upper end, as in 23..27, not ${shown(actual)}`;
    if (expected === t.NumberMark) return `after ${previous.image} comes a number, not ${shown(actual)}`;
    if (expected === t.Close)
      return `the bracket of a unit is not closed: expected ) before ${shown(actual)}`;
    return unreadable(actual);
  },
  buildNotAllInputParsedMessage: ({ firstRedundant }) => unreadable(firstRedundant),
  buildNoViableAltMessage: ({ actual, previous }) => {
    const found = actual[0];
    if (found === undefined) return "the line ends too early";
    if (previous.tokenType === t.Arrow)
      return `after ${previous.image} comes the name of a tank, not ${shown(found)}`;
    if (previous.tokenType === t.Open)
      return `in brackets stands the unit of a column, as in temperature (F), not ${shown(found)}`;
    return unreadable(found);
  },
  buildEarlyExitMessage: ({ actual }) => unreadable(actual[0]),
};

function unreadable(token: IToken | undefined): string {
  if (token?.tokenType === t.Dots)
    return "a range stands between two numbers or two names: 23..27, r1 .. r12";
  if (token?.tokenType === t.Percent) return "% comes after a number, as in 30 %";
  if (token?.tokenType === t.Close || token?.tokenType === t.Open)
    return "brackets stand only around the unit of a sheet's column, as in temperature (F)";
  return `I cannot read ${shown(token)} here`;
}

function shown(token: IToken | undefined): string {
  if (token === undefined || token.image === "" || token.tokenType === t.EndOfLine)
    return "the end of the line";
  return `“${token.image}”`;
}
