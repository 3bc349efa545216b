import { describe, expect, it } from "vitest";
import { cellEdit } from "../../../language/features/grid/cell-edit.ts";
import type { Face, GridQuery } from "../../../language/features/grid/grid-model.ts";
import { gridRows } from "../../../language/features/grid/query.ts";
import type { View } from "../../../language/features/view.ts";
import { edited, viewOf } from "../../support/cursor.ts";

const entries: Face = { is: "entries" };
const all: GridQuery = { from: 0, count: 1000 };

const log = `tank dam
  volume 100 L
  limits nitrate <= 25 mg/L
tank q1
  volume 48 L

2026-03-01 "power cut"  # a long one
  # looked at all of them
  08:40 dam  change 30 % flow  # with the hose
  dam  note "eggs on the mop"
  dam  chnge 30 %
  q1   test nitrate 30, pH 7.2 "new kit"
  dam  change 30 % (
  sheet  nitrate  pH
    dam  18       7.2
    q1   -        7.0  "twice"
`;

/** Rows as their cells, parted by bars. */
function shown(view: View, face = entries, query = all): string[] {
  return gridRows(view, face, query).rows.map(
    ({ is, cells }) =>
      `${is}: ${cells.map(({ text, implied }) => text || (implied && `(${implied})`)).join(" | ")}`,
  );
}

describe("the days as rows", () => {
  it("has a row for each line that is not blank, and what is no cells as one text", () => {
    expect(shown(viewOf(log))).toEqual([
      "day: 2026-03-01 |  |  |  |  | power cut | a long one",
      "comment: # looked at all of them",
      "entry: 2026-03-01 | 08:40 | dam | change | 30 % flow |  | with the hose",
      "entry: 2026-03-01 | (08:40) | dam | note |  | eggs on the mop | ",
      "entry: 2026-03-01 | (08:40) | dam | chnge | 30 % |  | ",
      "entry: 2026-03-01 | (08:40) | q1 | test | nitrate 30, pH 7.2 | new kit | ",
      "text: dam  change 30 % (",
      "sheet: 2026-03-01 |  |  | sheet | nitrate  pH |  | ",
      "row: 2026-03-01 | (08:40) | dam |  | 18       7.2 |  | ",
      "row: 2026-03-01 | (08:40) | q1 |  | -        7.0 | twice | ",
    ]);
  });

  it("marks findings at their cells", () => {
    const { rows } = gridRows(viewOf(log), entries, all);
    const marks = rows.flatMap(({ cells }, row) =>
      cells.flatMap(({ marks: found }, cell) => found.map(({ code }) => `${row}.${cell} ${code}`)),
    );
    expect(marks).toContain("4.3 entry/kind");
    expect(marks).toContain("6.0 syntax/line");
  });

  it("shows the slots of one kind as columns", () => {
    const view = viewOf(log);
    const face: Face = { is: "entries", kind: "change" };
    expect(gridRows(view, face, all).shown).toEqual([
      "date",
      "time",
      "tank",
      "what",
      "slot amount",
      "slot method",
      "slot source",
      "slot temperature",
      "slot barrel",
      "slot tool",
      "note",
      "comment",
    ]);
    expect(shown(view, face)).toEqual([
      "entry: 2026-03-01 | 08:40 | dam | change | 30 % | flow |  |  |  |  |  | with the hose",
    ]);
  });
});

/** The log after one edit, as the lines that differ. */
function changed(text: string, row: number, column: string, typed: string, face = entries): string {
  const view = viewOf(text);
  const { id } = gridRows(view, face, all).rows[row]!;
  const made = cellEdit(view, { row: id, column }, typed);
  if (made.is === "refused") return made.message;
  const old = text.split("\n");
  const fresh = edited(text, made.edits).split("\n");
  return [
    ...old.filter((line) => !fresh.includes(line)).map((line) => `-${line}`),
    ...fresh.filter((line) => !old.includes(line)).map((line) => `+${line}`),
  ].join("\n");
}

describe("typing into the days", () => {
  it.each([
    [
      2,
      "time",
      "09:05",
      "-  08:40 dam  change 30 % flow  # with the hose\n+  09:05 dam  change 30 % flow  # with the hose",
    ],
    [
      2,
      "time",
      "",
      "-  08:40 dam  change 30 % flow  # with the hose\n+  dam  change 30 % flow  # with the hose",
    ],
    [3, "time", "10:00", '-  dam  note "eggs on the mop"\n+  10:00 dam  note "eggs on the mop"'],
    [3, "time", "noon", "a time of day is written 08:40"],
    [
      2,
      "tank",
      "q1",
      "-  08:40 dam  change 30 % flow  # with the hose\n+  08:40 q1   change 30 % flow  # with the hose",
    ],
    [2, "tank", "two words", "an entry begins with one tank, system, gear, room or @group"],
    [4, "what", "change", "-  dam  chnge 30 %\n+  dam  change 30 %"],
    [3, "note", 'say "hi"\nand #go', '-  dam  note "eggs on the mop"\n+  dam  note "say \\"hi\\" and #go"'],
    [5, "note", "", '-  q1   test nitrate 30, pH 7.2 "new kit"\n+  q1   test nitrate 30, pH 7.2'],
    [
      2,
      "values",
      "25..35 %",
      "-  08:40 dam  change 30 % flow  # with the hose\n+  08:40 dam  change 25..35 %   # with the hose",
    ],
    [
      2,
      "values",
      "30 % # x",
      "what the entry takes; a text at its end stands in the note, what follows # in the comment",
    ],
    [
      2,
      "values",
      "<b>",
      "-  08:40 dam  change 30 % flow  # with the hose\n+  08:40 dam  change <b>        # with the hose",
    ],
    [
      2,
      "values",
      "30 %\u202e",
      "no line ends or hidden signs can stand here: what the entry takes; a text at its end stands in the note, what follows # in the comment",
    ],
    [2, "comment", "", "-  08:40 dam  change 30 % flow  # with the hose\n+  08:40 dam  change 30 % flow"],
    [0, "note", "", '-2026-03-01 "power cut"  # a long one\n+2026-03-01  # a long one'],
    [6, "text", "dam  change 30 %", "-  dam  change 30 % (\n+  dam  change 30 %"],
    [6, "text", "sheet pH", "-  dam  change 30 % (\n+  sheet pH"],
    [8, "values", "19  7.3", "-    dam  18       7.2\n+    dam  19  7.3"],
    [8, "date", "2026-03-02", "a row of a sheet belongs to the day of its heads"],
    [7, "values", "", "heads of a sheet: parameters and species, with a unit in brackets"],
  ])("row %s, %s: %j", (row, column, typed, expected) => {
    expect(changed(log, row, column, typed)).toBe(expected);
  });

  it.each([
    [
      "slot method",
      "",
      "-  08:40 dam  change 30 % flow  # with the hose\n+  08:40 dam  change 30 %  # with the hose",
    ],
    [
      "slot source",
      "tap",
      "-  08:40 dam  change 30 % flow  # with the hose\n+  08:40 dam  change 30 % flow from tap  # with the hose",
    ],
    [
      "slot temperature",
      "24 C",
      "-  08:40 dam  change 30 % flow  # with the hose\n+  08:40 dam  change 30 % flow at 24 C  # with the hose",
    ],
    [
      "slot barrel",
      "the blue one",
      '-  08:40 dam  change 30 % flow  # with the hose\n+  08:40 dam  change 30 % flow barrel "the blue one"  # with the hose',
    ],
    ["slot amount", "much", "here stands a fraction or volume"],
  ])("%s: %j", (column, typed, expected) => {
    expect(changed(log, 0, column, typed, { is: "entries", kind: "change" })).toBe(expected);
  });

  it("moves an entry to its day, and begins one that there is not", () => {
    const two =
      "tank dam\n  volume 9 L\n\n2026-03-01\n  dam clean\n  dam feed none\n\n2026-03-03\n  dam clean gravel\n";
    const move = (date: string): string => {
      const view = viewOf(two);
      const made = cellEdit(view, { row: gridRows(view, entries, all).rows[1]!.id, column: "date" }, date);
      return made.is === "refused" ? made.message : edited(two, made.edits).slice(23);
    };
    expect(move("2026-03-03")).toBe(
      "2026-03-01\n  dam feed none\n\n2026-03-03\n  dam clean gravel\n  dam clean\n",
    );
    expect(move("2026-03-02")).toBe(
      "2026-03-01\n  dam feed none\n\n2026-03-02\n  dam clean\n\n2026-03-03\n  dam clean gravel\n",
    );
    expect(move("2026-03-04")).toBe(
      "2026-03-01\n  dam feed none\n\n2026-03-03\n  dam clean gravel\n\n2026-03-04\n  dam clean\n",
    );
    expect(move("2026-02-30")).toBe("a date is written 2026-03-01");
  });
});
