import type { Parameter } from "../../book/parameters.ts";
import { AMBIGUOUS, findUnit, looseUnit, type Unit, unitOf } from "../../quantity/units.ts";

/** Units as tables say them, and as a log says them: a few have no spelling there, and are said with the point moved. */

export interface ImportUnit {
  /** As a mapping says it. */
  readonly symbol: string;
  /** As a log says it; empty for pH. */
  readonly written: string;
  readonly unit: Unit;
  /** How far the point moves: ug/L of nitrogen is written as mg/L N, by -3. */
  readonly places: number;
}

const bases = ["N", "NO3", "NO2", "NH3", "NH4", "P", "PO4"] as const;

const shifted = new Map<string, ImportUnit>();
for (const basis of bases) {
  const unit = unitOf(`mg/L ${basis}`);
  shifted.set(`ug/L ${basis}`, { symbol: `ug/L ${basis}`, written: unit.symbol, unit, places: -3 });
  shifted.set(`g/L ${basis}`, { symbol: `g/L ${basis}`, written: unit.symbol, unit, places: 3 });
}
shifted.set("g/mL", { symbol: "g/mL", written: "g/L", unit: unitOf("g/L"), places: 3 });
shifted.set("ng/L", { symbol: "ng/L", written: "ug/L", unit: unitOf("ug/L"), places: -3 });

/** The unit that a mapping names; undefined if there is none. */
export function importUnit(symbol: string): ImportUnit | undefined {
  const own = shifted.get(symbol);
  if (own !== undefined) return own;
  const unit = symbol === "pH" ? unitOf("pH") : findUnit(symbol);
  if (unit === undefined) return undefined;
  return { symbol: unit.symbol, written: unit.dimension === "pH" ? "" : unit.symbol, unit, places: 0 };
}

/** A unit as the head of a column says it. */
export type Said =
  | { readonly is: "unit"; readonly unit: ImportUnit }
  /** It may mean several: `ppm`, `gal`, `deg`. */
  | { readonly is: "open"; readonly written: string; readonly choices: readonly string[] };

/** What a text says as a unit; undefined if it is none. */
export function unitSaid(text: string): Said | undefined {
  const plain = text
    .trim()
    .replace(/^\[(.*)\]$|^\((.*)\)$/, "$1$2")
    // The degree sign is what is lost first where letters are mangled.
    .replace(/^(?:deg(?:rees?)?[ .]?|[°ºo\ufffd]|Â°)\s*(?=[CF]$)/i, "")
    .replace(/[µμ]|Âµ/g, "u")
    .replace(/\s*(?:l|L)(?:\^-1|-1|⁻¹|\*\*-1)$/, "/L")
    .replace(/^(m|u|n)?gl$/i, "$1g/L")
    .replace(/^((?:m|u|n)?g)[ _]l$/i, "$1/L")
    .replace(/^(?:u|micro)mhos?(?:\/cm)?$/i, "uS/cm")
    .replace(/^(u|m)[Ss][ _]?cm$/, "$1S/cm")
    .replace(/litre|liter/i, "L")
    .replace(/^(m?mol\/)l$/, "$1L")
    // `mg/l NO2-N` is nitrogen, as `NO2` alone is not.
    .replace(/(?<=g\/m?l[ -])(?:NO[23]|NH[34])-(?=N$)|(?<=g\/m?l[ -])PO4-(?=P$)/i, "")
    .trim();
  if (plain === "" || plain.length > 24) return undefined;
  if (/^centigrade$/i.test(plain)) return found("C");
  if (/^[cf]$/.test(plain)) return found(plain.toUpperCase());
  if (/^(?:%|% ?sat\.?|%.*sat.*|pct)$/i.test(plain)) return found("%");
  const of = /^(m|u|n)?g[ -](NO3|NO2|NH3|NH4|PO4|N|P|CaCO3)\/l$/i.exec(plain);
  const withBasis = /^((?:m|u|n)?g\/m?l)(?:[ -]| as |-)?\s*(NO3|NO2|NH3|NH4|PO4|N|P|CaCO3)$/i.exec(plain);
  const [mass, basis] =
    of !== null ? [`${of[1] ?? ""}g/L`, of[2]!] : withBasis !== null ? [withBasis[1]!, withBasis[2]!] : [];
  if (mass !== undefined && basis !== undefined) {
    const own = [...bases, "CaCO3"].find((each) => each.toLowerCase() === basis.toLowerCase());
    return found(`${mass.toLowerCase().replace(/l$/, "L")} ${own}`);
  }
  if (/^g\/ml$/i.test(plain)) return found("g/mL");
  if (/^ng\/l$/i.test(plain)) return found("ng/L");
  if (AMBIGUOUS.has(plain) || AMBIGUOUS.has(plain.toLowerCase())) {
    const units = AMBIGUOUS.get(plain) ?? AMBIGUOUS.get(plain.toLowerCase())!;
    return { is: "open", written: plain, choices: units.map(({ symbol }) => symbol) };
  }
  const exact = findUnit(plain);
  if (exact !== undefined) return found(exact.symbol);
  // One letter in the wrong case may be another unit.
  if (plain.length < 2) return undefined;
  const loose = looseUnit(plain);
  return loose === undefined ? undefined : found(loose.symbol);
}

function found(symbol: string): Said | undefined {
  const unit = importUnit(symbol);
  return unit === undefined ? undefined : { is: "unit", unit };
}

/** What a column of a parameter may be measured in, as a mapping says it; the usual first. */
export function unitsFor(parameter: Parameter): readonly string[] {
  switch (parameter.dimension) {
    case "pH":
      return ["pH"];
    case "temperature":
      return ["C", "F"];
    case "conductivity":
      return ["uS/cm", "mS/cm"];
    case "hardness":
      return ["dGH", "dKH", "mg/L CaCO3", "meq/L", "fH", "eH", "mmol/L Ca", "mmol/L HCO3"].filter((symbol) =>
        parameter.name === "KH"
          ? symbol !== "dGH" && symbol !== "mmol/L Ca"
          : symbol !== "dKH" && symbol !== "mmol/L HCO3",
      );
    case "redox":
      return ["mV", "V"];
    default:
      return parameter.name === "salinity" ? ["g/L", "mg/L"] : ["mg/L", "ug/L", "g/L"];
  }
}

/** What a concentration of a parameter may be counted as; none for one that is counted as itself. */
export function basesFor(parameter: Parameter): readonly string[] {
  switch (parameter.name) {
    case "ammonia":
      return ["N", "NH4", "NH3"];
    case "nitrite":
      return ["N", "NO2"];
    case "nitrate":
      return ["N", "NO3"];
    case "phosphate":
      return ["P", "PO4"];
    default:
      return [];
  }
}

/** Whether a parameter can be measured in a unit. */
export function fitsParameter(unit: ImportUnit, parameter: Parameter): boolean {
  if (unit.unit.dimension !== parameter.dimension) return false;
  const { basis } = unit.unit;
  if (parameter.dimension !== "concentration") return true;
  const own = basesFor(parameter);
  return own.length === 0 ? basis === undefined : basis !== undefined && own.includes(basis);
}
