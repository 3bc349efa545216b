import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fixativeFor } from "../../language/science/fixative.ts";
import { isOutside } from "../../language/science/result.ts";

const some = (max: number) => fc.double({ min: 0.01, max, noNaN: true });

describe("a fixative made up with water", () => {
  it("by hand: 3 g at 1 to 20 in 70 % of a 95 % stock are 60 mL, 44.2 of them stock", () => {
    const mixed = fixativeFor(3, 20, 70, 95);
    expect(mixed).toMatchObject({ totalML: 60 });
    if (!isOutside(mixed)) expect(mixed.stockML).toBeCloseTo((60 * 70) / 95, 12);
  });

  it("holds what the stock brought, in the volumes that were asked for", () => {
    fc.assert(
      fc.property(some(500), some(50), some(100), some(100), (tissue, ratio, strength, stock) => {
        const mixed = fixativeFor(tissue, ratio, strength, stock);
        if (isOutside(mixed)) {
          expect(strength).toBeGreaterThan(stock);
          return;
        }
        expect(mixed.stockML + mixed.waterML).toBeCloseTo(mixed.totalML, 6);
        expect(mixed.totalML / tissue).toBeCloseTo(ratio, 6);
        expect((mixed.stockML * stock) / mixed.totalML).toBeCloseTo(strength, 6);
        expect(mixed.waterML).toBeGreaterThanOrEqual(-1e-9);
      }),
    );
  });

  it.each([
    [-1, 10, 10, 100],
    [5, 0, 10, 100],
    [5, 10, 0, 100],
    [5, 10, 101, 100],
    [5, 10, 96, 95],
    [Number.NaN, 10, 10, 100],
  ])("refuses %f g, 1 to %f, %f %% of %f %%", (...given) => {
    expect(isOutside(fixativeFor(...given))).toBe(true);
  });
});
