import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { afterChange } from "../../language/science/dilution.ts";
import {
  daysToLimit,
  forecast,
  holdingFraction,
  holdingIntervalDays,
  levelAfter,
  type Regular,
} from "../../language/science/forecast.ts";
import { isOutside } from "../../language/science/result.ts";

const weekly: Regular = { firstInDays: 7, everyDays: 7, fraction: 0.3, sourceMgL: 6 };

/** The same by small steps, to hold the formula against. */
function stepped(level: number, rate: number, days: number, duty: Regular): number {
  let next = duty.firstInDays;
  let now = 0;
  let at = level;
  while (next <= days + 1e-9) {
    at = afterChange(at + rate * (next - now), duty.fraction, duty.sourceMgL);
    now = next;
    next += duty.everyDays;
  }
  return at + rate * (days - now);
}

describe("days to a limit", () => {
  test("without a change: a straight line", () => {
    expect(daysToLimit(18, 0.5, 25)).toBe(14);
    expect(daysToLimit(26, 0.5, 25)).toBe(0);
    expect(daysToLimit(18, 0, 25)).toBe(Infinity);
    expect(daysToLimit(18, -1, 25)).toBe(Infinity);
    expect(daysToLimit(18, 1e-5, 25), "longer than ten years is never").toBe(Infinity);
  });

  test("falling towards a floor", () => {
    expect(daysToLimit(5, -0.1, 3, "floor")).toBeCloseTo(20, 12);
    expect(daysToLimit(2, -0.1, 3, "floor")).toBe(0);
    expect(daysToLimit(5, 0.1, 3, "floor")).toBe(Infinity);
  });

  test("a weekly change that holds it: never", () => {
    // Steady before the change: 6 + 0.5 * 7/0.3 = 17.7.
    expect(daysToLimit(10, 0.5, 25, "ceiling", weekly)).toBe(Infinity);
    expect(daysToLimit(10, 0.5, 17, "ceiling", weekly)).toBeLessThan(Infinity);
  });

  test("a change with source water over the limit breaks it at the change", () => {
    expect(daysToLimit(10, 0, 20, "ceiling", { ...weekly, sourceMgL: 60 })).toBe(7);
  });

  test("is the day at which stepping through first goes over it", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 30, noNaN: true }),
        fc.double({ min: -1, max: 3, noNaN: true }),
        fc.double({ min: 5, max: 60, noNaN: true }),
        fc.record({
          firstInDays: fc.integer({ min: 0, max: 10 }),
          everyDays: fc.integer({ min: 1, max: 14 }),
          fraction: fc.double({ min: 0.05, max: 0.9, noNaN: true }),
          sourceMgL: fc.double({ min: 0, max: 40, noNaN: true }),
        }),
        (level, rate, limit, duty) => {
          const days = daysToLimit(level, rate, limit, "ceiling", duty);
          if (days === 0) {
            expect(Math.max(level, stepped(level, rate, 0, duty))).toBeGreaterThan(limit - 1e-9);
            return;
          }
          const until = Math.min(days, 400);
          for (let day = 0; day < until - 1e-6; day += 0.25) {
            expect(stepped(level, rate, day, duty)).toBeLessThanOrEqual(limit + 1e-6);
          }
          // Just before each change is where a rising level stands highest.
          for (let k = 0; duty.firstInDays + k * duty.everyDays < until; k++) {
            const change = duty.firstInDays + k * duty.everyDays;
            if (change > 1e-6)
              expect(stepped(level, rate, change - 1e-9, duty)).toBeLessThanOrEqual(limit + 1e-6);
          }
          if (days < 400)
            expect(stepped(level, rate, days + 1e-7, duty)).toBeGreaterThanOrEqual(limit - 1e-5);
        },
      ),
      { numRuns: 200 },
    );
  });

  test("a floor is a ceiling upside down", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 30, noNaN: true }),
        fc.double({ min: -2, max: 2, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        (level, rate, limit) => {
          const turned = { ...weekly, sourceMgL: -weekly.sourceMgL };
          expect(daysToLimit(level, rate, limit, "floor", weekly)).toBe(
            daysToLimit(-level, -rate, -limit, "ceiling", turned),
          );
        },
      ),
    );
  });

  test("the interval of the forecast: the worst and the best of what is known", () => {
    const level = { best: 18, low: 16, high: 20 };
    const rate = { best: 0.5, low: 0.4, high: 0.7 };
    const { days, earliestDays, latestDays } = forecast(level, rate, 25);
    expect(days).toBe(14);
    expect(earliestDays).toBeCloseTo(5 / 0.7, 12);
    expect(latestDays).toBeCloseTo(9 / 0.4, 12);
    const floor = forecast({ best: 5, low: 4, high: 6 }, { best: -0.1, low: -0.2, high: 0.1 }, 3, "floor");
    expect(floor.earliestDays).toBeCloseTo(5, 12);
    expect(floor.days).toBeCloseTo(20, 12);
    expect(floor.latestDays).toBe(Infinity);
  });
});

describe("the level after some days of the duty", () => {
  test("is what stepping through gives", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 40, noNaN: true }),
        fc.double({ min: -1, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 300, noNaN: true }),
        fc.integer({ min: 1, max: 30 }),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        (level, rate, days, everyDays, fraction) => {
          const duty = { firstInDays: 3, everyDays, fraction, sourceMgL: 6 };
          expect(levelAfter(level, rate, days, duty)).toBeCloseTo(stepped(level, rate, days, duty), 6);
        },
      ),
    );
  });

  test("without a duty it is a straight line", () => {
    expect(levelAfter(10, 0.5, 8)).toBe(14);
    expect(levelAfter(10, 0.5, 3, weekly)).toBe(11.5);
  });
});

describe("the change that holds a limit", () => {
  test("holds it exactly", () => {
    const f = holdingFraction(1, 7, 25, 6) as number;
    expect(f).toBeCloseTo(7 / 19, 12);
    const before = levelAfter(20, 1, 7 * 400 - 1e-6, {
      firstInDays: 7,
      everyDays: 7,
      fraction: f,
      sourceMgL: 6,
    });
    expect(before).toBeCloseTo(25, 5);
    expect(holdingIntervalDays(1, f, 25, 6)).toBeCloseTo(7, 12);
  });

  test("does not exist when the source is at the limit, or a whole change is too little", () => {
    const atLimit = holdingFraction(1, 7, 6, 6);
    expect(isOutside(atLimit) && atLimit.outside).toContain("source water");
    expect(isOutside(holdingFraction(10, 7, 25, 6))).toBe(true);
    expect(isOutside(holdingIntervalDays(1, 0.3, 5, 6))).toBe(true);
    expect(isOutside(holdingIntervalDays(1, 0.3, 6, 6))).toBe(true);
    expect(holdingFraction(0, 7, 25, 6)).toBe(0);
    expect(holdingIntervalDays(-1, 0.3, 25, 6)).toBe(Infinity);
  });

  test.each([
    [holdingFraction(Number.NaN, 7, 25, 6), "rate NaN is no figure"],
    [holdingFraction(1, 0, 25, 6), "time between changes 0 days is not a figure of more than 0"],
    [holdingFraction(1, 7, Number.NaN, 6), "limit NaN is no figure"],
    [holdingIntervalDays(1, 1.5, 25, 6), "share of the water changed 1.5 is not within 0 to 1"],
    [holdingIntervalDays(1, 0.5, 25, Number.NaN), "source water NaN is no figure"],
  ])("%#: %s", (answer, why) => expect(answer).toEqual({ outside: why }));
});
