import { spokenDay } from "../book/dates.ts";
import { linesOf } from "../book/entry.ts";
import { Col, intsPerRow } from "../book/facts.ts";
import { wordOf } from "../book/interner.ts";
import type { Block } from "../book/source.ts";
import type { Order, Station } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { formatNumber } from "../quantity/format.ts";
import { ordersOn, placedOn } from "../room/orders.ts";
import type { DutyCard } from "./cards.ts";
import { openCasesOf } from "./case-card.ts";
import { dueToday } from "./day-card.ts";
import { stationsOf } from "./figures/row.ts";
import { dueSaid, orderCard } from "./orders-card.ts";
import { stationDuties, stationFindings } from "./tank-card.ts";
import { type Location, locationOf, type Span, type View } from "./view.ts";

/**
 * A line of small print over a day or a tank. Where they stand follows from the blocks alone; what they say is computed for those in
 * sight (`lensTitle`).
 */
export interface Lens extends Span {
  readonly is: "day" | "due" | "tank" | "order";
}

/** What a lens says, and what it leads to. */
export interface LensTitle {
  readonly title: string;
  readonly leads: LensLead;
}

/** The list of what is due; the card at the lens; places of the log (findings) to look through; or nowhere. */
export type LensLead =
  | { readonly to: "due" | "card" | "nowhere" }
  | { readonly to: "places"; readonly places: readonly Location[] };

/** A lens over each day, tank, system and order, and over today one more: what is due. */
export function codeLenses(view: View): Lens[] {
  const { source, checked, worldDay } = view;
  const today = checked.logbook.today(worldDay);
  const lenses: Lens[] = [];
  for (const block of source.blocks) {
    if (block.kind === "day" && !Number.isNaN(block.day)) {
      const span = headOf(block);
      lenses.push({ ...span, is: "day" });
      if (block.day === today) lenses.push({ ...span, is: "due" });
    } else if (stationOf(checked, block) !== undefined) lenses.push({ ...headOf(block), is: "tank" });
    else if (orderOf(checked, block) !== undefined) lenses.push({ ...headOf(block), is: "order" });
  }
  return lenses;
}

/** What a lens says today; undefined if an edit took its block away. */
export function lensTitle(view: View, lens: Lens): LensTitle | undefined {
  const block = view.source.blockAt(lens.start);
  if (block === undefined) return undefined;
  switch (lens.is) {
    case "day":
      return block.kind === "day" ? dayTitle(view, block) : undefined;
    case "due":
      return dueTitle(view);
    case "tank": {
      const station = stationOf(view.checked, block);
      return station === undefined ? undefined : tankTitle(view, station);
    }
    case "order": {
      const order = orderOf(view.checked, block);
      return order === undefined ? undefined : { title: orderTitle(view, order), leads: { to: "nowhere" } };
    }
  }
}

/** The first line of a block, without white space at its end. */
function headOf({ start, text }: Block): Span {
  const lead = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  const line = /^[^\r\n]*/.exec(text.slice(lead))![0].trimEnd();
  return { start: start + lead, end: start + lead + line.length };
}

/** The tank or system that a block defines. */
function stationOf({ book }: CheckedLogbook, { definition }: Block): Station | undefined {
  if (definition?.word !== "tank" && definition?.word !== "system") return undefined;
  const { stations } = book;
  const station = stations.find((each) => each.definition === definition);
  return station?.body === undefined || station.body < 0 ? undefined : station;
}

/** The order that a block defines. */
function orderOf({ book }: CheckedLogbook, { definition }: Block): Order | undefined {
  if (definition?.word !== "order") return undefined;
  const order = book.orders.get(definition.name);
  return order?.place.block.definition === definition ? order : undefined;
}

/** `due 7 April · 4 praecox missing, from 4 April`. */
function orderTitle({ checked, worldDay }: View, order: Order): string {
  const day = checked.logbook.today(worldDay);
  const state = ordersOn(checked.logbook, day).find((each) => each.order === order);
  if (state === undefined) return `counts from ${spokenDay(placedOn(order), day)}`;
  const { text, missing, due } = orderCard(checked.book, state, day);
  return missing === 0 ? text : joined([dueSaid(due, day), text]);
}

function dayTitle({ checked, worldDay }: View, block: Block): LensTitle {
  const { book, logbook } = checked;
  const { facts } = block;
  const starts: number[] = [];
  const tanks = new Set<Station>();
  for (let row = 0; row < facts.count; row++) {
    starts.push(facts.ints[row * intsPerRow + Col.start]!);
    for (const station of stationsOf(book, facts.ints[row * intsPerRow + Col.target]!)) {
      if (station.kind === "tank") tanks.add(station);
      else if (station.kind === "system")
        for (const tank of book.bodies[station.body]!.tanks) tanks.add(tank);
    }
  }
  const entries = linesOf(block).filter(
    (line) => line.is !== "sheet" && starts.some((start) => start >= line.start && start <= line.end),
  ).length;
  let litres = 0;
  for (const { exchanges } of logbook.ledgers) {
    const end = exchanges.from(block.day + 1);
    for (let at = exchanges.from(block.day); at < end; at++)
      if (exchanges.block[at] === block && exchanges.first[at]! > 0) litres += exchanges.second[at]! || 0;
  }
  const findings = checked.findingsOn(block, worldDay).filter(({ severity }) => severity !== "hint");
  const title = joined([
    counted(entries, "entry", "entries"),
    tanks.size === 0 ? "" : counted(tanks.size, "tank"),
    litres === 0 ? "" : `${formatNumber(litres, litres < 10 ? 2 : 3)} L changed`,
    findings.length === 0 ? "" : counted(findings.length, "finding"),
  ]);
  const places = findings.map(({ start, end }) => locationOf({ block, start, end }));
  return { title, leads: places.length === 0 ? { to: "card" } : { to: "places", places } };
}

function dueTitle({ checked, worldDay }: View): LensTitle {
  const due = dueToday(checked, worldDay);
  const late = due.filter((duty) => (duty.late ?? 0) > 0).length;
  const now = due.length - late;
  const title = joined([now === 0 ? "" : `${now} due today`, late === 0 ? "" : `${late} late`]);
  return title === ""
    ? { title: "nothing is due", leads: { to: "nowhere" } }
    : { title, leads: { to: "due" } };
}

/** So many species are named; of the rest it is said how many there are. */
const mostSpecies = 3;

function tankTitle({ checked, worldDay }: View, station: Station): LensTitle {
  const { logbook } = checked;
  const day = logbook.today(worldDay);
  const ledger = logbook.ledgerOf(station);
  const animals = ledger.stock
    .in(station.kind === "tank" ? station.id : undefined)
    .sort((a, b) => b.animals - a.animals);
  const bySpecies = new Map<string, { animals: number; isAbout: boolean }>();
  for (const { species, animals: count, isAbout } of animals) {
    const known = bySpecies.get(wordOf(species)) ?? { animals: 0, isAbout: false };
    bySpecies.set(wordOf(species), { animals: known.animals + count, isAbout: known.isAbout || isAbout });
  }
  const named = [...bySpecies]
    .slice(0, mostSpecies)
    .map(([name, { animals: count, isAbout }]) => `${isAbout ? "~" : ""}${formatNumber(count, 6)} ${name}`);
  const more = bySpecies.size - named.length;
  const { exchanges } = ledger;
  let last = exchanges.from(day + 1) - 1;
  while (last >= 0 && !(exchanges.first[last]! > 0)) last--;
  const findings = stationFindings(checked, station, worldDay).filter(({ severity }) => severity !== "hint");
  const title = joined([
    named.length === 0 ? "no animals" : named.join(", ") + (more > 0 ? ` and ${more} more` : ""),
    last < 0 ? "" : `changed ${dayWords(Math.floor(exchanges.time[last]!), day)}`,
    openText(checked, station, day),
    nextText(station, stationDuties(checked, station, day)),
    findings.length === 0 ? "" : counted(findings.length, "finding"),
  ]);
  return { title, leads: { to: "card" } };
}

/** `case flukes-1 open`, `2 cases open`. */
function openText(checked: CheckedLogbook, { body }: Station, day: number): string {
  const open = openCasesOf(checked, body, day);
  const [first] = open;
  return first === undefined
    ? ""
    : `${open.length === 1 ? `case ${first.name}` : `${open.length} cases`} open`;
}

/** `canister: service 19 days late`, `change 25..45 % in 3 days (2 late)`. */
function nextText({ name }: Station, duties: readonly DutyCard[]): string {
  const [first] = duties.filter(({ due }) => due !== null);
  if (first === undefined) return "";
  const late = duties.filter((duty) => (duty.late ?? 0) > 0).length;
  const when = first.form === "every" ? first.text : (first.late ?? 0) > 0 ? `${first.text} times` : "";
  if (when === "") return "";
  const of = first.of === name ? "" : `${first.of}: `;
  return `${of}${first.act} ${when}${late > 1 ? ` (${late} late)` : ""}`;
}

const dayWords = (day: number, today: number): string =>
  day === today ? "today" : day === today - 1 ? "yesterday" : spokenDay(day, today);

const joined = (parts: readonly string[]): string => parts.filter((part) => part !== "").join(" · ");

const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;
