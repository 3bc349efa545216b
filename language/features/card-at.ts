import { type DayLine, linesOf } from "../book/entry.ts";
import type { Block } from "../book/source.ts";
import type { Gear, Station, Tank } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { caseStories } from "../room/case-book.ts";
import type { Card } from "./cards.ts";
import { caseCard } from "./case-card.ts";
import { dayCard } from "./day-card.ts";
import { nameAt } from "./names.ts";
import { tankCard } from "./tank-card.ts";
import { blockAt, type View } from "./view.ts";

/** Which card is meant: the one at a place of the log, or of a tank or a day that is asked for. */

/**
 * What an offset is about: on the name of a case the case; on an entry or a definition of one tank, system or gear the water it stands in or serves; anywhere else in a
 * day, and on an entry for a group or the room, the day. Undefined in definitions of anything else.
 */
export function cardAt(view: View, offset: number): Card | undefined {
  const { checked, worldDay } = view;
  const ofCase = caseAt(view, offset);
  if (ofCase !== undefined) return ofCase;
  const station = stationAt(view, offset);
  const card = station === undefined ? undefined : stationCard(checked, station, worldDay);
  const block = blockAt(view, offset)?.block;
  if (card !== undefined || block?.kind !== "day" || Number.isNaN(block.day)) return card;
  return dayCard(checked, block.day, worldDay);
}

/** The case whose name stands at an offset: of one that came back the time that its entry is of. */
function caseAt(view: View, offset: number): Card | undefined {
  const use = nameAt(view, offset);
  if (use?.sort !== "case") return undefined;
  const { checked, worldDay } = view;
  const { day } = use.block;
  const known = caseStories(checked.logbook, checked.logbook.today(worldDay)).filter(
    ({ name }) => name === use.name,
  );
  const of = known.findLast(({ since }) => since <= day) ?? known[0];
  return of === undefined ? undefined : caseCard(checked, of.name, worldDay, of.episode);
}

/** The card of a case by its name. @param episode of a case that came back the latest, if none is asked for */
export const cardOfCase = ({ checked, worldDay }: View, name: string, episode?: number): Card | undefined =>
  caseCard(checked, name, worldDay, episode);

/** The tank, system, gear or room that an offset is about: by the entry on its line, or by the definition it stands in. */
export function stationAt(view: View, offset: number): Station | undefined {
  const { stations } = view.checked.book;
  const found = blockAt(view, offset);
  if (found === undefined) return undefined;
  const { block, at } = found;
  if (block.kind === "definition") return stations.find(({ definition }) => definition === block.definition);
  if (block.kind !== "day" || Number.isNaN(block.day)) return undefined;
  const line = lineOver(block, at);
  const target = line === undefined || line.is === "sheet" ? undefined : line.target;
  if (target === undefined || block.text.startsWith("@", target.start)) return undefined;
  return stations.find(({ name }) => name === target.text);
}

/** The entry on the line of an offset, be the offset in its indentation or behind it. */
function lineOver(block: Block, at: number): DayLine | undefined {
  const begin = block.text.lastIndexOf("\n", at - 1) + 1;
  const next = block.text.indexOf("\n", at);
  const end = next < 0 ? block.text.length : next;
  return linesOf(block).find(({ start }) => start >= begin && start < end);
}

/** The card of a tank or system by its name. */
export function cardOfTank({ checked, worldDay }: View, name: string): Card | undefined {
  const station = checked.book.stations.find((each) => each.name === name);
  return station === undefined ? undefined : stationCard(checked, station, worldDay);
}

/** A tank or system that has a card, for a list to choose from. */
export interface CardChoice {
  readonly name: string;
  readonly title: string;
  /** `breeding, 63 L`. */
  readonly about: string;
}

/** All tanks and systems with a card, in the order they are defined. */
export function cardChoices(checked: CheckedLogbook): CardChoice[] {
  const { stations, bodies } = checked.book;
  return stations
    .filter(({ kind }) => kind === "tank" || kind === "system")
    .map((station) => {
      const { kind, name, title, body } = station;
      const { role = "", volumeL = bodies[body]?.volumeL ?? Number.NaN } = station as Partial<Tank>;
      const litres = Number.isFinite(volumeL) ? `${Math.round(volumeL)} L` : "";
      return { name, title, about: [kind === "tank" ? role : "system", litres].filter(Boolean).join(", ") };
    });
}

function stationCard(checked: CheckedLogbook, station: Station, worldDay: number): Card | undefined {
  switch (station.kind) {
    case "room":
      return undefined;
    case "gear": {
      const served = checked.book.stations.find(({ name }) => name === (station as Gear).on);
      return served === undefined || served.kind === "gear"
        ? undefined
        : stationCard(checked, served, worldDay);
    }
    default:
      return checked.book.bodies[station.body] === undefined
        ? undefined
        : tankCard(checked, station, worldDay);
  }
}
