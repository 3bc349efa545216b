import { describe, expect, it } from "vitest";
import { inlayHints } from "../../language/features/hints.ts";
import { viewOf } from "../support/cursor.ts";

const prelude = `species praecox
  hatches 7..10 d at 25 C; base 10 C
tank b1
  volume 40 L
`;

/** The hints of a log, each behind the first word of its entry. */
function hints(log: string): string[] {
  const view = viewOf(prelude + log);
  const { text } = view.source;
  return inlayHints(view, 0, text.length).map(({ offset, label }) => {
    const line = text.slice(text.lastIndexOf("\n", offset - 1) + 1, offset);
    return `${line.trim().split(/\s+/)[1]}: ${label}`;
  });
}

describe("hints of a brood", () => {
  it("tell when the eggs hatch, by the warmth of their water", () => {
    expect(
      hints(`2026-03-01
  b1 test temperature 25
  b1 spawn praecox 120 eggs lot p7
2026-03-03
  b1 test temperature 25
  b1 eggs praecox 96 lot p7`),
    ).toEqual(["spawn: hatch about 10 March (8 to 11 March)", "eggs: 80 % of 120 eggs laid"]);
  });

  it("tell what came of them once it is known", () => {
    expect(
      hints(`2026-03-01
  b1 test temperature 25
  b1 spawn praecox 120 eggs lot p7
2026-03-09
  b1 hatch praecox ~77 lot p7
2026-03-11
  b1 swim praecox ~70 lot p7`),
    ).toEqual([
      "spawn: hatched 9 March, 8 days · ~64 % of 120 (55 to 72 %)",
      "hatch: ~64 % of 120 eggs",
      "swim: ~91 % of 77 hatched",
    ]);
  });

  it("say that none is alive, and nothing where nothing tells", () => {
    expect(
      hints("2026-03-01\n  b1 spawn praecox 120 eggs lot p7\n2026-03-03\n  b1 eggs praecox 0 lot p7"),
    ).toEqual(["spawn: none alive", "eggs: 0 % of 120 eggs laid"]);
    expect(hints("2026-03-01\n  b1 spawn horn 12 eggs")).toEqual([]);
  });

  it("keep what a hatch does to the book", () => {
    expect(hints("2026-03-01\n  b1 count praecox 10\n  b1 hatch praecox 5")).toEqual(["hatch: 15 now"]);
  });

  it("have their reasons: the tests, the statement, the formula and its caution", () => {
    const view = viewOf(`${prelude}2026-03-01
  b1 test temperature 25
  b1 spawn praecox 120 eggs lot p7`);
    const [hint] = inlayHints(view, 0, view.source.text.length);
    const told = hint!.tooltip.replaceAll("\\", "");
    expect(told).toContain("b1 spawn praecox 120 eggs lot p7");
    expect(told).toContain("hatches 7..10 d at 25 C");
    expect(told).toContain("105 to 150 degree-days");
    expect(told).toContain("b1 test temperature 25");
    expect(told).toContain("local guide");
  });
});
