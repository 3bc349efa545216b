import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellEdit, pasteBlock } from "../../../language/features/grid/cell-edit.ts";
import { deleteRows, insertRows } from "../../../language/features/grid/edit-rows.ts";
import type { Face, GridRow } from "../../../language/features/grid/grid-model.ts";
import { gridRows } from "../../../language/features/grid/query.ts";
import type { View } from "../../../language/features/view.ts";
import { arbitraryLog, filesOfLog } from "../../support/arbitrary-log.ts";
import { anyText } from "../../support/arbitrary-text.ts";
import { anyCellText, make, rowsOf, textsIn, textsOf, viewOfFiles } from "./support.ts";

/** What must hold of every edit of a grid. */

const entries: Face = { is: "entries" };
const logs = arbitraryLog.map((log) => filesOfLog(log));
const damaged = anyText.map((text) => new Map([["log.tank", text]]));
const anyFiles = fc.oneof({ weight: 3, arbitrary: logs }, { weight: 1, arbitrary: damaged });
const column = fc.constantFrom("time", "tank", "what", "values", "note", "comment", "date");
const edit = fc.record({ at: fc.double({ min: 0, max: 0.999, noNaN: true }), column, text: anyCellText });

/** Lines of all files with how often each stands there. */
function lineCounts(texts: ReadonlyMap<string, string>): Map<string, number> {
  const counts = new Map<string, number>();
  for (const [path, text] of texts)
    for (const line of text.split(/\r\n|\n|\r/)) {
      const key = `${path}: ${line}`;
      counts.set(key, (counts.get(key) ?? 0) + 1);
    }
  return counts;
}

/** How many lines are there more of than before, and how many less. */
function changedLines(
  before: ReadonlyMap<string, string>,
  after: ReadonlyMap<string, string>,
): [number, number] {
  const [was, is] = [lineCounts(before), lineCounts(after)];
  let gone = 0;
  let come = 0;
  for (const line of new Set([...was.keys(), ...is.keys()])) {
    const more = (is.get(line) ?? 0) - (was.get(line) ?? 0);
    if (more > 0) come += more;
    else gone -= more;
  }
  return [gone, come];
}

function lineOf({ checked }: View, { at }: GridRow): string {
  const { text } = checked.logbook.sources.get(at!.path)!;
  return text.slice(at!.start, at!.end).replace("\ufeff", "").trim();
}

/** What a cell says after a text was typed into it: line ends in prose are spaces. */
const normal = (text: string): string => text.replace(/\r\n|[\r\n]/g, " ").trim();

function said(row: GridRow, id: string): string | undefined {
  const at = ["date", "time", "tank", "what", "values", "note", "comment"].indexOf(id);
  return row.cells.length === 1 ? row.cells[0]!.text : row.cells[at]?.text;
}

/** The same log read anew says the same. */
function expectReadAnew(view: View): void {
  const anew = viewOfFiles(textsOf(view));
  expect(rowsOf(anew).map(textsIn)).toEqual(rowsOf(view).map(textsIn));
}

describe("any edits of the days", () => {
  it("touch the line of their cell only, and the cell says what was typed", () => {
    fc.assert(
      fc.property(anyFiles, fc.array(edit, { maxLength: 6 }), (files, edits) => {
        const view = viewOfFiles(files);
        for (const { at, column: id, text } of edits) {
          const rows = rowsOf(view);
          const row = rows[Math.floor(at * rows.length)];
          if (row === undefined) return;
          const before = textsOf(view);
          // A line that is one text has one cell.
          const made = cellEdit(view, { row: row.id, column: row.cells.length === 1 ? "text" : id }, text);
          if (made.is === "refused") {
            expect(made.message).not.toBe("");
            continue;
          }
          make(view, made);
          const [gone, come] = changedLines(before, textsOf(view));
          const now = rowsOf(view);
          if (id === "date" && row.is !== "day" && row.cells.length > 1) {
            // The line goes to its day: it stays, and a head may come.
            expect(gone).toBeLessThanOrEqual(1);
            expect(now.filter(({ is }) => is !== "day").length).toBe(
              rows.filter(({ is }) => is !== "day").length,
            );
            continue;
          }
          expect([gone, come]).toEqual(made.edits.length === 0 ? [0, 0] : [1, 1]);
          const isHead = row.is === "day" && id === "date";
          const after = isHead ? undefined : now.find((each) => each.id === row.id);
          if (after !== undefined) {
            const typed = normal(text);
            // A line that was one text may have become cells: it is what was typed.
            if (row.cells.length === 1) expect(lineOf(view, after)).toBe(typed);
            else if (after.is === "text") expect(after.cells[0]!.text).toContain(typed);
            else expect(said(after, id)).toBe(typed);
          }
          // A head that is mended may begin a definition, whose lines are no entries.
          if (row.cells.length > 1) expect(now.length).toBe(rows.length);
          if (row.is === "text" || row.is === "comment" || isHead) continue;
          const others = (all: readonly GridRow[]) => all.filter((each) => each.id !== row.id).map(textsIn);
          expect(others(now)).toEqual(others(rows));
        }
        expectReadAnew(view);
      }),
      { numRuns: 150 },
    );
  });

  it("are one step when they are pasted: as one by one", () => {
    const cells = fc.array(fc.array(anyCellText, { minLength: 1, maxLength: 3 }), {
      minLength: 1,
      maxLength: 4,
    });
    const columns = ["time", "tank", "what", "values", "note", "comment"];
    fc.assert(
      fc.property(
        logs,
        cells,
        fc.nat(3),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        (files, block, left, at) => {
          const [together, apart] = [viewOfFiles(files), viewOfFiles(files)];
          const [rows, same] = [rowsOf(together), rowsOf(apart)];
          const first = Math.floor(at * rows.length);
          const wide = block.map((row) => [...row, "", ""].slice(0, block[0]!.length));
          const over = rows.slice(first, first + wide.length);
          if (over.length < wide.length) return;
          const pasted = pasteBlock(
            together,
            { rows: over.map(({ id }) => id), columns: columns.slice(left, left + wide[0]!.length) },
            wide,
          );
          let isRefused = false;
          for (const [down, row] of wide.entries())
            for (const [right, text] of row.entries()) {
              const ref = { row: same[first + down]!.id, column: columns[left + right]! };
              const made = cellEdit(apart, ref, text);
              if (made.is === "refused") isRefused = true;
              else if (!isRefused) make(apart, made);
            }
          if (pasted.is === "refused") {
            // One after the other a line may be broken and mended again; at once it never is.
            expect(textsOf(together)).toEqual(new Map(files));
            return;
          }
          if (isRefused) return;
          make(together, pasted);
          expect(textsOf(together)).toEqual(textsOf(apart));
        },
      ),
      { numRuns: 150 },
    );
  });

  it("are undone by deleting what was inserted", () => {
    const newRow = fc.record(
      {
        time: fc.constantFrom("", "08:40", "23:10"),
        tank: fc.constantFrom("dam", "q1", "@rack", "room"),
        what: fc.constantFrom("change", "note", "test", "clean", "oddly"),
        values: fc.oneof(fc.constantFrom("", "30 %", "nitrate 18"), anyCellText),
        note: anyCellText,
        comment: anyCellText,
      },
      { requiredKeys: ["tank", "what"] },
    );
    fc.assert(
      fc.property(
        anyFiles,
        fc.array(newRow, { minLength: 1, maxLength: 3 }),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        (files, fresh, at) => {
          const view = viewOfFiles(files);
          const rows = rowsOf(view);
          const row = rows[Math.floor(at * rows.length)];
          if (row === undefined) return;
          const inserted = insertRows(view, row.id, fresh);
          if (inserted.is === "refused") return;
          make(view, inserted);
          const now = rowsOf(view);
          const had = new Set(rows.map(({ id }) => id));
          const come = now.filter(({ id }) => !had.has(id));
          expect(come.length).toBe(fresh.length);
          expect(now.filter(({ id }) => had.has(id)).map(textsIn)).toEqual(rows.map(textsIn));
          expectReadAnew(view);
          const deleted = deleteRows(
            view,
            come.map(({ id }) => id),
          );
          if (deleted.is === "refused") throw new Error(deleted.message);
          make(view, deleted);
          expect(textsOf(view)).toEqual(new Map(files));
        },
      ),
      { numRuns: 150 },
    );
  });

  it("begin a day that there is not, which goes with its rows", () => {
    fc.assert(
      fc.property(
        logs,
        fc.integer({ min: 1, max: 28 }),
        fc.integer({ min: 1, max: 6 }),
        (files, date, month) => {
          const view = viewOfFiles(files);
          const rows = rowsOf(view);
          const iso = `2026-${String(month).padStart(2, "0")}-${String(date).padStart(2, "0")}`;
          const isThere = rows.some(({ is, cells }) => is === "day" && cells[0]!.text === iso);
          const inserted = insertRows(view, undefined, [{ date: iso, tank: "dam", what: "clean" }]);
          if (inserted.is === "refused") throw new Error(inserted.message);
          make(view, inserted);
          const had = new Set(rows.map(({ id }) => id));
          const come = rowsOf(view).filter(({ id }) => !had.has(id));
          expect(come.map(({ is }) => is)).toEqual(isThere ? ["entry"] : ["day", "entry"]);
          expect(
            come
              .at(-1)!
              .cells.slice(0, 4)
              .map(({ text }) => text),
          ).toEqual([iso, "", "dam", "clean"]);
          const deleted = deleteRows(
            view,
            come.map(({ id }) => id),
          );
          if (deleted.is === "refused") throw new Error(deleted.message);
          make(view, deleted);
          expect(textsOf(view)).toEqual(new Map(files));
        },
      ),
      { numRuns: 100 },
    );
  });
});

describe("any window", () => {
  it("is a part of the whole, sorted and filtered too", () => {
    const filter = fc.dictionary(
      fc.constantFrom("tank", "what", "values", "date", "note"),
      fc.constantFrom("dam", "r1..r3", "> 5", "= test", "!= ", "2026-01-01..2026-02-01", "", "<"),
      { maxKeys: 2 },
    );
    const sort = fc.array(
      fc.record({ column: fc.constantFrom("date", "tank", "values", "time"), isDown: fc.boolean() }),
      { maxLength: 2 },
    );
    fc.assert(
      fc.property(anyFiles, filter, sort, fc.nat(30), fc.nat(10), (files, wanted, by, from, count) => {
        const view = viewOfFiles(files);
        const whole = gridRows(view, entries, { from: 0, count: 100_000, filter: wanted, sort: by });
        const part = gridRows(view, entries, { from, count, filter: wanted, sort: by });
        expect(part.rows).toEqual(whole.rows.slice(from, from + count));
        expect(part.total).toBe(whole.rows.length);
      }),
      { numRuns: 100 },
    );
  });
});
