import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formatNumber, formatQuantity, formatValue } from "../../language/quantity/format.ts";
import { decimalsWritten, hasDecimalComma, parseNumber } from "../../language/quantity/parse.ts";
import { compare, intervalOf, type Quantity } from "../../language/quantity/quantity.ts";
import { unitOf } from "../../language/quantity/units.ts";

const mgL = unitOf("mg/L");
const plain = (value: number): Quantity => ({ value, unit: mgL, censor: "none" });
const below = (value: number): Quantity => ({ value, unit: mgL, censor: "below" });
const above = (value: number): Quantity => ({ value, unit: mgL, censor: "above" });

describe("a number as written", () => {
  test.each([
    ["12", 12],
    ["12.5", 12.5],
    [".5", 0.5],
    ["12.", 12],
    ["-3", -3],
    ["+3", 3],
    ["\u22123", -3],
    ["0.1", 0.1],
    ["007.20", 7.2],
  ])("%s", (text, value) => expect(parseNumber(text)).toBe(value));

  test.each(["", "-", ".", "1,5", "1 000", "1e3", "0x1", "1.2.3", "7..8", "NaN", "Infinity", "5mg"])(
    "%s is none",
    (text) => expect(parseNumber(text)).toBeNaN(),
  );

  test("reads every decimal as the language itself does", () => {
    const digits = fc.integer({ min: 0, max: 999_999_999 });
    fc.assert(
      fc.property(digits, digits, fc.nat(9), (whole, part, zeros) => {
        const text = `${whole}.${"0".repeat(zeros)}${part}`;
        expect(parseNumber(text)).toBe(Number(text));
      }),
    );
  });

  test("a decimal comma is told from two items", () => {
    expect(hasDecimalComma("7,2")).toBe(true);
    expect(hasDecimalComma("7, 2")).toBe(false);
  });

  test("keeps count of the decimals: the resolution of the reading", () => {
    expect(decimalsWritten("24.60")).toBe(2);
    expect(decimalsWritten("24")).toBe(0);
  });
});

describe("a figure shown", () => {
  test.each([
    [0.1 + 0.2, "0.3"],
    [24.6, "24.6"],
    [7.25, "7.25"],
    [1234.5, "1235"],
    [0.000123456, "0.000123"],
    [1.005, "1.01"],
    [-1.005, "-1.01"],
    [0, "0"],
    [-0.0001, "-0.0001"],
    [120, "120"],
    [99.96, "100"],
    [1e6, "1000000"],
    [Infinity, "∞"],
  ])("%d as %s", (value, text) => expect(formatNumber(value)).toBe(text));

  test("carries its unit", () => {
    expect(formatValue(0.35000000000000003, unitOf("%"))).toBe("35 %");
    expect(formatValue(25, unitOf("F"))).toBe("77 F");
    expect(formatValue(14, unitOf("pcs"))).toBe("14");
    expect(formatValue(7.2, unitOf("pH"))).toBe("pH 7.2");
    expect(formatQuantity(below(5))).toBe("<5 mg/L");
    expect(formatQuantity({ ...plain(3), high: 4 })).toBe("3..4 mg/L");
    expect(formatQuantity({ value: 200, unit: unitOf("pcs"), censor: "none", approximate: true })).toBe(
      "~200",
    );
  });

  test("is within its last digit, and never longer than asked for behind the point", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 1e9, noNaN: true }),
        fc.integer({ min: 1, max: 10 }),
        (value, digits) => {
          const text = formatNumber(value, digits);
          expect(text).toMatch(/^\d+(\.\d+)?$/);
          const step = 10 ** Math.min(0, Math.floor(Math.log10(value)) - digits + 1);
          expect(Math.abs(Number(text) - value)).toBeLessThanOrEqual(step * 0.5000001);
        },
      ),
    );
  });

  test("a figure typed with few digits comes back as typed", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 0, max: 3 }), (digits, places) => {
        const value = digits / 10 ** places;
        expect(Number(formatNumber(value))).toBe(value);
      }),
    );
  });
});

describe("a reading and a limit", () => {
  const limit = { high: 25 };
  test.each([
    ["18 under 25", plain(18), limit, "inside"],
    ["25 at the limit", plain(25), limit, "inside"],
    ["25 at an open limit", plain(25), { high: 25, highOpen: true }, "outside"],
    ["26 over it", plain(26), limit, "outside"],
    ["<5 under it", below(5), limit, "inside"],
    ["<25 under an open 25", below(25), { high: 25, highOpen: true }, "inside"],
    ["<50: may be either", below(50), limit, "cannot tell"],
    [">100 over it", above(100), limit, "outside"],
    [">25 over it", above(25), limit, "outside"],
    [">20: may be either", above(20), limit, "cannot tell"],
    ["20..30 across it", { ...plain(20), high: 30 }, limit, "cannot tell"],
    ["<5 where 5 is the least", below(5), { low: 5 }, "outside"],
    [">8 where 5 is the least", above(8), { low: 5 }, "inside"],
    ["24 within 23..27", plain(24), { low: 23, high: 27 }, "inside"],
    ["no limit at all", plain(24), {}, "inside"],
  ] as const)("%s", (_, reading, bounds, verdict) => expect(compare(reading, bounds)).toBe(verdict));

  test("77 F is at a limit of 25 C, not over it", () => {
    const f = unitOf("F");
    const reading: Quantity = { value: 77 * f.factor + f.offset, unit: f, censor: "none" };
    expect(compare(reading, { high: 25 })).toBe("inside");
    expect(compare(reading, { low: 25 })).toBe("inside");
  });

  test("the resolution of an instrument widens a reading, not below what can exist", () => {
    expect(intervalOf(plain(10), 5)).toMatchObject({ low: 7.5, high: 12.5 });
    expect(intervalOf(plain(0), 5)).toMatchObject({ low: 0, high: 2.5 });
    expect(intervalOf(below(5))).toEqual({ low: 0, high: 5, lowOpen: false, highOpen: true });
    expect(intervalOf(above(100))).toEqual({ low: 100, high: Infinity, lowOpen: true, highOpen: true });
  });

  test("says inside or outside only when every value it may be is", () => {
    const value = fc.integer({ min: 0, max: 40 });
    const reading = fc
      .tuple(value, fc.constantFrom("none", "below", "above", "range"), fc.integer({ min: 0, max: 9 }))
      .map(([at, kind, more]): Quantity => {
        if (kind === "range") return { ...plain(at), high: at + more };
        return { value: at, unit: mgL, censor: kind as Quantity["censor"] };
      });
    const bounds = fc.record({
      low: fc.option(value, { nil: undefined }),
      high: fc.option(value, { nil: undefined }),
      lowOpen: fc.boolean(),
      highOpen: fc.boolean(),
    });
    fc.assert(
      fc.property(reading, bounds, (each, limits) => {
        fc.pre((limits.low ?? -1) < (limits.high ?? 99));
        const span = intervalOf(each);
        fc.pre(span.low < span.high || (!span.lowOpen && !span.highOpen));
        let inside = 0;
        let outside = 0;
        for (let x = 0; x <= 60; x += 0.5) {
          const may =
            (x > span.low || (x === span.low && !span.lowOpen)) &&
            (x < span.high || (x === span.high && !span.highOpen));
          if (!may) continue;
          const { low = -1, high = 99, lowOpen, highOpen } = limits;
          if ((x > low || (x === low && !lowOpen)) && (x < high || (x === high && !highOpen))) inside++;
          else outside++;
        }
        const verdict = inside === 0 ? "outside" : outside === 0 ? "inside" : "cannot tell";
        expect(compare(each, limits)).toBe(verdict);
      }),
    );
  });
});
