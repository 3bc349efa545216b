import { describe, expect, test } from "vitest";
import type { Dimension } from "../../language/quantity/dimension.ts";
import { AMBIGUOUS, type Declared, settle, unitOf } from "../../language/quantity/units.ts";

const of = (text: string, dimension: Dimension | undefined, declared: Declared = {}) =>
  settle(text, dimension, declared)?.symbol;

describe("an ambiguous unit is never guessed", () => {
  test("with nothing declared, only the dimension can settle it, and only `oz` it does", () => {
    const dimensions: (Dimension | undefined)[] = [
      undefined,
      "volume",
      "mass",
      "temperature",
      "concentration",
      "volume-concentration",
      "hardness",
      "flow",
    ];
    const settled: string[] = [];
    for (const text of AMBIGUOUS.keys()) {
      for (const dimension of dimensions) {
        const symbol = of(text, dimension);
        if (symbol !== undefined) settled.push(`${text} of ${dimension}: ${symbol}`);
      }
    }
    expect(settled).toEqual(["oz of mass: oz av", "ounce of mass: oz av", "ounces of mass: oz av"]);
  });

  test("what is settled is one of its candidates", () => {
    const declared: Declared = {
      gallon: "imperial",
      ppm: "uL/L",
      spoon: "metric",
      temperature: unitOf("F"),
      hardness: unitOf("fH"),
    };
    for (const [text, candidates] of AMBIGUOUS) {
      const unit = settle(text, candidates[0]!.dimension, declared);
      if (unit !== undefined) expect(candidates).toContain(unit);
    }
  });
});

describe("declarations settle", () => {
  test("the gallon, and with it quart, pint and fluid ounce", () => {
    expect(of("gal", "volume", { gallon: "US" })).toBe("US gal");
    expect(of("gallons", undefined, { gallon: "imperial" })).toBe("imp gal");
    expect(of("pint", "volume", { gallon: "imperial" })).toBe("imp pt");
    expect(of("fl oz", "volume", { gallon: "US" })).toBe("US fl oz");
    expect(of("gph", "flow", { gallon: "US" })).toBe("US gal/h");
    expect(of("gal", "mass", { gallon: "US" })).toBeUndefined();
  });

  test("the ounce by what is asked for", () => {
    expect(of("oz", "mass", { gallon: "US" })).toBe("oz av");
    expect(of("oz", "volume", { gallon: "US" })).toBe("US fl oz");
    expect(of("oz", undefined, { gallon: "US" }), "a dose may be either").toBeUndefined();
  });

  test("ppm by mass or by volume, and of hardness where that is kept in mg/L CaCO3", () => {
    expect(of("ppm", "concentration", { ppm: "mg/L" })).toBe("mg/L");
    expect(of("ppm", "concentration", { ppm: "uL/L" })).toBeUndefined();
    expect(of("ppm", undefined, { ppm: "uL/L" })).toBe("uL/L");
    expect(of("ppm", "hardness", { ppm: "mg/L" })).toBeUndefined();
    expect(of("ppm", "hardness", { ppm: "mg/L", hardness: unitOf("mg/L CaCO3") })).toBe("mg/L CaCO3");
  });

  test("degrees of temperature, of a difference, and of hardness", () => {
    expect(of("deg", "temperature", { temperature: unitOf("F") })).toBe("F");
    expect(settle("degrees", "temperature-difference", { temperature: unitOf("F") })).toMatchObject({
      dimension: "temperature-difference",
      symbol: "F",
    });
    expect(of("deg", "hardness", { hardness: unitOf("dGH"), alkalinity: unitOf("dKH") })).toBe("dGH");
    expect(of("deg", "hardness", { hardness: unitOf("fH"), alkalinity: unitOf("dKH") })).toBeUndefined();
    expect(of("deg", undefined, { temperature: unitOf("C") })).toBeUndefined();
  });

  test("spoons, US or metric", () => {
    expect(of("tsp", "volume", { spoon: "metric" })).toBe("metric tsp");
    expect(of("tbsp", "volume", { spoon: "US" })).toBe("US tbsp");
    expect(of("tsp", "volume", { gallon: "US" }), "a gallon says nothing of spoons").toBeUndefined();
  });

  test("`gr` and a bare mmol/L stay open", () => {
    expect(of("gr", "mass", { mass: unitOf("g") })).toBeUndefined();
    expect(of("mmol/L", "hardness", { hardness: unitOf("mmol/L Ca") })).toBeUndefined();
  });
});
