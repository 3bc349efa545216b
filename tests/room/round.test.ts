import { describe, expect, it } from "vitest";
import { parameterOf } from "../../language/book/parameters.ts";
import { freeAmmonia } from "../../language/calculations/ammonia/free-ammonia.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import { figureNamed, roundFigure } from "../../language/room/round.ts";
import { findingsOf } from "../support/marked.ts";

/** What the readings of one round say together. */

const ammonia = parameterOf("ammonia");

/** Free ammonia of the last reading of ammonia in dam, in mg/L NH3. */
function free(log: string, room = "") {
  const checked = new CheckedLogbook();
  checked.set("log.tank", `${room}tank dam\n  volume 100 L\n2026-03-01\n${log}`);
  checked.refresh();
  const ledger = checked.logbook.ledgerOf(checked.book.tanks[0]!);
  const round = roundFigure(ledger, freeAmmonia, ammonia, ledger.readings[ammonia.id]!.length - 1);
  return round && { round, free: figureNamed(round, "free") };
}

// pKa = 0.09018 + 2729.92 / 298.15 = 9.24638; 1 / (1 + 10^(9.24638 - 8)) = 0.05366; x 0.5 x 17.031 / 14.007 = 0.03262.
describe("free ammonia of a round", () => {
  it("is the share by pH and temperature of the same day, in whatever order and unit they stand", () => {
    for (const log of [
      "  dam test ammonia 0.5 mg/L N, pH 8, temperature 25",
      "  dam test temperature 77 F\n  dam test pH 8\n  20:00 dam test ammonia 0.608 mg/L NH3",
      "  sheet temperature pH ammonia\n    dam 25 8 0.5",
    ])
      expect(free(log)?.free?.best, log).toBeCloseTo(0.03262, 4);
  });

  it("is not told of readings of two days or two tanks", () => {
    expect(free("  dam test ammonia 0.5, pH 8")).toBeUndefined();
    expect(free("  dam test pH 8, temperature 25\n2026-03-02\n  dam test ammonia 0.5")).toBeUndefined();
  });

  it("carries the step of each test into its ends", () => {
    const steps = 'room "R"\n  steps ammonia 0.25 mg/L, pH 0.2, temperature 1 F\n';
    const known = free("  dam test ammonia 0.5, pH 8, temperature 25", steps)?.free;
    expect(known?.best).toBeCloseTo(0.03262, 4);
    // Half a step each way, and half a degree Fahrenheit is 0.278 C:
    // 0.375 mg/L at pH 7.9 and 24.722 C: pKa 9.25491, share 0.04230, 0.01929; 0.625 at 8.1 and 25.278: 9.23787, 0.06785, 0.05156.
    expect(known?.low).toBeCloseTo(0.01929, 4);
    expect(known?.high).toBeCloseTo(0.05156, 4);
  });

  it("of a censored reading has no lower end but nought", () => {
    const known = free("  dam test ammonia <0.5, pH 8, temperature 25")?.free;
    expect(known).toMatchObject({ best: undefined, low: 0, text: "<0.033 mg/L NH3" });
  });

  it("says why, entry by entry", () => {
    const round = free("  dam test ammonia 0.5, pH 8, temperature 25")!.round;
    expect(round.from().map(({ what, value }) => `${what} | ${value}`)).toEqual([
      "2026-03-01 dam test ammonia 0.5 | total ammonia 0.5 mg/L N",
      "2026-03-01 dam test pH 8 | pH 8",
      "2026-03-01 dam test temperature 25 | temperature 25 C",
    ]);
  });

  it("of brackish water is reckoned as such, beside no criterion of fresh water", () => {
    const { round, free: known } = free("  dam test ammonia 0.5, pH 8, temperature 25, salinity 12 g/L")!;
    expect(known?.best).toBeLessThan(0.03262);
    expect(round.figures.find(({ name }) => name === "acute")?.outside).toContain("fresh water");
  });
});

describe("the finding of a round", () => {
  const tap = (pH: number): string => `water tap\n  content ammonia 0 mg/L, pH ${pH}\n`;
  const log = (readings: string, after = "", water = ""): string =>
    `${water}tank dam\n  volume 100 L\n2026-03-01\n  dam test ${readings}\n${after}`;
  const found = (text: string): string[] =>
    findingsOf(text)
      .filter(({ code }) => code.startsWith("water/"))
      .map(({ code, severity, message }) => `${severity} ${code}: ${message}`);

  it("names the change that brings it back, and that a higher pH makes it worse", () => {
    const [first] = found(log("ammonia 0.5, pH 8.2, temperature 26"));
    // Target: 0.02 x 14.007 / 17.031 / 0.08853 = 0.1858 of 0.5 mg/L: 1 - 0.3716 = 62.8 %.
    expect(first).toContain("63 % of new water would bring it back at this pH");
    expect(first).toContain("raising the pH makes it worse");
  });

  it("warns of new water that stands at a higher pH", () => {
    expect(found(log("ammonia 0.5, pH 7.9, temperature 26", "", tap(8.4)))[0]).toContain(
      "but tap stands at pH 8.4 and may make more of it free",
    );
    expect(found(log("ammonia 0.5, pH 7.9, temperature 26", "", tap(7.2)))[0]).not.toContain("but tap");
  });

  it("is answered by the changes that come after it", () => {
    const readings = "ammonia 0.5, pH 8.2, temperature 26";
    expect(found(log(readings, "  dam change 40 %\n"))).toHaveLength(1);
    expect(found(log(readings, "  dam change 40 %\n  dam change 40 %\n"))).toEqual([]);
  });

  it("of an earlier round is only a mark at its line", () => {
    const text = log(
      "ammonia 0.5, pH 8.2, temperature 26",
      "2026-03-02\n  dam test ammonia <0.05, pH 8, temperature 25\n",
    );
    expect(found(text).map((each) => each.split(" ")[0])).toEqual(["hint"]);
  });

  it("says of a coarse test that it cannot tell", () => {
    const steps = 'room "R"\n  steps ammonia 0.5 mg/L\n';
    const text = log("ammonia 0.25, pH 8, temperature 25");
    expect(found(text)).toEqual([]);
    expect(found(steps + text)[0]).toContain("hint water/free-ammonia-unsure");
  });
});
