import { describe, expect, it } from "vitest";
import { findingsOf } from "../support/marked.ts";

/** Gases: what KH, pH and temperature of one round say together, and oxygen beside what water can hold. */

const found = (log: string): string[] =>
  findingsOf(`tank dam\n  volume 100 L\n${log}`)
    .filter(({ code }) => code.startsWith("water/"))
    .map(({ severity, message }) => `${severity}: ${message}`);

describe("carbon dioxide", () => {
  // Alkalinity 50 mg/L CaCO3 at pH 7.0 and 25 C: 0.197 x 50 = 9.85 mg/L (table of Fundamentals of Aquatic Veterinary Medicine); at pH 6.4
  // 0.784 x 50 = 39.2.
  it("is a finding from 20 mg/L, with the common rule beside it", () => {
    expect(found("2026-03-01\n  dam test KH 50 mg/L CaCO3, pH 7, temperature 25")).toEqual([]);
    const [first] = found("2026-03-01\n  dam test KH 50 mg/L CaCO3, pH 6.4, temperature 25");
    expect(first).toMatch(
      /^warning: carbon dioxide 39\.\d mg\/L in dam by KH and pH \(the common rule says 33\.\d mg\/L\)/,
    );
  });

  it("is not told of water with next to no alkalinity, nor of readings of two days", () => {
    expect(found("2026-03-01\n  dam test KH 0.5, pH 5.6, temperature 25")).toEqual([]);
    expect(found("2026-03-01\n  dam test KH 6, temperature 25\n2026-03-02\n  dam test pH 6.5")).toEqual([]);
  });
});

describe("oxygen", () => {
  // USGS: 8.26 mg/L at 25 C and 1 atm: 2.8 are 33.9 %. At 1500 m the air has 0.8345 of its pressure (U.S. Standard Atmosphere 1976).
  it("is held against what farmed fish bear, and said as a share of what the water can hold at this height", () => {
    expect(found("2026-03-01\n  dam test oxygen 2.8 mg/L, temperature 25")).toEqual([
      "warning: oxygen 2.8 mg/L in dam, 33.9 % of what it can hold; warm-water fish are under stress at 3 mg/L",
    ]);
    const [high] = found(
      'room "Hut"\n  altitude 1500 m\n2026-03-01\n  dam test oxygen 2.8 mg/L, temperature 25',
    );
    expect(high).toMatch(/, 4[01]\.\d % of what it can hold/);
    expect(found("2026-03-01\n  dam test oxygen 3.2 mg/L, temperature 25")).toEqual([]);
  });
});
