import { type DayLine, entryOf, linesOf } from "../book/entry.ts";
import type { Block } from "../book/source.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { noUnit } from "../quantity/unit-codes.ts";
import { UNITS } from "../quantity/units.ts";
import type { DayGroup } from "../room/days.ts";
import { dosesOn, dutiesOn, roundOrder } from "../room/due.ts";
import {
  byGravity,
  dayText,
  dutyCard,
  findingCard,
  rowLocation,
  stationLocation,
  unsettledCards,
} from "./card-parts.ts";
import type { DayCard, DayTankCard, DutyCard } from "./cards.ts";
import { stepCards } from "./course-step-cards.ts";
import { dayFeeding } from "./feed-matrix.ts";
import { type Location, locationOf } from "./view.ts";

/** A day with what was done on it, and what was left over at its end. Undefined for a day that is not in the log. @param worldDay today outside */
export function dayCard(checked: CheckedLogbook, day: number, worldDay: number): DayCard | undefined {
  const { logbook } = checked;
  const groups = logbook.dayGroups;
  const at = groups.findIndex((group) => group.day === day);
  const group = groups[at];
  const first = group?.blocks[0];
  if (group === undefined || first === undefined) return undefined;
  const today = logbook.today(worldDay);
  const water = newWater(checked, day);
  const tanks = byTarget(checked, group.blocks, water.byLine);
  return {
    is: "day",
    day,
    titles: group.blocks.map(titleOf).filter((title) => title !== ""),
    isToday: day === today,
    at: headOf(first),
    entries: tanks.reduce((sum, tank) => sum + tank.entries.length, 0),
    litres: water.changedL,
    topUpL: water.toppedL,
    tanks,
    due: [
      ...leftOver(checked, day),
      ...(day === today ? [...dosesDue(checked, day), ...stepsDue(checked, day)] : []),
    ],
    feeding: dayFeeding(checked, day),
    findings: [
      ...unsettledCards(checked, group.blocks),
      ...group.blocks.flatMap((block) => checked.findingsOn(block, worldDay)).map(findingCard),
    ].sort(byGravity),
    before: neighbour(groups[at - 1]),
    after: neighbour(groups[at + 1]),
  };
}

const headOf = (block: Block): Location => locationOf({ block, start: 0, end: 10 });

function neighbour(group: DayGroup | undefined): DayCard["before"] {
  const first = group?.blocks[0];
  return group === undefined || first === undefined ? null : { day: group.day, at: headOf(first) };
}

/** The text beside the date. */
function titleOf({ text }: Block): string {
  const quoted = /^\ufeff?[\d-]{10}[ \t]*"((?:[^"\\\r\n]|\\.)*)"/.exec(text)?.[1] ?? "";
  return quoted.replace(/\\(.)/g, "$1");
}

interface NewWater {
  changedL: number;
  toppedL: number;
  readonly byLine: Map<string, number>;
}

/** A line among all lines of a day. */
const lineKey = (block: Block, line: DayLine): string => `${block.file.path}:${block.start + line.start}`;

function newWater({ logbook }: CheckedLogbook, day: number): NewWater {
  const water: NewWater = { changedL: 0, toppedL: 0, byLine: new Map() };
  for (const { exchanges } of logbook.ledgers) {
    const end = exchanges.from(day + 1);
    for (let at = exchanges.from(day); at < end; at++) {
      const litres = exchanges.second[at]!;
      if (!Number.isFinite(litres)) continue;
      if (exchanges.first[at]! === 0) {
        water.toppedL += litres;
        continue;
      }
      water.changedL += litres;
      const block = exchanges.block[at]!;
      const line = entryOf(block, exchanges.row[at]!)?.line;
      if (line === undefined) continue;
      const key = lineKey(block, line);
      water.byLine.set(key, (water.byLine.get(key) ?? 0) + litres);
    }
  }
  return water;
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/** Lines by their target, in the order in which a target is first named. */
function byTarget(
  { book }: CheckedLogbook,
  blocks: readonly Block[],
  litres: ReadonlyMap<string, number>,
): DayTankCard[] {
  const targets = new Map<string, Mutable<DayTankCard> & { entries: DayTankCard["entries"][number][] }>();
  for (const block of blocks) {
    for (const line of linesOf(block)) {
      if (line.is === "sheet" || line.target === undefined) continue;
      const name = block.text.slice(line.target.start, line.target.end);
      let target = targets.get(name);
      if (target === undefined) {
        const station = book.stations.find((each) => each.name === name);
        const group = name.startsWith("@") ? book.groups.get(name.slice(1)) : undefined;
        target = {
          name,
          title: station?.kind === "room" ? "" : (station?.title ?? group?.title ?? ""),
          at:
            station === undefined
              ? group === undefined
                ? null
                : locationOf(group.place)
              : stationLocation(station),
          isTank: station?.kind === "tank",
          litres: 0,
          entries: [],
        };
        targets.set(name, target);
      }
      target.litres += litres.get(lineKey(block, line)) ?? 0;
      target.entries.push({
        kind: kindOfLine(line),
        text: lineText(block, line),
        clock: line.time?.text ?? "",
        at: locationOf({ block, start: line.start, end: line.end }),
      });
    }
  }
  return [...targets.values()];
}

function kindOfLine(line: Exclude<DayLine, { is: "sheet" }>): string {
  if (line.is === "entry") return line.kindWord?.text ?? "";
  return line.columns.some(({ parameter }) => parameter !== undefined) ? "test" : "count";
}

/** A line in words, without its target: of a row of a sheet, each head with its cell. */
function lineText(block: Block, line: Exclude<DayLine, { is: "sheet" }>): string {
  const words = (start: number, end: number): string => block.text.slice(start, end).replace(/\s+/g, " ");
  if (line.is === "entry")
    return words(line.kindWord?.start ?? line.target?.end ?? line.start, line.end).trim();
  const cells = line.cells.map((cell, at) => {
    const { word, unit = noUnit } = line.columns[at] ?? {};
    const symbol = unit > noUnit ? ` ${UNITS[unit]?.symbol}` : "";
    return block.text.slice(cell.start, cell.end) === "-"
      ? ""
      : `${word === undefined ? "" : `${word} `}${words(cell.start, cell.end)}${word === undefined ? "" : symbol}`;
  });
  return cells.filter((cell) => cell !== "").join(", ");
}

/** Duties that were due by the end of a day and not done, the longest first. */
function leftOver({ logbook, book }: CheckedLogbook, day: number): DutyCard[] {
  return book.stations
    .flatMap((station) => dutiesOn(logbook.ledgerOf(station), [station], day))
    .filter(({ late }) => late >= 0)
    .sort((a, b) => b.late - a.late || roundOrder.indexOf(a.duty.kind) - roundOrder.indexOf(b.duty.kind))
    .map((due) => dutyCard(book, due, day));
}

/** All that is due today or late, the latest first, then in the order of a round. @param worldDay today outside */
export function dueToday(checked: CheckedLogbook, worldDay: number): DutyCard[] {
  checked.refresh();
  const day = checked.logbook.today(worldDay);
  return [...leftOver(checked, day), ...dosesDue(checked, day), ...stepsDue(checked, day)];
}

/** Doses of running courses that are due; known for today only. */
function dosesDue({ logbook }: CheckedLogbook, day: number): DutyCard[] {
  return logbook.ledgers.flatMap((ledger) =>
    dosesOn(ledger, day)
      .filter(({ late }) => late >= 0)
      .flatMap(({ course, due, late }): DutyCard[] => {
        const { remedy, given, last } = course;
        const lastAt = rowLocation(last.block, last.row);
        return [
          {
            act: `dose ${remedy.name}`,
            when: `${given + 1} of ${remedy.repeatTimes}`,
            of: ledger.body?.name ?? "",
            periodDays: remedy.repeatDays,
            last: last.time,
            due,
            late,
            times: given,
            timesStated: remedy.repeatTimes,
            form: "every",
            text: late > 0 ? `${late} ${late === 1 ? "day" : "days"} late` : dayText(due, day),
            at: locationOf(remedy.place),
            lastAt,
          },
        ];
      }),
  );
}

/** What courses owe beside their doses. */
const stepsDue = ({ logbook }: CheckedLogbook, day: number): DutyCard[] =>
  logbook.ledgers.flatMap((ledger) => stepCards(logbook, ledger, day));
