import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { likelyMeant } from "../../language/quantity/slip.ts";

describe("a slip of the finger", () => {
  test.each([
    ["pH 72", 72, 2, 12, undefined, 7.2],
    ["pH 0.72", 0.72, 2, 12, undefined, 7.2],
    ["246 C: 24.6 before 2.46", 246, 0, 45, undefined, 24.6],
    ["2460 C, where 24 is usual", 2460, 0, 45, 24, 24.6],
    ["2460, where 2.5 is usual", 2460, 0, 45, 2.5, 2.46],
    ["a volume of 3795 L in a tank that held 380", 3795, 0, 500, 380, 379.5],
    ["65 C for 56 cannot be told from 6.5, but the point goes first", 65, 0, 60, undefined, 6.5],
    ["-24 C", -24, 0, 45, undefined, 24],
    ["7.2 is possible", 7.2, 2, 12, undefined, undefined],
    ["nothing near", 0, 2, 12, undefined, undefined],
    ["no figure", Number.NaN, 2, 12, undefined, undefined],
    ["digits swapped: 91 of 19 fish", 91, 15, 25, undefined, 19],
  ])("%s", (_, value, low, high, usual, meant) => expect(likelyMeant(value, low, high, usual)).toBe(meant));

  test("what is offered is always possible, and never what was written", () => {
    const figure = fc.double({ min: -1e4, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(figure, figure, fc.double({ min: 0, max: 1e3, noNaN: true }), (value, low, width) => {
        const meant = likelyMeant(value, low, low + width);
        if (meant === undefined) return;
        expect(meant).toBeGreaterThanOrEqual(low);
        expect(meant).toBeLessThanOrEqual(low + width);
        expect(meant).not.toBe(value);
      }),
    );
  });
});
