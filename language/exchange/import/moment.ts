import { dayOf } from "../../book/dates.ts";

/** Dates and times as tables write them. */

/** What the three numbers of a date are. */
export const dateOrders = ["ymd", "dmy", "mdy"] as const;
export type DateOrder = (typeof dateOrders)[number];

export interface WrittenMoment {
  /** The numbers of the date in the order in which they stand. */
  readonly parts: readonly [number, number, number];
  /** The order where the form settles it: a year of four digits first, a month in letters. */
  readonly order: DateOrder | undefined;
  /** Which of the parts is a year of two digits is open; else the year has four. */
  readonly isShort: boolean;
  readonly time: WrittenTime | undefined;
}

export interface WrittenTime {
  readonly minute: number;
  readonly second: number;
  /** As it is written: `Z`, `+02:00`, `CET`; empty where none is. */
  readonly zone: string;
}

const clock =
  /^(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d+))?)?\s*([AaPp])?(?:\.?[Mm]\.?)?\s*(Z|UTC|GMT|[+-]\d{2}:?\d{2}|[A-Z]{3,5})?$/;

/** A time of day; undefined if the cell is none. */
export function readTime(cell: string): WrittenTime | undefined {
  // `8.40 Uhr`, `8h40`: a point alone would be a number.
  const spoken = /^(\d{1,2})(?:[.:](\d{2}))?\s*Uhr$/i.exec(cell) ?? /^(\d{1,2})h(\d{2})$/.exec(cell);
  const found = clock.exec(spoken === null ? cell : `${spoken[1]}:${spoken[2] ?? "00"}`);
  if (found === null) return undefined;
  const [, hours, minutes, seconds = "0", part = "0", half, zone = ""] = found;
  let hour = Number(hours);
  if (half !== undefined) {
    if (hour < 1 || hour > 12) return undefined;
    hour = (hour % 12) + (half.toLowerCase() === "p" ? 12 : 0);
  }
  // 24:00 is the end of the day.
  const isEnd = hour === 24 && Number(minutes) === 0 && Number(seconds) === 0 && Number(part) === 0;
  if ((hour > 23 && !isEnd) || Number(minutes) > 59 || Number(seconds) > 60) return undefined;
  return { minute: hour * 60 + Number(minutes), second: Number(`${seconds}.${part}`), zone };
}

/** `113000` or `1130`, of a column that is said to hold times. */
export function readCompactTime(cell: string): WrittenTime | undefined {
  const found = /^(\d{1,2})(\d{2})(\d{2})$/.exec(cell) ?? /^(\d{1,2})(\d{2})$/.exec(cell);
  return found === null
    ? undefined
    : readTime(`${found[1]}:${found[2]}${found[3] === undefined ? "" : `:${found[3]}`}`);
}

const rest = String.raw`(?:(?:[T/,]\s*|\s+)(\S.*))?$`;
const numeric = new RegExp(String.raw`^(\d{1,4})([-/. ])\s?(\d{1,2})\2\s?(\d{1,4})${rest}`);
const named = new RegExp(
  String.raw`^(\d{1,2})[-. /]*(\p{L}{3,9})\.?[-, /]+'?(\d{4}|\d{2})(?!\d)${rest}`,
  "u",
);
const namedFirst = new RegExp(String.raw`^(\p{L}{3,9})\.?[- ]*(\d{1,2})(?:\.?,\s*|[- ]+)(\d{4})${rest}`, "u");
/** In the languages of Western Europe; three letters of one are enough. */
const months = [
  "january januar jänner janvier enero gennaio januari",
  "february februar février fevrier febrero febbraio februari",
  "march märz maerz mrz mars marzo maart",
  "april avril abril aprile",
  "may mai mayo maggio mei",
  "june juni juin junio giugno",
  "july juli juillet julio luglio",
  "august août aout agosto augustus",
  "september septembre septiembre settembre",
  "october oktober octobre octubre ottobre",
  "november novembre noviembre",
  "december dezember décembre decembre diciembre dicembre",
].map((names) => names.split(" "));
/** Monday and its like before a date, in the languages of Western Europe; it says nothing that the date does not. */
const weekday =
  /^((?:mo|tu|we|th|fr|sa|su|di|mi|do|so|lu|ma|me|je|ju|ve|vi|gi|wo|vr|za|zo)\p{L}{0,8})\.?,?\s+(?=(\d{1,4}[-/.]\d)?)/iu;
const ordinal = /(?<=(?:^|\s)\d{1,2})(?:st|nd|rd|th)(?:\s+of)?(?=[\s,]|$)/i;

/** Without what only people need: the weekday, the ending of an ordinal. */
function bare(cell: string): string {
  if (!/^\p{L}|\d(?:st|nd|rd|th)/iu.test(cell)) return cell;
  const found = weekday.exec(cell);
  // `Mar` is a Tuesday only before a date that has its month.
  const isDay = found !== null && (found[2] !== undefined || monthNamed(found[1]!) === undefined);
  return (isDay ? cell.slice(found[0].length) : cell).replace(ordinal, "");
}

/** A month in letters; undefined if a word is none. */
function monthNamed(word: string): number | undefined {
  const plain = word.toLowerCase();
  const [only, more] = months.flatMap((names, at) =>
    plain.length > 2 && names.some((name) => name.startsWith(plain)) ? [at + 1] : [],
  );
  return more === undefined ? only : undefined;
}

/** A month in a cell of its own: `3`, `03`, `March`. */
export function monthIn(cell: string): number | undefined {
  const found = /^(\d{1,2})(?:[.,]0*)?$/.exec(cell);
  if (found !== null) return Number(found[1]) >= 1 && Number(found[1]) <= 12 ? Number(found[1]) : undefined;
  return monthNamed(cell.replace(/\.$/, ""));
}

/** A year in a cell of its own. */
export function yearIn(cell: string): number | undefined {
  const found = /^((?:19|20)\d{2}|\d{2})(?:[.,]0*)?$/.exec(cell);
  return found === null ? undefined : yearOf(Number(found[1]));
}

/** A date, with a time or without; undefined if the cell is none. */
export function readMoment(cell: string): WrittenMoment | undefined {
  const plain = bare(cell);
  const found = numeric.exec(plain);
  if (found !== null) {
    const [, first = "", , second, third = "", behind] = found;
    const time = behind === undefined ? undefined : readTime(behind);
    if (behind !== undefined && time === undefined) return undefined;
    const parts = [Number(first), Number(second), Number(third)] as const;
    if (first.length === 4 && third.length <= 2) return { parts, order: "ymd", isShort: false, time };
    if (first.length <= 2 && third.length === 4) return { parts, order: undefined, isShort: false, time };
    if (first.length <= 2 && third.length <= 2 && (first.length === 2 || third.length === 2))
      return { parts, order: undefined, isShort: true, time };
    return undefined;
  }
  const words = named.exec(plain);
  const wordsFirst = words === null ? namedFirst.exec(plain) : null;
  if (words === null && wordsFirst === null) return undefined;
  const [day, word, year, behind] =
    words === null
      ? [wordsFirst![2]!, wordsFirst![1]!, wordsFirst![3]!, wordsFirst![4]]
      : [words[1]!, words[2]!, words[3]!, words[4]];
  const month = monthNamed(word);
  const time = behind === undefined ? undefined : readTime(behind);
  if (month === undefined || (behind !== undefined && time === undefined)) return undefined;
  return { parts: [Number(day), month, Number(year)], order: "dmy", isShort: year.length === 2, time };
}

const yearless = new RegExp(String.raw`^(\d{1,2})([./-])(\d{1,2})(?:\2(?!\d))?${rest}`);
const yearlessNamed = new RegExp(String.raw`^(\d{1,2})[-. /]*(\p{L}{3,9})\.?${rest}`, "u");
const yearlessNamedFirst = new RegExp(String.raw`^(\p{L}{3,9})\.?[- ]*(\d{1,2})\.?${rest}`, "u");

/** `13.3.`, `3/13`, `13 Mar`: a date without its year, of a column that is said to hold dates. */
export function readYearless(cell: string, year: number): WrittenMoment | undefined {
  const plain = bare(cell);
  const found = yearless.exec(plain);
  const words = found === null ? yearlessNamed.exec(plain) : null;
  const wordsFirst = found === null && words === null ? yearlessNamedFirst.exec(plain) : null;
  const [first, second, behind] =
    found !== null
      ? [Number(found[1]), Number(found[3]), found[4]]
      : words !== null
        ? [Number(words[1]), monthNamed(words[2]!), words[3]]
        : wordsFirst !== null
          ? [Number(wordsFirst[2]), monthNamed(wordsFirst[1]!), wordsFirst[3]]
          : [];
  if (first === undefined || second === undefined) return undefined;
  const time = behind === undefined ? undefined : readTime(behind);
  if (behind !== undefined && time === undefined) return undefined;
  return { parts: [first, second, year], order: found === null ? "dmy" : undefined, isShort: false, time };
}

/** `20260301`, or `030126` in the order that a head states. */
export function readCompactDate(cell: string): WrittenMoment | undefined {
  const long = /^(\d{4})(\d{2})(\d{2})$/.exec(cell);
  if (long !== null)
    return {
      parts: [Number(long[1]), Number(long[2]), Number(long[3])],
      order: "ymd",
      isShort: false,
      time: undefined,
    };
  const short = /^(\d{2})(\d{2})(\d{2})$/.exec(cell);
  if (short === null) return undefined;
  return {
    parts: [Number(short[1]), Number(short[2]), Number(short[3])],
    order: undefined,
    isShort: true,
    time: undefined,
  };
}

/**
 * Days counted as spreadsheets do, a part of a day behind the point: 46094.5. From March 1900 on day 1 is the last of 1899 (ECMA-376 part 1, 18.17.4.1, the
 * 1900 date base). Undefined outside of 1954 to 2119, where a number is more likely something else.
 */
export function readSerial(cell: string): { readonly day: number; readonly minute: number } | undefined {
  const found = /^(\d{5})(?:[.,](\d+))?$/.exec(cell);
  if (found === null) return undefined;
  const whole = Number(found[1]);
  if (whole < 20_000 || whole >= 80_000) return undefined;
  const minutes = Math.round(Number(`0.${found[2] ?? "0"}`) * 1440);
  const day = dayOf("1899-12-30") + whole + Math.floor(minutes / 1440);
  return { day, minute: found[2] === undefined ? Number.NaN : minutes % 1440 };
}

/** Years of two digits: 69 to 99 are of the last century, as POSIX `%y` has it (IEEE 1003.1, strptime). */
export const yearOf = (year: number): number => (year > 99 ? year : year + (year < 69 ? 2000 : 1900));

/** The day a date is, read in an order; NaN if there is no such day. */
export function dayIn({ parts, isShort, order: own }: WrittenMoment, order: DateOrder): number {
  const by = own ?? order;
  const at = { ymd: [0, 1, 2], dmy: [2, 1, 0], mdy: [2, 0, 1] }[by];
  const [year, month, date] = at.map((index) => parts[index]!) as [number, number, number];
  if (!isShort && year < 1000) return Number.NaN;
  if (isShort && year > 99) return Number.NaN;
  const two = (number: number): string => String(number).padStart(2, "0");
  return dayOf(`${String(isShort ? yearOf(year) : year).padStart(4, "0")}-${two(month)}-${two(date)}`);
}

/** The order that the words of a head state: `MM/DD/YYYY`, `dd:mm:yy`, `MMDDYY`, `Y/M/D`. */
export function orderStated(head: string): DateOrder | undefined {
  const found = /(?<![a-z])(y{1,4}|m{1,2}|d{1,2})\W?(m{1,2}|d{1,2})\W?(y{1,4}|d{1,2})(?![a-z])/i.exec(head);
  if (found === null) return undefined;
  const order = found
    .slice(1)
    .map((part) => part[0]!.toLowerCase())
    .join("");
  return dateOrders.find((each) => each === order);
}

/** Minutes that a zone is ahead of UTC; undefined for a name that says no more. */
export function zoneMinutes(zone: string): number | undefined {
  if (zone in zoneNames) return zoneNames[zone];
  const found = /^(?:UTC|GMT)?([+\-−])(\d{1,2})(?::?(\d{2}))?$/.exec(zone);
  if (found === null) return undefined;
  const minutes = Number(found[2]) * 60 + Number(found[3] ?? 0);
  return found[1] === "+" ? minutes : -minutes;
}

/** Names that mean one thing only in what a logger writes. */
const zoneNames: Readonly<Record<string, number>> = {
  Z: 0,
  UTC: 0,
  GMT: 0,
  CET: 60,
  MEZ: 60,
  CEST: 120,
  MESZ: 120,
};
