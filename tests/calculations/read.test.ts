import { describe, expect, it } from "vitest";
import { choice, quantity, series } from "../../language/calculations/calculation.ts";
import { givenIn } from "../../language/calculations/given.ts";
import { type Known, readInput } from "../../language/calculations/read.ts";

/** What a keeper may type for an input. */

const total = quantity("total ammonia", "mg/L N", [0, 1000]);
const warm = quantity("temperature", "C", [-5, 100]);
const water = quantity("volume", "L", [0, 1e6], { isAbove: true });
const acid = quantity("pH", "pH", [0, 14]);

function known(input: Parameters<typeof readInput>[1], text: string, declared = {}): string {
  const read = readInput("x", input, text, declared);
  if ("problem" in read) return read.problem;
  const { low, high, best } = read as Known;
  const round = (value: number | undefined): string =>
    value === undefined ? "-" : String(Number(value.toFixed(6)));
  return [low, best, high].map(round).join(" ");
}

describe("a figure", () => {
  it.each([
    ["0.5", "0.5 0.5 0.5"],
    ["0.5 mg/L", "0.5 0.5 0.5"],
    ["0.5mg/L", "0.5 0.5 0.5"],
    ["500 ug/L", "0.5 0.5 0.5"],
    // 1 mg/L NH3 is 14.007 / 17.031 of it as N.
    ["1 mg/L NH3", "0.822441 0.822441 0.822441"],
    ["<0.25", "0 - 0.25"],
    [">8 mg/L", "8 - Infinity"],
    ["0.25..0.5 mg/L", "0.25 - 0.5"],
    ["0.5 .. 0.25", "0.25 - 0.5"],
    ["0.5±0.25", "0.25 0.5 0.75"],
    ["0.1 +- 0.25 mg/L", "0 0.1 0.35"],
    ["~0.5", "0.5 0.5 0.5"],
  ])("%s", (text, expected) => expect(known(total, text)).toBe(expected));

  it("of a temperature turns its step without its zero", () => {
    expect(known(warm, "77 F")).toBe("25 25 25");
    expect(known(warm, "77±1.8 F")).toBe("24 25 26");
    expect(known(warm, "73.4..77 F")).toBe("23 - 25");
  });

  it("of pH may be said with its name", () => expect(known(acid, "pH 7.2")).toBe("7.2 7.2 7.2"));

  it("in an ambiguous unit waits for a room that declares it", () => {
    expect(known(water, "10 gal")).toBe("x: “gal” may mean US gal or imp gal; write which");
    expect(known(water, "10 gal", { gallon: "imperial" })).toBe("45.4609 45.4609 45.4609");
  });
});

describe("a count", () => {
  const lost = quantity("lost", "", [0, 1e6], { isWhole: true });
  it("is whole, each end of it", () => {
    expect(known(lost, "3")).toBe("3 3 3");
    expect(known(lost, "3..6")).toBe("3 - 6");
    expect(known(lost, ">3")).toBe("x needs an upper end too: x=5..10");
    expect(known(lost, "2.5")).toBe("x: 2.5 is no whole number");
    expect(known(lost, "2..4.5")).toBe("x: 4.5 is no whole number");
  });

  it("may have to be one figure", () => {
    const fish = quantity("fish", "", [0, 1e6], { isWhole: true, isSingle: true });
    expect(known(fish, "40")).toBe("40 40 40");
    expect(known(fish, "~40")).toBe("40 40 40");
    expect(known(fish, "38..42")).toBe(
      "x has to be one figure, not a range: the results go both ways with it",
    );
  });
});

describe("what cannot be", () => {
  it.each([
    [total, "", "x has no value: x=1 mg/L N"],
    [total, "lots", "x: “lots” is no figure; x=1 mg/L N"],
    [total, "NaN", "x: “NaN” is no figure; x=1 mg/L N"],
    [total, "7,2", "x: “7,2” has a decimal comma; write 7.2"],
    [total, "-3", "x: -3 mg/L N is not within 0 to 1000 mg/L N"],
    [total, "5 dKH", "x: dKH is a hardness or alkalinity; x is measured in mg/L N"],
    [total, "5 furlongs", "x: there is no unit “furlongs”"],
    [total, "5 mg/l", "x: there is no unit “mg/l”; did you mean “mg/L”?"],
    [total, "1 mg/L P", "x: what is counted mg/L P cannot be said in mg/L N; x is measured in mg/L N"],
    [acid, "20", "x: 20 is not within 0 to 14"],
    [water, "0 L", "x: 0 L is not above 0 to 1000000 L"],
  ] as const)("%o %s", (input, text, problem) => expect(known(input, text)).toBe(problem));
});

describe("a series, a choice", () => {
  const times = series("times", "d", [0, 1e5], 3);
  it("of figures parted by commas, blanks or bars, with a unit once or on each", () => {
    for (const text of ["1, 2, 3", "1 2 3", "1|2|3", "1, 2, 3 d", "1 d, 48 h, 3 d"])
      expect(readInput("t", times, text, {})).toEqual({ is: "series", values: [1, 2, 3] });
    expect(readInput("t", times, "1, 2", {})).toEqual({
      problem: "t needs 3 figures at least, parted by commas; there are 2",
    });
  });

  it("of readings, some below or above what the test can tell", () => {
    const values = series("values", "mg/L N", [0, 1e5], 2, { isCensored: true });
    const readings = [
      { low: 0, high: 5, is: "below" },
      { low: 10, high: 10, is: "figure" },
      { low: 100, high: Number.POSITIVE_INFINITY, is: "above" },
      { low: 15, high: 25, is: "between" },
    ];
    for (const text of [
      "<5, 10, >100, 15..25",
      "< 5, 10, > 100, 15 .. 25 mg/L",
      "<5 10 >100 20±5",
      "<5000 ug/L, 10 mg/L, >100 mg/L, 15000..25000 ug/L",
    ])
      expect(readInput("v", values, text, {}), text).toEqual({ is: "readings", values: readings });
    expect(readInput("v", values, "<=5, 2", {})).toEqual({
      is: "readings",
      values: [
        { low: 0, high: 5, is: "between" },
        { low: 2, high: 2, is: "figure" },
      ],
    });
    expect(readInput("v", values, "<0, 2", {})).toEqual({ problem: "v: nothing is <0" });
    expect(readInput("v", values, "<x, 2", {})).toMatchObject({
      problem: expect.stringContaining("v: “<x”"),
    });
  });

  it("of plain figures takes none of those", () => {
    expect(readInput("t", times, "1, <2, 3", {})).toEqual({ problem: "t: “<2” is no single figure" });
    expect(readInput("t", times, "1, 2..3, 3 d", {})).toEqual({ problem: "t: “2..3” is no single figure" });
    expect(readInput("t", times, "1, 2±1, ~3", {})).toEqual({ is: "series", values: [1, 2, 3] });
  });

  it("of words with the nearest", () => {
    const method = choice("how", ["batch", "flow"]);
    expect(readInput("how", method, "Flow", {})).toEqual({ is: "word", word: "flow" });
    expect(readInput("how", method, "flo", {})).toEqual({
      problem: "how is one of batch, flow, not “flo”; did you mean “flow”?",
    });
  });
});

describe("a line of inputs", () => {
  it("runs from each name to the next", () => {
    expect(givenIn("total=0.5 mg/L  pH = 8 temperature=25 C")).toEqual({
      texts: { total: "0.5 mg/L", pH: "8", temperature: "25 C" },
    });
    expect(givenIn("")).toEqual({ texts: {} });
    expect(givenIn("much total=1")).toEqual({ stray: "much" });
  });
});
