import { isoOf } from "../../book/dates.ts";
import { newDays } from "./entry-lines.ts";
import { type Fate, importTable } from "./import-table.ts";
import type { KnownLog } from "./known-log.ts";
import type { Mapping } from "./mapping.ts";
import type { TableFile, Watch } from "./table-file.ts";

/** The first rows of a table beside what becomes of them. */
export interface PreviewRow {
  /** From 1, in the table. */
  readonly line: number;
  /** As it stands in the table. */
  readonly raw: string;
  readonly is: Fate["is"] | "open";
  /** Why it is not written; empty where it is. */
  readonly why: string;
  /** The day, and the lines of it; empty where nothing is written. */
  readonly day: string;
  readonly lines: readonly string[];
}

/** @param first a table of few rows, of which all is shown */
export async function previewOf(
  first: TableFile,
  mapping: Mapping,
  log: KnownLog,
  watch: Watch = {},
): Promise<PreviewRow[]> {
  const rows: PreviewRow[] = [];
  await importTable(first, mapping, log, watch, ({ line, raw, is, why, entries }) => {
    const [day, ...others] = newDays({ entries, mapping: { ...mapping, thin: "none" } }, first.name);
    rows.push({
      line,
      raw,
      is,
      why,
      day: day === undefined ? "" : isoOf(day.day),
      lines: [
        ...(day?.lines ?? []).map(({ text }) => text),
        // A row may go on through several days.
        ...others.flatMap((each) => each.lines.map(({ text }) => `${isoOf(each.day)} ${text}`)),
      ],
    });
  });
  return rows.sort((a, b) => a.line - b.line);
}
