import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { forecast } from "../../language/science/forecast.ts";
import { kendallVariance } from "../../language/science/kendall.ts";
import { levelAt } from "../../language/science/level.ts";
import { type Exchange, type Production, production, WINDOW } from "../../language/science/mass-balance.ts";
import { isOutside, type Outside } from "../../language/science/result.ts";
import { theilSen } from "../../language/science/trend.ts";
import { random } from "../support/random.ts";
import { normal, simulate } from "./simulate.ts";

const found = <T>(answer: T | Outside): T => {
  if (isOutside(answer)) throw new Error(answer.outside);
  return answer;
};

/** Days that rise, so many of them. */
const days = (minLength: number, maxLength: number) =>
  fc
    .array(fc.double({ min: 0.2, max: 12, noNaN: true }), { minLength, maxLength })
    .map((gaps) => [0, ...gaps.map((_, i) => gaps.slice(0, i + 1).reduce((sum, gap) => sum + gap, 0))]);

const exchanges = fc
  .array(
    fc.record({
      timeDays: fc.double({ min: 0, max: 100, noNaN: true }),
      fraction: fc.double({ min: 0, max: 0.95, noNaN: true }),
      sourceMgL: fc.double({ min: 0, max: 20, noNaN: true }),
      addedMgL: fc.double({ min: 0, max: 3, noNaN: true }),
    }),
    { maxLength: 30 },
  )
  .map((all): Exchange[] => all.sort((a, b) => a.timeDays - b.timeDays));

/** Weekly tests, each followed the next day by a change of a fraction with tap water. */
function weekly(weeks: number, fraction: number, sourceMgL = 5) {
  const testDays = Array.from({ length: weeks }, (_, week) => 7 * week);
  const changes = testDays.map((day): Exchange => ({ timeDays: day + 1, fraction, sourceMgL }));
  return { testDays, exchanges: fraction > 0 ? changes : [] };
}

describe("production per day", () => {
  test("a show tank: 18, changed by a third, 19 the week after: more than it looks", () => {
    const readings = [
      { timeDays: 0, lowMgL: 18, highMgL: 18 },
      { timeDays: 7, lowMgL: 19, highMgL: 19 },
    ];
    const changes = [{ timeDays: 0, fraction: 1 / 3, sourceMgL: 6 }];
    // 18 became 14, and 19 is 5 more in 7 days.
    expect(found(production(readings, changes)).rateMgLDay).toBeCloseTo(5 / 7, 12);
  });

  test("is found again from any log without noise, whatever was changed", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -2, max: 8, noNaN: true }),
        fc.double({ min: 0, max: 80, noNaN: true }),
        days(1, 30),
        exchanges,
        (rateMgLDay, startMgL, testDays, changes) => {
          const { readings } = simulate({ rateMgLDay, startMgL, testDays, exchanges: changes });
          expect(found(production(readings, changes)).rateMgLDay).toBeCloseTo(rateMgLDay, 6);
        },
      ),
    );
  });

  test("without changes it is the Theil-Sen slope, and its interval Sen's", () => {
    fc.assert(
      fc.property(
        days(2, WINDOW - 1),
        fc.array(fc.integer({ min: 0, max: 40 }), { minLength: WINDOW, maxLength: WINDOW }),
        (testDays, levels) => {
          const ys = testDays.map((_, i) => levels[i]!);
          const readings = testDays.map((timeDays, i) => ({ timeDays, lowMgL: ys[i]!, highMgL: ys[i]! }));
          const made = found(production(readings, []));
          const line = found(theilSen(testDays, ys));
          expect(made.rateMgLDay).toBeCloseTo(line.perDay, 12);
          if (isOutside(line.interval)) expect(made.interval).toEqual(line.interval);
          else {
            expect(made.interval).toHaveProperty("low", expect.closeTo(line.interval.low, 9));
            expect(made.interval).toHaveProperty("high", expect.closeTo(line.interval.high, 9));
          }
        },
      ),
    );
  });

  test("adding the same to every level of a closed tank changes nothing", () => {
    const testDays = [0, 7, 14, 22, 28];
    const at = (more: number) =>
      testDays.map((timeDays, i) => ({
        timeDays,
        lowMgL: [5, 8, 11, 12, 18][i]! + more,
        highMgL: [5, 8, 11, 12, 18][i]! + more,
      }));
    expect(found(production(at(30), [])).rateMgLDay).toBeCloseTo(found(production(at(0), [])).rateMgLDay, 12);
  });

  test("one bad reading in a window moves it little, however bad", () => {
    const { testDays, exchanges: changes } = weekly(12, 0.3);
    for (let bad = 0; bad < 12; bad++) {
      const { readings } = simulate({
        rateMgLDay: 1.2,
        startMgL: 20,
        testDays,
        exchanges: changes,
        read: (level, index) => (index === bad ? 400 : level + (index % 3) - 1),
      });
      const made = found(production(readings, changes));
      expect(Math.abs(made.rateMgLDay - 1.2), `reading ${bad} bad`).toBeLessThan(0.35);
      const { interval } = made;
      expect(!isOutside(interval) && interval.low <= 1.2 && interval.high >= 1.2).toBe(true);
    }
  });

  test("top-ups and doses are taken out as well", () => {
    const testDays = [0, 5, 10, 15, 20, 25];
    const added: Exchange[] = testDays.map((day) => ({
      timeDays: day + 2,
      fraction: 0,
      sourceMgL: 0,
      addedMgL: 4,
    }));
    const { readings } = simulate({ rateMgLDay: -0.5, startMgL: 10, testDays, exchanges: added });
    expect(found(production(readings, added)).rateMgLDay).toBeCloseTo(-0.5, 10);
  });

  test("a change at the time of a test comes after it", () => {
    const readings = [
      { timeDays: 0, lowMgL: 20, highMgL: 20 },
      { timeDays: 10, lowMgL: 20, highMgL: 20 },
    ];
    expect(found(production(readings, [{ timeDays: 0, fraction: 0.5, sourceMgL: 0 }])).rateMgLDay).toBe(1);
    expect(found(production(readings, [{ timeDays: 10, fraction: 0.5, sourceMgL: 0 }])).rateMgLDay).toBe(0);
  });

  test("a whole change between two tests leaves only what came after it", () => {
    const readings = [
      { timeDays: 0, lowMgL: 100, highMgL: Infinity },
      { timeDays: 10, lowMgL: 9, highMgL: 9 },
    ];
    const changes = [{ timeDays: 4, fraction: 1, sourceMgL: 3 }];
    expect(found(production(readings, changes)).rateMgLDay).toBe(1);
  });

  test("only the last readings count", () => {
    const testDays = Array.from({ length: 2 * WINDOW }, (_, i) => i);
    const readings = testDays.map((timeDays) => {
      const level = timeDays < WINDOW ? 50 - timeDays : 26 + 2 * (timeDays - WINDOW);
      return { timeDays, lowMgL: level, highMgL: level };
    });
    expect(found(production(readings, []))).toMatchObject({ rateMgLDay: 2, readings: WINDOW });
  });

  test("needs two days", () => {
    expect(isOutside(production([], []))).toBe(true);
    expect(isOutside(production([{ timeDays: 3, lowMgL: 5, highMgL: 5 }], []))).toBe(true);
    const twice = { timeDays: 3, lowMgL: 5, highMgL: 5 };
    expect(isOutside(production([twice, twice], []))).toBe(true);
  });
});

describe("censored readings", () => {
  test("below the lowest step of the test: what is known is kept, nothing is made up", () => {
    const { readings } = simulate({
      rateMgLDay: 0.4,
      startMgL: 1,
      testDays: [0, 5, 10, 15, 20, 25, 30, 35, 40],
      exchanges: [],
      read: (level) => (level < 5 ? { lowMgL: 0, highMgL: 5 } : level),
    });
    const made = found(production(readings, []));
    expect(made.rateMgLDay).toBeCloseTo(0.4, 1);
    const { interval } = made;
    expect(isOutside(interval) || (interval.low <= 0.4 && interval.high >= 0.4)).toBe(true);
  });

  test("all below: no rise is the middle of what may be, and the interval is wide", () => {
    const readings = [0, 7, 14, 21, 28, 35].map((timeDays) => ({ timeDays, lowMgL: 0, highMgL: 5 }));
    const made = found(production(readings, []));
    expect(made.rateMgLDay).toBeCloseTo(0, 12);
  });

  test("all above what the test can tell bound nothing", () => {
    const readings = [0, 7, 14].map((timeDays) => ({ timeDays, lowMgL: 100, highMgL: Infinity }));
    const answer = production(readings, []);
    expect(isOutside(answer) && answer.outside).toContain("beyond what the test can tell");
  });

  test("censoring some readings never narrows what is known", () => {
    const { readings } = simulate({
      rateMgLDay: 1,
      startMgL: 2,
      testDays: [0, 4, 8, 12, 16, 20, 24, 28],
      exchanges: [],
      read: (level, i) => level + [0.5, -0.7, 0.2, -0.1, 0.6, -0.4, 0.3, -0.2][i]!,
    });
    const censored = readings.map((each) =>
      each.lowMgL > 20 ? { ...each, highMgL: Infinity, lowMgL: 20 } : each,
    );
    const whole = found(production(readings, [])).interval;
    const part = found(production(censored, [])).interval;
    if (isOutside(whole)) throw new Error("eight readings have an interval");
    if (!isOutside(part)) {
      expect(part.low).toBeLessThanOrEqual(whole.low);
      expect(part.high).toBeGreaterThanOrEqual(whole.high);
    }
  });
});

describe("its interval", () => {
  /** How often the interval holds the truth, in simulated logs with normal errors of the test. */
  function coverage(weeks: number, fraction: number, logs: number): { covered: number; level: number } {
    const uniform = random(20_26 + weeks);
    const { testDays, exchanges: changes } = weekly(weeks, fraction);
    let covered = 0;
    let level = 0;
    for (let log = 0; log < logs; log++) {
      const { readings, levelMgL } = simulate({
        rateMgLDay: 1,
        startMgL: 15,
        testDays,
        exchanges: changes,
        read: (at) => at + 2 * normal(uniform),
      });
      const made = found(production(readings, changes));
      if (isOutside(made.interval)) throw new Error(made.interval.outside);
      if (made.interval.low <= 1 && made.interval.high >= 1) covered++;
      const now = found(levelAt(readings, changes, testDays.at(-1)!, made));
      // The last change of the log comes after its last test.
      if (now.low <= levelMgL && now.high >= levelMgL) level++;
    }
    return { covered: covered / logs, level: level / logs };
  }

  // 0.93: three standard errors below 0.95 at 800 logs.
  test.each([
    [6, 0],
    [6, 0.3],
    [12, 0],
    [12, 0.35],
    [12, 0.9],
    [24, 0.35],
    [24, 0.9],
  ])("holds the truth 19 times in 20: %d weeks, changes of %d", (weeks, fraction) => {
    const { covered, level } = coverage(weeks, fraction, 800);
    expect(covered).toBeGreaterThanOrEqual(0.93);
    expect(level).toBeGreaterThanOrEqual(0.93);
  });

  test("is not so wide as to say nothing: 24 weeks tell 1 mg/L a day to within a quarter", () => {
    const uniform = random(3);
    const { testDays, exchanges: changes } = weekly(24, 0.3);
    const read = (at: number) => at + 2 * normal(uniform);
    const { readings } = simulate({ rateMgLDay: 1, startMgL: 15, testDays, exchanges: changes, read });
    const { interval } = found(production(readings, changes)) as Production;
    if (isOutside(interval)) throw new Error(interval.outside);
    expect(interval.high - interval.low).toBeLessThan(0.25);
  });

  test("is not given from too few readings", () => {
    const { testDays, exchanges: changes } = weekly(4, 0.3);
    const { readings } = simulate({ rateMgLDay: 1, startMgL: 15, testDays, exchanges: changes });
    const made = found(production(readings, changes));
    expect(made.rateMgLDay).toBeCloseTo(1, 9);
    expect(made.interval).toEqual({ outside: "4 readings are too few for an interval of 95 %" });
  });

  test("rests on a variance that is Kendall's when the changes are next to nothing", () => {
    // Both ways must give the same interval at the edge between them.
    const { testDays } = weekly(12, 0);
    const uniform = random(11);
    const { readings } = simulate({
      rateMgLDay: 1,
      startMgL: 15,
      testDays,
      exchanges: [],
      read: (at) => at + 2 * normal(uniform),
    });
    const tiny = testDays.map((day): Exchange => ({ timeDays: day + 1, fraction: 1e-12, sourceMgL: 0 }));
    const one = found(production(readings, [])).interval;
    const other = found(production(readings, tiny)).interval;
    if (isOutside(one) || isOutside(other)) throw new Error("twelve readings have an interval");
    expect(kendallVariance(12)).toBeCloseTo(212.667, 3);
    expect(Math.abs(other.high - other.low - (one.high - one.low))).toBeLessThan(0.05);
  });
});

describe("the level now", () => {
  test("is the last reading carried on by production and changes, when nothing is uncertain", () => {
    fc.assert(
      fc.property(
        days(1, 20),
        exchanges,
        fc.double({ min: 0, max: 30, noNaN: true }),
        (testDays, changes, later) => {
          const atDay = testDays.at(-1)! + later;
          const truth = simulate({
            rateMgLDay: 0.8,
            startMgL: 10,
            testDays: [...testDays, atDay],
            exchanges: changes,
          });
          fc.pre(!changes.some((change) => change.timeDays === atDay));
          const readings = truth.readings.slice(0, testDays.length);
          const made = found(production(readings, changes));
          const level = found(levelAt(readings, changes, atDay, made));
          expect(level.best).toBeCloseTo(truth.levelMgL, 5);
          expect(level.low - 1e-9).toBeLessThanOrEqual(level.best);
          expect(level.high + 1e-9).toBeGreaterThanOrEqual(level.best);
        },
      ),
    );
  });

  test("without changes it is the Theil-Sen line on that day", () => {
    const testDays = [0, 6, 13, 21, 27, 33, 41];
    const ys = [10, 13, 15, 21, 22, 27, 30];
    const readings = testDays.map((timeDays, i) => ({ timeDays, lowMgL: ys[i]!, highMgL: ys[i]! }));
    const made = found(production(readings, []));
    const line = found(theilSen(testDays, ys));
    expect(found(levelAt(readings, [], 50, made)).best).toBeCloseTo(
      (line.intercept as number) + 50 * line.perDay,
      10,
    );
  });

  test("is known as well as its readings are: no worse than the last alone", () => {
    const uniform = random(8);
    const { testDays, exchanges: changes } = weekly(16, 0.3);
    const read = (at: number) => at + 2 * normal(uniform);
    const { readings } = simulate({ rateMgLDay: 1, startMgL: 15, testDays, exchanges: changes, read });
    const level = found(levelAt(readings, changes, testDays.at(-1)!, found(production(readings, changes))));
    expect(level.best - level.low).toBeGreaterThan(0.5);
    expect(level.high - level.best).toBeGreaterThan(0.5);
    expect(level.best - level.low).toBeLessThan(2 * 1.96 * 1.5);
    expect(level.high - level.best).toBeLessThan(2 * 1.96 * 1.5);
  });

  test("what was before five big changes says little of it", () => {
    const { testDays, exchanges: changes } = weekly(6, 0.9, 0);
    const { readings, levelMgL } = simulate({
      rateMgLDay: 1,
      startMgL: 15,
      testDays,
      exchanges: changes,
      read: (level, i) => (i < 3 ? level * 5 : level),
    });
    const made = found(production(readings.slice(3), changes));
    expect(found(levelAt(readings, changes, testDays.at(-1)!, made)).best).toBeCloseTo(levelMgL, 0);
  });

  test("a log that ends in `>100` says at least that", () => {
    const readings = [0, 7, 14].map((timeDays) => ({ timeDays, lowMgL: 100, highMgL: Infinity }));
    const made: Production = {
      rateMgLDay: 1,
      interval: { low: 0.5, high: 1.5 },
      confidence: 0.95,
      scatterMgL: 0,
      readings: 3,
    };
    expect(isOutside(levelAt(readings, [], 20, made))).toBe(true);
  });

  test("is never below nothing", () => {
    const readings = [0, 7].map((timeDays) => ({
      timeDays,
      lowMgL: 3 - timeDays / 7,
      highMgL: 3 - timeDays / 7,
    }));
    expect(found(levelAt(readings, [], 60, found(production(readings, [])))).best).toBe(0);
  });

  test("and a forecast from it: so many days to the limit", () => {
    const { testDays, exchanges: changes } = weekly(8, 0.3);
    const { readings, levelMgL } = simulate({ rateMgLDay: 1, startMgL: 15, testDays, exchanges: changes });
    const made = found(production(readings, changes));
    const level = found(levelAt(readings, changes, testDays.at(-1)!, made));
    if (isOutside(made.interval)) throw new Error(made.interval.outside);
    const rate = { best: made.rateMgLDay, ...made.interval };
    expect(forecast(level, rate, 50).days).toBeCloseTo(50 - levelMgL, 6);
  });
});
