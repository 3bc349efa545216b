import { didYouMean, nearest } from "../quantity/nearest.ts";
import { UNITS } from "../quantity/units.ts";
import { Mark, Piece, type Pieces } from "../syntax/pieces.ts";
import { compile } from "./compile.ts";
import { entryKinds, kindNumber, kindOf } from "./entries/registry.ts";
import { Matcher } from "./match.ts";
import type { Problem } from "./problem.ts";
import { filledBy, type Item } from "./reading.ts";

/** A duty as it was written: when, and what. The words of the act are read like an entry that may leave things out. */
export interface DutyForm {
  readonly when: "every" | "at least" | "at most";
  /** 1 for `every`. */
  readonly times: number;
  readonly periodDays: number;
  /** The number of the entry kind. */
  readonly kind: number;
  readonly items: readonly Item[];
  readonly start: number;
  readonly end: number;
  /** The act's own words: `change 25..35 %`. */
  readonly act: string;
}

const matcher = new Matcher();
const dutyWords: readonly string[] = entryKinds.filter((kind) => kind.duty).map((kind) => kind.word);

/** Reads the duty in the pieces `begin..end`; undefined, with a problem, if it is none. */
export function readDuty(
  pieces: Pieces,
  begin: number,
  end: number,
  text: string,
  problems: Problem[],
): DutyForm | undefined {
  const fail = (code: string, at: number, message: string, mends: Problem["mends"] = []): undefined => {
    const shown = Math.min(at, end - 1);
    problems.push({
      code,
      start: pieces.start[shown]!,
      end: pieces.end[shown]!,
      message,
      counts: false,
      mends,
    });
    return undefined;
  };
  let at = begin + 1;
  let when: DutyForm["when"] = "every";
  let times = 1;
  if (pieces.word[begin] === "at") {
    const word = at < end && pieces.kind[at] === Piece.word ? pieces.word[at] : "";
    if (word !== "least" && word !== "most") {
      return fail("duty/form", at, "after “at” comes least or most: at least 3 per 7 d feed frozen");
    }
    when = word === "least" ? "at least" : "at most";
    at++;
    times = readTimes(pieces, at, end);
    if (Number.isNaN(times)) return fail("duty/form", at, `how often? at ${word} 3 per 7 d feed frozen`);
    at++;
    if (at >= end || pieces.word[at] !== "per" || pieces.kind[at] !== Piece.word) {
      return fail("duty/form", at, `in what time? at ${word} ${times} per 7 d feed frozen`);
    }
    at++;
  }
  const periodDays = readDays(pieces, at, end);
  if (Number.isNaN(periodDays)) {
    const days = at < end && pieces.kind[at] === Piece.word ? daysOf[pieces.word[at]!] : undefined;
    const mends = days === undefined ? [] : [{ title: `Write “${days}”`, text: days }];
    return fail("duty/form", at, "a duty needs a time in whole days: every 7 d change", mends);
  }
  at++;
  if (at >= end || pieces.kind[at] !== Piece.word)
    return fail("duty/kind", at, "a duty says what to do: every 7 d change 30 %");
  const word = pieces.word[at]!;
  const kind = kindNumber(word);
  if (kind === undefined || !kindOf(kind).duty) {
    // A kind that cannot be a duty is no slip of the finger.
    const near = kind === undefined ? nearest(word, dutyWords) : [];
    return fail(
      "duty/kind",
      at,
      kind === undefined
        ? `“${word}” is no kind of entry${didYouMean(near)}`
        : `“${word}” cannot be a duty; ${dutyWords.join(", ")} can`,
      near.map((each) => ({ title: `Write “${each}”`, text: each })),
    );
  }
  const compiled = compile(kindOf(kind));
  matcher.problems = problems;
  matcher.match(compiled, pieces, at, at + 1, end, false);
  if (!matcher.counts) return undefined;
  const start = pieces.start[begin]!;
  const last = pieces.end[end - 1]!;
  const act = text.slice(pieces.start[at]!, last).replace(/\s+/g, " ");
  return {
    when,
    times,
    periodDays,
    kind,
    items: filledBy(matcher, compiled, pieces, text).items,
    start,
    end: last,
    act,
  };
}

/** Words for a time without their number. */
const daysOf: Readonly<Record<string, string>> = { day: "1 d", week: "7 d", fortnight: "14 d" };

/** A number of times; NaN if the piece is none, or less than the least that makes sense. */
export function readTimes(pieces: Pieces, at: number, end: number, least = 1): number {
  const fits = at < end && pieces.kind[at] === Piece.quantity && pieces.mark[at] === Mark.exact;
  const value = pieces.value[at]!;
  return fits && Number.isInteger(value) && value >= least ? value : Number.NaN;
}

/** A time in whole days; NaN if the piece is none. */
export function readDays(pieces: Pieces, at: number, end: number): number {
  if (at >= end || pieces.kind[at] !== Piece.quantity || pieces.mark[at] !== Mark.exact) return Number.NaN;
  const code = pieces.unit[at]!;
  const unit = code < 0 ? undefined : UNITS[code];
  if (unit !== undefined && unit.dimension !== "duration") return Number.NaN;
  const days = pieces.value[at]! * (unit?.factor ?? 1);
  const whole = Math.round(days);
  return whole > 0 && Math.abs(days - whole) < 1e-9 ? whole : Number.NaN;
}
