import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { unitOf } from "../../language/quantity/units.ts";
import { aeratedPH } from "../../language/science/aeration.ts";
import { unionisedFraction, unionisedFractionSeawater } from "../../language/science/ammonia.ts";
import { co2MgL, co2RuleMgL, logK1, logKHenry, pK1HarnedDavis } from "../../language/science/carbonate.ts";
import {
  copperAcuteDissolvedUgL,
  copperAcuteTotalUgL,
  copperChronicDissolvedUgL,
} from "../../language/science/copper.ts";
import { acuteAmmoniaMgLN, chronicAmmoniaMgLN, toSignificant } from "../../language/science/criteria.ts";
import { atoms, molarMass } from "../../language/science/elements.ts";
import {
  calciumMgL,
  MEQ_PER_DEGREE as fromQuantity,
  hardnessMeqL,
  hardnessMgLCaCO3,
} from "../../language/science/hardness.ts";
import {
  altitudeFactor,
  geopotentialM,
  oxygenSaturationMgL,
  oxygenSaturationShare,
  standardPressurePa,
} from "../../language/science/oxygen.ts";
import { isOutside } from "../../language/science/result.ts";
import {
  ionFraction,
  saltGramsToRaise,
  saltMgLPerDGH,
  saltMgLPerDKH,
  speciesMgL,
} from "../../language/science/salts.ts";
import {
  conductivityMSPerCm,
  densityKgPerM3,
  freezingPointC,
  ratioFromSalinity,
  salinityFromConductivity,
  salinityFromGravity,
  salinityFromRatio,
  specificGravity,
  t68FromC,
  volumeAnomaly,
} from "../../language/science/seawater.ts";

const warmth = fc.double({ min: 0, max: 35, noNaN: true });

describe("oxygen", () => {
  test("less in warmer, saltier and thinner air's water", () => {
    fc.assert(
      fc.property(warmth, fc.double({ min: 0, max: 38, noNaN: true }), (t, s) => {
        const here = oxygenSaturationMgL(t, s, 0.9) as number;
        expect(oxygenSaturationMgL(t + 1, s, 0.9)).toBeLessThan(here);
        expect(oxygenSaturationMgL(t, s + 1, 0.9)).toBeLessThan(here);
        expect(oxygenSaturationMgL(t, s, 0.89)).toBeLessThan(here);
        expect(oxygenSaturationShare(here, t, s, 0.9)).toBeCloseTo(1, 12);
      }),
    );
  });

  test("gives no figure where it was not measured", () => {
    for (const refused of [
      oxygenSaturationMgL(41),
      oxygenSaturationMgL(-0.1),
      oxygenSaturationMgL(20, 41),
      oxygenSaturationMgL(20, 0, 0.4),
      oxygenSaturationMgL(20, 0, 1.2),
      oxygenSaturationShare(8, 45),
      standardPressurePa(12_000),
      altitudeFactor(20_000),
    ]) {
      expect(isOutside(refused)).toBe(true);
    }
  });

  test("heights: pressure falls, a geometric height is a little more than its geopotential", () => {
    expect(standardPressurePa(0)).toBe(101325);
    expect(altitudeFactor(0)).toBe(1);
    expect(geopotentialM(2000)).toBeCloseTo(1999.37, 2);
  });
});

describe("carbonate", () => {
  test("two sets of constants agree within 0.003 from 0 to 40 C", () => {
    for (let t = 0; t <= 40; t += 2.5) {
      expect(Math.abs((logK1(t) as number) + (pK1HarnedDavis(t) as number))).toBeLessThan(0.0031);
    }
  });

  test("a pH lower by 0.3 is twice the CO2, and the common rule reads low beside it", () => {
    const co2 = co2MgL(1.5, 7, 25) as number;
    expect((co2MgL(1.5, 7 - Math.log10(2), 25) as number) / co2).toBeCloseTo(2, 9);
    const degrees = 1.5 / fromQuantity;
    expect(co2RuleMgL(degrees, 7) / co2).toBeCloseTo(0.85, 2);
    expect(co2RuleMgL(degrees, 7) / (co2MgL(1.5, 7, 20) as number)).toBeCloseTo(0.79, 2);
  });

  test("water in equilibrium with air holds what Henry's law says", () => {
    fc.assert(
      fc.property(warmth, fc.double({ min: 0.1, max: 5, noNaN: true }), (t, alkalinity) => {
        const pH = aeratedPH(alkalinity, t, 600) as number;
        fc.pre(pH < 8.3);
        const dissolved = 10 ** (logKHenry(t) as number) * 600e-6 * 44009;
        // The one knows bicarbonate only, the other carbonate too: at pH 8.3 that is 2 %.
        expect(Math.abs((co2MgL(alkalinity, pH, t) as number) / dissolved - 1)).toBeLessThan(0.025);
      }),
    );
    // 1 meq/L at 25 C in outdoor air stands near 8.2 (Stumm & Morgan, Aquatic Chemistry; memory).
    expect(aeratedPH(1, 25, 400)).toBeCloseTo(8.22, 1);
  });

  test("gives no figure outside its ranges", () => {
    for (const refused of [
      co2MgL(1, 8.5, 25),
      co2MgL(1, 4, 25),
      co2MgL(1, 7, 95),
      logK1(-1),
      aeratedPH(1, 99, 400),
    ]) {
      expect(isOutside(refused)).toBe(true);
    }
  });
});

describe("salts", () => {
  test("atoms with brackets and water", () => {
    expect(atoms("Ca(HCO3)2")).toEqual(
      new Map([
        ["Ca", 1],
        ["H", 2],
        ["C", 2],
        ["O", 6],
      ]),
    );
    expect(atoms("MgSO4.7H2O")).toEqual(
      new Map([
        ["Mg", 1],
        ["S", 1],
        ["O", 11],
        ["H", 14],
      ]),
    );
    expect(molarMass("Ca(HCO3)2")).toBeCloseTo(40.078 + 2 * (1.008 + 12.011 + 3 * 15.999), 10);
    for (const wrong of ["", "Xx", "Ca(", "Ca)", "caco3", "CaCO3.", "Ca-Cl", "((H)"]) {
      expect(isOutside(molarMass(wrong)), wrong).toBe(true);
    }
  });

  test("water of crystallisation weighs, and brings nothing", () => {
    const dry = saltMgLPerDGH("MgSO4") as number;
    const wet = saltMgLPerDGH("MgSO4.7H2O") as number;
    expect(wet / dry).toBeCloseTo((molarMass("MgSO4.7H2O") as number) / (molarMass("MgSO4") as number), 12);
  });

  test("what raises a degree is a degree of it: calcium chloride for GH, bicarbonate for KH", () => {
    const grams = saltGramsToRaise("CaCl2.2H2O", 100, 4, "GH") as number;
    const calcium = ((ionFraction("CaCl2.2H2O", "Ca") as number) * grams * 1000) / 100;
    expect(hardnessMeqL(calcium, 0) / fromQuantity).toBeCloseTo(4, 10);
    const bicarbonate = saltMgLPerDKH("NaHCO3") as number;
    expect(bicarbonate / (molarMass("NaHCO3") as number)).toBeCloseTo(fromQuantity, 10);
    expect(saltMgLPerDKH("CaCO3")).toBeCloseTo(saltMgLPerDGH("CaCO3") as number, 12);
  });

  test("a salt that brings none says so", () => {
    for (const refused of [
      saltMgLPerDGH("NaCl"),
      saltMgLPerDKH("KNO3"),
      saltMgLPerDGH("unobtainium"),
      ionFraction("KNO3", "Mg"),
      ionFraction("KNO3", "??"),
      speciesMgL(1, "N", "PO4"),
      speciesMgL(1, "N", "?"),
    ]) {
      expect(isOutside(refused)).toBe(true);
    }
  });

  test("the parts of a salt make the whole", () => {
    for (const [salt, ...ions] of [
      ["KNO3", "K", "NO3"],
      ["K2SO4", "K", "SO4"],
      ["CaCl2", "Ca", "Cl"],
      ["Na2CO3", "Na", "CO3"],
    ] as const) {
      const sum = ions.reduce((all, ion) => all + (ionFraction(salt, ion) as number), 0);
      expect(sum, salt).toBeCloseTo(1, 12);
    }
    expect(ionFraction("KH2PO4", "P")).toBeCloseTo(30.973761998 / 136.084, 5);
  });

  test("species go there and back", () => {
    for (const [from, to] of [
      ["N", "NO3"],
      ["NH4", "NO2"],
      ["P", "PO4"],
      ["P", "P2O5"],
      ["CaCO3", "Ca"],
    ] as const) {
      const there = speciesMgL(2, from, to) as number;
      expect(speciesMgL(there, to, from)).toBeCloseTo(2, 12);
    }
  });

  test("hardness agrees with the units the log converts by", () => {
    expect(unitOf("dGH").factor).toBeCloseTo(fromQuantity, 14);
    expect(1 / unitOf("mg/L CaCO3").factor).toBeCloseTo(
      hardnessMgLCaCO3(calciumMgL(1) as number, 0) as number,
      10,
    );
    expect(unitOf("mg/L N").basis).toBe("N");
  });
});

describe("brackish and sea water", () => {
  const salt = fc.double({ min: 2.5, max: 41, noNaN: true });
  const t = fc.double({ min: 0, max: 34, noNaN: true });

  test("conductivity and salinity undo each other", () => {
    fc.assert(
      fc.property(salt, t, (s, c) => {
        expect(salinityFromRatio(ratioFromSalinity(s, c) as number, c)).toBeCloseTo(s, 8);
        expect(salinityFromConductivity(conductivityMSPerCm(s, c) as number, c)).toBeCloseTo(s, 8);
      }),
    );
  });

  test("specific gravity and salinity undo each other, with the same pair of temperatures", () => {
    fc.assert(
      fc.property(salt, t, fc.constantFrom(4, 15, 20, 25), (s, c, reference) => {
        const gravity = specificGravity(s, c, reference) as number;
        expect(salinityFromGravity(gravity, c, reference)).toBeCloseTo(s, 6);
      }),
    );
    expect(specificGravity(35, 25, 25)).toBeCloseTo(1.0264, 4);
    expect(specificGravity(35, 25, 4)).toBeCloseTo(1.0234, 4);
  });

  test("gives no figure outside the equations of state", () => {
    for (const refused of [
      densityKgPerM3(43, 20),
      densityKgPerM3(35, 41),
      volumeAnomaly(35, -3),
      salinityFromGravity(1.2, 25, 25),
      salinityFromGravity(1.02, 60, 25),
      ratioFromSalinity(43, 20),
      salinityFromConductivity(80, 20),
      conductivityMSPerCm(35, 40),
      freezingPointC(2),
    ]) {
      expect(isOutside(refused)).toBe(true);
    }
    expect(t68FromC(25)).toBeCloseTo(25.006, 12);
  });
});

describe("criteria", () => {
  test("ammonia: stricter with warmth and pH, strictest where trout live; the chronic below the acute", () => {
    for (const pH of [6.5, 7, 7.6, 8.2, 9]) {
      for (const c of [0, 10, 20, 30]) {
        const present = acuteAmmoniaMgLN(pH, c, true) as number;
        const absent = acuteAmmoniaMgLN(pH, c, false) as number;
        expect(present).toBeLessThanOrEqual(absent);
        expect(chronicAmmoniaMgLN(pH, c)).toBeLessThan(present);
      }
    }
    expect(isOutside(acuteAmmoniaMgLN(6.4, 20, true))).toBe(true);
    expect(isOutside(chronicAmmoniaMgLN(7, 31))).toBe(true);
    expect(toSignificant(0, 2)).toBe(0);
    expect(toSignificant(16.7602, 2)).toBe(17);
  });

  test("copper: harder water bears more, between 25 and 400 only", () => {
    expect(copperAcuteTotalUgL(200)).toBeGreaterThan(copperAcuteTotalUgL(50) as number);
    expect(copperChronicDissolvedUgL(100)).toBeLessThan(copperAcuteDissolvedUgL(100) as number);
    expect(isOutside(copperAcuteTotalUgL(24))).toBe(true);
    expect(isOutside(copperAcuteTotalUgL(401))).toBe(true);
  });

  test("un-ionised ammonia in sea water is less than in fresh water of the same pH and warmth", () => {
    for (const c of [5, 15, 25]) {
      expect(unionisedFractionSeawater(8, c, 34)).toBeLessThan(unionisedFraction(8, c) as number);
    }
    expect(isOutside(unionisedFractionSeawater(8, 30, 34))).toBe(true);
    expect(isOutside(unionisedFractionSeawater(8, 20, 10))).toBe(true);
  });
});
