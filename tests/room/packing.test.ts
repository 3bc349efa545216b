import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type BagAsked, packingPlan, type Weight } from "../../language/room/packing.ts";
import { journeyOf, waterToPack, weightOf } from "../../language/room/packing-given.ts";
import { bagAfter } from "../../language/science/bag.ts";
import { isOutside } from "../../language/science/result.ts";
import { Room } from "../support/room.ts";

/** A bag that is bounded by its oxygen alone. */
const bag: BagAsked = {
  waterL: 0.4,
  gasL: 0.8,
  gas: "oxygen",
  activity: 2,
  hours: 24,
  temperatureC: 25,
  leastOxygenMgL: 5,
  mostTotalMgLN: Number.POSITIVE_INFINITY,
  mostFreeMgLN: Number.POSITIVE_INFINITY,
  mostCo2MgL: Number.POSITIVE_INFINITY,
  mostLoadGPerL: Number.POSITIVE_INFINITY,
};
const weighing = (grams: number): Weight => ({
  grams,
  why: { what: "weight", value: `${grams} g`, from: [] },
});
const fish = { name: "guppy", known: undefined };
const water = { pH: 7.5, alkalinityMeqL: 2, totalMgLN: 0, temperatureC: 24, from: [] };
const most = (asked: Partial<BagAsked>, grams = 0.5, wanted = 1e6) =>
  packingPlan(fish, weighing(grams), water, { ...bag, ...asked }, Number.NaN, Number.NaN, wanted);

describe("how many a bag holds", () => {
  test("is the most that keep the bound, and one more breaks it", () => {
    for (const asked of [{}, { mostTotalMgLN: 5 }, { mostCo2MgL: 30 }, { mostLoadGPerL: 15 }]) {
      const plan = most(asked);
      if (isOutside(plan.most) || plan.bag === undefined) throw new Error(JSON.stringify(plan.most));
      const broken = (count: number): boolean => {
        const state = bagAfter({ ...plan.bag!, count }, 24);
        const bounds = { ...bag, ...asked };
        return (
          isOutside(state) ||
          state.oxygenMgL < bounds.leastOxygenMgL ||
          state.totalMgLN > bounds.mostTotalMgLN ||
          (count * 0.5) / 0.4 > bounds.mostLoadGPerL ||
          (state.co2MgL as number) > bounds.mostCo2MgL
        );
      };
      expect([broken(plan.most), broken(plan.most + 1)]).toEqual([false, true]);
      expect(plan.boundBy).toBe(
        "mostTotalMgLN" in asked
          ? "total ammonia"
          : "mostLoadGPerL" in asked
            ? "load"
            : "mostCo2MgL" in asked
              ? "CO2"
              : "oxygen",
      );
    }
  });

  test("with a bound of free ammonia is the most below it, also where few animals leave more of it free than many", () => {
    const old = { ...water, totalMgLN: 1 };
    const plan = (mostFreeMgLN: number) =>
      packingPlan(fish, weighing(0.5), old, { ...bag, mostFreeMgLN }, 0, Number.NaN, 1e6);
    const free = (count: number): number => {
      const state = bagAfter({ ...plan(1).bag!, count }, 24);
      if (isOutside(state)) throw new Error(state.outside);
      return state.freeMgLN as number;
    };
    expect(free(1)).toBeGreaterThan(free(5));
    const bound = (free(5) + free(40)) / 2;
    const most = plan(bound).most as number;
    expect([free(most) <= bound, free(most + 1) > bound]).toEqual([true, true]);
    expect(most).toBeGreaterThan(5);
    expect(plan(1e-9)).toMatchObject({
      boundBy: "free ammonia",
      most: { outside: expect.stringContaining("free ammonia") },
    });
  });

  test("is less when it is warmer, longer, livelier or with less gas", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 15, max: 28, noNaN: true }),
        fc.double({ min: 6, max: 48, noNaN: true }),
        fc.double({ min: 0.2, max: 5, noNaN: true }),
        (temperatureC, hours, grams) => {
          const count = (more: Partial<BagAsked>): number => {
            const { most: figure } = most({ temperatureC, hours, ...more }, grams);
            return isOutside(figure) ? 0 : figure;
          };
          const base = count({});
          expect(count({ temperatureC: temperatureC + 2 })).toBeLessThanOrEqual(base);
          expect(count({ hours: hours + 6 })).toBeLessThanOrEqual(base);
          expect(count({ activity: 3 })).toBeLessThanOrEqual(base);
          expect(count({ gasL: 0.4 })).toBeLessThanOrEqual(base);
        },
      ),
      { numRuns: 40 },
    );
  });

  /**
   * Teo, Chen & Lee 1989, Aquaculture 78:321-332, abstract: 20 guppies in 400 mL under oxygen at 25 C for 24 h was their test load; with
   * three chemicals 30 lived to 48 h, and of 40 in a bag 17.5 % died. They do not give the weight; half a gram is taken here.
   */
  test("by the oxygen is more than the published load of guppies, which ammonia and not oxygen bounded", () => {
    const plan = most({});
    expect(plan.most).toBeGreaterThan(20);
    const loaded = packingPlan(fish, weighing(0.5), water, bag, Number.NaN, 20, 20);
    expect(loaded.count).toBe(20);
    if (isOutside(loaded.state)) throw new Error(loaded.state.outside);
    expect(loaded.state.oxygenMgL).toBeGreaterThan(5);
    // So much total ammonia is what their clinoptilolite was for.
    expect(loaded.state.totalMgLN).toBeGreaterThan(5);
  });

  test("is never more than there are to pack, or than the keeper puts into one", () => {
    expect(most({}, 0.5, 7).count).toBe(7);
    expect(packingPlan(fish, weighing(0.5), water, bag, Number.NaN, 5, 20).count).toBe(5);
  });

  test("cannot be reckoned of a shrimp, nor without a weight; what the keeper puts into a bag stays", () => {
    const room = new Room("species cherry\n  kind shrimp\n2026-03-01\n");
    const cherry = { name: "cherry", known: room.checked.book.species.get("cherry") };
    const plan = packingPlan(cherry, weighing(0.2), water, bag, Number.NaN, 10, 25);
    expect(plan.most).toMatchObject({ outside: expect.stringContaining("shrimp") });
    expect(plan.count).toBe(10);
    expect(packingPlan(fish, undefined, water, bag, Number.NaN, Number.NaN, 5)).toMatchObject({
      count: 0,
      most: { outside: expect.stringContaining("weigh") },
    });
  });

  test("without a test of pH and KH is bounded by oxygen and total ammonia, and says so", () => {
    const plan = packingPlan(
      fish,
      weighing(0.5),
      undefined,
      { ...bag, mostFreeMgLN: 1e-9 },
      0,
      Number.NaN,
      99,
    );
    expect(plan.boundBy).toBe("oxygen");
    expect(plan.unheld).toEqual([expect.stringContaining("pH and KH")]);
    expect(isOutside(plan.opened)).toBe(true);
  });

  test("thin air of a height is thinner in the bag too", () => {
    const high = packingPlan(fish, weighing(0.5), water, bag, 2000, Number.NaN, 1e6);
    expect(high.most).toBeLessThan(most({}).most as number);
  });
});

describe("what packing is reckoned from", () => {
  const log = `room "Cellar"
species praecox
  weight 2.5 g
tank dam
  volume 100 L
tank r1
  volume 20 L
order o-1
  wants praecox 5; hours 24..36 h; temperature 20..25 C
2026-03-01
  dam test pH 7.4, KH 4 dKH, ammonia <0.25 mg/L N, temperature 24
  dam count praecox 9
  r1 count praecox 9
  r1 condition praecox 3 weight 1.8 g
2026-03-02
  r1 condition praecox 3 length 4 cm
`;
  const { checked, today } = new Room(log);
  const { logbook, book } = checked;

  test("the weight last measured in the tank, else in another, else the adult's as stated", () => {
    const grams = (tank: string, day = today) => weightOf(logbook, "praecox", book.tank(tank), day)?.grams;
    expect(grams("r1")).toBe(1.8);
    expect(grams("dam")).toBe(1.8);
    expect(grams("r1", today - 2)).toBe(2.5);
    expect(weightOf(logbook, "horn", undefined, today)).toBeUndefined();
  });

  test("the water as it was last tested, ammonia at what the test can tell", () => {
    const found = waterToPack(logbook.ledgerOf(book.tank("dam")!), today + 1);
    expect(found).toMatchObject({ pH: 7.4, totalMgLN: 0.25, temperatureC: 24 });
    // 1 dKH is 10 mg/L CaO: 4 of them 1.427 meq/L.
    expect(found!.alkalinityMeqL).toBeCloseTo(1.427, 2);
    expect(waterToPack(logbook.ledgerOf(book.tank("r1")!), today + 1)).toBeUndefined();
    expect(waterToPack(logbook.ledgerOf(book.tank("dam")!), today + 90)).toBeUndefined();
  });

  test("the longest and warmest of the order; what it does not say is said to be assumed", () => {
    const none = { hours: Number.NaN, temperatureC: Number.NaN };
    expect(journeyOf(book.orders.get("o-1"), none, 24)).toEqual({ hours: 36, temperatureC: 25, assumed: [] });
    expect(journeyOf(undefined, { hours: 10, temperatureC: 20 }, 24)).toMatchObject({
      hours: 10,
      temperatureC: 20,
    });
    expect(journeyOf(undefined, none, 23)).toMatchObject({ hours: 24, temperatureC: 23 });
    expect(journeyOf(undefined, none, Number.NaN).assumed).toHaveLength(2);
  });
});
