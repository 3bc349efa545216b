import type { RoomUnits } from "../book/room-units.ts";
import type { Remedy } from "../book/stations.ts";
import type { Dimension } from "../quantity/dimension.ts";
import { formatNumber } from "../quantity/format.ts";
import { noUnit } from "../quantity/unit-codes.ts";
import type { Unit } from "../quantity/units.ts";
import { liquidML, stockML } from "../science/dosing.ts";
import { isOutside } from "../science/result.ts";

/** What a dose may be measured in. */
const doseDimensions: readonly Dimension[] = [
  "mass",
  "volume",
  "concentration",
  "volume-concentration",
  "portion",
];

/** The unit of a dose; undefined where it has none, or one that is not settled. */
function unitOfDose(units: RoomUnits, code: number): Unit | undefined {
  return code === noUnit ? undefined : units.unitAmong(code, doseDimensions);
}

/** Whether a dose is told by the concentration it makes, and not by how much was given. */
export function isOfWater(units: RoomUnits, code: number): boolean {
  const dimension = unitOfDose(units, code)?.dimension;
  return dimension === "concentration" || dimension === "volume-concentration";
}

/** What a dose adds to a body of water, in the remedy's unit, or why it cannot be said. */
export type Added = { readonly added: number } | { readonly unknown: string };

/**
 * Well-mixed: mass of the active part over the volume (SRAC 410, Masser & Jensen 1991, with a factor of 1).
 * @param value as written, in the unit with this code
 */
export function addedBy(
  remedy: Remedy,
  units: RoomUnits,
  value: number,
  code: number,
  volumeL: number,
): Added {
  const unit = unitOfDose(units, code);
  if (unit === undefined) return { unknown: "its unit is not settled" };
  const canonical = value * unit.factor + unit.offset;
  const byVolume = remedy.unit === "uL/L";
  if (unit.dimension === "concentration" || unit.dimension === "volume-concentration") {
    const fits = (unit.dimension === "volume-concentration") === byVolume;
    return fits
      ? { added: canonical }
      : { unknown: `${remedy.name} is stated in ${remedy.unit}, the dose in ${unit.symbol}` };
  }
  if (Number.isNaN(volumeL)) return { unknown: "the volume of the tank is not stated" };
  if (unit.dimension === "mass") {
    if (byVolume) return { unknown: `${remedy.name} is stated in uL/L and dosed by mass` };
    if (!Number.isNaN(remedy.activeMgPerML))
      return { unknown: `${remedy.name} is stated as a liquid (mg/mL) and dosed by mass` };
    return {
      added: (canonical * (Number.isNaN(remedy.activeFraction) ? 1 : remedy.activeFraction)) / volumeL,
    };
  }
  const isDrop = unit.symbol === "drop";
  if (isDrop && Number.isNaN(remedy.dropML)) return { unknown: `the drop of ${remedy.name} is not stated` };
  if (unit.dimension === "portion" && !isDrop)
    return { unknown: `a ${unit.symbol} of ${remedy.name} is no measure` };
  const doseML = isDrop ? value * remedy.dropML : canonical * 1000;
  if (byVolume) return { added: (doseML * 1000) / volumeL };
  if (Number.isNaN(remedy.activeMgPerML))
    return { unknown: `the strength of ${remedy.name} is not stated in mg/mL` };
  return { added: (doseML * remedy.activeMgPerML) / volumeL };
}

/** How a remedy is measured out. */
export type Measure = "mass" | "volume" | "drops";

/**
 * How much of a product adds so much to a body of water: the inverse of `addedBy`. In mg, mL or drops.
 * @param added in the remedy's unit
 */
export function productFor(
  remedy: Remedy,
  added: number,
  volumeL: number,
  measure: Measure,
): { readonly product: number } | { readonly unknown: string } {
  if (Number.isNaN(volumeL)) return { unknown: "the volume of the tank is not stated" };
  const byVolume = remedy.unit === "uL/L";
  if (measure === "mass") {
    if (byVolume) return { unknown: `${remedy.name} is stated in uL/L and dosed by mass` };
    if (!Number.isNaN(remedy.activeMgPerML))
      return { unknown: `${remedy.name} is stated as a liquid (mg/mL) and dosed by mass` };
    return { product: (added * volumeL) / (Number.isNaN(remedy.activeFraction) ? 1 : remedy.activeFraction) };
  }
  if (!byVolume && Number.isNaN(remedy.activeMgPerML))
    return { unknown: `the strength of ${remedy.name} is not stated` };
  const productML = byVolume ? liquidML(added, volumeL) : stockML(added, volumeL, remedy.activeMgPerML);
  if (isOutside(productML)) return { unknown: productML.outside };
  if (measure === "volume") return { product: productML };
  return Number.isNaN(remedy.dropML)
    ? { unknown: `the drop of ${remedy.name} is not stated` }
    : { product: productML / remedy.dropML };
}

/** The arithmetic of `addedBy` in words: `126 mg / 63 L`, `40 drops × 0.05 mL × 10 mg/mL / 63 L`. */
export function addedInWords(
  remedy: Remedy,
  units: RoomUnits,
  value: number,
  code: number,
  volumeL: number,
): string {
  const unit = unitOfDose(units, code);
  if (unit === undefined || Number.isNaN(volumeL)) return "";
  const number = (figure: number): string => formatNumber(figure, 4);
  const given = `${number(value)} ${unit.symbol}${unit.symbol === "drop" && value !== 1 ? "s" : ""}`;
  if (unit.dimension === "concentration" || unit.dimension === "volume-concentration")
    return `${given} as written`;
  const water = `/ ${number(volumeL)} L`;
  if (unit.dimension === "mass") {
    const active = Number.isNaN(remedy.activeFraction) ? "" : ` × ${number(remedy.activeFraction * 100)} %`;
    return `${given}${active} ${water}`;
  }
  const dropped = unit.symbol === "drop" ? ` × ${number(remedy.dropML)} mL` : "";
  const strength = remedy.unit === "uL/L" ? "" : ` × ${number(remedy.activeMgPerML)} mg/mL`;
  return `${given}${dropped}${strength} ${water}`;
}
