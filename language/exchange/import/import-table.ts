import { type Cut, Cutter, ourMark } from "./cutter.ts";
import { dateInLine } from "./date-line.ts";
import { figureText } from "./figure.ts";
import type { KnownLog } from "./known-log.ts";
import type { Mapping } from "./mapping.ts";
import { checkPlaces, findTop } from "./mapping-fit.ts";
import { type Other, type Reading, RowReader } from "./read-row.ts";
import { Sifting } from "./sifting.ts";
import { findEncoding, type TableFile, textOf, type Watch } from "./table-file.ts";

/** A table by its mapping: what of it is new to the log, and what becomes of every row. */

export interface Rejected {
  /** From 1, in the table. */
  readonly line: number;
  /** As it stands in the table, with what it leaves to the rows above. */
  readonly raw: string;
  readonly why: string;
  /** The line above it that holds its date, where the table has such lines. */
  readonly dateLine: string;
}

/** Rows: read = imported + skipped + rejected; skipped = empty + known + thinned + left out + twice. */
export interface Counts {
  readonly read: number;
  readonly imported: number;
  readonly skipped: number;
  readonly rejected: number;
  readonly empty: number;
  readonly known: number;
  readonly thinned: number;
  readonly leftOut: number;
  readonly twice: number;
}

export interface Imported {
  readonly mapping: Mapping;
  readonly entries: readonly (Reading | Other)[];
  readonly rows: Counts;
  /** Readings and other entries: found = written + known + thinned; those of rejected rows are not found. */
  readonly values: {
    readonly found: number;
    readonly written: number;
    readonly known: number;
    readonly thinned: number;
  };
  readonly rejects: readonly Rejected[];
  /** How many rejected rows there are beyond those that are kept. */
  readonly rejectsDropped: number;
  /** What stands from the heads to the rows, for the file of rejected rows. */
  readonly top: readonly string[];
  /** What is to be said of its letters; empty for plain UTF-8. */
  readonly said: string;
}

/** What became of a row, for who wants to see it row by row. */
export interface Fate {
  readonly line: number;
  readonly raw: string;
  readonly is: "imported" | "known" | "thinned" | "twice" | "empty" | "left out" | "rejected";
  /** Why it was rejected; empty where it was not. */
  readonly why: string;
  /** What of it is new. */
  readonly entries: readonly (Reading | Other)[];
}

/** So many rejected rows are kept with their text. */
const rejectsKept = 50_000;
/** So many rows are remembered with their text before those are forgotten that fell out. */
const rememberedAtOnce = 50_000;

/**
 * Throws `Refused` for a table that the mapping is not for, and `Cancelled` when it is stopped.
 * @param see is told of every row of a small table, in no order
 */
export async function importTable(
  file: TableFile,
  mapping: Mapping,
  log: KnownLog,
  watch: Watch = {},
  see: (fate: Fate) => void = () => {},
): Promise<Imported> {
  checkPlaces(mapping, log);
  const { encoding, said } = await findEncoding(file, watch);
  const top = await findTop(file, encoding, mapping);
  const reader = new RowReader(mapping, top.heads);
  const sifting = new Sifting(mapping.thin, log);
  const rejects: Rejected[] = [];
  const raws = new Map<number, { line: number; raw: string; alone: string; dateLine: string }>();
  const count = { read: 0, rejected: 0, empty: 0, leftOut: 0, twice: 0, withEntries: 0, found: 0 };
  const cutter = new Cutter(mapping.table.delimiter);
  const again = new Set(top.lines.map((each) => each.trim()));
  let dateLine = "";
  let rememberedUpTo = rememberedAtOnce;
  const reject = (line: number, raw: string, why: string, alone = raw): void => {
    count.rejected++;
    if (rejects.length < rejectsKept) rejects.push({ line, raw: alone, why, dateLine });
    see({ line, raw, is: "rejected", why, entries: [] });
  };
  const skip = (line: number, raw: string, is: Fate["is"]): void =>
    see({ line, raw, is, why: "", entries: [] });
  const take = (cut: Cut): void => {
    const { line, raw } = cut;
    if (raw.trim() === "" && cut.flaw === "") {
      reader.gap();
      return;
    }
    if (raw.startsWith(ourMark)) return;
    const { dateLine: prefix } = mapping.table;
    const dated = prefix === undefined ? undefined : dateInLine(raw, mapping.table.delimiter, prefix);
    if (dated !== undefined) {
      dateLine = raw;
      reader.dateLine = dated;
      return;
    }
    // A log in pages has its heads again on each.
    if (line < top.firstLine) return;
    if (again.has(raw.trim())) {
      reader.again();
      return;
    }
    count.read++;
    const row = reader.read(cut);
    if (row.is === "rejected") {
      reject(line, raw, row.why, reader.alone(cut));
      return;
    }
    if (row.is === "skipped") {
      if (row.why === "empty") count.empty++;
      else count.leftOut++;
      skip(line, raw, row.why);
      return;
    }
    const double = sifting.double(row.entries);
    if (double === "") {
      count.twice++;
      skip(line, raw, "twice");
      return;
    }
    if (double !== undefined) {
      reject(line, raw, double, reader.alone(cut));
      return;
    }
    count.withEntries++;
    count.found += row.entries.length;
    if (!sifting.add(row.entries, count.read)) {
      skip(line, raw, "thinned");
      return;
    }
    // A copy: a slice would keep all of the part alive that it was cut from.
    const kept = ` ${raw}`.slice(1);
    const alone = reader.alone(cut);
    raws.set(count.read, { line, raw: kept, alone: alone === raw ? kept : alone, dateLine });
    // Of rows that fell out again nothing needs to be remembered.
    if (raws.size > rememberedUpTo) {
      const needed = new Set(sifting.all().map(({ row: at }) => at));
      for (const at of raws.keys()) if (!needed.has(at)) raws.delete(at);
      rememberedUpTo = raws.size * 2 + rememberedAtOnce;
    }
  };
  for await (const part of textOf(file, encoding, "bytes read", watch))
    for (const cut of cutter.cut(part)) take(cut);
  for (const cut of cutter.cut("", true)) take(cut);
  return settled();

  function settled(): Imported {
    const byRow = new Map<number, (Reading | Other)[]>();
    for (const { entry, row } of sifting.all()) {
      const before = byRow.get(row);
      if (before === undefined) byRow.set(row, [entry]);
      else before.push(entry);
    }
    const often = new Map<string, number>();
    const entries: (Reading | Other)[] = [];
    let imported = 0;
    let known = 0;
    let knownValues = 0;
    for (const [row, all] of byRow) {
      const fresh: (Reading | Other)[] = [];
      let why = "";
      for (const entry of all) {
        const is = entry.is === "test" ? log.reading(entry) : log.other(entry, nth(entry));
        if (is === "new") fresh.push(entry);
        else if (is !== "known")
          why = `differs from the log, which has ${is.differs} of ${entry.tank} then; here ${entry.is === "test" ? figureText(entry) : entry.words}`;
      }
      if (why !== "") {
        count.found -= all.length;
        const { line, raw, alone, dateLine: date } = raws.get(row)!;
        dateLine = date;
        reject(line, raw, why, alone);
        continue;
      }
      knownValues += all.length - fresh.length;
      if (fresh.length === 0) known++;
      else imported++;
      entries.push(...fresh);
      const from = raws.get(row)!;
      see({
        line: from.line,
        raw: from.raw,
        is: fresh.length === 0 ? "known" : "imported",
        why: "",
        entries: fresh,
      });
    }
    for (const [row, { line, raw }] of raws) if (!byRow.has(row)) skip(line, raw, "thinned");
    const thinned = count.withEntries - byRow.size;
    return {
      mapping,
      entries,
      rows: {
        read: count.read,
        imported,
        skipped: count.empty + known + thinned + count.leftOut + count.twice,
        rejected: count.rejected,
        empty: count.empty,
        known,
        thinned,
        leftOut: count.leftOut,
        twice: count.twice,
      },
      values: {
        found: count.found,
        written: entries.length,
        known: knownValues,
        thinned: count.found - entries.length - knownValues,
      },
      rejects: rejects.sort((a, b) => a.line - b.line),
      rejectsDropped: count.rejected - rejects.length,
      top: top.lines,
      said,
    };

    function nth({ tank, day, minute, words }: Other): number {
      const key = `${tank} ${day} ${minute} ${words}`;
      const before = often.get(key) ?? 0;
      often.set(key, before + 1);
      return before;
    }
  }
}
