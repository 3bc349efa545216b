import { spokenDay } from "../../book/dates.ts";
import { Kind } from "../../book/entries/registry.ts";
import { Col, floatsPerRow, intsPerRow, markOfAmount, Num } from "../../book/facts.ts";
import { nameOf, noName, wordOf } from "../../book/interner.ts";
import type { Tank } from "../../book/stations.ts";
import { formatNumber } from "../../quantity/format.ts";
import type { Ledger } from "../../room/ledger.ts";
import { partyOf } from "../../room/party.ts";
import { quarantineUntil } from "../../room/quarantine.ts";
import type { Series } from "../../room/series.ts";
import { settledTime } from "../../room/water.ts";
import type { Why } from "../../room/why.ts";
import { whyQuarantine } from "../../room/why-quarantine.ts";
import { whyAnimals } from "../../room/why-stock.ts";
import { Mark } from "../../syntax/pieces.ts";
import type { FigureKind, LineFigure, Row } from "./row.ts";

/** What the entries of a line mean for the book of animals. */

/** A row's mark in the book of one tank. */
interface Booked {
  readonly row: Row;
  readonly tank: Tank;
  readonly ledger: Ledger;
  readonly index: number;
  /** The lot whose book it is; empty for that of the species. */
  readonly lot: string;
  /** NaN where the book knew of none. */
  readonly before: number;
  readonly after: number;
}

/** A count against the book: `= book`, or how many fewer or more. */
export function countFigure(rows: readonly Row[]): LineFigure | undefined {
  const booked = rows.flatMap((row) => bookedOf(row));
  const said = booked.map((each) => ({ each, text: againstBook(each) })).filter(({ text }) => text !== "");
  if (said.length === 0) return undefined;
  const isAllSame = said.length === booked.length && said.every(({ text }) => text === "= book");
  const label = isAllSame
    ? "= book"
    : said.map(({ each, text }) => (booked.length > 1 ? `${each.row.subject} ${text}` : text)).join(", ");
  // The book as it was before the count: what it is held against.
  return { kind: "count", label, why: () => together(said.map(({ each }) => whyBooked(each, each.index))) };
}

function againstBook({ row, before }: Booked): string {
  const number = (column: number): number => row.facts.floats[row.at * floatsPerRow + column]!;
  const [low, of] = [number(Num.amount), number(Num.second)];
  if (!Number.isNaN(of)) return of > low ? `${formatNumber(of - low, 6)} not seen` : "all seen";
  if (Number.isNaN(before)) return "";
  const mark = markOfAmount(row.facts, row.at);
  const isVague = mark === Mark.about || mark === Mark.range;
  const high = mark === Mark.range ? number(Num.high) : low;
  if (before >= low && before <= high) return "= book";
  if (isVague) return `book ${formatNumber(before, 6)}`;
  const off = low - before;
  return `${formatNumber(Math.abs(off), 6)} ${off < 0 ? "fewer" : "more"} than the book`;
}

/** A move, loss, sale or shipment: how many are left, and of a move how many are there now. */
export function leaveFigure(rows: readonly Row[]): LineFigure | undefined {
  const booked = rows.flatMap((row) => bookedOf(row)).filter(({ after }) => !Number.isNaN(after));
  if (booked.length === 0) return undefined;
  const label = booked.map((each) => {
    const left = each.after === 0 ? "none left" : `${formatNumber(each.after, 6)} left`;
    return booked.length > 1 ? `${each.row.subject} ${left}` : left;
  });
  const received = rows.flatMap(receivedOf);
  for (const { tank, after } of received) label.push(`${formatNumber(after, 6)} in ${tank.name}`);
  const all = [...booked, ...received];
  const [last] = received;
  const held = last === undefined ? undefined : heldFrom(last);
  return {
    kind: "move",
    label: [label.join(", "), ...(held === undefined ? [] : [held.label])].join(" · "),
    why: () =>
      together([
        ...(held === undefined ? [] : [held.why()]),
        ...all.map((each) => whyBooked(each, each.index + 1)),
      ]),
  };
}

/** An arrival or hatch: until when it stays in quarantine, and how many there are now. */
export function enterFigure(rows: readonly Row[]): LineFigure | undefined {
  const booked = rows.flatMap((row) => bookedOf(row));
  const [first] = booked;
  if (first === undefined) return undefined;
  const label: string[] = [];
  // The rows of a line are of one minute: the last of them has all of it.
  const held = first.row.kind === Kind.arrive ? heldFrom(booked.at(-1)!) : undefined;
  if (held !== undefined) label.push(held.label);
  for (const { before, after, row: each } of booked)
    if (before > 0) label.push(`${booked.length > 1 ? `${each.subject} ` : ""}${formatNumber(after, 6)} now`);
  if (label.length === 0) return undefined;
  const kind: FigureKind = "arrive";
  return {
    kind,
    label: label.join(" · "),
    why: () =>
      together([
        ...(held === undefined ? [] : [held.why()]),
        ...booked.map((each) => whyBooked(each, each.index + 1)),
      ]),
  };
}

/** The clock of the quarantine tank that animals came into, just after they did; undefined where none runs. */
function heldFrom({
  row,
  tank,
  ledger,
  index,
}: Booked): { readonly label: string; readonly why: () => Why } | undefined {
  if (tank.role !== "quarantine") return undefined;
  const { logbook, book } = row.checked;
  const { day } = row.block;
  const clock = quarantineUntil(logbook, ledger, day, justAfter(ledger.animals, index));
  if (clock === undefined) return undefined;
  const { end, signs } = clock;
  return {
    label: `quarantine ${signs.length === 0 ? "until" : "at least until"} ${spokenDay(end, day)}`,
    why: () => whyQuarantine(book, clock),
  };
}

/** Behind a row, and before the next. */
const justAfter = (series: Series, index: number): number => settledTime(series, index) + 1e-9;

function bookedOf(row: Row): Booked[] {
  return row.stations.flatMap((station) => (station.kind === "tank" ? bookedIn(row, station as Tank) : []));
}

/** What a move brought to the tank it went to. */
function receivedOf(row: Row): Booked[] {
  if (row.kind !== Kind.move) return [];
  const to = row.checked.book.station(nameOf(row.object));
  return to?.kind === "tank" ? bookedIn(row, to as Tank) : [];
}

function bookedIn(row: Row, tank: Tank): Booked[] {
  const ledger = row.checked.logbook.ledgerOf(tank);
  const lot = row.facts.ints[row.at * intsPerRow + Col.lot]!;
  // A count of a lot is held against the lot's book; other entries are told by that of the species.
  const isOfLot = row.kind === Kind.count && lot !== noName;
  const species = nameOf(row.subject);
  const holding = isOfLot
    ? ledger.lotStock.known(tank.id, partyOf(species, lot))
    : ledger.stock.known(tank.id, species);
  if (holding === undefined) return [];
  const series = isOfLot ? ledger.lots : ledger.animals;
  const index = series.find(row.time, row.block, row.id, holding.index);
  if (index < 0) return [];
  const [before, after] = [series.first[index]!, series.second[index]!];
  return [{ row, tank, ledger, index, lot: isOfLot ? wordOf(lot) : "", before, after }];
}

function whyBooked({ row, tank, ledger, index, lot }: Booked, end: number): Why {
  const when = end > index ? "after this" : "before this";
  const ofLot = lot === "" ? "" : ` of lot ${lot}`;
  const what = `${row.subject}${ofLot} in ${tank.name} by the book ${when}`;
  return whyAnimals(ledger, tank, row.subject, what, end, lot);
}

function together(whys: readonly Why[]): Why {
  const [only] = whys;
  return whys.length === 1 && only !== undefined
    ? only
    : { what: "animals by the book", value: "", from: whys };
}
