import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ionActivity, ionicStrengthOf } from "../../language/science/activity.ts";
import { aeratedPH, co2AtAirMgL, pHFromCO2 } from "../../language/science/aeration.ts";
import { co2MgL, co2RuleMgL, co2RuleShare } from "../../language/science/carbonate.ts";
import { MEQ_PER_DEGREE } from "../../language/science/hardness.ts";
import {
  atmFromHPa,
  atmFromMmHg,
  oxygenFromShareMgL,
  oxygenPerAtmMgL,
  oxygenSaturationMgL,
  oxygenSaturationShare,
  stationPressureAtm,
  vapourPressureAtm,
} from "../../language/science/oxygen.ts";
import { isOutside } from "../../language/science/result.ts";

const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("carbon dioxide and pH", () => {
  test("rain in outdoor air of 400 ppm has pH 5.6, the textbook figure", () => {
    expect(aeratedPH(0, 25, 400)).toBeCloseTo(5.61, 1);
  });

  test("river water of 1 meq/L in air of 10^-3.5 atm stands at pH 8.3 (Stumm & Morgan, Aquatic Chemistry; recalled)", () => {
    expect(aeratedPH(1, 25, 10 ** -3.5 * 1e6)).toBeCloseTo(8.3, 1);
  });

  test("cold water holds more CO2 from the same air: 0.034 mol/(L atm) at 25 C as compiled for Henry's law", () => {
    // Sander 2023, Atmos. Chem. Phys. 23:10901: 3.3e-4 to 3.4e-4 mol/(m3 Pa) of the reviewed sources.
    const perAtm = (co2AtAirMgL(25, 1e6) as number) / 44.009 / 1000;
    expect(perAtm).toBeGreaterThan(3.3e-4 * 101.325 * 0.99);
    expect(perAtm).toBeLessThan(3.4e-4 * 101.325 * 1.01);
    fc.assert(
      fc.property(double(0, 39), double(100, 5000), (c, ppm) => {
        expect(co2AtAirMgL(c, ppm) as number).toBeGreaterThan(co2AtAirMgL(c + 1, ppm) as number);
      }),
    );
  });

  test("pH and CO2 undo each other where alkalinity is bicarbonate", () => {
    fc.assert(
      fc.property(
        double(0.3, 6),
        double(5.8, 7.8),
        double(0, 35),
        double(0, 0.02),
        (alkalinity, pH, c, I) => {
          const co2 = co2MgL(alkalinity, pH, c, I) as number;
          // Up to 0.7 % of carbonate and of acid themselves, which is 0.003 in pH.
          expect(Math.abs((pHFromCO2(alkalinity, co2, c, I) as number) - pH)).toBeLessThan(0.006);
        },
      ),
    );
  });

  test("more CO2 lowers pH, more alkalinity raises it", () => {
    fc.assert(
      fc.property(double(0, 8), double(0.2, 200), double(0, 40), (alkalinity, co2, c) => {
        const pH = pHFromCO2(alkalinity, co2, c) as number;
        expect(pHFromCO2(alkalinity, co2 * 1.1, c)).toBeLessThan(pH);
        expect(pHFromCO2(alkalinity + 0.1, co2, c)).toBeGreaterThan(pH);
      }),
    );
  });

  test("the common rule has 85 % of the equilibrium at 25 C and 79 % at 20 C, whatever the water", () => {
    expect(co2RuleShare(25)).toBeCloseTo(0.85, 2);
    expect(co2RuleShare(20)).toBeCloseTo(0.79, 2);
    fc.assert(
      fc.property(double(0.5, 15), double(5, 8.2), double(0, 35), (degrees, pH, c) => {
        const equilibrium = co2MgL(degrees * MEQ_PER_DEGREE, pH, c) as number;
        expect(co2RuleMgL(degrees, pH) / equilibrium).toBeCloseTo(co2RuleShare(c) as number, 9);
      }),
    );
  });

  test("ions make it read lower: 12 % in hard tap water of 900 uS/cm, 4 % in soft of 60", () => {
    const [hard, soft] = [ionicStrengthOf(900) as number, ionicStrengthOf(60) as number];
    expect((co2MgL(4, 7.2, 25, hard) as number) / (co2MgL(4, 7.2, 25) as number)).toBeCloseTo(0.885, 2);
    expect((co2MgL(1, 7.2, 25, soft) as number) / (co2MgL(1, 7.2, 25) as number)).toBeCloseTo(0.965, 2);
    // Sodium chloride 0.01 and 0.1 mol/kg at 25 C: 0.902 and 0.778 (Robinson & Stokes; recalled).
    expect(ionActivity(0.01)).toBeCloseTo(0.902, 2);
    expect(ionActivity(0.1)).toBeCloseTo(0.778, 2);
  });

  test("outside gives a reason", () => {
    for (const refused of [
      pHFromCO2(-1, 5, 25),
      pHFromCO2(1, 0, 25),
      pHFromCO2(1, 5, -3),
      pHFromCO2(1, 5, 25, 0.2),
      pHFromCO2(Number.NaN, 5, 25),
      aeratedPH(1, 25, -400),
      co2MgL(-1, 7, 25),
      co2MgL(1, 7, 25, -0.1),
      ionicStrengthOf(5000),
      ionicStrengthOf(-1),
    ]) {
      expect(isOutside(refused)).toBe(true);
    }
  });
});

/** Oxygen by Weiss 1970, Deep-Sea Res. 17:721-735, Bunsen coefficient in fresh water (recalled). */
function weissPerAtmMgL(c: number): number {
  const t = (c + 273.15) / 100;
  return Math.exp(-58.3877 + 85.8079 / t + 23.8439 * Math.log(t)) * 1429.03;
}

describe("oxygen under other pressures and gases", () => {
  test("under pure oxygen as an older measurement of its solubility", () => {
    for (const c of [0, 10, 20, 25, 30]) {
      expect((oxygenPerAtmMgL(c) as number) / weissPerAtmMgL(c)).toBeCloseTo(1, 2);
    }
  });

  test("vapour pressure of water: 17.5 mmHg at 20 C, 23.8 at 25 C (CRC Handbook; recalled)", () => {
    expect(vapourPressureAtm(20)).toBeCloseTo(atmFromMmHg(17.535), 4);
    expect(vapourPressureAtm(25)).toBeCloseTo(atmFromMmHg(23.756), 4);
  });

  test("1013.25 hPa and 760 mmHg are one atmosphere", () => {
    expect(atmFromHPa(1013.25)).toBe(1);
    expect(atmFromMmHg(760)).toBeCloseTo(1, 6);
  });

  test("a report of 1020 hPa is 915 hPa in a fish room at 900 m", () => {
    const there = stationPressureAtm(1020, 900) as number;
    expect(there * 1013.25).toBeCloseTo(915.8, 0);
    const [real, wrong] = [oxygenSaturationMgL(25, 0, there), oxygenSaturationMgL(25, 0, atmFromHPa(1020))];
    expect((wrong as number) / (real as number)).toBeGreaterThan(1.1);
    expect(stationPressureAtm(1013.25, 0)).toBe(1);
  });

  test("percent and mg/L undo each other", () => {
    fc.assert(
      fc.property(double(0, 2), double(0, 40), double(0, 40), double(0.5, 1.1), (share, c, s, p) => {
        const mgL = oxygenFromShareMgL(share, c, s, p) as number;
        expect(oxygenSaturationShare(mgL, c, s, p)).toBeCloseTo(share, 10);
      }),
    );
  });

  test("outside gives a reason", () => {
    for (const refused of [
      oxygenPerAtmMgL(41),
      oxygenPerAtmMgL(20, -1),
      oxygenFromShareMgL(-0.1, 20),
      oxygenSaturationShare(Number.NaN, 20),
      stationPressureAtm(0, 100),
      stationPressureAtm(1013, 20_000),
      vapourPressureAtm(-1),
    ]) {
      expect(isOutside(refused)).toBe(true);
    }
  });
});
