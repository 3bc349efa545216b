import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dayOf } from "../../../language/book/dates.ts";
import { cellEdit, cellEdits } from "../../../language/features/grid/cell-edit.ts";
import { deleteRows } from "../../../language/features/grid/edit-rows.ts";
import type { Face } from "../../../language/features/grid/grid-model.ts";
import { gridRows } from "../../../language/features/grid/query.ts";
import type { View } from "../../../language/features/view.ts";
import { arbitraryLog, filesOfLog } from "../../support/arbitrary-log.ts";
import { edited, viewOf } from "../../support/cursor.ts";
import { anyCellText, make, rowsOf, textsIn, textsOf, viewOfFiles } from "./support.ts";

/** Rounds as cells: of one tank in time, of the room on a day. */

const definitions = `room "Cellar"
  units  temperature C, ammonia mg/L N
tank dam
  volume 100 L
  limits nitrate <= 25 mg/L
tank q1
  volume 48 L
tank r1
  volume 24 L
group both = q1, r1
species praecox
`;
const days = `
2026-03-01
  dam  test nitrate 18, pH 7.2, temperature 25, ammonia 0.5  # by strip
  dam  count praecox 14
  @both test nitrate 5
2026-03-08
  sheet  temperature (F)  pH   nitrate
    dam  76.3             7.6  30      # again
    q1   -                7.1
  dam  lose praecox 1
  dam  count praecox 12
2026-03-15
  08:40 dam test nitrate <5 "new kit"
`;
const log = definitions + days;
const dam: Face = { is: "rounds", of: "tank", name: "dam" };
const on = (date: string): Face => ({ is: "rounds", of: "day", day: dayOf(date) });

function table(view: View, face: Face, columns?: readonly string[]): string[] {
  const { rows, shown } = gridRows(view, face, {
    from: 0,
    count: 100,
    ...(columns === undefined ? {} : { columns }),
  });
  return [shown.join(" | "), ...rows.map(({ cells }) => cells.map(({ text }) => text).join(" | "))];
}

describe("rounds", () => {
  it("of a tank are rows in time, with what follows beside them", () => {
    expect(table(viewOf(log), dam)).toEqual([
      "date | time | test temperature | test pH | test ammonia | figure free-ammonia | test nitrate | count praecox | book praecox | note",
      "2026-03-01 |  | 25 | 7.2 | 0.5 | 0.0054 mg/L NH3 | 18 | 14 |  | ",
      "2026-03-08 |  | 76.3 | 7.6 |  |  | 30 | 12 | 13 | ",
      "2026-03-15 | 08:40 |  |  |  |  | <5 |  | 12 | new kit",
    ]);
    expect(table(viewOf(log), dam, ["test nitrate", "change nitrate", "forecast nitrate"])).toEqual([
      "test nitrate | change nitrate | forecast nitrate",
      "18 |  | ",
      "30 | +12 | ",
      "<5 | -30..-25 | ",
    ]);
  });

  it("know their limits, and what cannot be edited", () => {
    const { rows, shown } = gridRows(viewOf(log), dam, { from: 0, count: 9 });
    const nitrate = shown.indexOf("test nitrate");
    expect(rows.map(({ cells }) => cells[nitrate]!.state)).toEqual(["within", "above", "within"]);
    expect(rows[1]!.cells[nitrate]!.detail).toBe("at most 25 mg/L, by tank dam");
    expect(rows[1]!.cells[nitrate]!.marks.map(({ code }) => code)).toEqual(["limit/above"]);
    expect(rows[1]!.cells[shown.indexOf("book praecox")]!.fixed).toBe("this column is reckoned from the log");
  });

  it("of a day have a row for each tank in service", () => {
    expect(table(viewOf(log), on("2026-03-01"), ["tank", "test nitrate", "test pH"]).slice(1)).toEqual([
      "dam | 18 | 7.2",
      "q1 | 5 | ",
      "r1 | 5 | ",
    ]);
  });
});

function changed(face: Face, row: number, column: string, typed: string, text = log): string {
  const view = viewOf(text);
  const { id } = rowsOf(view, face)[row]!;
  const made = cellEdit(view, { row: id, column }, typed);
  if (made.is === "refused") return made.message;
  const old = text.split("\n");
  const fresh = edited(text, made.edits).split("\n");
  return [
    ...old.filter((line) => !fresh.includes(line)).map((line) => `-${line}`),
    ...fresh.filter((line) => !old.includes(line)).map((line) => `+${line}`),
  ].join("\n");
}

const first = "  dam  test nitrate 18, pH 7.2, temperature 25, ammonia 0.5  # by strip";

describe("typing into rounds", () => {
  it.each([
    [dam, 0, "test nitrate", "19", `-${first}\n+${first.replace("18", "19")}`],
    [dam, 0, "test nitrate", "", `-${first}\n+${first.replace("nitrate 18, ", "")}`],
    [dam, 0, "test ammonia", "", `-${first}\n+${first.replace(", ammonia 0.5", "")}`],
    [dam, 0, "test KH", "4", `-${first}\n+${first.replace("0.5", "0.5, KH 4")}`],
    [dam, 0, "count praecox", "", "-  dam  count praecox 14"],
    [dam, 2, "test nitrate", "", "this is all that its line reads: delete the row, with its text and remark"],
    [
      dam,
      1,
      "test pH",
      "7.75",
      "-    dam  76.3             7.6  30      # again\n+    dam  76.3             7.75 30      # again".replace(
        "7.75 30",
        "7.75  30",
      ),
    ],
    [
      dam,
      1,
      "test pH",
      "",
      "-    dam  76.3             7.6  30      # again\n+    dam  76.3             -    30      # again",
    ],
    [
      dam,
      1,
      "test nitrate",
      "much",
      "-    dam  76.3             7.6  30      # again\n+    dam  76.3             7.6  much    # again",
    ],
    [dam, 1, "test nitrate", "1 2", "a reading is a number: 18, <5, 3..4, with a unit if it is another"],
    [
      dam,
      1,
      "test KH",
      "4",
      "-  sheet  temperature (F)  pH   nitrate\n-    dam  76.3             7.6  30      # again\n+  sheet  temperature (F)  pH   nitrate  KH\n+    dam  76.3             7.6  30  4      # again",
    ],
    [dam, 0, "figure free-ammonia", "1", "this column is reckoned from the log"],
    [
      dam,
      2,
      "time",
      "09:00",
      '-  08:40 dam test nitrate <5 "new kit"\n+  09:00 dam test nitrate <5 "new kit"',
    ],
    [on("2026-03-01"), 1, "test nitrate", "6", "written for all of @both: edit it among the entries"],
    [on("2026-03-01"), 1, "test pH", "6.8", "+  q1    test pH 6.8"],
    [
      on("2026-03-08"),
      1,
      "test nitrate",
      "<5",
      "-    q1   -                7.1\n+    q1   -                7.1  <5",
    ],
    [on("2026-03-08"), 2, "test nitrate", "7", "+    r1  -  -  7"],
    [on("2026-03-08"), 2, "test KH", "3", "+  r1   test KH 3"],
    [
      on("2026-03-08"),
      1,
      "count praecox",
      "3",
      "-  sheet  temperature (F)  pH   nitrate\n-    q1   -                7.1\n+  sheet  temperature (F)  pH   nitrate  praecox\n+    q1   -                7.1  -  3",
    ],
  ])("%j row %i, %s: %j", (face, row, column, typed, expected) => {
    expect(changed(face, row, column, typed)).toBe(expected);
  });

  it("writes a round into a day that has no block, in one step", () => {
    const view = viewOf(log);
    const face = on("2026-03-10");
    const [dam_, q1] = rowsOf(view, face);
    const made = cellEdits(view, [
      { row: dam_!.id, column: "test nitrate", text: "20" },
      { row: dam_!.id, column: "test pH", text: "7.1" },
      { row: q1!.id, column: "test nitrate", text: "4" },
      { row: q1!.id, column: "count praecox", text: "5" },
    ]);
    if (made.is === "refused") throw new Error(made.message);
    expect(edited(log, made.edits).slice(log.indexOf("2026-03-15"))).toBe(
      `2026-03-10
  dam test nitrate 20, pH 7.1
  q1 test nitrate 4
  q1 count praecox 5
2026-03-15
  08:40 dam test nitrate <5 "new kit"
`,
    );
  });

  it("deletes a round with its lines", () => {
    const view = viewOf(log);
    const made = deleteRows(view, [rowsOf(view, dam)[0]!.id]);
    if (made.is === "refused") throw new Error(made.message);
    expect(edited(log, made.edits)).toBe(log.replace(`${first}\n  dam  count praecox 14\n`, ""));
  });

  it("any cell says what was typed, and no other changes", () => {
    const columns = fc.constantFrom(
      "test nitrate",
      "test pH",
      "test KH",
      "count praecox",
      "count horn",
      "time",
      "note",
    );
    fc.assert(
      fc.property(
        arbitraryLog.map((each) => filesOfLog(each)),
        fc.boolean(),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        columns,
        fc.oneof(fc.constantFrom("18", "<5", "7.2", "", "14", "~20", "-", "3..4 mg/L"), anyCellText),
        (files, isDay, at, column, text) => {
          const view = viewOfFiles(files);
          const days = rowsOf(view).filter(({ is }) => is === "day");
          const day = days[Math.floor(at * days.length)]?.day ?? 20_454;
          const face: Face = isDay
            ? { is: "rounds", of: "day", day }
            : { is: "rounds", of: "tank", name: "dam" };
          const wanted = [
            isDay ? "tank" : "date",
            "test nitrate",
            "test pH",
            "test KH",
            "count praecox",
            "count horn",
          ];
          const shown = () =>
            gridRows(view, face, {
              from: 0,
              count: 1000,
              columns: [...wanted, "time", "note"],
              isUnmarked: true,
            });
          const before = shown();
          const place = before.shown.indexOf(column);
          const row = before.rows[Math.floor(at * before.rows.length)];
          if (row === undefined) return;
          const entries = rowsOf(view);
          const made = cellEdit(view, { row: row.id, column }, text);
          if (made.is === "refused") return;
          make(view, made);
          const after = shown();
          const typed = column === "note" ? text.replace(/\r\n|[\r\n]/g, " ").trim() : text.trim();
          const own = after.rows.find(({ id }) => id === row.id);
          const isEmpty = typed === "" || (column.startsWith("t") && typed === "-") || typed === "-";
          // A time moves a round to another row, and one that says nothing any more is none.
          if (own !== undefined && column !== "time") {
            const cell = own.cells[after.shown.indexOf(column)];
            expect(cell?.text ?? "").toBe(isEmpty && column !== "note" ? "" : typed);
          }
          expect(place < 0 || after.shown.length > 0).toBe(true);
          // Lines that are no part of the round stand as they stood.
          const had = new Map(rowsOf(view).map((each) => [each.id, textsIn(each)]));
          const other = entries.filter((each) => had.get(each.id) !== textsIn(each));
          expect(other.length).toBeLessThanOrEqual(2);
          expect(rowsOf(viewOfFiles(textsOf(view))).map(textsIn)).toEqual([...had.values()]);
        },
      ),
      { numRuns: 150 },
    );
  });
});
