import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Bag, type BagState, bagAfter, hoursUntilOxygen } from "../../language/science/bag.ts";
import { type OpenedBag, openBag } from "../../language/science/bag-opening.ts";
import { logKHenry } from "../../language/science/carbonate.ts";
import { oxygenPerAtmMgL, oxygenSaturationMgL, vapourPressureAtm } from "../../language/science/oxygen.ts";
import {
  ammoniaMgN,
  CO2_PER_OXYGEN,
  co2Mg,
  groupOxygenMgPerH,
  loadGPerL,
  NITROGEN_PER_OXYGEN,
  rateAtTemperature,
  restingOxygenMgPerH,
} from "../../language/science/respiration.ts";
import { isOutside } from "../../language/science/result.ts";

const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const resting = (mass: number, c: number) => restingOxygenMgPerH(mass, c) as number;

/** Sixty zebrafish of half a gram in a litre under a litre of oxygen: 30 g/L, the load said to last a day. */
const zebrafish: Bag = {
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
const stateAfter = (bag: Bag, hours: number) => bagAfter(bag, hours) as BagState;

describe("oxygen that fish use", () => {
  test("as the abstract says: six times as much at 30 C as at 0 C, mean Q10 1.83", () => {
    expect(resting(50, 30) / resting(50, 0)).toBeCloseTo(6.16, 1);
    expect((resting(50, 30) / resting(50, 0)) ** (1 / 3)).toBeCloseTo(1.83, 2);
  });

  test("it lies within the spread of its own general equation, ln R = 0.80 ln M - 5.43", () => {
    // The general equation pools all temperatures of 0 to 30 C, so it lies between those two.
    for (const mass of [1, 50, 500]) {
      const pooled = Math.exp(0.8 * Math.log(mass) - 5.43) * 31.998;
      expect(pooled).toBeGreaterThan(resting(mass, 0));
      expect(pooled).toBeLessThan(resting(mass, 30));
    }
  });

  test("many small fish use more than few large ones of the same mass", () => {
    fc.assert(
      fc.property(double(0.1, 500), double(0, 29), (mass, c) => {
        const two = groupOxygenMgPerH(2, mass, c, 1) as number;
        expect(two).toBeGreaterThan(resting(2 * mass, c));
        expect(resting(mass, c + 1)).toBeGreaterThan(resting(mass, c));
        expect(groupOxygenMgPerH(2, mass, c, 3)).toBeCloseTo(3 * two, 8);
      }),
    );
  });

  test("10 C warmer is twice the rate, 10 C colder half", () => {
    expect(rateAtTemperature(4, 18, 28)).toBe(8);
    expect(rateAtTemperature(4, 28, 18)).toBe(2);
    expect(isOutside(rateAtTemperature(4, 28, -3))).toBe(true);
  });

  test("32 mg of oxygen burnt with protein alone leave 3.8 mg of nitrogen, and 37 of CO2", () => {
    expect(ammoniaMgN(31.998, 0.27)).toBeCloseTo(0.27 * 14.007, 9);
    expect(co2Mg(31.998, 0.85)).toBeCloseTo(0.85 * 44.009, 9);
    expect(loadGPerL(60, 0.5, 1)).toBe(30);
  });

  test("fish of no mass, colder than the data, or calmer than at rest are refused", () => {
    for (const refused of [
      restingOxygenMgPerH(0, 20),
      restingOxygenMgPerH(-1, 20),
      restingOxygenMgPerH(1, -1),
      restingOxygenMgPerH(1, 31),
      groupOxygenMgPerH(-1, 1, 20, 1),
      groupOxygenMgPerH(1, 1, 20, 0.5),
      ammoniaMgN(1, 2),
      loadGPerL(1, 1, 0),
    ]) {
      expect(isOutside(refused)).toBe(true);
    }
  });
});

describe("a closed bag", () => {
  test("30 g/L of zebrafish last the day they are packed for, under oxygen but not under air", () => {
    const day = stateAfter(zebrafish, 24);
    expect(day.oxygenMgL).toBeGreaterThan(10);
    expect(hoursUntilOxygen(zebrafish, 5)).toBeGreaterThan(24);
    expect(hoursUntilOxygen({ ...zebrafish, gas: "air" }, 5)).toBeLessThan(24);
    // The pH falls, ammonia reaches milligrams and stays bound: why they live.
    expect(day.pH).toBeLessThan(7);
    expect(day.totalMgLN).toBeGreaterThan(5);
    expect(day.totalMgLN).toBeLessThan(60);
    expect(day.freeMgLN).toBeLessThan(0.1);
  });

  test("twenty guppies in 0.4 L at 25 C for 24 h, the standard test load, stay far from want of oxygen", () => {
    // Mass of a guppy and a third of water to two of oxygen: common practice, no source.
    const guppies = { ...zebrafish, waterL: 0.4, gasL: 0.8, temperatureC: 25, count: 20, massG: 0.4 };
    expect(stateAfter(guppies, 24).oxygenMgL).toBeGreaterThan(20);
    expect(hoursUntilOxygen(guppies, 5)).toBeGreaterThan(48);
  });

  test("agrees with the same bag followed in small steps, gas and water exchanging fast", () => {
    for (const bag of [zebrafish, { ...zebrafish, gas: "air" as const, gasL: 3, pressureAtm: 0.8 }]) {
      const { oxygenMgL, co2MgL, gasL } = stateAfter(bag, 12);
      const stepped = inSteps(bag, 12);
      expect(stepped.oxygenMgL / oxygenMgL).toBeCloseTo(1, 2);
      expect(stepped.co2MgL / (co2MgL as number)).toBeCloseTo(1, 2);
      expect(stepped.gasL / gasL).toBeCloseTo(1, 3);
    }
  });

  test("oxygen falls, ammonia and CO2 rise, by the hour, the load and the warmth", () => {
    fc.assert(
      fc.property(
        double(0.5, 8),
        fc.integer({ min: 1, max: 40 }),
        double(5, 28),
        fc.constantFrom<"oxygen" | "air">("oxygen", "air"),
        (hours, count, temperatureC, gas) => {
          const bag = { ...zebrafish, count, temperatureC, gas };
          const late = bagAfter(bag, hours);
          fc.pre(!isOutside(late));
          const [early, fuller] = [stateAfter(bag, hours / 2), bagAfter({ ...bag, count: count + 1 }, hours)];
          expect(late.oxygenMgL).toBeLessThan(early.oxygenMgL);
          expect(late.totalMgLN).toBeGreaterThan(early.totalMgLN);
          expect(late.co2MgL).toBeGreaterThan(early.co2MgL as number);
          expect(late.gasL).toBeLessThan(early.gasL);
          if (!isOutside(fuller)) expect(fuller.oxygenMgL).toBeLessThan(late.oxygenMgL);
        },
      ),
    );
  });

  test("no oxygen is made or lost: what was packed is used, in the gas or in the water", () => {
    fc.assert(
      fc.property(double(0.2, 3), double(0, 20), double(5, 29), (gasL, hours, temperatureC) => {
        const bag = { ...zebrafish, gasL, temperatureC };
        const state = bagAfter(bag, hours);
        fc.pre(!isOutside(state));
        const molar = (0.08205737 * (temperatureC + 273.15)) / 31.998;
        const dry = 1 - (vapourPressureAtm(temperatureC) as number);
        const packed =
          ((gasL * dry) / molar) * 1000 + (oxygenSaturationMgL(temperatureC) as number) * bag.waterL;
        const partial = state.oxygenMgL / (oxygenPerAtmMgL(temperatureC) as number);
        const left = ((state.gasL * partial) / molar) * 1000 + state.oxygenMgL * bag.waterL;
        const used = (groupOxygenMgPerH(60, 0.5, temperatureC, 2) as number) * hours;
        expect((left + used) / packed).toBeCloseTo(1, 6);
      }),
    );
  });

  test("an hour that is asked for is the hour at which the least is reached", () => {
    const hours = hoursUntilOxygen(zebrafish, 6) as number;
    expect(stateAfter(zebrafish, hours).oxygenMgL).toBeCloseTo(6, 6);
    expect(isOutside(bagAfter(zebrafish, hours * 10))).toBe(true);
    expect(hoursUntilOxygen({ ...zebrafish, gas: "air", gasL: 0 }, 9)).toBe(0);
  });

  test("salted water has its oxygen, and a reason in place of pH", () => {
    const salted = stateAfter({ ...zebrafish, salinityGPerKg: 5 }, 12);
    expect(salted.oxygenMgL).toBeLessThan(stateAfter(zebrafish, 12).oxygenMgL);
    expect(isOutside(salted.pH) && isOutside(salted.freeMgLN)).toBe(true);
  });

  test("a bag that cannot be gives a reason", () => {
    const wrong: readonly Partial<Bag>[] = [
      { waterL: 0 },
      { waterL: Number.NaN },
      { gasL: -1 },
      { temperatureC: -2 },
      { temperatureC: 35 },
      { massG: 0 },
      { count: -3 },
      { activity: 0 },
      { pressureAtm: 0.2 },
      { totalMgLN: -1 },
      { alkalinityMeqL: Number.NaN },
      { oxygenMgL: -1 },
      { nitrogenPerOxygen: 3 },
      { co2PerOxygen: 0 },
      { salinityGPerKg: 50 },
    ];
    for (const part of wrong) expect(isOutside(bagAfter({ ...zebrafish, ...part }, 5))).toBe(true);
    expect(isOutside(bagAfter(zebrafish, -1))).toBe(true);
    expect(isOutside(hoursUntilOxygen(zebrafish, Number.NaN))).toBe(true);
    expect(isOutside(hoursUntilOxygen({ ...zebrafish, count: 0 }, 5))).toBe(true);
    // Packing water above pH 8.3: the oxygen still stands.
    const hard = stateAfter({ ...zebrafish, pH: 8.6 }, 5);
    expect(hard.oxygenMgL).toBeGreaterThan(10);
    expect(isOutside(hard.pH)).toBe(true);
  });
});

describe("opening a bag", () => {
  const tank = { litres: 1, totalMgLN: 0, pH: 8, temperatureC: 24, salinityGPerKg: 0 };
  const state = stateAfter(zebrafish, 24);
  const opened = openBag(zebrafish, state, tank, 600) as OpenedBag;

  test("aerated, the same ammonia is ten times as free and more: the known jump", () => {
    expect(opened.aeratedPH as number).toBeGreaterThan((state.pH as number) + 1);
    expect(opened.aeratedMgLN as number).toBeGreaterThan(10 * (opened.closedMgLN as number));
  });

  test("tank water of pH 8 poured in halves the total and may still multiply what is free", () => {
    if (isOutside(opened.mixed)) throw new Error(opened.mixed.outside);
    expect(opened.mixed.totalMgLN).toBeCloseTo(state.totalMgLN / 2, 9);
    expect(opened.mixed.mayRise).toBe(true);
    expect(opened.mixed.freeIfPHStaysMgLN).toBeLessThan(opened.closedMgLN as number);
  });

  test("what is not known of the bag is not known of the mixture", () => {
    const salted = { ...zebrafish, salinityGPerKg: 5 };
    const unknown = openBag(salted, stateAfter(salted, 24), tank, 600);
    expect(isOutside(unknown.aeratedPH) && isOutside(unknown.aeratedMgLN) && isOutside(unknown.mixed)).toBe(
      true,
    );
    expect(isOutside(openBag(zebrafish, state, { ...tank, litres: -1 }, 600).mixed)).toBe(true);
    expect(isOutside(openBag(zebrafish, state, tank, 0).aeratedPH)).toBe(true);
  });
});

/** Oxygen, CO2 and nitrogen in gas and water, exchanged in proportion to how far they are from equilibrium. */
function inSteps(bag: Bag, hours: number) {
  const { temperatureC: c, waterL } = bag;
  const molar = (0.08205737 * (c + 273.15)) / 1000;
  const dry = bag.pressureAtm - (vapourPressureAtm(c) as number);
  const rich = bag.gas === "oxygen" ? 1 : 0.20946;
  const gasMmol = (bag.gasL * dry) / molar;
  const use = (groupOxygenMgPerH(bag.count, bag.massG, c, bag.activity) as number) / 31.998;
  const solubility = {
    o2: (oxygenPerAtmMgL(c) as number) / 31.998,
    co2: 10 ** (logKHenry(c) as number) * 1000,
  };
  // 10^(pK1 - pH) of the alkalinity is free CO2 at packing; pK1 at 24 C is 6.358 (Harned & Davis 1943).
  const packedCO2 =
    bag.alkalinityMeqL * 10 ** (3404.71 / (c + 273.15) + 0.032786 * (c + 273.15) - 14.8435 - bag.pH);
  const gas = { o2: gasMmol * rich, co2: 0, n2: gasMmol * (1 - rich) };
  const water = {
    o2: ((oxygenSaturationMgL(c, 0, bag.pressureAtm) as number) / 31.998) * waterL,
    co2: packedCO2 * waterL,
  };
  const step = 0.0002;
  const exchangePerH = 2000;
  for (let time = 0; time < hours; time += step) {
    const volume = ((gas.o2 + gas.co2 + gas.n2) * molar) / dry;
    for (const kind of ["o2", "co2"] as const) {
      const atRest = (gas[kind] * molar * solubility[kind] * waterL) / volume;
      const moved = exchangePerH * (atRest - water[kind]) * step;
      gas[kind] -= moved;
      water[kind] += moved;
    }
    water.o2 -= use * step;
    water.co2 += use * (bag.co2PerOxygen - bag.nitrogenPerOxygen) * step;
  }
  return {
    // At a steady use the water lags behind the gas by use over exchange, which the bag in equilibrium does not.
    oxygenMgL: ((water.o2 + use / exchangePerH) / waterL) * 31.998,
    co2MgL: (water.co2 / waterL) * 44.009,
    gasL: ((gas.o2 + gas.co2 + gas.n2) * molar) / dry,
  };
}
