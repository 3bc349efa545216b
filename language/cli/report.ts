import { isoOf } from "../book/dates.ts";
import { Col, intsPerRow } from "../book/facts.ts";
import type { Block, Source } from "../book/source.ts";
import type { Place as BookPlace } from "../book/stations.ts";
import type { Finding } from "../checks/finding.ts";
import type { Location } from "../features/view.ts";
import type { Why } from "../room/why.ts";
import { nextLine } from "../syntax/blocks.ts";
import type { Call } from "./command.ts";
import type { Unread } from "./files.ts";
import type { Opened } from "./open.ts";
import { linePlace, lineText } from "./place.ts";
import type { FindingReport, LogbookReport, Place, WhyTree } from "./schema.ts";
import { plain } from "./text.ts";
import type { World } from "./world.ts";

/** What a logbook tells, in the form of `--json` (`schema.ts`). */

export function printJson(world: World, report: { readonly standpipe: 1 }): void {
  world.out.write(`${JSON.stringify(report, null, 2)}\n`);
}

export function placeReport({ shown }: Opened, source: Source, start: number, end: number): Place {
  return { file: shown(source), ...linePlace(source, start, end) };
}

export function bookPlaceReport(opened: Opened, { block, start, end }: BookPlace): Place {
  return placeReport(opened, block.file, block.start + start, block.start + end);
}

export function locationReport(opened: Opened, { path, start, end }: Location): Place | undefined {
  const source = opened.checked.logbook.sources.get(path);
  return source === undefined ? undefined : placeReport(opened, source, start, end);
}

export function whyReport(opened: Opened, why: Why): WhyTree {
  const { what, value, formula, source, place, from } = why;
  return {
    what,
    value,
    ...(formula === undefined ? {} : { formula }),
    ...(source === undefined ? {} : { source }),
    ...(place === undefined ? {} : { place: bookPlaceReport(opened, place) }),
    from: from.map((each) => whyReport(opened, each)),
  };
}

export function findingReport(opened: Opened, finding: Finding): FindingReport {
  const { code, severity, message, block, fixes, related, why } = finding;
  const place = bookPlaceReport(opened, finding);
  return {
    code,
    severity,
    message,
    place,
    text: lineText(block.file, place.line),
    fixes: fixes.map(({ title, isSure, edits }) => ({
      title,
      isSure,
      edits: edits.map((edit) => ({ place: bookPlaceReport(opened, edit), text: edit.text })),
    })),
    related: related.map((each) => ({ place: bookPlaceReport(opened, each.place), message: each.message })),
    ...(why === undefined ? {} : { why: whyReport(opened, why) }),
  };
}

export function logbookReport({ folder, checked }: Opened, worldDay: number): LogbookReport {
  const { logbook, book } = checked;
  return {
    folder,
    title: book.title,
    today: isoOf(logbook.today(worldDay)),
    files: logbook.sources.size,
    entries: entriesOf(checked.logbook),
    tanks: book.tanks.length,
  };
}

/** Entries that count: lines, and of a sheet its rows. */
export function entriesOf(logbook: Opened["checked"]["logbook"]): number {
  let entries = 0;
  for (const { blocks } of logbook.dayGroups) for (const block of blocks) entries += entriesIn(block);
  return entries;
}

/** An entry that lists several things is as many rows of facts, and one line. */
export function entriesIn({ text, facts }: Block): number {
  let entries = 0;
  let lineEnd = -1;
  for (let row = 0; row < facts.count; row++) {
    const start = facts.ints[row * intsPerRow + Col.start]!;
    if (start < lineEnd) continue;
    entries++;
    lineEnd = nextLine(text, start);
  }
  return entries;
}

/** Says on standard error what could not be read. */
export function tellUnread({ world, terminal }: Call, unread: readonly Unread[]): void {
  for (const { message } of unread)
    world.err.write(`${terminal.paint("error", "not read")}  ${plain(message)}\n`);
}
