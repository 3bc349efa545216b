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

describe("every unit against what defines it", () => {
  /** One of the first is so many of the second, by the definition and not by the table. */
  const definitions: readonly (readonly [string, number, string])[] = [
    ["L", 1000, "mL"],
    ["mL", 1000, "uL"],
    ["m3", 1000, "L"],
    ["US gal", 231, "in3"],
    ["US gal", 4, "US qt"],
    ["US qt", 2, "US pt"],
    ["US pt", 2, "US cup"],
    ["US cup", 8, "US fl oz"],
    ["US fl oz", 2, "US tbsp"],
    ["US tbsp", 3, "US tsp"],
    ["imp gal", 4546.09, "mL"],
    ["imp gal", 4, "imp qt"],
    ["imp qt", 2, "imp pt"],
    ["imp pt", 20, "imp fl oz"],
    ["metric tbsp", 15, "mL"],
    ["metric tsp", 5, "mL"],
    ["ft3", 1728, "in3"],
    ["in3", 2.54 ** 3, "mL"],
    ["m", 100, "cm"],
    ["cm", 10, "mm"],
    ["ft", 12, "in"],
    ["in", 25.4, "mm"],
    ["kg", 1000, "g"],
    ["g", 1000, "mg"],
    ["mg", 1000, "ug"],
    ["lb", 7000, "grain"],
    ["lb", 16, "oz av"],
    ["lb", 453.59237, "g"],
    ["g/L", 1000, "mg/L"],
    ["mg/L", 1000, "ug/L"],
    ["ppt", 1, "g/L"],
    ["mL/L", 1000, "uL/L"],
    ["mS/cm", 1000, "uS/cm"],
    ["d", 24, "h"],
    ["h", 60, "min"],
    ["min", 60, "s"],
    ["w", 7, "d"],
    ["L/h", 24, "L/d"],
    ["L/min", 60, "L/h"],
    ["L/min", 1000, "mL/min"],
    ["L/h", 1000, "mL/h"],
    ["m3/h", 1000, "L/h"],
    ["US gal/h", 3.785411784, "L/h"],
    ["US gal/min", 60, "US gal/h"],
    ["imp gal/h", 4.54609, "L/h"],
    ["imp gal/min", 60, "imp gal/h"],
    ["klx", 1000, "lx"],
    ["fc", 1 / 0.3048 ** 2, "lx"],
    ["kW", 1000, "W"],
    ["V", 1000, "mV"],
    ["%", 10, "g/kg"],
    ["g/kg", 1000, "mg/kg"],
    ["meq/L", 50.043, "mg/L CaCO3"],
    ["meq/L", 28.0385, "mg/L CaO"],
    ["meq/L", 61.016, "mg/L HCO3"],
    ["dH", 10, "mg/L CaO"],
    ["dGH", 1, "dH"],
    ["dKH", 1, "dH"],
    ["fH", 10, "mg/L CaCO3"],
    ["eH", 64.79891 / 4.54609, "mg/L CaCO3"],
    ["gpg", 64.79891 / 3.785411784, "mg/L CaCO3"],
    ["mmol/L Ca", 2, "meq/L"],
    ["mmol/L HCO3", 1, "meq/L"],
  ];

  test.each(definitions)("1 %s is %d %s", (from, count, to) => {
    expect(convert(1, unitOf(from), unitOf(to))! / count).toBeCloseTo(1, 12);
  });

  test("none is left out that converts into another", () => {
    const defined = new Set(definitions.flatMap(([from, , to]) => [from, to]));
    const left = UNITS.filter(
      (unit) =>
        !defined.has(unit.symbol) &&
        unit.basis === undefined &&
        UNITS.some((other) => other !== unit && convertible(unit, other)),
    );
    // Temperatures have an offset, and tests of their own.
    expect(left.map((unit) => unit.symbol)).toEqual(["C", "F", "C", "F"]);
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
