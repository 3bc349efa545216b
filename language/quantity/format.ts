/**
 * Figures as people write them: no `0.30000000000000004`, no digits that were never measured, no exponent.
 */
import { fromCanonical, type Quantity } from "./quantity.ts";
import type { Unit } from "./unit-table.ts";

/**
 * A number to so many significant digits, trailing zeros dropped; digits before the point are never rounded
 * away (1234.5 to three digits is 1235), nor are more than 15 given.
 */
export function formatNumber(value: number, significant = 3): string {
  if (!Number.isFinite(value)) return value > 0 ? "∞" : value < 0 ? "-∞" : "?";
  if (value === 0) return "0";
  const magnitude = Math.abs(value);
  if (magnitude >= 1e21) return value.toPrecision(3);
  const places = Math.max(0, Math.min(significant, 15) - 1 - Math.floor(Math.log10(magnitude)));
  if (places > 20) return "0";
  // Rounding the shortest decimal form, so that 1.005 becomes 1.01 though its double lies just below.
  const scaled = Number((magnitude * 10 ** places).toPrecision(15));
  const text = (Math.round(scaled) / 10 ** places).toFixed(places);
  const short = places === 0 ? text : text.replace(/\.?0+$/, "");
  return value < 0 && short !== "0" ? `-${short}` : short;
}

/** A canonical value in a unit, with the unit's symbol: `24.6 C`, `30 %`, `14`. */
export function formatValue(canonical: number, unit: Unit, significant?: number): string {
  return withSymbol(formatNumber(fromCanonical(canonical, unit.id), significant), unit);
}

/** A quantity in the unit it was written in, or another of its dimension: `<5 mg/L`, `23..27 C`, `~14`. */
export function formatQuantity(quantity: Quantity, unit: Unit = quantity.unit, significant?: number): string {
  const low = formatNumber(fromCanonical(quantity.value, unit.id), significant);
  const mark = quantity.censor === "below" ? "<" : quantity.censor === "above" ? ">" : "";
  const about = quantity.approximate === true ? "~" : "";
  const high =
    quantity.high === undefined
      ? ""
      : `..${formatNumber(fromCanonical(quantity.high, unit.id), significant)}`;
  return withSymbol(`${mark}${about}${low}${high}`, unit);
}

function withSymbol(text: string, unit: Unit): string {
  return unit.symbol === ""
    ? text
    : unit.dimension === "pH"
      ? `${unit.symbol} ${text}`
      : `${text} ${unit.symbol}`;
}
