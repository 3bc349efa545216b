import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CANONICAL, keepsUnit } from "../../language/quantity/dimension.ts";
import { convert, convertible, fromCanonical, toCanonical } from "../../language/quantity/quantity.ts";
import {
  AMBIGUOUS,
  differenceUnit,
  editDistance,
  findUnit,
  isUnitWord,
  looseUnit,
  nearestUnits,
  UNITS,
  unitById,
  unitOf,
  unitSecondWords,
  unitWordCount,
} from "../../language/quantity/units.ts";

const anyUnit = fc.constantFrom(...UNITS);
/** Three units that convert into each other. */
const alike = anyUnit.chain((unit) => {
  const same = fc.constantFrom(...UNITS.filter((other) => convertible(unit, other)));
  return fc.tuple(fc.constant(unit), same, same);
});
const anyValue = fc.double({ min: -1e6, max: 1e6, noNaN: true });

describe("the table of units", () => {
  test("a unit's id is its place", () => {
    UNITS.forEach((unit, index) => {
      expect(unit.id).toBe(index);
      expect(unitById(index)).toBe(unit);
    });
    expect(() => unitById(UNITS.length)).toThrow(RangeError);
  });

  test("each spelling means one unit, and none is also ambiguous", () => {
    const seen = new Map<string, number>();
    for (const unit of UNITS) {
      for (const spelling of unit.spellings) {
        expect(seen.get(spelling), spelling).toBeUndefined();
        expect(AMBIGUOUS.has(spelling), spelling).toBe(false);
        expect(spelling, "words are joined by one space").toBe(spelling.trim().replace(/\s+/g, " "));
        seen.set(spelling, unit.id);
      }
    }
  });

  test("each unit is found by what it prints, and says where its factor is from", () => {
    for (const unit of UNITS) {
      expect(unit.source).not.toBe("");
      expect(Number.isFinite(unit.factor) && unit.factor > 0, unit.symbol).toBe(true);
      if (unit.symbol !== "" && unit.dimension !== "temperature-difference") {
        expect(findUnit(unit.symbol)).toBe(unit);
      }
    }
  });

  test("each dimension has a canonical unit of factor 1", () => {
    for (const [dimension, symbol] of Object.entries(CANONICAL)) {
      if (symbol === "1") continue;
      const unit = UNITS.find((each) => each.dimension === dimension && each.symbol === symbol);
      expect(unit, dimension).toMatchObject({ factor: 1, offset: 0 });
    }
  });

  test("case counts: the small l is not the litre, but it is understood", () => {
    expect(findUnit("mg/l")).toBeUndefined();
    expect(looseUnit("mg/l")).toBe(unitOf("mg/L"));
    expect(looseUnit("MG/L n")).toBe(unitOf("mg/L N"));
    expect(looseUnit("Litres")).toBe(unitOf("L"));
    expect(looseUnit("us gal.")).toBe(unitOf("US gal"));
    expect(looseUnit("µs/cm")).toBe(unitOf("uS/cm"));
    expect(looseUnit("wombat")).toBeUndefined();
  });

  test("both micro signs are read", () => {
    expect(findUnit("\u00b5S/cm")).toBe(unitOf("uS/cm"));
    expect(findUnit("\u03bcS/cm")).toBe(unitOf("uS/cm"));
  });
});

describe("units of several words", () => {
  test("are joined word by word", () => {
    expect(unitWordCount(["US", "gal", "of", "tap"])).toBe(2);
    expect(unitWordCount(["US", "fl", "oz"])).toBe(3);
    expect(unitWordCount(["change", "mg/L", "CaCO3"], 1)).toBe(2);
    expect(unitWordCount(["mg/L", "then"])).toBe(1);
    expect(unitWordCount(["US", "then"])).toBe(0);
    expect(unitWordCount([])).toBe(0);
  });

  test("every one of them can be reached through the second words", () => {
    for (const spelling of [...UNITS.flatMap((unit) => unit.spellings), ...AMBIGUOUS.keys()]) {
      const words = spelling.split(" ");
      expect(unitWordCount(words), spelling).toBe(words.length);
    }
    expect(unitSecondWords.get("US fl")).toEqual(new Set(["oz"]));
  });

  test("the start of one is not a unit by itself", () => {
    expect(isUnitWord("US")).toBe(false);
    expect(isUnitWord("gal")).toBe(true);
    expect(isUnitWord("mg/L")).toBe(true);
  });
});

describe("conversion", () => {
  test("of exact definitions is exact", () => {
    expect(convert(1, unitOf("US gal"), unitOf("in3"))).toBeCloseTo(231, 12);
    expect(convert(1, unitOf("US gal"), unitOf("US fl oz"))).toBe(128);
    expect(convert(1, unitOf("imp gal"), unitOf("imp fl oz"))).toBeCloseTo(160, 12);
    expect(convert(1, unitOf("lb"), unitOf("oz av"))).toBe(16);
    expect(convert(7000, unitOf("grain"), unitOf("lb"))).toBeCloseTo(1, 14);
    expect(convert(77, unitOf("F"), unitOf("C"))).toBeCloseTo(25, 13);
    expect(convert(-40, unitOf("C"), unitOf("F"))).toBeCloseTo(-40, 12);
    expect(convert(1, unitOf("g/L"), unitOf("ppt"))).toBe(1);
  });

  test("there and back gives the figure again, for every unit", () => {
    fc.assert(
      fc.property(anyUnit, anyValue, (unit, value) => {
        const back = fromCanonical(toCanonical(value, unit.id), unit.id);
        expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-12 * Math.max(1000, Math.abs(value)));
      }),
    );
  });

  test("through a third unit gives the same: units cancel", () => {
    fc.assert(
      fc.property(alike, anyValue, ([a, b, c], value) => {
        fc.pre(convertible(b, c));
        const direct = convert(value, a, c)!;
        const through = convert(convert(value, a, b)!, b, c)!;
        // A temperature near zero is the difference of two larger figures.
        const size = Math.max(Math.abs(direct), a.dimension === "temperature" ? 1000 : 0);
        // Figures too small for a double's full precision lose some of it.
        expect(Math.abs(direct - through)).toBeLessThanOrEqual(1e-12 * size + 1e-300);
      }),
    );
  });

  test("a ratio of two figures does not depend on the unit, where the unit has no offset", () => {
    fc.assert(
      fc.property(alike, fc.double({ min: 0.1, max: 1e3, noNaN: true }), ([a, b], value) => {
        fc.pre(a.offset === 0 && b.offset === 0);
        expect(convert(2 * value, a, b)! / convert(value, a, b)!).toBeCloseTo(2, 12);
      }),
    );
  });

  test("never crosses dimensions, portions or prices", () => {
    fc.assert(
      fc.property(anyUnit, anyUnit, (a, b) => {
        if (a.dimension !== b.dimension) expect(convert(1, a, b)).toBeUndefined();
        if (keepsUnit(a.dimension)) expect(convert(1, a, b)).toBe(a === b ? 1 : undefined);
      }),
    );
    expect(convert(2, unitOf("cube"), unitOf("drop"))).toBeUndefined();
    expect(convert(5, unitOf("mg/L"), unitOf("uL/L"))).toBeUndefined();
  });

  test("nitrogen and phosphorus are counted as the element or as the ion", () => {
    expect(convert(1, unitOf("mg/L N"), unitOf("mg/L NO3"))).toBeCloseTo(62.004 / 14.007, 12);
    expect(convert(1, unitOf("mg/L N"), unitOf("mg/L NH4"))).toBeCloseTo(18.039 / 14.007, 12);
    expect(convert(1, unitOf("mg/L N"), unitOf("mg/L NO2"))).toBeCloseTo(46.005 / 14.007, 12);
    expect(convert(1, unitOf("mg/L N"), unitOf("mg/L NH3"))).toBeCloseTo(17.031 / 14.007, 12);
    expect(convert(1, unitOf("mg/L P"), unitOf("mg/L PO4"))).toBeCloseTo(94.969761998 / 30.973761998, 12);
    expect(convert(1, unitOf("mg/L N"), unitOf("mg/L P"))).toBeUndefined();
    expect(convert(1, unitOf("mg/L"), unitOf("mg/L N")), "of what, is not said").toBeUndefined();
  });

  test("a difference of temperatures has no zero point", () => {
    const perF = differenceUnit(unitOf("F"));
    expect(toCanonical(9, perF.id)).toBe(5);
    expect(differenceUnit(unitOf("L"))).toBe(unitOf("L"));
  });
});

describe("did you mean", () => {
  test("names the near units, nearest first, of the dimension wanted", () => {
    expect(nearestUnits("dHG", "hardness").map((unit) => unit.symbol)).toContain("dGH");
    expect(nearestUnits("cubs")[0]?.symbol).toBe("cube");
    expect(nearestUnits("mgL", "concentration")[0]?.symbol).toBe("mg/L");
    expect(nearestUnits("xyzzyplugh")).toEqual([]);
  });

  test("counts a swap of neighbours as one slip", () => {
    expect(editDistance("cebu", "cube")).toBe(2);
    expect(editDistance("dHG", "dGH")).toBe(1);
    expect(editDistance("", "abc")).toBe(3);
  });

  test("an edit distance is a distance", () => {
    const word = fc.string({ maxLength: 6 });
    fc.assert(
      fc.property(word, word, (a, b) => {
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        expect(editDistance(a, b) === 0).toBe(a === b);
        expect(editDistance(a, b)).toBeLessThanOrEqual(Math.max(a.length, b.length));
      }),
    );
  });
});
