import { type Parameter, parameterOf } from "../../book/parameters.ts";
import { toCanonical } from "../../quantity/quantity.ts";
import { cellsOf } from "./cells.ts";
import type { Cut } from "./cutter.ts";
import { fitsParameter, type ImportUnit, importUnit, unitSaid } from "./import-units.ts";
import type { ColumnAt, Mapping, Role } from "./mapping.ts";
import {
  dayIn,
  readCompactDate,
  readCompactTime,
  readMoment,
  readSerial,
  readTime,
  type WrittenTime,
  zoneMinutes,
} from "./moment.ts";
import { isMissing, readNumber, shiftPoint } from "./number.ts";
import { flagKey } from "./propose-marks.ts";
import { type Meaning, otherOf, Reject } from "./read-other.ts";
import { Refused } from "./refused.ts";
import { placeMinutes } from "./zones.ts";

/** One row of a table by its mapping: what it says, or why it cannot be taken. All of a row is taken, or nothing. */

export interface Moment {
  readonly day: number;
  /** NaN where only the day is known. */
  readonly minute: number;
  readonly second: number;
}

export interface Reading extends Moment {
  readonly is: "test";
  readonly tank: string;
  readonly parameter: Parameter;
  readonly censor: "" | "<" | ">";
  /** As it will be written. */
  readonly text: string;
  readonly unit: ImportUnit;
}

export interface Other extends Moment {
  readonly is: "other";
  readonly tank: string;
  /** The entry behind its tank: `change 30 %`. */
  readonly words: string;
  /** What of it is compared with the log. */
  readonly means: Meaning;
}

export type RowRead =
  | { readonly is: "read"; readonly entries: readonly (Reading | Other)[] }
  | { readonly is: "skipped"; readonly why: "empty" | "left out" }
  | { readonly is: "rejected"; readonly why: string };

export class RowReader {
  private readonly mapping: Mapping;
  private readonly width: number;
  private readonly lastNeeded: number;
  private readonly missing: ReadonlySet<string>;
  private readonly units = new Map<string, ImportUnit>();
  /** The date of the rows that follow, where it stands on a line of its own. */
  dateLine = "";

  /** @param width how many cells the heads have; throws `Refused` for a mapping that cannot be. */
  constructor(mapping: Mapping, width: number) {
    this.mapping = mapping;
    this.width = width;
    this.missing = new Set(mapping.table.missing?.map((each) => each.toLowerCase()));
    this.lastNeeded = Math.max(...columnsOf(mapping).map(({ at }) => at));
    for (const { parameter, unit } of measuresOf(mapping))
      this.units.set(`${parameter} ${unit}`, unitIn(parameter, unit));
  }

  read({ raw, flaw }: Cut): RowRead {
    if (flaw !== "") return { is: "rejected", why: flaw };
    if (raw.includes("\0")) return { is: "rejected", why: "a NUL byte stands in it" };
    const { delimiter, edges } = this.mapping.table;
    const cut = cellsOf(raw, delimiter, edges);
    if (cut.flaw !== "") return { is: "rejected", why: cut.flaw };
    const cells = cut.cells.map((cell) => cell.trim());
    if (cells.every((cell) => cell === "")) return { is: "skipped", why: "empty" };
    if (cells.length > this.width && cells.slice(this.width).some((cell) => cell !== ""))
      return { is: "rejected", why: `${cells.length} cells where the heads have ${this.width}` };
    if (cells.length < this.lastNeeded)
      return { is: "rejected", why: `${cells.length} cells where the heads have ${this.width}` };
    try {
      return this.entries(cells);
    } catch (error) {
      if (error instanceof Reject) return { is: "rejected", why: error.message };
      throw error;
    }
  }

  private entries(cells: readonly string[]): RowRead {
    const { mapping } = this;
    for (const { at, is } of mapping.only ?? [])
      if (!is.includes(cells[at - 1]!)) return { is: "skipped", why: "left out" };
    const tank = this.tankOf(cells);
    if (tank === "ignore") return { is: "skipped", why: "left out" };
    const entries: (Reading | Other)[] = [];
    let moment: Moment | undefined;
    const add = (entry: Omit<Reading, keyof Moment> | Omit<Other, keyof Moment>): void => {
      // Of a row with nothing in it the time is not asked for.
      moment ??= this.momentOf(cells);
      entries.push({ ...entry, ...moment } as Reading | Other);
    };
    if (mapping.long !== undefined) {
      const { parameter, value, sign, flags, unit, means } = mapping.long;
      const word = cells[parameter.at - 1]!;
      const meant = Object.hasOwn(means, word) ? means[word]! : undefined;
      if (meant === undefined && isMissing(word)) return { is: "skipped", why: "empty" };
      if (meant === undefined) throw new Reject(`the mapping does not know “${word}” in “${parameter.head}”`);
      if (meant === "ignore") return { is: "skipped", why: "left out" };
      const written = unit === undefined ? "" : (cells[unit.at - 1] ?? "");
      if (written !== "" && !isUnit(written, this.units.get(`${meant.parameter} ${meant.unit}`)!))
        throw new Reject(`“${written}” in “${unit!.head}”, where the mapping has ${word} in ${meant.unit}`);
      const reading = this.reading(cells, value, meant.parameter, meant.unit, sign, flags);
      if (reading !== undefined) add({ ...reading, tank: this.named(tank) });
    }
    for (const role of mapping.columns) {
      if (role.as === "test") {
        const own = role.tank ?? tank;
        if (own === "ignore") continue;
        const reading = this.reading(cells, role, role.parameter, role.unit, role.sign, role.flags);
        if (reading !== undefined) add({ ...reading, tank: this.named(own) });
        continue;
      }
      const own = ("tank" in role ? role.tank : undefined) ?? tank;
      if (own === "ignore") continue;
      for (const other of otherOf(role, cells, mapping.table.decimal))
        add({ is: "other", tank: this.named(own), ...other });
    }
    return entries.length === 0 ? { is: "skipped", why: "empty" } : { is: "read", entries };
  }

  private tankOf(cells: readonly string[]): string {
    const { tank } = this.mapping;
    if ("name" in tank) return tank.name;
    if ("by" in tank) return "";
    const value = cells[tank.column.at - 1]!;
    if (value === "") throw new Reject(`no tank: “${tank.column.head}” is empty`);
    if (!Object.hasOwn(tank.names, value)) throw new Reject(`the mapping does not know the tank “${value}”`);
    return tank.names[value]!;
  }

  private named(tank: string): string {
    if (tank === "") throw new Reject("the mapping names no tank for it");
    return tank;
  }

  private reading(
    cells: readonly string[],
    column: ColumnAt,
    name: string,
    unitName: string,
    sign: ColumnAt | undefined,
    flags: ColumnAt | undefined,
  ): Omit<Reading, keyof Moment | "tank"> | undefined {
    const cell = cells[column.at - 1] ?? "";
    if (isMissing(cell) || this.missing.has(cell.toLowerCase())) return undefined;
    const number = readNumber(cell, this.mapping.table.decimal);
    if (number === undefined) throw new Reject(`“${cell.slice(0, 40)}” in “${column.head}” is no number`);
    let { censor } = number;
    const parameter = parameterOf(name);
    const unit = this.units.get(`${name} ${unitName}`)!;
    const signed = sign === undefined ? "" : (cells[sign.at - 1] ?? "");
    if (signed !== "" && signed !== "=") {
      if (!/^(?:[<>]=?|[≤≥])$/.test(signed)) throw new Reject(`“${signed}” in “${sign!.head}” is no sign`);
      censor = signed.startsWith("<") || signed === "≤" ? "<" : ">";
    }
    const marks = [
      flags === undefined ? "" : (cells[flags.at - 1] ?? ""),
      isUnit(number.mark, unit) ? "" : number.mark,
    ];
    for (const mark of marks) {
      if (mark === "") continue;
      const key = flagKey(mark);
      const means =
        this.mapping.flags !== undefined && Object.hasOwn(this.mapping.flags, key)
          ? this.mapping.flags[key]
          : undefined;
      if (means === undefined)
        throw new Reject(`the mapping does not know the mark “${mark}” beside “${column.head}”`);
      if (means === "leave-out") return undefined;
      if (means === "below") censor = "<";
      if (means === "above") censor = ">";
    }
    const text = unit.places === 0 ? number.text : shiftPoint(number.text, unit.places);
    const canonical = toCanonical(Number(text), unit.unit.id);
    const [low, high] = parameter.possible.map((bound) => toCanonical(bound, parameter.unit.id)) as [
      number,
      number,
    ];
    if (!(canonical >= low && canonical <= high))
      throw new Reject(
        `${name} ${text}${unit.written === "" ? "" : ` ${unit.written}`} cannot be: ${parameter.possible.join(" to ")} ${parameter.unit.symbol} can`,
      );
    return { is: "test", parameter, censor, text, unit };
  }

  private serialMoment(cells: readonly string[], cell: string): Moment {
    const serial = readSerial(cell);
    if (serial === undefined) throw new Reject(`“${cell.slice(0, 40)}” is no day counted as spreadsheets do`);
    const { clock, isDayOnly } = this.mapping.time;
    if (isDayOnly === true) return { day: serial.day, minute: Number.NaN, second: 0 };
    const time = clock === undefined ? undefined : clockOf(cells[clock.at - 1]!);
    return { day: serial.day, minute: time?.minute ?? serial.minute, second: time?.second ?? 0 };
  }

  private momentOf(cells: readonly string[]): Moment {
    const { date, clock, order, isDayOnly, zone, from } = this.mapping.time;
    const cell = date === "line" ? this.dateLine : cells[date.at - 1]!;
    if (order === "unix-s" || order === "unix-ms") {
      const ms = Number(cell) * (order === "unix-s" ? 1000 : 1);
      if (!/^\d{9,13}(?:\.\d+)?$/.test(cell))
        throw new Reject(`“${cell.slice(0, 40)}” is no time counted from 1970`);
      return inRoom(ms, zone);
    }
    if (order === "serial-1900") return this.serialMoment(cells, cell);
    const moment = readMoment(cell) ?? readCompactDate(cell);
    if (moment === undefined) throw new Reject(cell === "" ? "no date" : `“${cell.slice(0, 40)}” is no date`);
    const day = dayIn(moment, order);
    if (Number.isNaN(day)) throw new Reject(`“${cell.slice(0, 40)}” is no date, read as ${order}`);
    if (isDayOnly === true) return { day, minute: Number.NaN, second: 0 };
    const time = clock === undefined ? moment.time : clockOf(cells[clock.at - 1]!);
    if (time === undefined) return { day, minute: Number.NaN, second: 0 };
    if (zone === "as-written") return { day, minute: time.minute, second: time.second };
    const ahead = time.zone === "" ? zoneMinutes(from ?? "") : zoneMinutes(time.zone);
    if (ahead === undefined) throw new Reject(`its clock is not known: “${time.zone}”`);
    return inRoom((day * 1440 + time.minute - ahead) * 60_000 + time.second * 1000, zone);
  }
}

function clockOf(cell: string): WrittenTime | undefined {
  const time = readTime(cell) ?? readCompactTime(cell);
  if (time === undefined && cell !== "") throw new Reject(`“${cell.slice(0, 40)}” is no time of day`);
  return time;
}

/** The clock of the room at a moment. */
function inRoom(utcMs: number, zone: string): Moment {
  const ahead = zone === "as-written" ? 0 : (zoneMinutes(zone) ?? placeMinutes(zone, utcMs));
  const minutes = Math.floor(utcMs / 60_000) + ahead;
  const day = Math.floor(minutes / 1440);
  return { day, minute: minutes - day * 1440, second: (utcMs / 1000) % 60 };
}

function isUnit(mark: string, unit: ImportUnit): boolean {
  if (mark === "") return true;
  const said = unitSaid(mark);
  // Of pH tables write all sorts of things, as it has none.
  if (unit.unit.dimension === "pH")
    return said === undefined && /^(?:ph|-|(?:std\.? ?|ph ?)?units?|s\.?u\.?)$/i.test(mark);
  if (said === undefined) return false;
  const bare = unit.symbol.split(" ")[0]!;
  return said.is === "unit"
    ? said.unit.symbol === unit.symbol || said.unit.symbol === bare
    : said.choices.includes(unit.symbol);
}

/** All columns that a mapping refers to. */
export function columnsOf({ time, tank, only, long, columns }: Mapping): ColumnAt[] {
  return [
    ...[time.date, time.clock].flatMap((each) => (each === undefined || each === "line" ? [] : [each])),
    ...("column" in tank ? [tank.column] : []),
    ...(only ?? []),
    ...(long === undefined
      ? []
      : [long.parameter, long.value, long.sign, long.flags, long.unit].flatMap((each) => each ?? [])),
    ...columns.flatMap((role) =>
      role.as === "ignored" ? [] : [role, ...besides(role).flatMap((each) => each ?? [])],
    ),
  ];
}

/** The columns that a role looks into besides its own. */
function besides(role: Role): (ColumnAt | undefined)[] {
  if (role.as === "test") return [role.sign, role.flags];
  if (role.as === "feed") return [role.foods];
  return role.as === "count" || role.as === "lose" ? [role.of] : [];
}

function measuresOf({ long, columns }: Mapping): { parameter: string; unit: string }[] {
  return [
    ...columns.flatMap((role) => (role.as === "test" ? [role] : [])),
    ...Object.values(long?.means ?? {}).flatMap((each) => (each === "ignore" ? [] : [each])),
  ];
}

function unitIn(name: string, unitName: string): ImportUnit {
  let parameter: Parameter;
  try {
    parameter = parameterOf(name);
  } catch {
    throw new Refused(`the mapping names a parameter “${name}” that a log does not know`);
  }
  const unit = importUnit(unitName);
  if (unit === undefined || !fitsParameter(unit, parameter))
    throw new Refused(
      `the mapping has ${name} in “${unitName}”, which is no unit of it, or says no basis (as mg/L N)`,
    );
  return unit;
}
