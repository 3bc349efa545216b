import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellEdit } from "../../../language/features/grid/cell-edit.ts";
import type { Face } from "../../../language/features/grid/grid-model.ts";
import { gridRows } from "../../../language/features/grid/query.ts";
import { edited, viewOf } from "../../support/cursor.ts";
import { anyCellText, make, rowsOf } from "./support.ts";

/** Cells that hold several values: each is edited in its own place. */

const log = `tank dam
  volume  100 L
  every   7 d change 25 %   # on Sundays
  every   28 d service canister; role show
  note    "a; b"
2026-03-01
  dam  test nitrate 18, pH 7.2, KH 4   # strip
  dam  feed cyclops 2 cubes, flake
`;
const tanks: Face = { is: "definitions", of: "tank" };
const of = (kind: string): Face => ({ is: "entries", kind });

function changed(face: Face, row: number, column: string, typed: string): string[] {
  const view = viewOf(log);
  const made = cellEdit(view, { row: rowsOf(view, face)[row]!.id, column }, typed);
  if (made.is === "refused") return [made.message];
  const [old, fresh] = [log.split("\n"), edited(log, made.edits).split("\n")];
  return [
    ...old.filter((line) => !fresh.includes(line)).map((line) => `-${line}`),
    ...fresh.filter((line) => !old.includes(line)).map((line) => `+${line}`),
  ];
}
const cellOf = (face: Face, row: number, column: string) =>
  gridRows(viewOf(log), face, { from: row, count: 1, columns: [column] }).rows[0]!.cells[0]!;

describe("a property that is stated several times", () => {
  it("is one cell that can be edited", () => {
    expect(cellOf(tanks, 0, "property every")).toMatchObject({
      text: "7 d change 25 %; 28 d service canister",
      fixed: "",
    });
  });

  it.each([
    [
      "7 d change 30 %; 28 d service canister",
      ["-  every   7 d change 25 %   # on Sundays", "+  every   7 d change 30 %   # on Sundays"],
    ],
    [
      "7 d change 25 %;30 d service canister",
      ["-  every   28 d service canister; role show", "+  every   30 d service canister; role show"],
    ],
    ["7 d change 25 %; 28 d service canister; 2 d clean", ["+  every   2 d clean"]],
    ["7 d change 25 %", ["-  every   28 d service canister; role show", "+  role show"]],
    ["28 d service canister", ["-  every   7 d change 25 %   # on Sundays", "+  # on Sundays"]],
    ["7 d change 25 %; 28 d service canister", []],
  ])("says %j", (typed, lines) => {
    expect(changed(tanks, 0, "property every", typed)).toEqual(lines);
  });

  it("is refused where nobody can tell which is meant", () => {
    for (const typed of ["9 d change 25 %", "7 d change 25 %;; 2 d clean", "7 d change 25 % # x; 2 d clean"])
      expect(changed(tanks, 0, "property every", typed).join()).toMatch(/several are parted by ;/);
  });

  it("is never a second one of what is stated once, and a text keeps its signs", () => {
    expect(changed(tanks, 0, "property volume", "100 L; 2 L").join()).toMatch(/this is written like/);
    expect(changed(tanks, 0, "property note", "a; c")).toEqual(['-  note    "a; b"', '+  note    "a; c"']);
  });
});

describe("a list of an entry", () => {
  it("is one cell for each of its slots, where each item has one", () => {
    expect(cellOf(of("test"), 0, "slot reading")).toMatchObject({ text: "18, 7.2, 4", fixed: "" });
    expect(cellOf(of("feed"), 0, "slot amount").fixed).toMatch(/not each has one/);
    expect(changed(of("test"), 0, "slot reading", "18,7.4, 5")).toEqual([
      "-  dam  test nitrate 18, pH 7.2, KH 4   # strip",
      "+  dam  test nitrate 18, pH 7.4, KH 5   # strip",
    ]);
    expect(changed(of("test"), 0, "slot parameter", "nitrate, pH, GH")).toEqual([
      "-  dam  test nitrate 18, pH 7.2, KH 4   # strip",
      "+  dam  test nitrate 18, pH 7.2, GH 4   # strip",
    ]);
  });

  it.each(["18, 7.2", "18, 7.2, 4, 5", "18,, 4", "18, 7.2, 4 # x", ""])("is not %j", (typed) => {
    expect(changed(of("test"), 0, "slot reading", typed).join()).toMatch(/here stands|has|lists/);
  });
});

it("whatever is typed, all else says what it said, and the cell what was typed", () => {
  fc.assert(
    fc.property(
      fc.constantFrom<[Face, string]>(
        [tanks, "property every"],
        [of("test"), "slot reading"],
        [of("test"), "slot parameter"],
        [of("feed"), "slot food"],
      ),
      fc.oneof(
        fc
          .array(fc.constantFrom("7 d change 25 %", "28 d service canister", "2 d clean", "18", "<5", "pH"), {
            maxLength: 4,
          })
          .map((all) => all.join("; ")),
        fc
          .array(fc.constantFrom("18", "<5", "7.2 ", "pH", "nitrate", "flake", '"x"'), { maxLength: 4 })
          .map((all) => all.join(",")),
        anyCellText,
      ),
      ([face, column], typed) => {
        const view = viewOf(log);
        const all = () => rowsOf(view, face).map(({ cells }) => cells.map(({ text }) => text));
        const before = all();
        const shown = gridRows(view, face, { from: 0, count: 0 }).shown.indexOf(column);
        const made = cellEdit(view, { row: rowsOf(view, face)[0]!.id, column }, typed);
        if (made.is === "refused") return;
        make(view, made);
        const after = all();
        const plain = (text: string): string => text.replace(/\s*([,;])\s*/g, "$1").trim();
        expect(plain(after[0]![shown]!)).toBe(plain(typed));
        // Of an entry the values are what its slots say together.
        after[0]![shown] = before[0]![shown]!;
        // The comment of a statement that goes stays, on its own line.
        expect(after.filter(([first]) => first?.startsWith("#") !== true)).toEqual(before);
      },
    ),
    { numRuns: 200 },
  );
});
