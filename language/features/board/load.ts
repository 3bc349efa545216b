import { Kind } from "../../book/entries/registry.ts";
import { formatNumber } from "../../quantity/format.ts";
import { capacityOn } from "../../room/capacity.ts";
import { dutyLitres } from "../../room/changes-due.ts";
import { type DueDuty, dutiesOn, placeOf } from "../../room/due.ts";
import { type FixedWork, fixedWork } from "../../room/planner/fixed.ts";
import { actTimes } from "../../room/planner/minutes.ts";
import { handsIn } from "../../room/planner/work.ts";
import type { View } from "../view.ts";
import type { BoardLoad } from "./board-card.ts";

/** How much of a day is done, and how much is still due, against what the day holds. */
export function loadOn({ checked }: View, day: number): BoardLoad[] {
  const { logbook, book } = checked;
  const minutesOf = actTimes(logbook, day);
  const all = book.stations.flatMap((station) => dutiesOn(logbook.ledgerOf(station), [station], day));
  const isVisit = ({ duty, station }: DueDuty): boolean =>
    handsIn.has(duty.kind) && placeOf(book, station).body >= 0;
  const places = (duties: readonly DueDuty[], fixed: readonly FixedWork[]): number =>
    new Set([
      ...duties.filter(isVisit).map(({ station }) => placeOf(book, station)),
      ...fixed.filter((work) => work.isVisit).map(({ at }) => at),
    ]).size;
  // What is done in one go at one place is one act, however many duties it does.
  const minutes = (duties: readonly DueDuty[]): number =>
    [...new Map(duties.map(({ duty }) => [`${duty.station.id} ${duty.kind}`, duty])).values()].reduce(
      (sum, duty) => sum + (minutesOf(duty).minutes || 0),
      0,
    );
  const done = all.filter(({ last }) => Math.floor(last) === day);
  const open = all.filter(({ late }) => late >= 0);
  // What has a day of its own: what was to do this morning and is no more was done.
  const owed = fixedWork(logbook, day, 1, day);
  const keyOf = ({ at, act }: FixedWork): string => `${at.name} ${act}`;
  const isOwed = new Set(owed.map(keyOf));
  const given = fixedWork(logbook, day, 1, day - 1).filter((work) => !isOwed.has(keyOf(work)));
  const fixedMinutes = (some: readonly FixedWork[]): number =>
    some.reduce((sum, { at, kind }) => sum + (minutesOf({ station: at, kind }).minutes || 0), 0);
  const litres = open.reduce(
    (sum, { duty }) => sum + (duty.kind === Kind.change ? (dutyLitres(book, duty)?.low ?? 0) : 0),
    owed.reduce((sum, each) => sum + (each.litres?.low ?? 0), 0),
  );
  const holds = capacityOn(book, day);
  const figures = {
    tanks: [places(done, given), places(open, owed)],
    litres: [changedL(checked.logbook, day), litres],
    minutes: [minutes(done) + fixedMinutes(given), minutes(open) + fixedMinutes(owed)],
  } as const;
  return [
    load("tanks", ...figures.tanks, holds.tanks, "tanks"),
    load("litres", ...figures.litres, holds.litres, "L of new water"),
    load("minutes", ...figures.minutes, holds.minutes, "min"),
  ].filter(({ done: some, open: more }) => some + more > 0);
}

function load(is: BoardLoad["is"], done: number, open: number, most: number, unit: string): BoardLoad {
  const figure = (value: number): string => formatNumber(value, is === "tanks" ? 6 : 2);
  const isStated = Number.isFinite(most);
  return {
    is,
    done,
    open,
    most: isStated ? most : null,
    text: `${figure(done)} ${isStated ? `of ${figure(most)} ` : ""}${unit} done, ${figure(open)} to do`,
  };
}

/** New water of a day, top-ups apart. */
function changedL(logbook: View["checked"]["logbook"], day: number): number {
  let sum = 0;
  for (const { exchanges } of logbook.ledgers) {
    const end = exchanges.from(day + 1);
    for (let at = exchanges.from(day); at < end; at++)
      if (exchanges.first[at]! > 0 && Number.isFinite(exchanges.second[at]!)) sum += exchanges.second[at]!;
  }
  return sum;
}
