import { Kind } from "../book/entries/registry.ts";
import { Col, intsPerRow } from "../book/facts.ts";
import { nameOf, wordOf } from "../book/interner.ts";
import { rowOfId } from "../book/source.ts";
import type { Tank } from "../book/stations.ts";
import type { At } from "./contact.ts";
import { type Course, courses, entriesBefore } from "./course.ts";
import { firstFrom } from "./days.ts";
import type { Logbook } from "./logbook.ts";
import { rareRows } from "./rare-rows.ts";

/** What a tank holds by the book just before any row of the log, be it about animals or not. */

export interface HeldBefore {
  readonly species: string;
  /** NaN where the book knows nothing. */
  readonly animals: number;
}

/** The species in a tank just before a row: those of which some are there, or nobody knows. */
export function heldBefore(logbook: Logbook, tank: Tank, at: At): HeldBefore[] {
  return told(logbook, tank, at).filter(({ animals }) => !(animals <= 0));
}

/** Whether no animal is in a tank just before a row. Where the book knows nothing, and one was sick, somebody is there. */
export function isEmptyBefore(logbook: Logbook, tank: Tank, at: At): boolean {
  const known = told(logbook, tank, at);
  if (known.length > 0) return known.every(({ animals }) => animals <= 0);
  const name = nameOf(tank.name);
  return !rareRows(logbook, sickOnly, at.day).some(({ facts, row, time, block, id }) => {
    const target = facts.ints[row * intsPerRow + Col.target]!;
    const isHere = target === name || (target < 0 && logbook.book.groupTanks(~target)?.includes(tank));
    return isHere && standsBefore(logbook, { day: at.day, time, block, row: id }, at);
  });
}

const sickOnly: ReadonlySet<number> = new Set([Kind.sick]);

function told(logbook: Logbook, tank: Tank, at: At): HeldBefore[] {
  return courses(logbook.ledgerOf(tank)).flatMap((course): HeldBefore[] => {
    const { holding, series } = course;
    if (holding.tank !== tank.id) return [];
    const entries = entriesBeforeRow(logbook, course, at);
    if (entries === 0) return [];
    return [{ species: wordOf(holding.species), animals: series.second[course.at[entries - 1]!]! }];
  });
}

/** How many entries of a course stand before a row: entries of one minute count in the order of files and lines. */
function entriesBeforeRow(logbook: Logbook, course: Course, at: At): number {
  const { series } = course;
  let entries = entriesBefore(course, at.time);
  for (; entries < course.at.length; entries++) {
    const index = course.at[entries]!;
    const time = series.time[index]!;
    if (time > at.time) break;
    const entry = { day: at.day, time, block: series.block[index]!, row: series.row[index]! };
    if (!standsBefore(logbook, entry, at)) break;
  }
  return entries;
}

/** Whether a row of the log stands before another, by time, then by the order of files and lines. */
export function standsBefore({ dayGroups }: Logbook, a: At, b: At): boolean {
  if (a.time !== b.time) return a.time < b.time;
  if (a.block === b.block) return rowOfId(a.block, a.row) < rowOfId(b.block, b.row);
  const { blocks } = dayGroups[firstFrom(dayGroups, b.day)]!;
  return blocks.indexOf(a.block) < blocks.indexOf(b.block);
}
