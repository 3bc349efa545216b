/** Days as whole numbers counted from 1970-01-01, proleptic Gregorian (ISO 8601). No clock and no time zone: a day is a day. */

const msPerDay = 86_400_000;

/** The number of the day written `YYYY-MM-DD`; NaN if there is no such day. */
export function dayOf(iso: string): number {
  const year = Number(iso.slice(0, 4));
  const month = Number(iso.slice(5, 7));
  const date = Number(iso.slice(8, 10));
  const ms = Date.UTC(2000, month - 1, date);
  const shifted = new Date(ms);
  shifted.setUTCFullYear(year, month - 1, date);
  const isReal =
    shifted.getUTCFullYear() === year && shifted.getUTCMonth() === month - 1 && shifted.getUTCDate() === date;
  return isReal ? shifted.getTime() / msPerDay : Number.NaN;
}

/** The day as `YYYY-MM-DD`. */
export function isoOf(day: number): string {
  return new Date(Math.floor(day) * msPerDay).toISOString().slice(0, 10);
}

/** The weekday of a day by ISO 8601: 1 for Monday, 7 for Sunday. */
export function weekdayOf(day: number): number {
  // 1970-01-01 was a Thursday.
  return ((((Math.floor(day) + 3) % 7) + 7) % 7) + 1;
}

/** Their names, from Monday on. */
export const weekdays = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];

/** The name of the weekday of a day. */
export const weekdayName = (day: number): string => weekdays[weekdayOf(day) - 1]!;

/** The time of day of a time in days, as `08:40`. */
export function clockOf(time: number): string {
  const minutes = Math.round((time - Math.floor(time)) * 1440);
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}

const months = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];

/** `3 March`, with the year where it is not that of `near`. */
export function spokenDay(day: number, near?: number): string {
  const [year, month, date] = isoOf(day).split("-");
  const short = `${Number(date)} ${months[Number(month) - 1]}`;
  return near !== undefined && isoOf(near).startsWith(`${year}-`) ? short : `${short} ${year}`;
}
