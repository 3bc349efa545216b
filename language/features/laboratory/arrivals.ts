import { spokenDay } from "../../book/dates.ts";
import { Kind } from "../../book/entries/registry.ts";
import { entryOf } from "../../book/entry.ts";
import { Col, intsPerRow } from "../../book/facts.ts";
import { wordOf } from "../../book/interner.ts";
import { rowOfId } from "../../book/source.ts";
import type { Tank } from "../../book/stations.ts";
import { days } from "../../checks/words.ts";
import { courses } from "../../room/course.ts";
import type { Logbook } from "../../room/logbook.ts";
import { lotStory, supplierOfLot } from "../../room/lots.ts";
import { type Movement, movements } from "../../room/movement.ts";
import type { SheetScope } from "./scope.ts";

/** How the animals came, the latest first: from whom, from which tank, and how long they stayed apart before. */
export interface SheetArrival {
  readonly day: number;
  readonly how: "arrived" | "moved in" | "hatched";
  readonly tank: string;
  readonly species: string;
  readonly animals: number;
  readonly deadOnArrival: number;
  /** The supplier; of a move the tank. Empty where nobody says. */
  readonly from: string;
  readonly lot: string;
  readonly carrier: string;
  /** What is known of quarantine; empty where nothing is. */
  readonly apart: string;
}

/** So far back. */
export const arrivalDays = 365;

/** What came into the tanks; and of species that are sick what arrived anywhere in the room. */
export function sheetArrivals(scope: SheetScope): SheetArrival[] {
  const { logbook, book, day, tanks, story } = scope;
  const sick = new Set(story.sick.map(({ species }) => species));
  const from = day + 1 - arrivalDays;
  return logbook.ledgers
    .flatMap((ledger) =>
      courses(ledger).flatMap((course) => {
        const tank = book.stations[course.holding.tank] as Tank;
        const isOwn = tanks.includes(tank);
        if (!isOwn && !sick.has(wordOf(course.holding.species))) return [];
        return movements(ledger, course, from, day + 1).filter(
          ({ is }) => is === "arrive" || (isOwn && (is === "in" || is === "hatch")),
        );
      }),
    )
    .sort((a, b) => b.time - a.time)
    .map((movement) => arrivalOf(scope, movement));
}

function arrivalOf({ logbook, book, day: today }: SheetScope, movement: Movement): SheetArrival {
  const { is, time, tank, species, animals, lot, block, row } = movement;
  const day = Math.floor(time);
  const item = is === "arrive" ? entryOf(block, row)?.item : undefined;
  const story = lot === "" ? undefined : lotStory(logbook, lot);
  const origin = is === "in" ? originOf(movement) : "";
  const supplier = item?.supplier?.text ?? (story === undefined ? "" : supplierOfLot(story));
  return {
    day,
    how: is === "arrive" ? "arrived" : is === "in" ? "moved in" : "hatched",
    tank: tank.name,
    species,
    animals,
    deadOnArrival: item?.dead?.value ?? 0,
    from: is === "in" ? origin : is === "arrive" ? supplier : "",
    lot,
    carrier: item?.carrier?.text ?? "",
    apart:
      is === "arrive"
        ? arrivedText(tank, Math.round(book.quarantineDays), day, today)
        : is === "in"
          ? movedText(logbook, book.tank(origin), species, time)
          : "",
  };
}

function arrivedText({ role, name }: Tank, quarantineDays: number, day: number, today: number): string {
  if (role !== "quarantine") return `not into a quarantine tank (${name}: ${role ?? "role not stated"})`;
  return Number.isNaN(quarantineDays)
    ? "into quarantine; how long is not stated"
    : `into quarantine, ${days(quarantineDays)} stated: to ${spokenDay(day + quarantineDays, today)} at least`;
}

/** How long before a move the last animals came into the tank it was from. */
function movedText(logbook: Logbook, origin: Tank | undefined, species: string, time: number): string {
  if (origin === undefined) return "";
  const ledger = logbook.ledgerOf(origin);
  const came = courses(ledger)
    .filter(({ holding }) => holding.tank === origin.id)
    .flatMap((course) => movements(ledger, course, time - arrivalDays, time, Kind.arrive))
    .sort((a, b) => a.time - b.time);
  const last = came.at(-1);
  const role = origin.role === "quarantine" ? "from quarantine" : "";
  if (last === undefined) return role;
  const since = Math.floor(time) - Math.floor(last.time);
  const what = last.species === species ? "arrival there" : `arrival there (${last.species})`;
  return [role, `${days(since)} after the last ${what}`].filter(Boolean).join(", ");
}

/** The tank that a move was from; of a group its name. */
function originOf({ block, row: id }: Movement): string {
  const row = rowOfId(block, id);
  if (row < 0) return "";
  const target = block.facts.ints[row * intsPerRow + Col.target]!;
  return target < 0 ? `@${wordOf(~target)}` : wordOf(target);
}
