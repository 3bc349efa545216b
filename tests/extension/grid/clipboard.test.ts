import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fromTsv } from "../../../extension/views/grid/clipboard.ts";
import { toTsv } from "../../../language/features/grid/copy.ts";

describe("a table from elsewhere", () => {
  test("has a row a line, and none for the line end behind the last", () => {
    expect(fromTsv("a\tb\r\nc\td\r\n")).toEqual([
      ["a", "b"],
      ["c", "d"],
    ]);
    expect(fromTsv("a\nb\n")).toEqual([["a"], ["b"]]);
    expect(fromTsv("a\t\n\tb")).toEqual([
      ["a", ""],
      ["", "b"],
    ]);
  });

  test("takes a quote that nobody closes for what it is", () => {
    expect(fromTsv('say "hm"\tb')).toEqual([['say "hm"', "b"]]);
    expect(fromTsv('"open\tb\nc')).toEqual([['"open', "b"], ["c"]]);
  });

  test("comes back as it was copied, whatever stands in its cells", () => {
    const cell = fc.string({ unit: fc.constantFrom("a", '"', "\t", "\n", "\r", " ", "=", ",") });
    fc.assert(
      fc.property(
        fc
          .integer({ min: 1, max: 4 })
          .chain((width) =>
            fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 5 }),
          ),
        (cells) => {
          expect(fromTsv(toTsv(cells))).toEqual(cells);
        },
      ),
    );
  });
});
