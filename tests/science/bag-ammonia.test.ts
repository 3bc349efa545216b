import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Bag, type BagState, bagAfter, hoursUntilOxygen } from "../../language/science/bag.ts";
import { mostFreeMgLN } from "../../language/science/bag-ammonia.ts";
import { CO2_PER_OXYGEN, NITROGEN_PER_OXYGEN } from "../../language/science/respiration.ts";
import { isOutside } from "../../language/science/result.ts";

const bag: Bag = {
  waterL: 1,
  gasL: 1,
  gas: "oxygen",
  pressureAtm: 1,
  temperatureC: 24,
  salinityGPerKg: 0,
  count: 60,
  massG: 0.5,
  activity: 2,
  nitrogenPerOxygen: NITROGEN_PER_OXYGEN.resting,
  co2PerOxygen: CO2_PER_OXYGEN,
  alkalinityMeqL: 2,
  pH: 7.6,
  totalMgLN: 0,
};

const load = fc.record({
  gasL: fc.double({ min: 0.1, max: 3, noNaN: true }),
  count: fc.integer({ min: 5, max: 80 }),
  temperatureC: fc.double({ min: 10, max: 29, noNaN: true }),
  gas: fc.constantFrom<"oxygen" | "air">("oxygen", "air"),
  nitrogenPerOxygen: fc.double({ min: 0.05, max: 0.3, noNaN: true }),
});

describe("free ammonia in a closed bag at its highest", () => {
  test("no hour on the way has more, and one of them has as much", () => {
    fc.assert(
      fc.property(load, fc.double({ min: 0.05, max: 1, noNaN: true }), (part, share) => {
        const packed = { ...bag, ...part };
        const hours = share * (hoursUntilOxygen(packed, 0.5) as number);
        const most = mostFreeMgLN(packed, hours) as number;
        const each = Array.from({ length: 401 }, (_, i) => {
          const state = bagAfter(packed, (hours * i) / 400) as BagState;
          return state.freeMgLN as number;
        });
        const highest = Math.max(...each);
        expect(most).toBeGreaterThanOrEqual(highest * (1 - 1e-9));
        expect(most).toBeLessThanOrEqual(highest * 1.001);
      }),
      { numRuns: 40 },
    );
  });

  test("longer on the way or more fish never make it less, though at the end there may be less", () => {
    const tight = { ...bag, waterL: 0.3, gasL: 0.4 };
    const lasts = hoursUntilOxygen(tight, 0.5) as number;
    const [late, last] = [bagAfter(tight, 0.9 * lasts) as BagState, bagAfter(tight, lasts) as BagState];
    expect(last.freeMgLN).toBeLessThan(late.freeMgLN as number);
    expect(mostFreeMgLN(tight, lasts)).toBeCloseTo(mostFreeMgLN(tight, 0.9 * lasts) as number, 12);
    fc.assert(
      fc.property(load, (part) => {
        const packed = { ...bag, ...part };
        const hours = 0.5 * (hoursUntilOxygen(packed, 0.5) as number);
        const most = mostFreeMgLN(packed, hours) as number;
        expect(mostFreeMgLN(packed, hours * 0.9)).toBeLessThanOrEqual(most * (1 + 1e-9));
        expect(mostFreeMgLN({ ...packed, count: packed.count - 1 }, hours)).toBeLessThanOrEqual(
          most * (1 + 1e-9),
        );
      }),
      { numRuns: 40 },
    );
  });

  test("a bag whose pH or time is none gives a reason, and so does one packed with ammonia", () => {
    expect(mostFreeMgLN(bag, 0)).toBe(0);
    for (const refused of [
      mostFreeMgLN({ ...bag, totalMgLN: 0.5 }, 5),
      mostFreeMgLN({ ...bag, pH: 9 }, 5),
      mostFreeMgLN({ ...bag, salinityGPerKg: 5 }, 5),
      mostFreeMgLN(bag, -1),
      mostFreeMgLN(bag, Number.NaN),
      mostFreeMgLN(bag, 1000),
    ])
      expect(isOutside(refused)).toBe(true);
  });
});
