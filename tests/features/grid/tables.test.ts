import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { dayOf } from "../../../language/book/dates.ts";
import { applied } from "../../../language/features/grid/block-edits.ts";
import { cellCompletions, newRowCompletions } from "../../../language/features/grid/cell-completion.ts";
import { cellEdit, fillDown, fillSeries, pasteBlock } from "../../../language/features/grid/cell-edit.ts";
import { forSpreadsheet, isFormulaLike, toTsv } from "../../../language/features/grid/copy.ts";
import { deleteRows, insertRows } from "../../../language/features/grid/edit-rows.ts";
import { filterOf, sortKey } from "../../../language/features/grid/filter.ts";
import type { GridResult } from "../../../language/features/grid/grid-model.ts";
import { gridRows } from "../../../language/features/grid/query.ts";
import { seriesOf } from "../../../language/features/grid/series.ts";
import { atOnce } from "../../../language/features/grid/steps.ts";
import { summaryOf } from "../../../language/features/grid/summary.ts";
import { arbitraryLog, filesOfLog } from "../../support/arbitrary-log.ts";
import { rangeOf, splice, spliced } from "../../support/arbitrary-text.ts";
import { edited, viewOf } from "../../support/cursor.ts";
import { anyCellText, make, rowsOf, viewOfFiles } from "./support.ts";

/** Whole tables: rows that come and go, what is pasted, filled, found, summed up. */

const log = `tank dam
  volume 100 L
tank q1
  volume 48 L
tank r2
  volume 24 L
tank r10
  volume 24 L
water tap
  content nitrate 6
food cyclops

2026-03-01
  dam  change 30 %
  sheet  nitrate
    dam  18
  q1   feed cyclops
2026-03-02
  09:00 dam  clean
`;

function text(made: GridResult): string {
  return made.is === "refused" ? made.message : edited(log, made.edits).slice(log.indexOf("2026-03-01"));
}

describe("rows", () => {
  it("come behind a row, no sheet is cut in two, and times stay in order", () => {
    const view = viewOf(log);
    const rows = rowsOf(view);
    const heads = rows.find(({ is }) => is === "sheet")!;
    expect(
      text(
        insertRows(view, heads.id, [
          { tank: "q1", what: "note", note: 'it said "no"', comment: "twice" },
          { tank: "", what: "" },
          { comment: "alone" },
          { date: "2026-03-02", time: "08:00", tank: "q1", what: "change", values: "10 %" },
        ]),
      ),
    ).toBe(`2026-03-01
  dam  change 30 %
  sheet  nitrate
    dam  18
  q1   note "it said \\"no\\""  # twice
  # alone
  q1   feed cyclops
2026-03-02
  08:00 q1 change 10 %
  09:00 dam  clean
`);
    expect(text(insertRows(view, heads.id, [{ tank: "dam" }]))).toBe(
      "a new row needs a tank and what was done: dam, change",
    );
    expect(text(insertRows(view, undefined, [{ tank: "dam", what: "clean" }]))).toBe(
      "a new row needs a date",
    );
  });

  it("go with what hangs on them, or not at all", () => {
    const view = viewOf(log);
    const rows = rowsOf(view);
    const [day, change, heads, row] = rows;
    expect(text(deleteRows(view, [heads!.id]))).toBe(
      "the rows below are read by these heads: delete them with it",
    );
    expect(text(deleteRows(view, [day!.id, change!.id]))).toBe(
      "the lines of this day hang on its date: delete them with it",
    );
    expect(text(deleteRows(view, [heads!.id, row!.id]))).toBe(
      log.slice(log.indexOf("2026-03-01")).replace("  sheet  nitrate\n    dam  18\n", ""),
    );
    expect(
      text(
        deleteRows(
          view,
          rows.slice(0, 5).map(({ id }) => id),
        ),
      ),
    ).toBe("2026-03-02\n  09:00 dam  clean\n");
  });

  it("are pasted over rows that are there, and behind them", () => {
    const view = viewOf(log);
    const last = rowsOf(view).at(-1)!;
    const made = pasteBlock(view, { rows: [last.id], columns: ["date", "time", "tank", "what", "values"] }, [
      ["2026-03-02", "10:00", "dam", "clean", "gravel"],
      ["2026-03-02", "", "q1", "change", "20 %"],
      ["2026-03-04", "", "dam", "change", "30 %"],
    ]);
    expect(text(made).slice(text(made).indexOf("2026-03-02"))).toBe(
      "2026-03-02\n  10:00 dam  clean gravel\n  q1 change 20 %\n2026-03-04\n  dam change 30 %\n",
    );
    const ill = pasteBlock(view, { rows: [last.id], columns: ["time", "tank"] }, [["noon", "q1"]]);
    expect(ill).toEqual({
      is: "refused",
      message: "a time of day is written 08:40",
      at: { row: last.id, column: "time" },
    });
  });

  it("are filled down and on", () => {
    const view = viewOf(log);
    const ids = rowsOf(view)
      .filter(({ is }) => is === "entry")
      .map(({ id }) => id);
    expect(text(atOnce(fillDown(view, ids, ["note"], [["good"], [""], [""]])))).toBe(
      `2026-03-01
  dam  change 30 % "good"
  sheet  nitrate
    dam  18
  q1   feed cyclops
2026-03-02
  09:00 dam  clean
`
        .replace(' "good"', "")
        .replace("cyclops", 'cyclops "good"')
        .replace("clean\n", 'clean "good"\n'),
    );
    expect(text(atOnce(fillSeries(view, ids, ["tank"], [["r1"], [""], [""]], 1)))).toContain(
      "  r2   feed cyclops",
    );
    expect(text(atOnce(fillSeries(view, ids, ["values"], [["much"], [""], [""]], 1)))).toBe(
      "this begins no series: numbers, dates, times, or names that end in a number",
    );
  });
});

describe("series", () => {
  it.each([
    [["1"], ["2", "3"]],
    [
      ["24.5 C", "24.7 C"],
      ["24.9 C", "25.1 C"],
    ],
    [
      ["10 %", "8 %"],
      ["6 %", "4 %"],
    ],
    [["2026-02-27"], ["2026-02-28", "2026-03-01"]],
    [
      ["2026-03-01", "2026-03-08"],
      ["2026-03-15", "2026-03-22"],
    ],
    [
      ["08:00", "08:30"],
      ["09:00", "09:30"],
    ],
    [["r1"], ["r2", "r3"]],
    [
      ["r01", "r03"],
      ["r05", "r07"],
    ],
    [["23:59"], undefined],
    [["1", "r2"], undefined],
    [["dam"], undefined],
  ])("%j goes on with %j", (seeds, expected) => {
    expect(seriesOf(seeds, 2)).toEqual(expected);
  });
});

describe("filters and sorts", () => {
  it.each([
    ["> 20", "21 mg/L", true],
    ["> 20", ">20", true],
    ["> 20", "<50", false],
    ["< 5", "<5", true],
    ["<= 5", "3..5", true],
    ["20..30", "25 %", true],
    ["20..30", "25..35 %", false],
    ["r1..r4", "r3", true],
    ["r1..r4", "r10", false],
    ["2026-03-01..2026-03-31", "2026-03-15", true],
    [">= 2026-03-02", "2026-03-01", false],
    ["08:00..10:00", "09:30", true],
    ["= dam", "Dam", true],
    ["= dam", "dam2", false],
    ["!= dam", "q1", true],
    ["=", "", true],
    ["!=", "", false],
    ["front", "front-glass", true],
    ["dam | q1", "q1", true],
    ['"> 20"', "say > 20", true],
  ])("%s of %j: %s", (wanted, cell, expected) => {
    expect(filterOf(wanted).isMet(cell)).toBe(expected);
  });

  it("says what it cannot read", () => {
    expect(filterOf("> much").problem).toBe("after > comes a number, a date or a time");
    const { problem, total } = gridRows(
      viewOf(log),
      { is: "entries" },
      { from: 0, count: 9, filter: { values: "> much" } },
    );
    expect([problem, total]).toEqual(["after > comes a number, a date or a time", 7]);
  });

  it("puts numbers by size, names by their numbers, what is empty last", () => {
    expect(sortKey("<5")).toBeLessThan(sortKey("5") as number);
    expect(sortKey("r2") < sortKey("r10")).toBe(true);
    const view = viewOf(log);
    const tanks = (isDown: boolean) =>
      gridRows(
        view,
        { is: "entries" },
        { from: 0, count: 9, columns: ["tank"], sort: [{ column: "tank", isDown }] },
      ).rows.map(({ cells }) => cells[0]!.text);
    expect(tanks(false)).toEqual(["dam", "dam", "dam", "q1", "", "", ""]);
    expect(tanks(true)).toEqual(["q1", "dam", "dam", "dam", "", "", ""]);
  });

  it("leaves rows where they are while they are typed in, until the next turn", () => {
    const view = viewOf(log);
    const query = { from: 0, count: 9, columns: ["tank"], filter: { tank: "dam" } };
    const face = { is: "entries" } as const;
    const [first] = gridRows(view, face, query).rows;
    const made = cellEdit(view, { row: first!.id, column: "tank" }, "q1");
    if (made.is === "refused") throw new Error(made.message);
    for (const { start, end, text: put } of made.edits) view.checked.take(view.source.edit(start, end, put));
    const shown = (turn: number) =>
      gridRows(view, face, { ...query, turn }).rows.map(({ cells }) => cells[0]!.text);
    expect(gridRows(view, face, query).rows.map(({ cells }) => cells[0]!.text)).toEqual(["q1", "dam", "dam"]);
    expect(shown(1)).toEqual(["dam", "dam"]);
  });
});

describe("copies", () => {
  it("come back as they went", () => {
    const cells = fc
      .tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 4 }))
      .chain(([rows, columns]) =>
        fc.array(fc.array(anyCellText, { minLength: columns, maxLength: columns }), {
          minLength: rows,
          maxLength: rows,
        }),
      );
    fc.assert(
      fc.property(cells, (table) => {
        // A spreadsheet knows no byte order mark in front.
        fc.pre(!table[0]![0]!.startsWith("\ufeff"));
        expect(Papa.parse(toTsv(table), { delimiter: "\t", newline: "\r\n" }).data).toEqual(table);
      }),
      { numRuns: 200 },
    );
  });

  it.each(["=1+2", "+cmd|' /C calc'!A0", "@rack", "-2+3", " =A1", "\tx"])(
    "marks %j as like a formula",
    (cell) => {
      expect(isFormulaLike(cell)).toBe(true);
      expect(forSpreadsheet(cell)).toBe(`'${cell}`);
    },
  );
  it.each(["-", "-4.2", "+3", "18 mg/L", "30 %", "", "<5", "dam"])("leaves %j", (cell) => {
    expect(isFormulaLike(cell)).toBe(false);
  });
});

describe("summaries", () => {
  const days = (...texts: string[]) =>
    texts.map((each, at) => ({ text: each, time: dayOf("2026-03-01") + at, floor: 0, unit: "mg/L" }));

  it("of figures are one figure each", () => {
    expect(summaryOf(days("10", "12", "14", "", "-", "words"))).toEqual({
      cells: 6,
      numbers: 3,
      open: 0,
      unit: "mg/L",
      least: { low: 10, high: 10 },
      most: { low: 14, high: 14 },
      mean: { low: 12, high: 12 },
      median: { low: 12, high: 12 },
      sum: { low: 36, high: 36 },
      slope: { perDay: 2, low: { outside: expect.any(String) }, high: { outside: expect.any(String) } },
    });
  });

  it("of censored readings say what they are at least and at most", () => {
    const summary = summaryOf(days("<5", "10", "12", "3..4", ">20"));
    expect(summary).toMatchObject({
      numbers: 5,
      open: 3,
      mean: { low: 9, high: Number.POSITIVE_INFINITY },
      median: { low: 10, high: 10 },
      least: { low: 0, high: 4 },
      most: { low: 20, high: Number.POSITIVE_INFINITY },
    });
  });

  it("convert units of a kind, and refuse those that are not", () => {
    expect(summaryOf(days("1 g/L", "500"))).toMatchObject({ unit: "g/L", mean: { low: 0.75, high: 0.75 } });
    expect(summaryOf(days("1 g/L", "20 C"))).toEqual({ outside: "these cells are of different units" });
    expect(summaryOf(days("words"))).toBeUndefined();
  });
});

describe("completion in a cell", () => {
  const offered = (row: number, column: string, typed: string): string[] => {
    const view = viewOf(log);
    return cellCompletions(view, { row: rowsOf(view)[row]!.id, column }, typed, typed.length).map(
      ({ label }) => label,
    );
  };
  it("offers what fits the column", () => {
    expect(offered(1, "tank", "r")).toEqual(expect.arrayContaining(["r2", "r10"]));
    expect(offered(1, "tank", "")).not.toContain("change 30 %");
    expect(offered(1, "what", "cl")).toContain("clean");
    expect(offered(1, "values", "30 % from t")).toContain("tap");
    expect(offered(4, "values", "cy")).toContain("cyclops");
    expect(offered(1, "note", "cy")).toEqual([]);
  });
  it("offers the same in a row that is not written yet", () => {
    const view = viewOf(log);
    const words = newRowCompletions(view, { tank: "dam", what: "ch" }, "what", 2, "2026-03-02");
    expect(words.map(({ label, replace }) => [label, replace])).toContainEqual([
      "change",
      { start: 0, end: 2 },
    ]);
    expect(
      newRowCompletions(view, { tank: "q" }, "tank", 1, "2026-03-02").map(({ label }) => label),
    ).toContain("q1");
  });
});

describe("an edit that comes late", () => {
  const late = (before: string, after: string, line: string): string => {
    const view = viewOf(before);
    const row = rowsOf(view).find(({ at }) => before.slice(at!.start, at!.end) === line)!;
    const { path } = view.source;
    make(view, { is: "edits", edits: [{ path, start: 0, end: before.length, text: after }], newFiles: [] });
    const made = cellEdit(view, { row: row.id, column: "what" }, "feed");
    return made.is === "refused" ? made.message : edited(after, made.edits);
  };
  it("goes along with its line, or is refused", () => {
    const old = "2026-03-01\n  dam clean\n  q1 change 5 %\n  r1 clean\n";
    expect(late(old, old.replace("  q1", "  q1 clean\n  q1"), "  r1 clean")).toContain(
      "q1 clean\n  q1 change 5 %\n  r1 feed",
    );
    // As many lines as before, and in other places.
    const swapped = "2026-03-01\n  r1 clean\n  dam clean\n  q1 change 5 %\n";
    expect(late(old, swapped, "  r1 clean")).toBe(swapped.replace("r1 clean", "r1 feed"));
    expect(
      late(old, "2026-03-01\n  dam clean\n  q1 change 5 %\n  q2 clean\n  q3 clean\n", "  r1 clean"),
    ).toBe("this row is not there any more");
  });

  it("changes no line but its own", () => {
    fc.assert(
      fc.property(
        arbitraryLog.map((each) => filesOfLog(each)),
        fc.array(splice, { minLength: 1, maxLength: 3 }),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        fc.constantFrom("note", "tank", "comment", "time"),
        fc.constantFrom("q1", "08:00", "words"),
        (files, splices, at, column, typed) => {
          const view = viewOfFiles(files);
          const rows = rowsOf(view);
          const row = rows[Math.floor(at * rows.length)];
          if (row?.at === undefined) return;
          const { path, start, end } = row.at;
          const old = files.get(path)!;
          const fresh = splices.reduce(spliced, old);
          make(view, {
            is: "edits",
            edits: [{ path, start: 0, end: old.length, text: fresh }],
            newFiles: [],
          });
          const made = cellEdit(view, { row: row.id, column }, typed);
          if (made.is === "refused" || made.edits.some((edit) => edit.path !== path)) return;
          const after = applied(fresh, made.edits);
          const [before, now] = [fresh.split(/\r\n|\n|\r/), after.split(/\r\n|\n|\r/)];
          expect(now.length).toBe(before.length);
          const other = before.flatMap((each, index) => (each === now[index] ? [] : [each]));
          const line = old.slice(start, end);
          const isOnce = (text: string): boolean =>
            text.split(/\r\n|\n|\r/).filter((each) => each === line).length === 1;
          expect(other.length).toBeLessThanOrEqual(1);
          // A line that stands as it stood is that which is edited.
          if (isOnce(old) && isOnce(fresh) && other.length > 0) expect(other).toEqual([line]);
        },
      ),
      { numRuns: 200 },
    );
    expect(rangeOf({ at: 0, remove: 1, insert: "" }, "ab")).toEqual({ start: 0, end: 1 });
  });
});
