import { isoOf } from "../book/dates.ts";
import { entryOf } from "../book/entry.ts";
import { floatsPerRow, Num } from "../book/facts.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { formatNumber } from "../quantity/format.ts";
import { type Course, courses, factsAt } from "../room/course.ts";
import type { Ledger } from "../room/ledger.ts";
import { type Movement, movements } from "../room/movement.ts";
import { addedUp, type Period, stockBook } from "../room/stock-book.ts";
import { rowLocation } from "./card-parts.ts";
import { caution, figure, type Report, type Section, table, text } from "./document.ts";
import { aboutPeriod } from "./stock-report.ts";
import type { Location } from "./view.ts";

/**
 * The register of animals over a period: what came, from whom, what was born, what died and how, what went and to whom. Sellers are
 * commonly required to keep that: the supplier's full name, the day of acquisition or birth, of sale and of death (England: SI 2018/486,
 * Sch. 3 para 2), and movements and mortality (EU 2016/429 Art. 186). Both as quoted in excerpts, not read whole.
 */
export interface Register {
  readonly is: "register";
  readonly from: number;
  readonly to: number;
  readonly entries: readonly RegisterEntry[];
  /** By species, from the first day of the period to the last. */
  readonly list: readonly {
    readonly species: string;
    readonly title: string;
    readonly opening: number;
    readonly arrived: number;
    readonly born: number;
    readonly died: number;
    readonly sold: number;
    readonly adjusted: number;
    readonly closing: number;
  }[];
}

export interface RegisterEntry {
  readonly day: number;
  readonly is: "arrival" | "birth" | "death" | "sale";
  readonly tank: string;
  readonly species: string;
  readonly animals: number;
  /** Of an arrival, beside those alive. */
  readonly deadOnArrival: number;
  readonly lot: string;
  /** Of an arrival the supplier, of a sale the buyer; empty where nobody is named. */
  readonly party: string;
  readonly carrier: string;
  /** Of a death how; of a sale its order. */
  readonly detail: string;
  readonly note: string;
  readonly at: Location | null;
}

export function register({ logbook }: CheckedLogbook, period: Period): Register {
  const { from, to } = period;
  const entries = logbook.ledgers
    .flatMap((ledger) => courses(ledger).flatMap((course) => entriesOf(ledger, course, period)))
    .sort((a, b) => a.time - b.time)
    .map(({ time: _, ...entry }) => entry);
  const rows = stockBook(logbook, period);
  const list = [...new Set(rows.map(({ species }) => species))].sort().map((species) => {
    const sums = addedUp(rows.filter((row) => row.species === species));
    const { lost, found, unaccounted, opening, arrived, born, closing } = sums;
    return {
      species,
      title: logbook.book.species.get(species)?.title ?? "",
      opening,
      arrived,
      born,
      died: lost.found + lost.jumped + lost.euthanised + lost.lost + lost.culled,
      sold: sums.sold + sums.shipped,
      adjusted: found - unaccounted - lost.missing,
      closing,
    };
  });
  return { is: "register", from, to, entries, list };
}

const kinds = new Map<Movement["is"], RegisterEntry["is"]>([
  ["arrive", "arrival"],
  ["hatch", "birth"],
  ["lose", "death"],
  ["sell", "sale"],
  ["ship", "sale"],
]);

function entriesOf(
  ledger: Ledger,
  course: Course,
  { from, to }: Period,
): (RegisterEntry & { readonly time: number })[] {
  return movements(ledger, course, from, to + 1).flatMap((movement) => {
    const is = kinds.get(movement.is);
    const { time, block, row, tank, species, animals, lot, how } = movement;
    // What is missing is no death: it is in the list as the count put right.
    if (is === undefined || how === "missing" || animals === 0) return [];
    const entry = entryOf(block, row);
    const item = entry?.item ?? {};
    const facts = factsAt(course.series, course.series.find(time, block, row, course.holding.index));
    const dead = facts?.facts.floats[facts.row * floatsPerRow + Num.second] ?? Number.NaN;
    const word = (slot: string): string => item[slot]?.text ?? "";
    return [
      {
        time,
        day: Math.floor(time),
        is,
        tank: tank.name,
        species,
        animals,
        deadOnArrival: is === "arrival" && dead > 0 ? dead : 0,
        lot,
        party: is === "arrival" ? word("supplier") : is === "sale" ? word("buyer") : "",
        carrier: word("carrier"),
        detail: is === "death" ? (how === "lost" ? "" : (how ?? "")) : word("order"),
        note: entry?.line.is === "entry" ? (entry.line.note?.text ?? "") : "",
        at: rowLocation(block, row),
      },
    ];
  });
}

const care =
  "What a seller has to record, and for how long, differs from place to place and changes: ask the authority that is in charge. This lists what the log says, no more; veterinary treatments are in the log and not here.";

/** @param rooms of several, each section says whose it is */
export function registerReport(
  rooms: readonly { readonly title: string; readonly register: Register }[],
): Report {
  const [first] = rooms;
  return {
    title: "Register of animals",
    about: first === undefined ? "" : aboutPeriod(rooms.length === 1 ? first.title : "", first.register),
    sections: rooms.flatMap(({ title, register: each }, at) => {
      const sections = [...sectionsOf(each)];
      const named =
        rooms.length === 1
          ? sections
          : sections.map((part) => ({ ...part, title: `${title}: ${part.title}` }));
      const [head, ...rest] = named;
      return at > 0 || head === undefined
        ? named
        : [{ ...head, parts: [caution(care), ...head.parts] }, ...rest];
    }),
  };
}

function sectionsOf({ entries, list }: Register): Section[] {
  const of = (is: RegisterEntry["is"]): readonly RegisterEntry[] =>
    entries.filter((entry) => entry.is === is);
  const common = ({ day, tank, species, animals, lot }: RegisterEntry): string[] => [
    isoOf(day),
    tank,
    species,
    count(animals),
    lot,
  ];
  const heads = ["day", "tank", "species", figure("animals"), "lot"];
  const made = (
    title: string,
    is: RegisterEntry["is"],
    columns: readonly string[],
    cells: (entry: RegisterEntry) => string[],
  ): Section => ({
    title,
    note: count(of(is).length),
    parts: [
      of(is).length === 0
        ? text("None in this time.")
        : table(
            [...heads, ...columns],
            of(is).map((entry) => [...common(entry), ...cells(entry)]),
          ),
    ],
  });
  return [
    {
      title: "Animals by species",
      note: count(list.length),
      parts: [
        list.length === 0
          ? text("No animals in this time.")
          : table(
              [
                "species",
                figure("first day"),
                figure("arrived"),
                figure("born"),
                figure("died"),
                figure("sold"),
                figure("by count"),
                figure("last day"),
              ],
              list.map((row) => [
                row.species,
                count(row.opening),
                count(row.arrived),
                count(row.born),
                count(row.died),
                count(row.sold),
                count(row.adjusted),
                count(row.closing),
              ]),
            ),
      ],
    },
    made(
      "Arrivals",
      "arrival",
      ["from", "by", "dead on arrival", "note"],
      ({ party, carrier, deadOnArrival, note }) => [
        party || "not said",
        carrier,
        deadOnArrival === 0 ? "" : count(deadOnArrival),
        note,
      ],
    ),
    made("Births", "birth", ["note"], ({ note }) => [note]),
    made("Deaths", "death", ["how", "note"], ({ detail, note }) => [detail, note]),
    made("Sold and sent", "sale", ["to", "order", "by", "note"], ({ party, detail, carrier, note }) => [
      party || "not said",
      detail,
      carrier,
      note,
    ]),
  ];
}

const count = (value: number): string => formatNumber(value, 6);
