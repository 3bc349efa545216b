import { describe, expect, test } from "vitest";
import { readDay } from "../../language/book/day.ts";

const readings = (text: string): number[] => {
  const { count, floats } = readDay(text);
  return Array.from({ length: count }, (_, row) => floats[row * 3]!);
};
const codes = (text: string): string[] => readDay(text).problems.map((problem) => problem.code);

describe("the rows of a sheet whose heads are broken wait", () => {
  test("they are not read under the heads of the sheet above", () => {
    const text =
      "2026-03-01\n  sheet  pH\n    dam  7\n  sheet  temperature  KH ¤\n    dam  24           4\n  dam   clean\n";
    expect(readings(text)).toEqual([7, Number.NaN]);
    expect(codes(text)).toEqual(["syntax/line"]);
  });

  test("nor under the heads that are left when one cannot be read", () => {
    const text = "2026-03-01\n  sheet  temperature  5  pH\n    dam  24           7  7.2\n";
    expect(readings(text)).toEqual([]);
    expect(codes(text)).toEqual(["sheet/head"]);
  });

  test("nor in the room's unit where the one written is not known", () => {
    const text = "2026-03-01\n  sheet  temperature (Fa)\n    dam  76\n";
    expect(readings(text)).toEqual([]);
    expect(codes(text)).toEqual(["unit/unknown"]);
  });

  test("a broken row costs itself, a broken entry ends the sheet", () => {
    expect(readings("2026-03-01\n  sheet  pH\n    dam  ¤\n    r1   7\n")).toEqual([7]);
    const text = "2026-03-01\n  sheet  pH\n    dam  7\n  dam   change ¤\n    r1  change 30 %\n";
    expect(readings(text)).toEqual([7, 30]);
  });
});
