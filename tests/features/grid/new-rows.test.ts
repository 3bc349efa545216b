import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dayOf } from "../../../language/book/dates.ts";
import { pasteBlock } from "../../../language/features/grid/cell-edit.ts";
import { deleteRows, insertRows } from "../../../language/features/grid/edit-rows.ts";
import type { Face, GridResult, NewRow } from "../../../language/features/grid/grid-model.ts";
import { cutBlocks } from "../../../language/syntax/blocks.ts";
import { edited, viewOf } from "../../support/cursor.ts";
import { anyCellText, make, rowsOf, textsIn } from "./support.ts";

/** New rows of rounds and of definitions, and rows of them that go. */

const definitions = `room "Cellar"

tank dam "Show"
  volume  100 L
tank q1
  volume  48 L

# Animals
species praecox
group all = dam, q1

`;
const days = `2026-03-01
  dam   test nitrate 18
  @all  test pH 7
2026-03-08
  sheet  nitrate  pH
    dam  30       7.6
  q1    count praecox 4
2026-03-15
  08:00 dam  clean
  18:00 dam  feed none
`;
const log = definitions + days;
const dam: Face = { is: "rounds", of: "tank", name: "dam" };
const on = (date: string): Face => ({ is: "rounds", of: "day", day: dayOf(date) });

/** The lines that come and go. */
function change(made: GridResult, text = log): string[] {
  if (made.is === "refused") return [`refused: ${made.message}`];
  const [before, after] = [text.split("\n"), edited(text, made.edits).split("\n")];
  let from = 0;
  while (before[from] === after[from] && from < before.length) from++;
  let end = 0;
  while (before.at(-1 - end) === after.at(-1 - end) && end < Math.min(before.length, after.length) - from)
    end++;
  return [
    ...before.slice(from, before.length - end).map((line) => `-${line}`),
    ...after.slice(from, after.length - end).map((line) => `+${line}`),
  ];
}
const insert = (face: Face, row: NewRow, behind?: string): string[] =>
  change(insertRows(viewOf(log), behind, [row], face));

describe("a new round", () => {
  it("of a tank is a test in its day, which is begun where it is not", () => {
    expect(
      insert(dam, { date: "2026-03-22", "test nitrate": "12", "test pH": "7.2", note: "strip" }),
    ).toEqual(["+2026-03-22", '+  dam test nitrate 12, pH 7.2 "strip"']);
    expect(
      insert(dam, { date: "2026-03-15", time: "09:30", "test nitrate": "<5", values: "KH 4, phosphate 0.2" }),
    ).toEqual(["+  09:30 dam test nitrate <5, KH 4, phosphate 0.2"]);
    expect(insert(dam, { date: "2026-03-15", "count praecox": "14", "test pH": "7" })).toEqual([
      "+  dam test pH 7",
      "+  dam count praecox 14",
    ]);
  });

  it("of a day is a row of its sheet where that has the heads, else a line", () => {
    expect(insert(on("2026-03-08"), { tank: "q1", values: "nitrate 3" })).toEqual([
      "+  q1    test nitrate 3",
    ]);
    expect(insert(on("2026-03-01"), { tank: "q1", "test nitrate": "5" })).toEqual([
      "+  q1    test nitrate 5",
    ]);
    const other = log.replace("  q1    count praecox 4\n", "");
    expect(
      change(
        insertRows(viewOf(other), undefined, [{ tank: "q1", "test pH": "7.1" }], on("2026-03-08")),
        other,
      ),
    ).toEqual(["+    q1  -  7.1"]);
  });

  it.each([
    [dam, { "test nitrate": "5" }, /needs a date/],
    [dam, { date: "2026-03-32", "test nitrate": "5" }, /needs a date/],
    [dam, { date: "2026-03-22", note: "nothing" }, /needs a reading/],
    [dam, { date: "2026-03-22", "test nitrate": "five\n  q1 clean" }, /a reading is a number/],
    [dam, { date: "2026-03-22", values: "KH 4\n  q1 clean" }, /no line ends/],
    [dam, { date: "2026-03-22", time: "8", "test nitrate": "5" }, /08:40/],
    [on("2026-03-08"), { tank: "r9", "test nitrate": "5" }, /“r9” is no tank or system/],
    [on("2026-03-08"), { "test nitrate": "5" }, /needs a tank/],
  ] as const)("is refused where it would be none: %o %o", (face, row, why) => {
    expect(insert(face, row).join()).toMatch(why);
  });

  it("goes by its row with all its lines, and not where it is written for a group", () => {
    const view = viewOf(log);
    const [first, second] = rowsOf(view, dam);
    expect(change(deleteRows(view, [second!.id]))).toEqual(["-    dam  30       7.6"]);
    expect(change(deleteRows(view, [first!.id])).join()).toMatch(/for all of @all/);
    const empty = rowsOf(view, on("2026-03-15"))[1]!;
    expect(change(deleteRows(view, [empty.id])).join()).toMatch(/nothing is written/);
  });

  it("comes with what is pasted beyond the last", () => {
    const view = viewOf(log);
    const rows = rowsOf(view, dam).map(({ id }) => id);
    const made = pasteBlock(view, { rows: rows.slice(-1), columns: ["date", "time", "test pH"], face: dam }, [
      ["2026-03-08", "", "7.5"],
      ["2026-03-20", "", "7.4"],
      ["2026-03-21", "", "7.3"],
    ]);
    expect(change(made)).toContain("+  dam test pH 7.3");
  });
});

describe("a new definition", () => {
  const tanks: Face = { is: "definitions", of: "tank" };
  it("stands behind those of its sort, with its properties in their order and one column", () => {
    expect(
      insert(tanks, {
        name: "q2",
        title: 'The "new"',
        "property limits": "pH 6..8",
        "property volume": "20 L",
      }),
    ).toEqual(['+tank q2 "The \\"new\\""', "+  volume  20 L", "+  limits  pH 6..8"]);
    expect(insert({ is: "definitions", of: "species" }, { name: "horn", "property kind": "snail" })).toEqual([
      "+",
      "+species horn",
      "+  kind  snail",
    ]);
    expect(insert({ is: "definitions", of: "remedy" }, { name: "salt" })).toContain("+remedy salt");
    expect(insert({ is: "definitions", of: "group" }, { name: "top", members: "dam" })).toContain(
      "+group top = dam",
    );
  });

  it("stands behind the one at the cursor", () => {
    const view = viewOf(log);
    const [first] = rowsOf(view, tanks);
    const made = insertRows(view, first!.id, [{ name: "q2" }], tanks);
    expect(edited(log, made.is === "edits" ? made.edits : [])).toContain("volume  100 L\ntank q2\ntank q1");
  });

  it.each([
    [tanks, {}, []],
    [tanks, { title: "no name" }, ["refused: a new tank needs a name"]],
    [tanks, { name: "dam" }, ["refused: “dam” is the name of a tank already"]],
    [tanks, { name: "test" }, ["refused: “test” is a word that entries begin with, and no name"]],
    [
      { is: "definitions", of: "room" } as Face,
      { title: "Two" },
      ["refused: a logbook has one room, and this one has it"],
    ],
    [
      { is: "definitions", of: "group" } as Face,
      { name: "g" },
      ["refused: a new group names its tanks: r1 .. r12, q1"],
    ],
  ] as const)("%o %o is refused or nothing", (face, row, made) => {
    expect(insert(face, row)).toEqual(made);
  });

  it("is refused where the log would call it an error", () => {
    expect(insert(tanks, { name: "q2", "property volume": "much" }).join()).toMatch(
      /^refused: “much” is no number/,
    );
  });

  it("goes where nothing names it, and leaves what speaks of the next", () => {
    const view = viewOf(log);
    const [, q1] = rowsOf(view, tanks);
    expect(change(deleteRows(view, [q1!.id])).join()).toMatch(
      /“q1” is named in 2 other places \(.*line 10\); of a tank that is no more/,
    );
    const fresh = viewOf(log.replace("# Animals", "tank q2\n  volume 3 L\n\n# Animals"));
    const q2 = rowsOf(fresh, tanks).find((row) => textsIn(row).includes("q2"))!;
    const made = deleteRows(fresh, [q2.id]);
    make(fresh, made as Extract<GridResult, { is: "edits" }>);
    expect(fresh.source.text).toBe(log);
  });

  it("is one block, whatever is typed", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(
          "tank",
          "species",
          "remedy",
          "food",
          "group",
          "lot",
          "order",
          "water",
          "gear" as const,
        ),
        fc.dictionary(
          fc.constantFrom(
            "title",
            "members",
            "comment",
            "property volume",
            "property kind",
            "property note",
            "property target",
          ),
          anyCellText,
        ),
        (of, row) => {
          const view = viewOf(log);
          const face = { is: "definitions", of } as Face;
          const before = rowsOf(view, face).length;
          const made = insertRows(view, undefined, [{ ...row, name: "fresh-1" }], face);
          if (made.is === "refused") return;
          const after = edited(log, made.edits);
          const blocks = (text: string): number => cutBlocks(text, () => false).length;
          expect(blocks(after)).toBe(blocks(log) + 1);
          make(view, made);
          expect(rowsOf(view, face).filter(({ is }) => is === "definition").length).toBe(
            before + 1 - rowsOf(viewOf(log), face).filter(({ is }) => is !== "definition").length,
          );
        },
      ),
    );
  });
});
