import { type Across, melted } from "./across.ts";
import { cellsOf } from "./cells.ts";
import { Cutter, ourMark } from "./cutter.ts";
import { dateInLine } from "./date-line.ts";
import { readFigure } from "./figure.ts";
import type { Layout } from "./layout.ts";
import {
  type DateOrder,
  dateOrders,
  dayIn,
  readCompactDate,
  readCompactTime,
  readMoment,
  readSerial,
  readTime,
  readYearless,
  type WrittenMoment,
} from "./moment.ts";
import { decimalOf, isMissing } from "./number.ts";
import { type TableFile, textOf, type Watch } from "./table-file.ts";

/** What all rows of a table tell of its columns: a single row may settle what a thousand leave open. */

const distinctKept = 200;
const samplesKept = 2000;
const seenKept = 4096;
/** Stands in for the year of dates that have none. */
export const leapYear = 2000;

export class ColumnEvidence {
  filled = 0;
  missing = 0;
  numbers = 0;
  moments = 0;
  withTime = 0;
  times = 0;
  compactDates = 0;
  compactTimes = 0;
  /** Dates without a year, if they are dates. */
  yearless = 0;
  epochs = 0;
  /** Days counted as spreadsheets do. */
  serials = 0;
  /** Words that say that there is no reading. */
  readonly missingWords = new Set<string>();
  notMidnight = 0;
  point = 0;
  comma = 0;
  either = 0;
  readonly zones = new Set<string>();
  /** Marks that stand behind numbers. */
  readonly marks = new Map<string, number>();
  readonly distinct = new Map<string, number>();
  isDistinctFull = false;
  /** Plain figures that were looked at, and how they count. */
  private readonly seen = new Map<string, "point" | "comma" | "either" | "plain">();
  readonly orders = new Map<DateOrder, OrderEvidence>(
    dateOrders.map((order) => [order, new OrderEvidence()]),
  );

  add(cell: string): void {
    if (isMissing(cell)) {
      if (cell === "") return;
      this.missing++;
      if (this.missingWords.size < 20 && /\p{L}{2}/u.test(cell)) this.missingWords.add(cell);
      return;
    }
    this.filled++;
    const known = this.distinct.get(cell);
    if (known !== undefined) this.distinct.set(cell, known + 1);
    else if (this.distinct.size < distinctKept) this.distinct.set(` ${cell}`.slice(1), 1);
    else this.isDistinctFull = true;
    // Most figures of a long table were seen before.
    const seen = this.seen.get(cell);
    if (seen === undefined) this.look(cell);
    else {
      this.numbers++;
      if (seen !== "plain") this[seen]++;
    }
  }

  private look(cell: string): void {
    const decimal = decimalOf(cell);
    if (decimal === ".") this.point++;
    else if (decimal === ",") this.comma++;
    else if (decimal === "both") this.either++;
    const number = readFigure(cell, ".") ?? readFigure(cell, ",");
    const isPlain = /^\d{1,2}(?:[.,]\d{1,4})?$|^\d{3,9}[.,]\d{1,2}$/.test(cell);
    if (isPlain && number !== undefined && readMoment(cell) === undefined && readSerial(cell) === undefined) {
      this.numbers++;
      if (this.seen.size < seenKept)
        this.seen.set(
          ` ${cell}`.slice(1),
          decimal === "." ? "point" : decimal === "," ? "comma" : decimal === "both" ? "either" : "plain",
        );
      return;
    }
    if (number !== undefined) {
      this.numbers++;
      if (number.mark !== "" && this.marks.size < 50)
        this.marks.set(number.mark, (this.marks.get(number.mark) ?? 0) + 1);
      if (/^1?\d{9}$|^1\d{12}$/.test(cell)) this.epochs++;
      else if (readSerial(cell) !== undefined) this.serials++;
    }
    const time = readTime(cell);
    if (time !== undefined) {
      this.times++;
      this.sawTime(time.minute, time.second, time.zone);
    }
    const moment = time === undefined ? readMoment(cell) : undefined;
    const yearless = time === undefined && moment === undefined ? readYearless(cell, leapYear) : undefined;
    const dated = moment ?? yearless;
    if (dated !== undefined) {
      if (moment === undefined) this.yearless++;
      else this.moments++;
      this.sawDate(dated);
      if (dated.time !== undefined) {
        this.withTime++;
        this.sawTime(dated.time.minute, dated.time.second, dated.time.zone);
      }
      return;
    }
    if (time !== undefined || !/^\d{3,8}$/.test(cell)) return;
    if (readCompactTime(cell) !== undefined) this.compactTimes++;
    const compact = readCompactDate(cell);
    if (compact !== undefined && /^(?:19|20)\d{6}$|^\d{6}$/.test(cell)) {
      this.compactDates++;
      this.sawDate(compact);
    }
  }

  sawDate(moment: WrittenMoment): void {
    for (const order of dateOrders) this.orders.get(order)!.add(dayIn(moment, order), moment.order === order);
  }

  private sawTime(minute: number, second: number, zone: string): void {
    if (minute !== 0 || second !== 0) this.notMidnight++;
    if (zone !== "" && this.zones.size < 20) this.zones.add(zone);
  }
}

/** What the dates of a column would be, read in one order. */
export class OrderEvidence {
  days = 0;
  impossible = 0;
  /** Of dates that settle their order by their form. */
  settled = 0;
  /** How often the day changes from one row to the next, and the longest step. */
  steps = 0;
  longest = 0;
  private last = Number.NaN;

  add(day: number, isSettled: boolean): void {
    if (isSettled) this.settled++;
    if (Number.isNaN(day)) {
      this.impossible++;
      return;
    }
    this.days++;
    if (!Number.isNaN(this.last) && day !== this.last) {
      this.steps++;
      this.longest = Math.max(this.longest, Math.abs(day - this.last));
    }
    this.last = day;
  }
}

export interface Survey {
  readonly layout: Layout;
  readonly columns: readonly ColumnEvidence[];
  readonly rows: number;
  readonly flawed: number;
  readonly samples: readonly {
    readonly line: number;
    readonly raw: string;
    readonly cells: readonly string[];
    readonly dateLine: string;
  }[];
  readonly dateLines: ColumnEvidence;
}

/** Reads all rows once. */
export async function surveyOf(
  file: TableFile,
  encoding: string,
  layout: Layout,
  watch: Watch = {},
): Promise<Survey> {
  const columns = layout.heads.map(() => new ColumnEvidence());
  const dateLines = new ColumnEvidence();
  const samples: { line: number; raw: string; cells: readonly string[]; dateLine: string }[] = [];
  let rows = 0;
  let flawed = 0;
  let dateLine = "";
  const top = new Set(layout.top);
  const cutter = new Cutter(layout.delimiter);
  const look = (part: string, isLast = false): void => {
    for (const { line, raw, flaw } of cutter.cut(part, isLast)) {
      if (line < layout.firstLine && layout.dateLine === undefined) continue;
      if (raw.trim() === "" || raw.startsWith(ourMark)) continue;
      const dated =
        layout.dateLine === undefined ? undefined : dateInLine(raw, layout.delimiter, layout.dateLine);
      if (dated !== undefined) {
        dateLine = dated;
        dateLines.add(dated);
        continue;
      }
      if (line < layout.firstLine || top.has(raw.trim())) continue;
      rows++;
      if (flaw !== "") {
        flawed++;
        continue;
      }
      const cells = cellsOf(raw, layout.delimiter, layout.edges).cells.map((cell) => cell.trim());
      if (layout.across !== undefined) {
        lookAcross(line, raw, cells, layout.across);
        continue;
      }
      for (let at = 0; at < columns.length; at++) columns[at]!.add(cells[at] ?? "");
      if (samples.length < samplesKept) samples.push({ line, raw: ` ${raw}`.slice(1), cells, dateLine });
    }
  };
  // The heads are the same for all rows, and the cells before them for all dates of a row.
  const lookAcross = (line: number, raw: string, row: readonly string[], across: Across): void => {
    const { from } = across;
    for (let at = 0; at < from; at++) columns[at]!.add(row[at] ?? "");
    for (const cells of melted(row, across)) {
      if (rows === 1) columns[from]!.add(cells[from]!);
      columns[from + 1]!.add(cells[from + 1]!);
      if (samples.length < samplesKept && cells[from + 1] !== "")
        samples.push({ line, raw, cells, dateLine });
    }
  };
  for await (const part of textOf(file, encoding, "bytes read", watch)) look(part);
  look("", true);
  return { layout, columns, rows, flawed, samples, dateLines };
}
