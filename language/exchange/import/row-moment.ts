import { dayOf } from "../../book/dates.ts";
import type { ColumnAt, Mapping } from "./mapping.ts";
import {
  dayIn,
  monthIn,
  readCompactDate,
  readCompactTime,
  readMoment,
  readSerial,
  readTime,
  readYearless,
  type WrittenTime,
  yearIn,
  zoneMinutes,
} from "./moment.ts";
import { isMissing } from "./number.ts";
import { Reject } from "./read-other.ts";
import { placeMinutes } from "./zones.ts";

/** When a row was, by its mapping and the clock of the room. */

export interface Moment {
  readonly day: number;
  /** NaN where only the day is known. */
  readonly minute: number;
  readonly second: number;
}

/**
 * Throws `Reject` where the row does not say it.
 * @param dateLine the date of the rows, where it stands on a line of its own
 */
export function momentOf(time: Mapping["time"], cells: readonly string[], dateLine: string): Moment {
  const { date, order, isDayOnly, zone, from } = time;
  if (date !== "line" && "month" in date) return inParts(time, cells, date);
  const cell = date === "line" ? dateLine : (cells[date.at - 1] ?? "");
  if (order === "unix-s" || order === "unix-ms") {
    const ms = Number(cell) * (order === "unix-s" ? 1000 : 1);
    if (!/^\d{9,13}(?:\.\d+)?$/.test(cell))
      throw new Reject(`“${shortened(cell)}” is no time counted from 1970`);
    return inRoom(ms, zone);
  }
  if (order === "serial-1900") return serialMoment(time, cells, cell);
  const year = yearOfRow(time, cells);
  const moment =
    readMoment(cell) ?? readCompactDate(cell) ?? (year === undefined ? undefined : readYearless(cell, year));
  if (moment === undefined)
    throw new Reject(
      cell !== ""
        ? `“${shortened(cell)}” is no date`
        : date === "line"
          ? "no date stands above it"
          : `no date: “${date.head}” is empty`,
    );
  const day = dayIn(moment, order);
  if (Number.isNaN(day)) throw new Reject(`“${shortened(cell)}” is no date, read as ${order}`);
  if (isDayOnly === true) return { day, minute: Number.NaN, second: 0 };
  return timed(day, time.clock === undefined ? moment.time : clockOf(time, cells), zone, from);
}

/** Year, month and day in columns of their own. */
function inParts(
  time: Mapping["time"],
  cells: readonly string[],
  { month, day }: { readonly month: ColumnAt; readonly day: ColumnAt },
): Moment {
  const part = ({ at, head }: ColumnAt, read: (cell: string) => number | undefined, what: string): number => {
    const cell = cells[at - 1] ?? "";
    const found = read(cell);
    if (found === undefined)
      throw new Reject(
        isMissing(cell) ? `no date: “${head}” is empty` : `“${shortened(cell)}” in “${head}” is no ${what}`,
      );
    return found;
  };
  const year = yearOfRow(time, cells);
  if (year === undefined) throw new Reject("no date: no year is said");
  const of = [part(month, monthIn, "month"), part(day, whole, "day")] as const;
  const iso = [year, ...of].map((each, at) => String(each).padStart(at === 0 ? 4 : 2, "0")).join("-");
  const found = dayOf(iso);
  if (Number.isNaN(found)) throw new Reject(`there is no ${iso}`);
  if (time.isDayOnly === true) return { day: found, minute: Number.NaN, second: 0 };
  return timed(found, clockOf(time, cells), time.zone, time.from);
}

function yearOfRow({ year }: Mapping["time"], cells: readonly string[]): number | undefined {
  if (typeof year !== "object") return year;
  const cell = cells[year.at - 1] ?? "";
  const found = yearIn(cell);
  if (found === undefined)
    throw new Reject(
      isMissing(cell)
        ? `no date: “${year.head}” is empty`
        : `“${shortened(cell)}” in “${year.head}” is no year`,
    );
  return found;
}

function timed(day: number, time: WrittenTime | undefined, zone: string, from: string | undefined): Moment {
  if (time === undefined) return { day, minute: Number.NaN, second: 0 };
  if (zone === "as-written") {
    // 24:00 ends its day, and begins the next (ISO 8601:2004, 4.2.3, midnight; recalled).
    const isOver = time.minute === 1440;
    return { day: isOver ? day + 1 : day, minute: isOver ? 0 : time.minute, second: time.second };
  }
  const ahead = time.zone === "" ? zoneMinutes(from ?? "") : zoneMinutes(time.zone);
  if (ahead === undefined) throw new Reject(`its clock is not known: “${time.zone}”`);
  return inRoom((day * 1440 + time.minute - ahead) * 60_000 + time.second * 1000, zone);
}

function serialMoment(time: Mapping["time"], cells: readonly string[], cell: string): Moment {
  const serial = readSerial(cell);
  if (serial === undefined) throw new Reject(`“${shortened(cell)}” is no day counted as spreadsheets do`);
  if (time.isDayOnly === true) return { day: serial.day, minute: Number.NaN, second: 0 };
  const clock = time.clock === undefined ? undefined : clockOf(time, cells);
  if (clock !== undefined) return timed(serial.day, clock, "as-written", undefined);
  return { day: serial.day, minute: serial.minute, second: 0 };
}

function clockOf({ clock }: Mapping["time"], cells: readonly string[]): WrittenTime | undefined {
  if (clock === undefined) return undefined;
  if ("hour" in clock) {
    const [hour, minute] = [clock.hour, clock.minute].map((each) =>
      each === undefined ? "" : (cells[each.at - 1] ?? ""),
    ) as [string, string];
    if (isMissing(hour)) return undefined;
    const time = readTime(
      `${whole(hour) ?? "?"}:${String(minute === "" ? 0 : (whole(minute) ?? "?")).padStart(2, "0")}`,
    );
    if (time === undefined) throw new Reject(`“${shortened(`${hour}:${minute}`)}” is no time of day`);
    return time;
  }
  const cell = cells[clock.at - 1] ?? "";
  const time = readTime(cell) ?? readCompactTime(cell);
  if (time === undefined && cell !== "") throw new Reject(`“${shortened(cell)}” is no time of day`);
  return time;
}

/** `3`, `03`, and `3.0` of a spreadsheet. */
function whole(cell: string): number | undefined {
  const found = /^(\d{1,2})(?:[.,]0*)?$/.exec(cell);
  return found === null ? undefined : Number(found[1]);
}

/** The clock of the room at a moment. */
function inRoom(utcMs: number, zone: string): Moment {
  const ahead = zone === "as-written" ? 0 : (zoneMinutes(zone) ?? placeMinutes(zone, utcMs));
  const minutes = Math.floor(utcMs / 60_000) + ahead;
  const day = Math.floor(minutes / 1440);
  return { day, minute: minutes - day * 1440, second: (utcMs / 1000) % 60 };
}

const shortened = (cell: string): string => cell.slice(0, 40);
