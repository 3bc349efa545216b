import type { LineFact, LogLine } from "../log-lines.ts";
import { nameAndUnit } from "./columns.ts";
import { saidOf } from "./merge-line.ts";
import { withUnit } from "./table.ts";

/** Each single thing that a line of a day says, to be counted and to be left out. */

/** How often each stands. */
export type Counts = Map<string, number>;

/** What a line says; a row one reading at a time, as another round may hold it beside others. */
export function thingsOf(line: LogLine): readonly string[] {
  if (line.kind === "entry" || line.kind === "unread") return [saidOf(line)];
  if (line.kind !== "row") return [];
  const readings = line.station === "" ? [] : line.facts.flatMap((fact) => readingOf(line, fact) ?? []);
  if (readings.length === 0) return [saidOf(line)];
  return [
    ...readings,
    ...[line.note, line.comment].flatMap((each) => (each === "" ? [] : besides(line, each))),
  ];
}

/** `7 F` under any head is what `7` is under `temperature (F)`. */
function readingOf(row: LogLine, { about, value }: LineFact): string | undefined {
  if (value === "-") return undefined;
  const [name, unit] = nameAndUnit(about);
  return besides(row, `${name} ${withUnit(value, unit).trimEnd()}`);
}

const besides = ({ time, station }: LogLine, said: string): string => `${time} row ${station} ${said}`;

/** A line without what is to be left out, which then is one less; undefined where nothing is left of it. */
export function leftOf(line: LogLine, drop: Counts): LogLine | undefined {
  const things = thingsOf(line);
  const out = new Set(things.filter((said) => (drop.get(said) ?? 0) > 0));
  for (const said of out) drop.set(said, drop.get(said)! - 1);
  if (out.size === 0) return line;
  return things.every((said) => out.has(said)) ? undefined : withoutCells(line, out);
}

/** A row that has no figure in some of its cells. */
function withoutCells(row: LogLine, out: ReadonlySet<string>): LogLine {
  let { text } = row;
  for (const fact of row.facts) {
    const [start, end] = [fact.start - row.start, fact.end - row.start];
    if (out.has(readingOf(row, fact) ?? ""))
      text = text.slice(0, start) + "-".padEnd(end - start) + text.slice(end);
  }
  return text === row.text ? row : { ...row, text: text.trimEnd() };
}
