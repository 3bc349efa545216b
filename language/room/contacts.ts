import type { Book } from "../book/book.ts";
import { Kind } from "../book/entries/registry.ts";
import { Col, type Facts, floatsPerRow, intsPerRow, kindOfRow, unitOfAmount } from "../book/facts.ts";
import { noName } from "../book/interner.ts";
import type { Block } from "../book/source.ts";
import { UNITS } from "../quantity/units.ts";
import { isEmptyBefore } from "./before-row.ts";
import type { LogStep } from "./contact.ts";
import { type Refill, stepsOfRow } from "./contact-rows.ts";
import { type DayGroup, firstFrom, sortDay } from "./days.ts";
import { keptPerBlock } from "./kept-per-block.ts";
import type { Logbook } from "./logbook.ts";

/** The rows of a log as contacts: what went from where to where, and what ended it. */

/** Contacts from a day to another, with what tells whether they still are as they were read. */
export interface StepsRead {
  readonly steps: readonly LogStep[];
  readonly book: Book;
  readonly facts: readonly Facts[];
  readonly refills: readonly { readonly refill: Refill; readonly isEmpty: boolean }[];
}

/** Contacts from a day to another, both counted, in the order of the log. */
export const contactSteps = (logbook: Logbook, from: number, to: number): readonly LogStep[] =>
  readContacts(logbook, from, to).steps;

export function readContacts(logbook: Logbook, from: number, to: number): StepsRead {
  const { book } = logbook;
  const steps: LogStep[] = [];
  const facts: Facts[] = [];
  const refills: { refill: Refill; isEmpty: boolean }[] = [];
  for (const group of groupsWithin(logbook, from, to)) {
    const found: (LogStep | Refill)[] = [];
    for (const block of group.blocks) {
      facts.push(block.facts);
      found.push(...stepsOfBlock(book, block));
    }
    sortDay(found, 0, group);
    for (const step of found) {
      if (step.is !== "refill") {
        steps.push(step);
        continue;
      }
      const isEmpty = areEmptyBefore(logbook, step);
      refills.push({ refill: step, isEmpty });
      steps.push(...(isEmpty ? step.emptied : step.changed));
    }
  }
  return { steps, book, facts, refills };
}

/** Whether the log still says the same of these days. Few look-ups: a log may have many cases. */
export function isStill(
  { book, facts, refills }: StepsRead,
  logbook: Logbook,
  from: number,
  to: number,
): boolean {
  if (book !== logbook.book) return false;
  let at = 0;
  for (const { blocks } of groupsWithin(logbook, from, to))
    for (const block of blocks) if (facts[at++] !== block.facts) return false;
  return (
    at === facts.length && refills.every(({ refill, isEmpty }) => areEmptyBefore(logbook, refill) === isEmpty)
  );
}

const areEmptyBefore = (logbook: Logbook, refill: Refill): boolean =>
  refill.tanks.every((tank) => isEmptyBefore(logbook, tank, refill));

function* groupsWithin({ dayGroups }: Logbook, from: number, to: number): Iterable<DayGroup> {
  for (let at = firstFrom(dayGroups, from); at < dayGroups.length; at++) {
    const group = dayGroups[at]!;
    if (group.day > to) return;
    yield group;
  }
}

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

/** The rows of a block that may be contacts. */
const rowsIn = keptPerBlock((facts): readonly number[] => {
  const rows: number[] = [];
  for (let row = 0; row < facts.count; row++) if (mayTell(facts, row)) rows.push(row);
  return rows;
});

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

interface Known {
  readonly facts: Facts;
  readonly book: Book;
  readonly steps: readonly (LogStep | Refill)[];
}

/** What the rows of a block tell against one book, kept until either changes. */
const known = new WeakMap<Block, Known>();

function stepsOfBlock(book: Book, block: Block): readonly (LogStep | Refill)[] {
  const { facts } = block;
  const last = known.get(block);
  if (last?.facts === facts && last.book === book) return last.steps;
  const steps = rowsIn(block).flatMap((row) => stepsOfRow(book, block, row));
  known.set(block, { facts, book, steps });
  return steps;
}
