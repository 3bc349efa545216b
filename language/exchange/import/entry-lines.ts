import { figureText } from "./figure.ts";
import type { Imported } from "./import-table.ts";
import { clock } from "./known-log.ts";
import { oneLine } from "./one-line.ts";
import type { Other, Reading } from "./read-row.ts";

/** Entries as lines of a log: of a tank and time one line of tests, each figure with the digits it had and its unit. */

export interface NewLine {
  /** NaN where only the day is known. */
  readonly minute: number;
  /** Without indentation. */
  readonly text: string;
}

export interface NewDay {
  readonly day: number;
  readonly lines: readonly NewLine[];
  /** A comment above them; empty where nothing is to be said. */
  readonly comment: string;
}

export function newDays(
  { entries, mapping }: Pick<Imported, "entries" | "mapping">,
  fileName: string,
): NewDay[] {
  const days = new Map<
    number,
    Map<string, { minute: number; tank: string; readings: Reading[]; others: Other[] }>
  >();
  for (const entry of entries) {
    let day = days.get(entry.day);
    if (day === undefined) {
      day = new Map();
      days.set(entry.day, day);
    }
    const key = `${entry.minute} ${entry.tank}`;
    let line = day.get(key);
    if (line === undefined) {
      line = { minute: entry.minute, tank: entry.tank, readings: [], others: [] };
      day.set(key, line);
    }
    if (entry.is === "test") line.readings.push(entry);
    else line.others.push(entry);
  }
  const comment = ruleOf(mapping.thin, fileName);
  return [...days]
    .sort(([a], [b]) => a - b)
    .map(([day, groups]) => ({
      day,
      comment,
      lines: [...groups.values()]
        .sort((a, b) => order(a.minute) - order(b.minute))
        .flatMap(({ minute, tank, readings, others }) => [
          ...(readings.length === 0
            ? []
            : [{ minute, text: lineOf(minute, tank, `test ${readings.map(readingText).join(", ")}`) }]),
          ...others.map(({ words }) => ({ minute, text: lineOf(minute, tank, words) })),
        ]),
    }));
}

const order = (minute: number): number => (Number.isNaN(minute) ? -1 : minute);

const lineOf = (minute: number, tank: string, words: string): string =>
  `${Number.isNaN(minute) ? "" : `${clock(minute)} `}${tank} ${words}`;

export const readingText = (reading: Reading): string =>
  `${reading.parameter.name} ${figureText(reading)}${reading.unit.written === "" ? "" : ` ${reading.unit.written}`}`;

/** The rule by which a series was thinned, and where all of it is. */
export function ruleOf(thin: Imported["mapping"]["thin"], fileName: string): string {
  if (thin === "none") return "";
  const crossings = thin.crossings ? ", and of the day the lowest and highest beyond a limit" : "";
  return `# ${oneLine(fileName)}: the first reading of each ${thin.hours} h${crossings}`;
}
