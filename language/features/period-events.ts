import { Kind, kindOf } from "../book/entries/registry.ts";
import { entryOf } from "../book/entry.ts";
import { Col, choiceOfRow, intsPerRow } from "../book/facts.ts";
import { noName, wordOf } from "../book/interner.ts";
import { formatNumber } from "../quantity/format.ts";
import { bathsUntil } from "../room/baths.ts";
import { broodsUntil, tallyOf } from "../room/broods.ts";
import { type Case, casesUntil } from "../room/cases.ts";
import { deadReports } from "../room/dead-on-arrival.ts";
import type { Logbook } from "../room/logbook.ts";
import { type Gone, goneUntil, stationsOf } from "../room/orders.ts";
import { rowsBetween } from "../room/rows-between.ts";
import { purchases } from "../room/spending.ts";
import type { Period } from "../room/stock-book.ts";
import { stockedRows } from "../room/stocked.ts";
import { known, rowLocation } from "./card-parts.ts";
import type {
  BroodSumCard,
  CaseLineCard,
  CasesCard,
  GearCard,
  NoteCard,
  OrderSentCard,
  PeriodCard,
  RemedyUsedCard,
  SpendingCard,
} from "./period-cards.ts";

/** What happened in a period beside work, water and animals: a list or a sum each. */
export function periodEvents(
  logbook: Logbook,
  period: Period,
  today: number,
): Pick<PeriodCard, "cases" | "remedies" | "broods" | "orders" | "spending" | "gear" | "notes"> {
  return {
    cases: casesCard(logbook, period),
    remedies: remedyCards(logbook, period),
    broods: broodCards(logbook, period),
    orders: orderCards(logbook, period, today),
    spending: spendingCard(logbook, period),
    gear: gearCards(logbook, period),
    notes: noteCards(logbook, period),
  };
}

function casesCard(logbook: Logbook, { from, to }: Period): CasesCard {
  const cases = casesUntil(logbook, to);
  const isIn = (day: number): boolean => day >= from && day <= to;
  const cards = (of: (each: Case) => boolean): CaseLineCard[] => cases.filter(of).map(caseCard);
  return {
    opened: cards(({ since }) => isIn(since)),
    closed: cards(({ closed }) => isIn(closed)),
    // Signs that belong to no case are nothing that stays open.
    open: cards(({ closed, name }) => Number.isNaN(closed) && name !== ""),
  };
}

/** The word that a row chose, of the slot of its kind that fills that column; empty where it chose none. */
function choiceWord(kind: number, choice: number): string {
  const slot = kindOf(kind).slots.find(({ column }) => column === "choice");
  return slot?.filling.is === "choice" ? (slot.filling.words[choice - 1] ?? "") : "";
}

function caseCard({ name, stations, since, closed, outcome, latest }: Case): CaseLineCard {
  const species = latest?.species ?? "";
  const counted =
    latest === undefined || Number.isNaN(latest.affected)
      ? ""
      : `, ${formatNumber(latest.affected)}${Number.isNaN(latest.atRisk) ? "" : ` of ${formatNumber(latest.atRisk)}`} with signs at last`;
  return {
    name,
    places: stations.map((station) => station.name),
    since,
    closed: known(closed),
    outcome: Number.isNaN(closed) ? "" : choiceWord(Kind.close, outcome),
    text: `${species}${counted}`,
  };
}

function remedyCards(logbook: Logbook, { from, to }: Period): RemedyUsedCard[] {
  const { book } = logbook;
  const baths = bathsUntil(logbook, to).filter(({ row }) => row.day >= from);
  const stocked = stockedRows(logbook, from, to);
  const byName = new Map(
    [...stocked].map(([subject, rows]) => [wordOf(subject), rows.filter(({ kind }) => kind === Kind.dose)]),
  );
  return book.remedies.flatMap((remedy): RemedyUsedCard[] => {
    const doses = byName.get(remedy.name) ?? [];
    const bathed = baths.filter((bath) => bath.remedy === remedy).length;
    if (doses.length === 0 && bathed === 0) return [];
    const amounts = new Map<string, number>();
    for (const { amount, times } of doses)
      if (!Number.isNaN(amount.value))
        amounts.set(amount.symbol, (amounts.get(amount.symbol) ?? 0) + amount.value * times);
    return [
      {
        remedy: remedy.name,
        doses: doses.length,
        amounts: [...amounts].map(([unit, amount]) => ({ amount, unit })),
        unknown: doses.filter(({ amount }) => Number.isNaN(amount.value)).length,
        baths: bathed,
      },
    ];
  });
}

function broodCards(logbook: Logbook, { from, to }: Period): BroodSumCard[] {
  const sums = new Map<string, BroodSumCard>();
  for (const { species, entries } of broodsUntil(logbook, to)) {
    const now = entries.filter(
      ({ day, is }) => day >= from && (is === "spawn" || is === "hatch" || is === "swim"),
    );
    if (now.length === 0) continue;
    const { laid, hatched, swimming } = tallyOf(now);
    const has = (is: string): number => Number(now.some((entry) => entry.is === is));
    const spawnings = now.filter(({ is }) => is === "spawn").length;
    const before = sums.get(species);
    sums.set(species, {
      species,
      spawnings: (before?.spawnings ?? 0) + spawnings,
      laid: added(before?.laid, spawnings > 0 ? laid.count : 0),
      hatched: added(before?.hatched, has("hatch") > 0 ? hatched.count : 0),
      swimming: added(before?.swimming, has("swim") > 0 ? swimming.count : 0),
      hatches: (before?.hatches ?? 0) + has("hatch"),
      swims: (before?.swims ?? 0) + has("swim"),
      isAbout: before?.isAbout === true || now.some(({ isAbout }) => isAbout),
    });
  }
  return [...sums.values()].sort((a, b) => (a.species < b.species ? -1 : 1));
}

/** What is not counted makes a sum that nobody knows. */
const added = (before: number | null | undefined, count: number): number | null =>
  before === null ? null : known((before ?? 0) + count);

function orderCards(logbook: Logbook, { from, to }: Period, today: number): OrderSentCard[] {
  const reports = deadReports(logbook, today);
  const groups = new Map<string, Gone[]>();
  for (const gone of goneUntil(logbook, to)) {
    if (gone.row.day < from) continue;
    // What goes to nobody's order is an entry by itself.
    const key =
      gone.order === "" ? `${gone.row.day} ${entryStart(gone)}` : `${gone.order} ${gone.how} ${gone.row.day}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [gone]);
    else group.push(gone);
  }
  const isTold = new Set<string>();
  return [...groups.values()].map((group): OrderSentCard => {
    const { order, how, row } = group[0]!;
    const species = new Map<string, number>();
    for (const each of group) species.set(each.species, (species.get(each.species) ?? 0) + each.animals);
    const told = reports.filter(
      (report) => order !== "" && report.order === order && report.row.day >= row.day,
    );
    // Of an order that went in several parts the report is of them all, and told once.
    const isFirst = !isTold.has(order);
    if (told.length > 0) isTold.add(order);
    return {
      order,
      how,
      day: row.day,
      animals: group.reduce((sum, each) => sum + each.animals, 0),
      text: [...species].map(([name, animals]) => `${name} ${formatNumber(animals, 6)}`).join(", "),
      dead: told.length === 0 || !isFirst ? null : told.reduce((sum, { dead }) => sum + dead, 0),
    };
  });
}

/** Where its line stands: the items of one entry are one. */
function entryStart({ row }: Gone): string {
  const entry = entryOf(row.block, row.id);
  return `${row.block.file.path} ${row.block.start + (entry?.line.start ?? 0)}`;
}

function spendingCard(logbook: Logbook, period: Period): SpendingCard {
  const all = purchases(logbook, period);
  const sums = new Map<string, SpendingCard["sums"][number]>();
  for (const { price, currency, is } of all) {
    if (Number.isNaN(price)) continue;
    const key = `${currency} ${is}`;
    const before = sums.get(key);
    sums.set(key, {
      currency,
      is,
      amount: (before?.amount ?? 0) + price,
      purchases: (before?.purchases ?? 0) + 1,
    });
  }
  return {
    sums: [...sums.values()].sort((a, b) => (a.currency < b.currency ? -1 : a.currency > b.currency ? 1 : 0)),
    unpriced: all
      .filter(({ price }) => Number.isNaN(price))
      .map(({ name, row }) => ({ name, day: row.day, at: rowLocation(row.block, row.id) })),
  };
}

const serviceOnly: ReadonlySet<number> = new Set([Kind.service]);

function gearCards(logbook: Logbook, { from, to }: Period): GearCard[] {
  const gears = new Map<string, { day: number; work: string }[]>();
  for (const row of rowsBetween(logbook, from, to, serviceOnly)) {
    const target = row.facts.ints[row.row * intsPerRow + Col.target]!;
    const subject = row.facts.ints[row.row * intsPerRow + Col.subject]!;
    const stations = stationsOf(logbook, target);
    const word = subject === noName ? "" : wordOf(subject);
    const work = choiceWord(Kind.service, choiceOfRow(row.facts, row.row)) || "serviced";
    for (const { name } of stations) {
      // A gear has its name; a word such as `sponge` is that of its tank.
      const gear =
        word === "" ? name : logbook.book.gears.some((each) => each.name === word) ? word : `${name} ${word}`;
      const known = gears.get(gear);
      if (known === undefined) gears.set(gear, [{ day: row.day, work }]);
      else known.push({ day: row.day, work });
    }
  }
  return [...gears].map(([gear, done]) => {
    const counts = new Map<string, number>();
    for (const { work } of done) counts.set(work, (counts.get(work) ?? 0) + 1);
    return {
      gear,
      times: done.length,
      text: [...counts].map(([work, times]) => (times === 1 ? work : `${work} ${times} times`)).join(", "),
      repaired: done.filter(({ work }) => work === "repaired").map(({ day }) => day),
    };
  });
}

const notesOnly: ReadonlySet<number> = new Set([Kind.note]);

function noteCards(logbook: Logbook, { from, to }: Period): NoteCard[] {
  return rowsBetween(logbook, from, to, notesOnly).flatMap((row): NoteCard[] => {
    const entry = entryOf(row.block, row.id);
    const text =
      entry?.item.note?.text ?? (entry?.line.is === "entry" ? entry.line.note?.text : undefined) ?? "";
    if (text === "") return [];
    const place = entry?.line.is === "entry" ? (entry.line.target?.text ?? "") : "";
    return [{ day: row.day, place, text, at: rowLocation(row.block, row.id) }];
  });
}
