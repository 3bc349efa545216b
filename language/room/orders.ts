import { Kind } from "../book/entries/registry.ts";
import { Col, intsPerRow } from "../book/facts.ts";
import { wordOf } from "../book/interner.ts";
import type { Order, Place, Station } from "../book/stations.ts";
import { middleOf } from "./amounts.ts";
import { workDayFrom } from "./capacity.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Logbook } from "./logbook.ts";
import { type LogRow, rareRows } from "./rare-rows.ts";
import { type Release, releaseOn } from "./release.ts";

/** What buyers wait for: what has gone, what is missing, and what could fill it from when. */

/** A sale or shipment, or one item of it. */
export interface Gone {
  readonly row: LogRow;
  readonly how: "sell" | "ship";
  /** The name of an order, be it defined or not; empty where none is named. */
  readonly order: string;
  readonly species: string;
  readonly animals: number;
  readonly lot: string;
  readonly stations: readonly Station[];
}

export interface OrderLine {
  readonly species: string;
  readonly wanted: number;
  readonly gone: number;
  readonly missing: number;
  readonly place: Place;
  /** Tanks that could fill it, what the orders before it take left out: the soonest first. */
  readonly sources: readonly OrderSource[];
  /** By so many it cannot be filled by the book, whatever is waited for. */
  readonly short: number;
  /** The first day on which the sources together are enough; NaN where nothing is missing, Infinity where they never are. */
  readonly from: number;
}

export interface OrderSource {
  readonly release: Release;
  /** What is left there for this order. */
  readonly animals: number;
}

export interface OrderState {
  readonly order: Order;
  readonly lines: readonly OrderLine[];
  /** The sales and shipments that name it, in order of time. */
  readonly gone: readonly Gone[];
  readonly missing: number;
  /** Whole days past due; NaN where it is not due at a day. */
  readonly late: number;
  /** The first day on which all that is missing can go; NaN where nothing is missing. */
  readonly from: number;
}

/** Where it is not stated when an order came in, it holds animals for so long before it is due. A choice of this tool. */
const placedBeforeDays = 30;

/** The day on which what is due is packed, from a day on: what leaves on a day off on the last day with work before it. */
export function packingDay(book: Parameters<typeof workDayFrom>[0], due: number, day: number): number {
  for (let at = due; at >= day; at--) if (workDayFrom(book, at, Kind.ship) === at) return at;
  return workDayFrom(book, day, Kind.ship);
}

/** The day from which an order holds animals; -Infinity for one without any day. */
export function placedOn({ placed, due }: Order): number {
  if (!Number.isNaN(placed)) return placed;
  return Number.isNaN(due) ? Number.NEGATIVE_INFINITY : due - placedBeforeDays;
}

const outward: ReadonlySet<number> = new Set([Kind.sell, Kind.ship]);

/** All sales and shipments up to the end of a day, in order of time. */
export function goneUntil(logbook: Logbook, day: number): readonly Gone[] {
  const all = keptFor(logbook, "gone", () =>
    rareRows(logbook, outward, Number.POSITIVE_INFINITY).flatMap((row) => goneOf(logbook, row)),
  );
  return (all.at(-1)?.row.day ?? 0) > day ? all.filter(({ row }) => row.day <= day) : all;
}

function goneOf(logbook: Logbook, row: LogRow): Gone[] {
  const { facts, row: at, kind } = row;
  const name = (column: number): number => facts.ints[at * intsPerRow + column]!;
  const stations = stationsOf(logbook, name(Col.target));
  const species = wordOf(name(Col.subject));
  if (stations.length === 0 || species === "") return [];
  return [
    {
      row,
      how: kind === Kind.ship ? "ship" : "sell",
      order: wordOf(name(Col.object)),
      species,
      // Of a group each tank sends as many.
      animals: middleOf(facts, at) * stations.length,
      lot: wordOf(name(Col.lot)),
      stations,
    },
  ];
}

/** What a target names: a station, or the tanks of a group; nothing where it names nothing. */
export function stationsOf({ book }: Logbook, target: number): readonly Station[] {
  if (target < 0) return book.groupTanks(~target) ?? [];
  const station = book.station(target);
  return station === undefined ? [] : [station];
}

/** What each species of an order wants; lines of one species are one. */
export function wantsOf({ wants }: Order): Map<string, { animals: number; place: Place }> {
  const all = new Map<string, { animals: number; place: Place }>();
  for (const { species, animals, place } of wants) {
    const known = all.get(species);
    if (known === undefined) all.set(species, { animals, place });
    else known.animals += animals;
  }
  return all;
}

/**
 * The orders that were placed by a day, as they stand at its end: first due first, those without a day last. An order is filled from
 * what the orders before it leave.
 */
export function ordersOn(logbook: Logbook, day: number): readonly OrderState[] {
  return keptFor(logbook, `orders ${day}`, () => {
    const { orders } = logbook.book;
    if (orders.size === 0) return [];
    const byOrder = new Map<string, Gone[]>();
    for (const each of goneUntil(logbook, day)) {
      const known = byOrder.get(each.order);
      if (known === undefined) byOrder.set(each.order, [each]);
      else known.push(each);
    }
    const releases = releaseOn(logbook, day);
    const left = new Map<Release, number>(releases.map((each) => [each, each.animals]));
    return [...orders.values()]
      .filter((order) => placedOn(order) <= day)
      .sort((a, b) => dueOf(a) - dueOf(b))
      .map((order) => stateOf(order, byOrder.get(order.name) ?? [], releases, left, day));
  });
}

const dueOf = ({ due }: Order): number => (Number.isNaN(due) ? Number.MAX_SAFE_INTEGER : due);

/** @param left what of each release no order before takes; this order's share is taken off */
function stateOf(
  order: Order,
  gone: readonly Gone[],
  releases: readonly Release[],
  left: Map<Release, number>,
  day: number,
): OrderState {
  const lines = [...wantsOf(order)].map(([species, { animals: wanted, place }]): OrderLine => {
    const sent = gone
      .filter((each) => each.species === species)
      .reduce((sum, { animals }) => sum + animals, 0);
    const missing = Math.max(0, wanted - sent);
    const sources =
      missing === 0
        ? []
        : releases
            .filter((release) => release.species === species && left.get(release)! > 0)
            .sort((a, b) => a.from - b.from || b.animals - a.animals)
            .map((release) => ({ release, animals: left.get(release)! }));
    let open = missing;
    let from = missing === 0 ? Number.NaN : Number.POSITIVE_INFINITY;
    for (const { release, animals } of sources) {
      const taken = Math.min(open, animals);
      if (taken === 0) break;
      left.set(release, animals - taken);
      open -= taken;
      if (open === 0) from = release.from;
    }
    return { species, wanted, gone: sent, missing, place, sources, short: open, from };
  });
  const missing = lines.reduce((sum, line) => sum + line.missing, 0);
  const froms = lines.flatMap(({ from }) => (Number.isNaN(from) ? [] : [from]));
  return {
    order,
    lines,
    gone,
    missing,
    late: day - order.due,
    from: froms.length === 0 ? Number.NaN : Math.max(...froms),
  };
}

/**
 * How many of a species are promised to orders that are open just before a row, or at the end of a day where none is given.
 * @param except an order that they are not promised against: the one that is being filled
 */
export function promised(
  logbook: Logbook,
  species: string,
  day: number,
  except: string,
  before?: LogRow,
): { readonly order: Order; readonly animals: number }[] {
  const wanting = wantingOf(logbook).get(species) ?? [];
  return wanting.flatMap(({ order, wanted, gone }) => {
    if (order.name === except || placedOn(order) > day) return [];
    let sent = 0;
    for (const { row, animals } of gone) {
      if (before === undefined ? row.day > day : !isBefore(row, before)) break;
      sent += animals;
    }
    return wanted > sent ? [{ order, animals: wanted - sent }] : [];
  });
}

/** In the order in which the log is read; of rows of one time in different files that is taken to be the order of their blocks. */
function isBefore(row: LogRow, before: LogRow): boolean {
  if (row.time !== before.time) return row.time < before.time;
  return row.block === before.block && row.row < before.row;
}

interface Wanting {
  readonly order: Order;
  readonly wanted: number;
  /** What went of the species for the order, in order of time. */
  readonly gone: readonly Gone[];
}

/** The orders that ever wanted a species, by its name. */
function wantingOf(logbook: Logbook): ReadonlyMap<string, readonly Wanting[]> {
  return keptFor(logbook, "wanting", () => {
    const all = new Map<string, (Wanting & { gone: Gone[] })[]>();
    for (const order of logbook.book.orders.values())
      for (const [species, { animals: wanted }] of wantsOf(order)) {
        const known = all.get(species) ?? [];
        known.push({ order, wanted, gone: [] });
        all.set(species, known);
      }
    if (all.size === 0) return all;
    for (const gone of goneUntil(logbook, Number.POSITIVE_INFINITY))
      all
        .get(gone.species)
        ?.find(({ order }) => order.name === gone.order)
        ?.gone.push(gone);
    return all;
  });
}

/**
 * Of what a tank holds, what nobody else waits for: nothing while anything but fasting speaks against letting them go.
 * @param releases all of the species
 * @param promisedAnimals to others
 */
export function freeOf(release: Release, releases: readonly Release[], promisedAnimals: number): number {
  if (!release.isReady) return 0;
  const ready = releases
    .filter(({ species, isReady }) => isReady && species === release.species)
    .reduce((sum, { animals }) => sum + animals, 0);
  return Math.max(0, Math.min(release.animals, ready - promisedAnimals));
}
