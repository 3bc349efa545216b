import { Col, intsPerRow } from "../../language/book/facts.ts";
import { wordOf } from "../../language/book/interner.ts";
import { parameters } from "../../language/book/parameters.ts";
import { type Block, rowOfId } from "../../language/book/source.ts";
import type { CheckedLogbook } from "../../language/checks/check.ts";
import type { Finding } from "../../language/checks/finding.ts";
import { courses } from "../../language/room/course.ts";
import type { Series } from "../../language/room/series.ts";
import type { Why } from "../../language/room/why.ts";

/** A logbook written out, to hold one against another. */

/** Where a row stands, by the number it is referred to with. */
function rowText(block: Block, id: number): string {
  const row = rowOfId(block, id);
  const { ints } = block.facts;
  const start = ints[row * intsPerRow + Col.start]!;
  const end = ints[row * intsPerRow + Col.end]!;
  return `${block.file.path}:${block.start + start} ${block.text.slice(start, end)}`;
}

function seriesText(series: Series): string[] {
  return Array.from({ length: series.length }, (_, at) => {
    const { time, order, first, second, tag, kind, isAbout, block, row } = series;
    const figures = [time, order, first, second, tag, kind, isAbout].map((column) => column[at]);
    return `${figures.join(" ")} ${rowText(block[at]!, row[at]!)}`;
  });
}

/** What all ledgers hold. */
export function figuresOf(checked: CheckedLogbook, day: number): unknown {
  const { book, ledgers } = checked.logbook;
  return ledgers.map((ledger) => ({
    body: ledger.body?.name ?? "room",
    litres: ledger.body?.volumeL,
    readings: parameters.flatMap(({ id, name }) => {
      const series = ledger.readings[id];
      return series === undefined || series.length === 0 ? [] : [[name, seriesText(series)]];
    }),
    exchanges: seriesText(ledger.exchanges),
    doses: seriesText(ledger.doses),
    animals: seriesText(ledger.animals),
    lots: seriesText(ledger.lots),
    conditions: seriesText(ledger.conditions),
    health: seriesText(ledger.health),
    stock: ledger.stock
      .in()
      .map(({ tank, species, animals, isAbout }) => `${tank} ${wordOf(species)} ${animals} ${isAbout}`),
    courses: ledger.solutes
      ?.all(day)
      .map(({ remedy, concentration, given, oldWater, last }) => [
        remedy.name,
        concentration,
        given,
        oldWater,
        rowText(last.block, last.row),
      ]),
    duties: book.duties
      .filter((duty) => checked.logbook.ledgerOf(duty.station) === ledger)
      .map((duty) => [
        duty.station.name,
        duty.act,
        seriesText(ledger.duties.done(duty)),
        ...[ledger.duties.less(duty), ledger.duties.undone(duty)].map((series) =>
          series === undefined ? [] : seriesText(series),
        ),
        ledger.duties.first(duty.station.id),
      ]),
    courseBooks: courses(ledger).map(({ holding, at, days }) => [
      wordOf(holding.species),
      holding.tank,
      at,
      days,
    ]),
  }));
}

const placeText = (at: { block: Block; start: number; end: number }): string =>
  `${at.block.file.path}:${at.block.start + at.start}..${at.block.start + at.end}`;

/** What a finding says and where, what it links to, and why it says so. */
export function findingText(finding: Finding): string {
  const { code, severity, message, fixes, related, why } = finding;
  const edits = fixes.flatMap((fix) =>
    fix.edits.map((edit) => `${placeText(edit)} ${JSON.stringify(edit.text)}`),
  );
  const links = related.map((each) => placeText(each.place));
  const reasons = why === undefined ? [] : whyText(why);
  return [`${placeText(finding)} ${severity} ${code}: ${message}`, ...edits, ...links, ...reasons].join(
    "\n  ",
  );
}

const whyText = ({ what, value, place, from }: Why): string[] => [
  `${what}: ${value}${place === undefined ? "" : ` ${placeText(place)}`}`,
  ...from.flatMap(whyText),
];
