import type { Book } from "../book/book.ts";
import { spokenDay } from "../book/dates.ts";
import { calibrated, worksFor } from "../book/duty-words.ts";
import { Kind } from "../book/entries/registry.ts";
import { Col, intsPerRow } from "../book/facts.ts";
import { wordOf } from "../book/interner.ts";
import { rowOfId } from "../book/source.ts";
import { either } from "../quantity/nearest.ts";
import { absenceOn } from "../room/capacity.ts";
import type { DueDuty } from "../room/due.ts";
import { entryWords } from "../room/why.ts";

/** What there is to say of a duty beside when it is due: the absence it fell into, what was done and is less, what was taken back. */
export function dueNotes(book: Book, due: DueDuty, day: number): string[] {
  return [absenceText(book, due, day), undoneText(due, day), lessText(due, day)].filter(
    (text) => text !== "",
  );
}

/** `due on 12 April, in the absence until 13 April`; empty where it fell on a day with work. */
export function absenceText(book: Book, { duty, due, owed }: DueDuty, day: number): string {
  if (!Number.isFinite(due)) return "";
  const absence = absenceOn(book, due);
  if (due === owed) {
    const isCovered = absence?.covered.includes(duty.kind) === true;
    return isCovered
      ? `due on ${spokenDay(due, day)}, in the absence until ${spokenDay(absence.until, day)}, when someone else does it: write what was done`
      : "";
  }
  return absence === undefined
    ? `due on ${spokenDay(due, day)}, a day off`
    : `due on ${spokenDay(due, day)}, in the absence until ${spokenDay(absence.until, day)}`;
}

function undoneText({ duty, undone }: DueDuty, day: number): string {
  if (undone === undefined) return "";
  const what = duty.work === calibrated ? ": it has to be calibrated anew" : "";
  return `“${entryWords(undone)}” on ${spokenDay(undone.time, day)}${what}`;
}

/** What was done and does not count, and what of it is missing. */
function lessText({ duty, less }: DueDuty, day: number): string {
  if (less === undefined) return "";
  return `“${entryWords(less)}” on ${spokenDay(less.time, day)} does not count: ${missingText(duty, less)}`;
}

function missingText(
  { kind, parts, work, act }: DueDuty["duty"],
  less: NonNullable<DueDuty["less"]>,
): string {
  if (parts !== undefined) {
    const done = partsOn(less);
    const missing = [...parts].filter((part) => !done.has(part)).map(wordOf);
    if (missing.length > 0 && missing.length < parts.size) return `missing is ${missing.join(", ")}`;
  }
  if (kind === Kind.service && work !== 0) {
    const words = worksFor(work);
    return `it says no ${either(words)}`;
  }
  return kind === Kind.change || kind === Kind.topUp
    ? `it is less than “${act}”`
    : `it is a part of “${act}”`;
}

/** What of a duty's parts an entry names. */
function partsOn({ block, row: id }: NonNullable<DueDuty["less"]>): ReadonlySet<number> {
  const { facts } = block;
  const row = rowOfId(block, id);
  if (row < 0) return new Set();
  const target = facts.ints[row * intsPerRow + Col.target];
  const found = new Set<number>();
  // All items of its day at its target: parts of one day add up.
  for (let at = 0; at < facts.count; at++)
    if (facts.ints[at * intsPerRow + Col.target] === target)
      found.add(facts.ints[at * intsPerRow + Col.subject]!);
  return found;
}
