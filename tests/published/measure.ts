/**
 * Units as rows write them, in keys (`mg_L`, `usgal`, `mgCaCO3_L`) and in the column `unit` (`mg N/L`, `US gal`,
 * `kg/day`): those of the log, what is composed of them, and a few that no log needs.
 */
import { rebase } from "../../language/quantity/quantity.ts";
import type { Basis } from "../../language/quantity/unit-table.ts";
import { findUnit, looseUnit } from "../../language/quantity/units.ts";

/** canonical = value * factor + offset, as in the log's own table. */
export interface Measure {
  readonly dimension: string;
  readonly factor: number;
  readonly offset: number;
  readonly basis?: Basis | undefined;
}

const of = (dimension: string, factor: number, offset = 0): Measure => ({ dimension, factor, offset });
const FT3_L = 28.316846592;
const US_GALLON_L = 3.785411784;
const SHARE = of("fraction", 1);

/** What the log's table has not, or has under a spelling that is ambiguous there and not in these files. */
const NAMES: Readonly<Record<string, Measure>> = {
  // Pressure: NIST SP 811 (2008) App. B, but for mmHg as `formulas.md` has it.
  Pa: of("pressure", 1),
  hPa: of("pressure", 100),
  kPa: of("pressure", 1000),
  mbar: of("pressure", 100),
  bar: of("pressure", 1e5),
  atm: of("pressure", 101325),
  mmHg: of("pressure", 133.322368),
  torr: of("pressure", 101325 / 760),
  inHg: of("pressure", 3386.389),
  psi: of("pressure", 6894.757),
  // Shares go by many names.
  fraction: SHARE,
  proportion: SHARE,
  probability: SHARE,
  ratio: SHARE,
  "mol/mol": SHARE,
  "g/g": SHARE,
  "P/P0": SHARE,
  K: of("temperature", 1, -273.15),
  "C-days": of("degree-days", 1),
  "F-days": of("degree-days", 5 / 9),
  C_days: of("degree-days", 1),
  F_days: of("degree-days", 5 / 9),
  M: of("molarity", 1),
  mM: of("molarity", 1e-3),
  uM: of("molarity", 1e-6),
  "mol/L": of("molarity", 1),
  "umol/L": of("molarity", 1e-6),
  km: of("length", 1e5),
  "g/cm3": of("concentration", 1e6),
  "g/mL": of("concentration", 1e6),
  // 1 ppm is 1 mg/L in dosing (SRAC 410); parts by volume say so in their key.
  ppm: of("concentration", 1),
  acre_ft: of("volume", 43_560 * FT3_L),
  "acre-ft": of("volume", 43_560 * FT3_L),
  Mgal: of("volume", 1e6 * US_GALLON_L),
  // In these files a spoon, a cup and an ounce are the U.S. customary and the avoirdupois ones.
  tbsp: of("volume", US_GALLON_L / 256),
  tsp: of("volume", US_GALLON_L / 768),
  cup: of("volume", US_GALLON_L / 16),
  oz: of("mass", 453592.37 / 16),
};

/** The unit that a key or a column writes; undefined where it is none, or one of several (`gal`). */
export function measureOf(text: string): Measure | undefined {
  const known = ownOf(text) ?? unitOf(text) ?? substance(text) ?? scaled(text) ?? composed(text);
  if (known !== undefined) return known;
  // `g NaCl`, `mL formalin`, `mg/L at pH 7`: what it is of.
  const at = text.lastIndexOf(" ");
  return at < 0 ? undefined : measureOf(text.slice(0, at));
}

/** A figure in another unit of its dimension, counted as the other is where both say as what. */
export function convertedBetween(value: number, from: Measure, to: Measure): number | undefined {
  if (from.dimension !== to.dimension) return undefined;
  if (from.factor === to.factor && from.offset === to.offset && from.basis === to.basis) return value;
  const canonical = value * from.factor + from.offset;
  const counted =
    from.dimension === "concentration" && from.basis !== undefined && to.basis !== undefined
      ? rebase(canonical, from.basis, to.basis)
      : canonical;
  return counted === undefined ? undefined : (counted - to.offset) / to.factor;
}

function ownOf(text: string): Measure | undefined {
  return Object.hasOwn(NAMES, text) ? NAMES[text] : undefined;
}

/** A unit of the log, in its spelling, or with the underscores that keys have in place of `/` and spaces. */
function unitOf(text: string): Measure | undefined {
  const exact = findUnit(text) ?? findUnit(text.replaceAll("_", "/")) ?? findUnit(text.replaceAll("_", " "));
  return exact ?? looseUnit(text) ?? looseUnit(text.replaceAll("_", "/"));
}

/** `mgN_L`, `mg N/L`, `mgCaCO3_L`, `ug TAN/L`: so much of something in a litre. */
function substance(text: string): Measure | undefined {
  const [, mass, what = ""] = /^([um]?g)[ _]?([A-Z][\w.-]*)[_/]L$/.exec(text) ?? [];
  if (mass === undefined) return undefined;
  const plain = findUnit(`${mass}/L`)!;
  const counted = findUnit(`mg/L ${/(^|-)N$|^TAN$/.test(what) ? "N" : what}`);
  if (counted === undefined) return plain;
  return { ...counted, factor: counted.factor * plain.factor };
}

/** `1e-8 m3/kg`. */
function scaled(text: string): Measure | undefined {
  const [, power, rest] = /^(1e[-+]?\d+) (.+)$/.exec(text) ?? [];
  const measure = rest === undefined ? undefined : measureOf(rest);
  return measure && { ...measure, factor: measure.factor * Number(power) };
}

/** What two dimensions make where the log has a name for it, and the factor to its canonical unit. */
const COMPOSED: Readonly<Record<string, Measure>> = {
  "mass/volume": of("concentration", 1),
  "volume/duration": of("flow", 1 / 24),
  "concentration/duration": of("rate", 1),
};

/** One unit for each of another: `kg/day`, `lb/US gal`, `g N/day`, `lb_acre_ft`. */
function composed(text: string): Measure | undefined {
  for (const { index } of text.matchAll(/[/_]/g)) {
    const over = measureOf(text.slice(0, index));
    const under = measureOf(text.slice(index + 1));
    if (over === undefined || under === undefined || over.offset !== 0 || under.offset !== 0) continue;
    const dimension = `${over.dimension}/${under.dimension}`;
    const named = COMPOSED[dimension] ?? of(dimension, 1);
    return { ...named, factor: (named.factor * over.factor) / under.factor };
  }
  return undefined;
}
