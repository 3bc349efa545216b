import type { Book } from "../book/book.ts";
import { Kind } from "../book/entries/registry.ts";
import { Col, type Facts, floatsPerRow, intsPerRow, kindOfRow, unitOfAmount } from "../book/facts.ts";
import { noName } from "../book/interner.ts";
import type { Block } from "../book/source.ts";
import { UNITS } from "../quantity/units.ts";
import { isEmptyBefore } from "./before-row.ts";
import type { LogStep } from "./contact.ts";
import { type Refill, stepsOfRow } from "./contact-rows.ts";
import { firstFrom } from "./days.ts";
import type { Logbook } from "./logbook.ts";
import { type LogRow, rowFinder } from "./rare-rows.ts";

/** The rows of a log as contacts: what went from where to where, and what ended it. */

/** Contacts from a day to another, with what tells whether they still are as they were read. */
export interface StepsRead {
  readonly steps: readonly LogStep[];
  readonly book: Book;
  /** The rows of all days as they were found, and those of the days. */
  readonly all: readonly LogRow[];
  readonly rows: readonly LogRow[];
  /** Blocks of which lines were read, in which revision: who bought stands in no column. */
  readonly read: readonly (readonly [Block, number])[];
  readonly refills: readonly { readonly refill: Refill; readonly isEmpty: boolean }[];
}

/** Contacts from a day to another, both counted, in the order of the log. */
export const contactSteps = (logbook: Logbook, from: number, to: number): readonly LogStep[] =>
  readContacts(logbook, from, to).steps;

export function readContacts(logbook: Logbook, from: number, to: number): StepsRead {
  const { book } = logbook;
  const all = findRows(logbook, Number.POSITIVE_INFINITY);
  const rows = within(all, from, to);
  const steps: LogStep[] = [];
  const refills: { refill: Refill; isEmpty: boolean }[] = [];
  for (const row of rows)
    for (const step of stepsOf(book, row)) {
      if (step.is !== "refill") {
        steps.push(step);
        continue;
      }
      const isEmpty = areEmptyBefore(logbook, step);
      refills.push({ refill: step, isEmpty });
      for (const each of isEmpty ? step.emptied : step.changed) steps.push(each);
    }
  const read = rows.filter(isOfLine).map(({ block }) => [block, block.revision] as const);
  return { steps, book, all, rows, read, refills };
}

/** Whether the log still says the same of these days. Few look-ups: a log may have many cases. */
export function isStill(
  { book, all, rows, read, refills }: StepsRead,
  logbook: Logbook,
  from: number,
  to: number,
): boolean {
  if (book !== logbook.book) return false;
  const now = findRows(logbook, Number.POSITIVE_INFINITY);
  if (now !== all) {
    const found = within(now, from, to);
    if (found.length !== rows.length || !found.every((row, at) => row === rows[at])) return false;
  }
  return (
    read.every(([block, revision]) => block.revision === revision) &&
    refills.every(({ refill, isEmpty }) => areEmptyBefore(logbook, refill) === isEmpty)
  );
}

const areEmptyBefore = (logbook: Logbook, refill: Refill): boolean =>
  refill.tanks.every((tank) => isEmptyBefore(logbook, tank, refill));

const within = (rows: readonly LogRow[], from: number, to: number): readonly LogRow[] =>
  rows.slice(firstFrom(rows, from), firstFrom(rows, to + 1));

const always: ReadonlySet<number> = new Set([
  Kind.arrive,
  Kind.move,
  Kind.carry,
  Kind.sell,
  Kind.ship,
  Kind.sick,
  Kind.sample,
  Kind.result,
  Kind.disinfect,
]);

function mayTell(facts: Facts, row: number): boolean {
  const kind = kindOfRow(facts, row);
  if (always.has(kind)) return true;
  const names = (column: number): boolean => facts.ints[row * intsPerRow + column] !== noName;
  if (kind === Kind.clean) return names(Col.tool);
  if (kind === Kind.plant) return names(Col.object);
  if (kind !== Kind.change) return false;
  // All of the water: of a volume the book tells.
  const isFraction = UNITS[unitOfAmount(facts, row)]?.dimension === "fraction";
  return names(Col.tool) || names(Col.subject) || names(Col.object) || !isFraction || isWhole(facts, row);
}

const isWhole = (facts: Facts, row: number): boolean => {
  const { factor } = UNITS[unitOfAmount(facts, row)]!;
  return facts.floats[row * floatsPerRow]! * factor >= 1 - 1e-9;
};

/** The rows that may be contacts. */
const findRows = rowFinder(mayTell);

const isOfLine = ({ kind }: LogRow): boolean => kind === Kind.sell || kind === Kind.ship;

interface Known {
  readonly book: Book;
  /** Of its block, where its line was read. */
  readonly revision: number;
  readonly steps: readonly (LogStep | Refill)[];
}

/** What a row tells against one book, kept until either changes. */
const known = new WeakMap<LogRow, Known>();

function stepsOf(book: Book, row: LogRow): readonly (LogStep | Refill)[] {
  const last = known.get(row);
  const revision = isOfLine(row) ? row.block.revision : 0;
  if (last?.book === book && last.revision === revision) return last.steps;
  const steps = stepsOfRow(book, row.block, row.row);
  known.set(row, { book, revision, steps });
  return steps;
}
