/**
 * A closed bag of fish: what is left of the oxygen, and what has come into the water.
 *
 * Mass balance of oxygen and carbon dioxide over water and gas, which stand in equilibrium: Henry's law
 * (Benson & Krause 1984 for oxygen, Plummer & Busenberg 1982 for CO2) and the ideal gas law. A carried bag is
 * shaken; in one that lies still the water is poorer in oxygen and richer in CO2 than this. The bag is slack,
 * so that its gas stays at the pressure around it and shrinks. Nitrogen stays in the gas. Each mole of ammonia
 * given off keeps one of bicarbonate in the water, so that the alkalinity rises by it. The fish use oxygen at
 * one rate throughout; below some oxygen they cannot, which is why the least is the caller's to state.
 *
 * CO2, pH and free ammonia are for fresh water, activities 1: the constants of salted water are others.
 */

import { pHFromCO2 } from "./aeration.ts";
import { DILUTE_G_PER_KG, unionisedFraction } from "./ammonia.ts";
import { CO2_G_PER_MOL, co2MgL, logKHenry } from "./carbonate.ts";
import { negative, notPositive } from "./given.ts";
import { rootByHalving } from "./halving.ts";
import { OXYGEN_IN_AIR, oxygenPerAtmMgL, oxygenSaturationMgL, vapourPressureAtm } from "./oxygen.ts";
import { ammoniaMgN, groupOxygenMgPerH } from "./respiration.ts";
import { beyond, type Figure, isOutside, map, type Outside, outside } from "./result.ts";

/** L atm/(mol K), CODATA (recalled). */
const GAS_CONSTANT = 0.08205737;
const KELVIN = 273.15;
const O2_MG_PER_MMOL = 31.998;
const N_MG_PER_MMOL = 14.007;

export interface Bag {
  /** Without the fish. */
  readonly waterL: number;
  readonly gasL: number;
  readonly gas: "oxygen" | "air";
  readonly pressureAtm: number;
  readonly temperatureC: number;
  readonly salinityGPerKg: number;
  readonly count: number;
  readonly massG: number;
  /** How many times the resting rate the fish use, 1 or more. */
  readonly activity: number;
  /** Moles of nitrogen given off per mole of oxygen (`respiration.ts`). */
  readonly nitrogenPerOxygen: number;
  readonly co2PerOxygen: number;
  /** The water as packed. */
  readonly alkalinityMeqL: number;
  readonly pH: number;
  readonly totalMgLN: number;
  /** Omitted: what air gives it. */
  readonly oxygenMgL?: number;
}

export interface BagState {
  readonly hours: number;
  readonly oxygenMgL: number;
  readonly gasL: number;
  readonly totalMgLN: number;
  readonly alkalinityMeqL: number;
  readonly co2MgL: Figure;
  readonly pH: Figure;
  /** Free ammonia as N at the pH of the closed bag. */
  readonly freeMgLN: Figure;
}

/** The bag after some hours; a reason when the oxygen does not last so long. */
export function bagAfter(bag: Bag, hours: number): BagState | Outside {
  const packed = pack(bag);
  if (isOutside(packed)) return packed;
  const refused = negative("time", hours, "h");
  if (refused !== undefined) return refused;
  const lasts = packed.oxygenMmol / packed.useMmolPerH;
  if (!(hours < lasts || hours === 0)) {
    return outside(`the oxygen is used up after ${lasts.toPrecision(2)} h at most`);
  }
  const used = packed.useMmolPerH * hours;
  const nitrogen = used * bag.nitrogenPerOxygen;
  const carbon = map(packed.co2Mmol, (atFirst) => atFirst + used * bag.co2PerOxygen - nitrogen);
  const oxygenMmol = packed.oxygenMmol - used;
  const gasL = gasVolumeL(packed, oxygenMmol, isOutside(carbon) ? used * bag.co2PerOxygen : carbon);
  const dissolved = (mmol: number, solubility: number) =>
    (mmol * solubility) / (bag.waterL * solubility + gasL / packed.molarL);
  const totalMgLN = bag.totalMgLN + (nitrogen * N_MG_PER_MMOL) / bag.waterL;
  const alkalinityMeqL = bag.alkalinityMeqL + nitrogen / bag.waterL;
  const co2 = map(carbon, (mmol) => dissolved(mmol, packed.co2PerAtm) * CO2_G_PER_MOL);
  const pH = isOutside(co2) ? co2 : pHFromCO2(alkalinityMeqL, co2, bag.temperatureC);
  const share = isOutside(pH) ? pH : unionisedFraction(pH, bag.temperatureC, bag.salinityGPerKg);
  return {
    hours,
    oxygenMgL: dissolved(oxygenMmol, packed.oxygenPerAtm) * O2_MG_PER_MMOL,
    gasL,
    totalMgLN,
    alkalinityMeqL,
    co2MgL: co2,
    pH,
    freeMgLN: map(share, (part) => part * totalMgLN),
  };
}

/** Hours until the oxygen in the water has come down to a least that the keeper states. */
export function hoursUntilOxygen(bag: Bag, leastMgL: number): Figure {
  const packed = pack(bag);
  if (isOutside(packed)) return packed;
  const refused = negative("least oxygen", leastMgL, "mg/L") ?? notPositive("number of fish", bag.count);
  if (refused !== undefined) return refused;
  const at = (hours: number): number => (bagAfter(bag, hours) as BagState).oxygenMgL;
  if (at(0) <= leastMgL) return 0;
  const lasts = packed.oxygenMmol / packed.useMmolPerH;
  return rootByHalving(0, lasts, (hours) => (hours < lasts ? leastMgL - at(hours) : 1));
}

interface Packed {
  readonly oxygenMmol: number;
  readonly nitrogenMmol: number;
  /** Free CO2 of the water. */
  readonly co2Mmol: Figure;
  readonly useMmolPerH: number;
  /** mmol/(L atm) */
  readonly oxygenPerAtm: number;
  readonly co2PerAtm: number;
  /** Litres of one mmol of gas at 1 atm. */
  readonly molarL: number;
  readonly dryAtm: number;
  readonly waterL: number;
}

function pack(bag: Bag): Packed | Outside {
  const { temperatureC, salinityGPerKg, pressureAtm } = bag;
  const refused =
    notPositive("water", bag.waterL, "L") ??
    negative("gas", bag.gasL, "L") ??
    negative("total ammonia", bag.totalMgLN, "mg/L N") ??
    negative("alkalinity", bag.alkalinityMeqL, "meq/L") ??
    negative("oxygen", bag.oxygenMgL ?? 0, "mg/L") ??
    beyond("CO2 per oxygen", bag.co2PerOxygen, 0.5, 1.5);
  if (refused !== undefined) return refused;
  const underAir = oxygenSaturationMgL(temperatureC, salinityGPerKg, pressureAtm);
  const perAtm = oxygenPerAtmMgL(temperatureC, salinityGPerKg);
  const use = groupOxygenMgPerH(bag.count, bag.massG, temperatureC, bag.activity);
  const vapour = vapourPressureAtm(temperatureC);
  const henry = logKHenry(temperatureC);
  const ammonia = ammoniaMgN(1, bag.nitrogenPerOxygen);
  for (const figure of [underAir, perAtm, use, vapour, henry, ammonia]) if (isOutside(figure)) return figure;
  const molarL = (GAS_CONSTANT * (temperatureC + KELVIN)) / 1000;
  const dryAtm = pressureAtm - (vapour as number);
  const gasMmol = (bag.gasL * dryAtm) / molarL;
  const richness = bag.gas === "oxygen" ? 1 : OXYGEN_IN_AIR;
  const free =
    salinityGPerKg > DILUTE_G_PER_KG
      ? outside("CO2 and pH are computed in fresh water only")
      : co2MgL(bag.alkalinityMeqL, bag.pH, temperatureC);
  return {
    oxygenMmol: gasMmol * richness + ((bag.oxygenMgL ?? (underAir as number)) * bag.waterL) / O2_MG_PER_MMOL,
    nitrogenMmol: gasMmol * (1 - richness),
    co2Mmol: map(free, (mgL) => (mgL * bag.waterL) / CO2_G_PER_MOL),
    useMmolPerH: (use as number) / O2_MG_PER_MMOL,
    oxygenPerAtm: (perAtm as number) / O2_MG_PER_MMOL,
    co2PerAtm: 10 ** (henry as number) * 1000,
    molarL,
    dryAtm,
    waterL: bag.waterL,
  };
}

/** The volume at which the pressures of the gases make up the pressure around; 0 when all has dissolved. */
function gasVolumeL(packed: Packed, oxygenMmol: number, co2Mmol: number): number {
  const { waterL, molarL, dryAtm, nitrogenMmol } = packed;
  const most = ((oxygenMmol + co2Mmol + nitrogenMmol) * molarL) / dryAtm;
  const short = (gasL: number): number => {
    const amount = gasL / molarL;
    const gases =
      oxygenMmol / (amount + waterL * packed.oxygenPerAtm) + co2Mmol / (amount + waterL * packed.co2PerAtm);
    return dryAtm - gases - (nitrogenMmol === 0 ? 0 : nitrogenMmol / amount);
  };
  return nitrogenMmol === 0 && short(0) >= 0 ? 0 : rootByHalving(0, most, short);
}
