import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { afterChanges, changesNeeded, steadyBeforeChangeMgL } from "../../language/science/dilution.ts";
import { isOutside } from "../../language/science/result.ts";
import { levelsAfter, type Step } from "../../language/science/sequence.ts";

const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const levels = (start: number, volume: number, steps: readonly Step[]) =>
  levelsAfter(start, volume, steps) as readonly number[];

const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({ kind: fc.constant("change" as const), fraction: double(0, 1), sourceMgL: double(0, 30) }),
  fc.record({ kind: fc.constant("flow" as const), litres: double(0, 300), sourceMgL: double(0, 30) }),
  fc.record({ kind: fc.constant("dose" as const), mgL: double(0, 10) }),
  fc.record({ kind: fc.constant("topUp" as const), litres: double(0, 20), sourceMgL: double(0, 30) }),
  fc.record({
    kind: fc.constant("wait" as const),
    days: double(0, 10),
    madeMgLPerDay: double(0, 5),
    halfLifeDays: double(0.5, 50),
  }),
);

/** The same in small steps: mass and volume followed, water poured in by drops. */
function followed(startMgL: number, volumeL: number, steps: readonly Step[]): number {
  let mg = startMgL * volumeL;
  for (const each of steps) {
    if (each.kind === "change" && "fraction" in each) {
      mg -= mg * each.fraction;
      mg += each.fraction * volumeL * (each.sourceMgL ?? 0);
    } else if (each.kind === "flow") {
      const drops = 20_000;
      const drop = each.litres / drops;
      for (let at = 0; at < drops; at++) {
        // In first, then out of the mixture: the error of a drop is half of it.
        mg += drop * (each.sourceMgL ?? 0);
        mg -= (mg * drop) / (volumeL + drop);
      }
    } else if (each.kind === "dose" && "mgL" in each) {
      mg += each.mgL * volumeL;
    } else if (each.kind === "topUp") {
      mg += each.litres * (each.sourceMgL ?? 0);
    } else if (each.kind === "wait") {
      const moments = 20_000;
      const days = each.days / moments;
      const rate = Math.LN2 / (each.halfLifeDays ?? Infinity);
      for (let at = 0; at < moments; at++) {
        // Midpoint rule.
        const middle = mg + (((each.madeMgLPerDay ?? 0) * volumeL - rate * mg) * days) / 2;
        mg += ((each.madeMgLPerDay ?? 0) * volumeL - rate * middle) * days;
      }
    }
  }
  return mg / volumeL;
}

describe("a row of events", () => {
  test("a course of copper: dosed, a quarter changed with untreated water, its share dosed again", () => {
    const course: readonly Step[] = [
      { kind: "dose", mg: 20 },
      { kind: "change", litres: 25 },
      { kind: "dose", mg: 5 },
    ];
    expect(levels(0, 100, course)).toEqual([0.2, 0.15000000000000002, 0.2]);
  });

  test("agrees with the same events followed in small steps", () => {
    fc.assert(
      fc.property(
        double(0, 50),
        double(20, 400),
        fc.array(step, { maxLength: 6 }),
        (start, volume, steps) => {
          const exact = levels(start, volume, steps).at(-1) ?? start;
          expect(Math.abs(exact - followed(start, volume, steps))).toBeLessThan(1e-3 * (1 + exact));
        },
      ),
      { numRuns: 60 },
    );
  });

  test("50 % run through leaves 61 % of what was there, 50 % changed leaves half", () => {
    const [through] = levels(10, 100, [{ kind: "flow", litres: 50 }]);
    const [changed] = levels(10, 100, [{ kind: "change", fraction: 0.5 }]);
    expect(through).toBeCloseTo(6.07, 2);
    expect(changed).toBe(5);
  });

  test("as many equal changes as the count asked for reach the target", () => {
    fc.assert(
      fc.property(double(10, 100), double(0.05, 0.9), double(0, 2), (start, fraction, source) => {
        const count = changesNeeded(start, 5, fraction, source) as number;
        const row = levels(
          start,
          80,
          Array.from({ length: count }, () => ({ kind: "change" as const, fraction, sourceMgL: source })),
        );
        expect(row.at(-1)).toBeLessThanOrEqual(5 * (1 + 1e-8));
        expect(row.at(-1)).toBeCloseTo(afterChanges(start, fraction, count, source) as number, 8);
        if (count > 1) expect(row.at(-2)).toBeGreaterThan(5);
      }),
    );
  });

  test("weeks of one change settle at the steady state", () => {
    const week: readonly Step[] = [
      { kind: "wait", days: 7, madeMgLPerDay: 1 },
      { kind: "change", fraction: 0.3, sourceMgL: 10 },
    ];
    const row = levels(0, 200, Array.from({ length: 120 }, () => week).flat());
    expect(row.at(-2)).toBeCloseTo(steadyBeforeChangeMgL(7, 0.3, 10) as number, 8);
  });

  test("a top-up dilutes nothing and adds its own; a half-life halves", () => {
    expect(levels(12, 100, [{ kind: "topUp", litres: 8 }])).toEqual([12]);
    expect(levels(12, 100, [{ kind: "topUp", litres: 8, sourceMgL: 25 }])).toEqual([14]);
    expect(levels(12, 100, [{ kind: "wait", days: 3, halfLifeDays: 3 }])[0]).toBeCloseTo(6, 12);
    expect(levels(12, 100, [{ kind: "wait", days: 3 }])).toEqual([12]);
  });

  test("no step makes less than nothing, and none needs the steps after it", () => {
    fc.assert(
      fc.property(double(0, 50), fc.array(step, { minLength: 1, maxLength: 8 }), (start, steps) => {
        const row = levels(start, 100, steps);
        for (const level of row) expect(level).toBeGreaterThanOrEqual(0);
        expect(levels(start, 100, steps.slice(0, -1))).toEqual(row.slice(0, -1));
      }),
    );
  });

  test("a step that cannot be is named", () => {
    const reason = levelsAfter(5, 100, [
      { kind: "change", fraction: 0.2 },
      { kind: "change", litres: 120 },
    ]);
    expect(isOutside(reason) && reason.outside).toMatch(/^step 2: share of the water changed/);
    const wrong: readonly Step[] = [
      { kind: "change", fraction: -0.1 },
      { kind: "change", fraction: 0.1, sourceMgL: -1 },
      { kind: "flow", litres: -1 },
      { kind: "flow", litres: 1, sourceMgL: Number.NaN },
      { kind: "dose", mg: -1 },
      { kind: "dose", mgL: Number.NaN },
      { kind: "topUp", litres: 101 },
      { kind: "topUp", litres: 1, sourceMgL: -1 },
      { kind: "wait", days: -1 },
      { kind: "wait", days: 1, madeMgLPerDay: -1 },
      { kind: "wait", days: 1, halfLifeDays: 0 },
    ];
    for (const each of wrong) expect(isOutside(levelsAfter(5, 100, [each]))).toBe(true);
    expect(isOutside(levelsAfter(-1, 100, []))).toBe(true);
    expect(isOutside(levelsAfter(1, 0, []))).toBe(true);
  });
});
