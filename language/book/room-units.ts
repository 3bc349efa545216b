import type { Dimension } from "../quantity/dimension.ts";
import { rebase } from "../quantity/quantity.ts";
import { ambiguousSpelling, noUnit } from "../quantity/unit-codes.ts";
import { type Basis, type Declared, findUnit, settle, UNITS, type Unit, unitOf } from "../quantity/units.ts";
import type { Definition, UnitForm } from "./definition.ts";
import { measures } from "./fit.ts";
import { findParameter, type Parameter } from "./parameters.ts";

/** The unit of a number without one, where the room declares nothing. */
const defaults: Partial<Record<Dimension, Unit>> = {
  temperature: unitOf("C"),
  "temperature-difference": unitOf("C"),
  volume: unitOf("L"),
  length: unitOf("cm"),
  mass: unitOf("mg"),
  concentration: unitOf("mg/L"),
  "volume-concentration": unitOf("uL/L"),
  hardness: unitOf("dGH"),
  conductivity: unitOf("uS/cm"),
  fraction: unitOf("%"),
  duration: unitOf("d"),
  flow: unitOf("L/h"),
  power: unitOf("W"),
  redox: unitOf("mV"),
};

const plainConcentration = unitOf("mg/L");

const codeShift = 256;
const codeSpan = 1024;

/** What the room's `units` line declares, and what every number of the log therefore means. */
export class RoomUnits {
  readonly declared: Declared;
  private readonly byParameter: ReadonlyMap<number, Unit>;
  /** Problems of the `units` line: what it declares and cannot. */
  readonly problems: { form: UnitForm; message: string }[] = [];
  private readonly known: (Unit | null | undefined)[] = [];

  constructor(room: Definition | undefined) {
    const declared: Record<string, unknown> = {};
    const byParameter = new Map<number, Unit>();
    for (const property of room?.properties ?? []) {
      for (const form of property.units ?? []) {
        const message = declare(form, declared, byParameter);
        if (message !== undefined) this.problems.push({ form, message });
      }
    }
    // Of a temperature only, a default is no declaration: “deg” stays open until the room says which.
    this.declared = declared as Declared;
    this.byParameter = byParameter;
  }

  /** The unit that a code means where `dimension` is asked for; undefined if it is ambiguous and nothing settles it. */
  unitFor(code: number, dimension: Dimension, parameter?: Parameter): Unit | undefined {
    if (code > noUnit) return UNITS[code];
    if (code === noUnit) {
      const own = parameter === undefined ? undefined : this.parameterUnit(parameter);
      return own ?? this.declared[dimension] ?? defaults[dimension];
    }
    const forHardness =
      parameter === undefined ? this.declared : { ...this.declared, hardness: this.parameterUnit(parameter) };
    return settle(
      ambiguousSpelling(code) ?? "",
      dimension,
      dimension === "hardness" ? forHardness : this.declared,
    );
  }

  /** The one unit that a code means where any of some dimensions may stand; undefined if it may mean more than one, or none. */
  unitAmong(code: number, dimensions: readonly Dimension[]): Unit | undefined {
    const units = new Set(dimensions.map((dimension) => this.unitFor(code, dimension)));
    units.delete(undefined);
    const [unit] = units;
    return units.size === 1 ? unit : undefined;
  }

  /** A reading of a parameter in its canonical unit and basis; NaN if its unit is not settled. */
  reading(parameter: Parameter, value: number, code: number): number {
    const key = parameter.id * codeSpan + code + codeShift;
    let unit = this.known[key];
    if (unit === undefined)
      this.known[key] = unit = this.unitFor(code, parameter.dimension, parameter) ?? null;
    if (unit === null) return Number.NaN;
    const canonical = value * unit.factor + unit.offset;
    if (parameter.basis === undefined) return canonical;
    return rebase(canonical, unit.basis ?? this.basisOf(parameter), parameter.basis) ?? Number.NaN;
  }

  /** The unit in which readings of a parameter are shown. */
  shown(parameter: Parameter): Unit {
    return this.parameterUnit(parameter) ?? parameter.unit;
  }

  /** A canonical reading as it is shown, in the room's unit and basis. */
  fromReading(parameter: Parameter, canonical: number): number {
    const unit = this.shown(parameter);
    const based =
      parameter.basis === undefined
        ? canonical
        : (rebase(canonical, parameter.basis, unit.basis ?? this.basisOf(parameter)) ?? canonical);
    return (based - unit.offset) / unit.factor;
  }

  /** A value in the canonical unit of `dimension`; NaN if its unit is not settled or of another dimension. */
  canonical(value: number, code: number, dimension: Dimension): number {
    const unit = this.unitFor(code, dimension);
    return unit === undefined || unit.dimension !== dimension
      ? Number.NaN
      : value * unit.factor + unit.offset;
  }

  private basisOf(parameter: Parameter): Basis | undefined {
    return this.byParameter.get(parameter.id)?.basis ?? parameter.basis;
  }

  private parameterUnit(parameter: Parameter): Unit | undefined {
    const own = this.byParameter.get(parameter.id);
    if (own !== undefined) return own;
    if (parameter.name === "KH") return this.declared.alkalinity ?? parameter.unit;
    if (parameter.name === "GH") return this.declared.hardness ?? parameter.unit;
    if (parameter.dimension === "temperature") return this.declared.temperature;
    // What is small enough to be counted in mg/L takes the declared concentration; salinity is counted in g/L.
    if (parameter.unit === plainConcentration) return this.declared.concentration ?? parameter.unit;
    return parameter.unit;
  }
}

const dimensions: ReadonlySet<string> = new Set([
  "temperature",
  "volume",
  "length",
  "mass",
  "concentration",
  "conductivity",
  "duration",
  "flow",
  "hardness",
  "alkalinity",
]);

/** Takes one declaration over; says what is wrong with it, or nothing. */
function declare(
  form: UnitForm,
  declared: Record<string, unknown>,
  byParameter: Map<number, Unit>,
): string | undefined {
  const { what, unit: text } = form;
  if (what === "gallon") {
    if (text !== "US" && text !== "imperial") return "a gallon is US or imperial";
    declared.gallon = text;
    return undefined;
  }
  if (what === "spoon") {
    if (text !== "US" && text !== "metric") return "a spoon is US or metric";
    declared.spoon = text;
    return undefined;
  }
  if (what === "ppm") {
    if (text !== "mg/L" && text !== "uL/L") return "ppm is mg/L (by mass) or uL/L (by volume)";
    declared.ppm = text;
    return undefined;
  }
  const unit = findUnit(text);
  if (unit === undefined) return `“${text}” is no unit that I know`;
  const parameter = findParameter(what);
  if (what === "temperature" || (dimensions.has(what) && parameter?.name !== what)) {
    const dimension = what === "alkalinity" ? "hardness" : what;
    if (unit.dimension !== dimension || (dimension === "concentration" && unit.basis !== undefined))
      return `${what} is not measured in ${text}`;
    declared[what] = unit;
    return undefined;
  }
  if (parameter === undefined) return `“${what}” is neither a kind of quantity nor a parameter of a test`;
  if (!measures(parameter, unit)) return `${parameter.name} is not measured in ${text}`;
  byParameter.set(parameter.id, unit);
  return undefined;
}
