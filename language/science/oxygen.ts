/**
 * Oxygen that water holds at equilibrium with air: Benson & Krause 1984, Limnol. Oceanogr. 29:620-632, as
 * adopted in USGS Office of Water Quality Technical Memorandum 2011.03: 0 to 40 C, salinity 0 to 40, 0.5 to
 * 1.1 atm. The coefficients of water vapour pressure were recalled, not re-read.
 */
import { negative, notPositive } from "./given.ts";
import { beyond, type Figure, isOutside, map, type Outside } from "./result.ts";

const KELVIN = 273.15;
/** 1 atm, exact; 1 mmHg = 133.322368 Pa (NIST SP 811). */
const PA_PER_ATM = 101325;
const PA_PER_MMHG = 133.322368;
/** Oxygen in dry air, by volume, as Benson & Krause take it (recalled). */
export const OXYGEN_IN_AIR = 0.20946;

/**
 * Saturation concentration.
 * @param salinity PSS-78
 * @param pressureAtm of the air, not reduced to sea level
 */
export function oxygenSaturationMgL(temperatureC: number, salinity = 0, pressureAtm = 1): Figure {
  const refused: Outside | undefined =
    beyond("temperature", temperatureC, 0, 40, "C") ??
    beyond("salinity", salinity, 0, 40) ??
    beyond("air pressure", pressureAtm, 0.5, 1.1, "atm");
  if (refused !== undefined) return refused;
  const t = temperatureC;
  const T = t + KELVIN;
  const fresh = Math.exp(
    -139.34411 + 1.575701e5 / T - 6.642308e7 / T ** 2 + 1.2438e10 / T ** 3 - 8.621949e11 / T ** 4,
  );
  const salt = Math.exp(-salinity * (0.017674 - 10.754 / T + 2140.7 / T ** 2));
  const theta = 0.000975 - 1.426e-5 * t + 6.436e-8 * t ** 2;
  const vapour = vapourAtm(T);
  const pressure = ((pressureAtm - vapour) * (1 - theta * pressureAtm)) / ((1 - vapour) * (1 - theta));
  return fresh * salt * pressure;
}

/** Water vapour over fresh water, atm. */
function vapourAtm(kelvin: number): number {
  return Math.exp(11.8571 - 3840.7 / kelvin - 216961 / kelvin ** 2);
}

/** Vapour pressure of water, atm, by the formula of the same source; salt lowers it by 2 % in sea water. */
export function vapourPressureAtm(temperatureC: number): Figure {
  return beyond("temperature", temperatureC, 0, 40, "C") ?? vapourAtm(temperatureC + KELVIN);
}

/**
 * Oxygen that dissolves under one atmosphere of oxygen itself: what dissolves under air over oxygen's share of
 * the pressure of air. For gases richer than air it takes Henry's law to hold, which it does within 0.1 % here
 * (theta of the source).
 */
export function oxygenPerAtmMgL(temperatureC: number, salinity = 0): Figure {
  const vapour = vapourPressureAtm(temperatureC);
  if (isOutside(vapour)) return vapour;
  return map(
    oxygenSaturationMgL(temperatureC, salinity),
    (underAir) => underAir / (OXYGEN_IN_AIR * (1 - vapour)),
  );
}

/** Measured oxygen as a share of saturation, 0..1 and above. */
export function oxygenSaturationShare(
  measuredMgL: number,
  temperatureC: number,
  salinity = 0,
  pressureAtm = 1,
): Figure {
  const full = oxygenSaturationMgL(temperatureC, salinity, pressureAtm);
  return negative("oxygen", measuredMgL, "mg/L") ?? map(full, (saturation) => measuredMgL / saturation);
}

/** Oxygen in mg/L of a share of saturation, as a meter shows it in percent. */
export function oxygenFromShareMgL(
  share: number,
  temperatureC: number,
  salinity = 0,
  pressureAtm = 1,
): Figure {
  const full = oxygenSaturationMgL(temperatureC, salinity, pressureAtm);
  return negative("share of saturation", share) ?? map(full, (saturation) => share * saturation);
}

export const atmFromHPa = (hectopascal: number): number => (hectopascal * 100) / PA_PER_ATM;
export const atmFromMmHg = (mmHg: number): number => (mmHg * PA_PER_MMHG) / PA_PER_ATM;

/**
 * Air pressure where the tank stands, atm, from the one that a weather report gives, which is reduced to sea
 * level: times the standard atmosphere's ratio for the height. Oxygen taken from the report itself reads 10 %
 * high at 900 m.
 */
export function stationPressureAtm(seaLevelHPa: number, heightM: number): Figure {
  const standard = standardPressurePa(heightM);
  return (
    notPositive("air pressure", seaLevelHPa, "hPa") ??
    map(standard, (pascal) => (atmFromHPa(seaLevelHPa) * pascal) / PA_PER_ATM)
  );
}

/**
 * Air pressure in pascal at a geopotential height below 11 km: U.S. Standard Atmosphere 1976,
 * 101325 (1 - 0.0065 h/288.15)^5.255876.
 */
export function standardPressurePa(heightM: number): Figure {
  return (
    beyond("height", heightM, -500, 11_000, "m") ?? PA_PER_ATM * (1 - (0.0065 * heightM) / 288.15) ** 5.255876
  );
}

/** Geopotential height of a geometric one: z R/(R + z), R = 6356766 m (U.S. Standard Atmosphere 1976). */
export function geopotentialM(geometricM: number): number {
  return (geometricM * 6_356_766) / (6_356_766 + geometricM);
}

/** How much less the thin air of a height dissolves: sea-level pressure over the pressure there. */
export function altitudeFactor(heightM: number): Figure {
  const pressure = standardPressurePa(heightM);
  return isOutside(pressure) ? pressure : PA_PER_ATM / pressure;
}
