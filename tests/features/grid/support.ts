import fc from "fast-check";
import { CheckedLogbook } from "../../../language/checks/check.ts";
import type { Face, GridEdits, GridRow } from "../../../language/features/grid/grid-model.ts";
import { gridRows } from "../../../language/features/grid/query.ts";
import type { View } from "../../../language/features/view.ts";
import { lastDay } from "../../support/marked.ts";

/** Grids over logs at random. */

export function viewOfFiles(files: ReadonlyMap<string, string>): View {
  const checked = new CheckedLogbook();
  for (const [path, text] of files) checked.set(path, text);
  const source = [...checked.logbook.sources.values()].at(-1)!;
  return { checked, source, worldDay: lastDay(checked) };
}

export function textsOf({ checked }: View): Map<string, string> {
  return new Map([...checked.logbook.sources].map(([path, { text }]) => [path, text]));
}

/** Makes edits in the log, as an editor does: the last first. */
export function make({ checked }: View, { edits, newFiles }: GridEdits): void {
  for (const path of newFiles) checked.set(path, "");
  for (const { path, start, end, text } of [...edits].reverse())
    checked.take(checked.logbook.sources.get(path)!.edit(start, end, text));
}

export function rowsOf(view: View, face: Face = { is: "entries" }): readonly GridRow[] {
  return gridRows(view, face, { from: 0, count: 100_000, isUnmarked: true }).rows;
}

export const textsIn = (row: GridRow): string => [row.is, ...row.cells.map(({ text }) => text)].join(" | ");

/** What people and pages put into cells: values, and what would break a line, a page or a spreadsheet. */
export const anyCellText: fc.Arbitrary<string> = fc.oneof(
  fc.constantFrom(
    ...["", "30 %", "dam", "q1", "@rack", "test", "change", "note", "sheet", "chnge", "08:40", "25:99"],
    ...["nitrate 18, pH 7.2", "nitrate", "<5", "3..4", "~20", "3.5.2", "-", "18 mg/L", "18 mg/l"],
    ...["2026-01-05", "2026-13-01", "tap", "praecox 2 -> q1", 'signs "flashing"', "flow from ro at 24 C"],
  ),
  fc.constantFrom(
    ...[
      "two\nlines",
      "a\r\nb",
      'say "hi"',
      '"',
      '"open',
      "\\",
      "a\\",
      "# x",
      "a # b",
      "a#b",
      "\u202eabc",
      "\u2028",
    ],
    ...[
      "<script>alert(1)</script>",
      "<b>",
      "=1+2",
      "+cmd|' /C calc'!A0",
      "@SUM(A1)",
      "\tx",
      "\u0000",
      "\ufeffx",
    ],
    ...[
      "水 水",
      "é",
      "🐟 🐟",
      "\ud83d",
      "a,b",
      ";",
      "30 % (",
      "->",
      "..",
      "room",
      "tank x",
      "2026-02-30",
      "a\u2028b",
    ],
  ),
  fc.string({ unit: "grapheme", maxLength: 12 }),
  fc.string({ unit: "binary", maxLength: 8 }),
);
