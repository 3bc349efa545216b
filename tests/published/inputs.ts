/**
 * The inputs of a row, `k=v;k=v` with the unit in the key: `V_usgal=55;dose_mg_L=4;percent_active=100`. A
 * calculation asks for a quantity by its stem and the unit it wants; the key may carry any unit of that
 * dimension.
 */
import { convert } from "../../language/quantity/quantity.ts";
import { unitOf } from "../../language/quantity/units.ts";

/** A row lacks what its calculation needs: that row is unknown, not wrong. */
export class MissingInput extends Error {}

/** How units are written in keys. */
const UNIT_OF_SUFFIX: Readonly<Record<string, string>> = {
  L: "L",
  mL: "mL",
  m3: "m3",
  usgal: "US gal",
  impgal: "imp gal",
  ft3: "ft3",
  in3: "in3",
  usqt: "US qt",
  usfloz: "US fl oz",
  cm: "cm",
  mm: "mm",
  m: "m",
  in: "in",
  ft: "ft",
  mg: "mg",
  g: "g",
  kg: "kg",
  lb: "lb",
  oz: "oz av",
  mg_L: "mg/L",
  ug_L: "ug/L",
  g_L: "g/L",
  C: "C",
  F: "F",
  h: "h",
  min: "min",
  d: "d",
  days: "d",
  L_h: "L/h",
  L_min: "L/min",
  m3_h: "m3/h",
  mgCaCO3_L: "mg/L CaCO3",
  dKH: "dKH",
  dGH: "dGH",
  meq_L: "meq/L",
};

/** An acre-foot is 43560 ft3 (NIST SP 811); nobody keeps fish by it, so it is no unit of the log. */
const ACRE_FOOT_FT3 = 43_560;

export class Inputs {
  readonly values: ReadonlyMap<string, string>;
  /** The unit of the expected figure, for quantities that come in several. */
  readonly unit: string;

  constructor(text: string, unit: string) {
    const pairs = text.split(";").filter((pair) => pair !== "");
    this.values = new Map(
      pairs.map((pair) => {
        const at = pair.indexOf("=");
        return [pair.slice(0, at).trim(), pair.slice(at + 1).trim()] as const;
      }),
    );
    this.unit = unit;
  }

  has(key: string): boolean {
    return this.values.has(key);
  }

  text(key: string): string {
    const value = this.values.get(key);
    if (value === undefined) throw new MissingInput(`no input ${key}`);
    return value;
  }

  number(key: string, otherwise?: number): number {
    if (otherwise !== undefined && !this.has(key)) return otherwise;
    const value = Number(this.text(key));
    if (Number.isNaN(value)) throw new MissingInput(`${key}=${this.text(key)} is no number`);
    return value;
  }

  /** `1|2|3`, or `1..14`. */
  series(key: string): number[] {
    const text = this.text(key);
    const range = /^(-?\d+)\.\.(-?\d+)$/.exec(text);
    if (range === null) return text.split("|").map(Number);
    const [from, to] = [Number(range[1]), Number(range[2])];
    return Array.from({ length: to - from + 1 }, (_, i) => from + i);
  }

  /** The figure of `stem_<unit>`, whatever the unit, in the unit wanted. */
  in(stem: string, wanted: string, otherwise?: number): number {
    for (const key of this.values.keys()) {
      if (!key.startsWith(`${stem}_`)) continue;
      const suffix = key.slice(stem.length + 1);
      const value = this.number(key);
      if (suffix === "acre_ft") return converted(value * ACRE_FOOT_FT3, "ft3", wanted);
      if (suffix === "Mgal") return converted(value * 1e6, "US gal", wanted);
      const unit = UNIT_OF_SUFFIX[suffix];
      if (unit !== undefined) return converted(value, unit, wanted);
    }
    if (otherwise !== undefined) return otherwise;
    throw new MissingInput(`no input ${stem} in a unit that converts to ${wanted}`);
  }
}

/** A figure in another unit of the log. */
export function converted(value: number, from: string, to: string): number {
  const result = convert(value, unitOf(from), unitOf(to));
  if (result === undefined) throw new MissingInput(`${from} does not convert to ${to}`);
  return result;
}
