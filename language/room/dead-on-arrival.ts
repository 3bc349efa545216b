import { isoOf } from "../book/dates.ts";
import { Kind } from "../book/entries/registry.ts";
import { entryOf } from "../book/entry.ts";
import { Col, floatsPerRow, intsPerRow, Num } from "../book/facts.ts";
import { wordOf } from "../book/interner.ts";
import { wilson } from "../science/proportion.ts";
import { isOutside } from "../science/result.ts";
import { middleOf } from "./amounts.ts";
import type { Logbook } from "./logbook.ts";
import { type Gone, goneUntil, stationsOf } from "./orders.ts";
import { type LogRow, rareRows } from "./rare-rows.ts";

/** Animals that arrived dead, of those that left and of those that came, by what may have to do with it. */

/** Animals of one species on one journey. */
export interface Consignment {
  readonly species: string;
  readonly carrier: string;
  /** Outward the route of the order, inward the supplier. */
  readonly route: string;
  /** The day of the shipment, or of the arrival. */
  readonly day: number;
  /** What was packed; of an arrival the dead and those alive. */
  readonly animals: number;
  readonly dead: number;
  /** Of an arrival: lost of the species in its tank within seven days, of those alive. Outward, where nobody knows, NaN. */
  readonly lostAfter: number;
  /** The entries it follows from. */
  readonly rows: readonly LogRow[];
}

/** Consignments that have something in common. */
export interface Toll {
  readonly by: TollBy;
  readonly name: string;
  readonly consignments: readonly Consignment[];
  readonly animals: number;
  readonly dead: number;
  /** Dead of all, with the interval of Wilson (95 %): both ends 0 to 1. */
  readonly share: { readonly best: number; readonly low: number; readonly high: number };
  /** Lost within seven days after, of those that came alive; undefined where nobody knows. */
  readonly after:
    | {
        readonly alive: number;
        readonly lost: number;
        readonly best: number;
        readonly low: number;
        readonly high: number;
      }
    | undefined;
}

export const tollBy = ["all", "species", "carrier", "route", "season"] as const;
export type TollBy = (typeof tollBy)[number];

/**
 * The days after an arrival within which losses are counted with it: most of what dies of a journey dies in the week after it (Lim, Dhert
 * & Sorgeloos 2003, Aquaculture Research 34:923-935, abstract).
 */
export const afterDays = 7;

const reports: ReadonlySet<number> = new Set([Kind.doa]);

/** A report of a buyer. */
export interface DeadReport {
  readonly row: LogRow;
  readonly order: string;
  /** `none` for all alive. */
  readonly species: string;
  readonly dead: number;
}

/** What buyers reported up to the end of a day, in order of time. */
export function deadReports(logbook: Logbook, day: number): DeadReport[] {
  return rareRows(logbook, reports, day).flatMap((row) => {
    const { facts, row: at } = row;
    const name = (column: number): number => facts.ints[at * intsPerRow + column]!;
    if (stationsOf(logbook, name(Col.target)).length === 0) return [];
    return [
      { row, order: wordOf(name(Col.object)), species: wordOf(name(Col.subject)), dead: middleOf(facts, at) },
    ];
  });
}

/**
 * Shipments of whose order a buyer has reported, up to the end of a day: what no report names of a reported order came alive. Shipments
 * without a report tell nothing and are `unreported`.
 */
export function sentConsignments(
  logbook: Logbook,
  day: number,
): { readonly reported: readonly Consignment[]; readonly unreported: readonly Gone[] } {
  const told = deadReports(logbook, day);
  const orders = new Set(told.map(({ order }) => order));
  const shipped = goneUntil(logbook, day).filter(({ how, order }) => how === "ship" && order !== "");
  const reported: Consignment[] = [];
  for (const order of orders) {
    const ofOrder = shipped.filter((each) => each.order === order);
    const known = logbook.book.orders.get(order);
    for (const species of new Set(ofOrder.map((each) => each.species))) {
      const parts = ofOrder.filter((each) => each.species === species);
      const animals = parts.reduce((sum, each) => sum + each.animals, 0);
      const about = told.filter((each) => each.order === order && each.species === species);
      const dead = about.reduce((sum, each) => sum + each.dead, 0);
      const first = parts[0]!;
      const carrier = entryOf(first.row.block, first.row.id)?.item.carrier?.text;
      reported.push({
        species,
        carrier: carrier ?? known?.carrier ?? "",
        route: known?.route ?? "",
        day: first.row.day,
        animals,
        // More dead than were sent is a finding; here they are all of them.
        dead: Math.min(dead, animals),
        lostAfter: Number.NaN,
        rows: [...parts.map(({ row }) => row), ...about.map(({ row }) => row)],
      });
    }
  }
  return {
    reported: reported.sort((a, b) => a.day - b.day),
    unreported: shipped.filter(({ order }) => !orders.has(order)),
  };
}

const inward: ReadonlySet<number> = new Set([Kind.arrive, Kind.lose]);

/** Arrivals up to the end of a day, each with what was lost of its species in its tank in the week after: of two in a week the later's. */
export function receivedConsignments(logbook: Logbook, day: number): Consignment[] {
  const open: (Consignment & { lostAfter: number; rows: LogRow[]; tank: number; lot: number })[] = [];
  for (const row of rareRows(logbook, inward, day)) {
    const { facts, row: at, kind } = row;
    const name = (column: number): number => facts.ints[at * intsPerRow + column]!;
    const species = wordOf(name(Col.subject));
    const [station] = stationsOf(logbook, name(Col.target));
    if (station === undefined || species === "") continue;
    const animals = middleOf(facts, at);
    if (kind === Kind.arrive) {
      const noted = facts.floats[at * floatsPerRow + Num.second]!;
      const dead = Number.isNaN(noted) ? 0 : noted;
      open.push({
        species,
        carrier: entryOf(row.block, row.id)?.item.carrier?.text ?? "",
        route: wordOf(name(Col.object)),
        day: row.day,
        animals: animals + dead,
        dead,
        lostAfter: 0,
        rows: [row],
        tank: station.id,
        lot: name(Col.lot),
      });
      continue;
    }
    const lot = name(Col.lot);
    const of = open.findLast(
      (each) =>
        each.tank === station.id &&
        each.species === species &&
        row.day - each.day <= afterDays &&
        (lot < 0 || each.lot === lot),
    );
    if (of === undefined) continue;
    of.lostAfter = Math.min(of.animals - of.dead, of.lostAfter + animals);
    of.rows.push(row);
  }
  return open;
}

/** Consignments by one thing they have in common, the most animals first; what is not said is called `not said`. */
export function tollsOf(consignments: readonly Consignment[], by: TollBy): Toll[] {
  const groups = new Map<string, Consignment[]>();
  for (const each of consignments) {
    const name = nameBy(each, by);
    const known = groups.get(name);
    if (known === undefined) groups.set(name, [each]);
    else known.push(each);
  }
  return [...groups]
    .flatMap(([name, all]): Toll[] => {
      const animals = all.reduce((sum, each) => sum + each.animals, 0);
      const dead = all.reduce((sum, each) => sum + each.dead, 0);
      const share = shareOf(dead, animals);
      if (share === undefined) return [];
      const alive = animals - dead;
      const lost = all.reduce((sum, each) => sum + each.lostAfter, 0);
      const after = Number.isNaN(lost) ? undefined : shareOf(lost, alive);
      return [
        {
          by,
          name,
          consignments: all,
          animals,
          dead,
          share,
          after: after === undefined ? undefined : { alive, lost, ...after },
        },
      ];
    })
    .sort((a, b) => b.animals - a.animals);
}

function shareOf(count: number, of: number): Toll["share"] | undefined {
  const limits = wilson(count, of);
  return isOutside(limits) ? undefined : { best: count / of, ...limits };
}

const unsaid = "not said";
/** Quarters by their months: which of them is warm is for the keeper to know. */
const seasons = ["December to February", "March to May", "June to August", "September to November"];

function nameBy({ species, carrier, route, day }: Consignment, by: TollBy): string {
  switch (by) {
    case "all":
      return "all";
    case "species":
      return species;
    case "carrier":
      return carrier === "" ? unsaid : carrier;
    case "route":
      return route === "" ? unsaid : route;
    case "season":
      return seasons[Math.floor(Number(isoOf(day).slice(5, 7)) / 3) % 4]!;
  }
}
