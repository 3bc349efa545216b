import { describe, expect, it } from "vitest";
import type { Inputs } from "../published/inputs.ts";
import { type Row, readRows, referenceFiles } from "../published/published.ts";
import { type Asking, type Askings, allowed, answerTo, asked, plain } from "./asked.ts";

const rows = referenceFiles()
  .filter((file) => /(05|06|10|13)-[a-z-]+\.csv$/.test(file))
  .flatMap(readRows);

/** Units as the keys of rows have them, as a keeper writes them. */
const WRITTEN: Readonly<Record<string, string>> = {
  dH: "dH",
  dKH: "dKH",
  eH: "eH",
  English: "eH",
  French: "fH",
  mmol_L: "mmol/L Ca",
  meq_L: "meq/L",
  gpg: "gpg",
  mgCaCO3_L: "mg/L CaCO3",
};
/** The figure that a quantity's name asks for. */
const SAID: Readonly<Record<string, string>> = {
  mmol: "mmol/L Ca",
  meq: "meq/L",
  mgCaCO3: "mg/L CaCO3",
  mgHCO3: "mg/L HCO3",
  mgCa: "calcium",
  fH: "fH",
  eH: "eH",
  dH: "dGH",
  dKH: "dKH",
};

/** `fH_per_dH`, `meq_to_dKH`: what is asked for, out of a name. */
function hardnessUnits(given: Inputs, { quantity }: Row): Asking {
  const [, turned, , plainly] = /^(\w+?)_(?:per|from)_(\w+)$|^\w+?_to_(\w+)$/.exec(quantity) ?? [];
  const [key = ""] = [...given.values.keys()];
  return {
    calculation: "hardness-units",
    texts: { value: `${given.text(key)} ${WRITTEN[key.slice(2)]}` },
    figure: SAID[turned ?? plainly ?? ""]!,
  };
}

const metals = (calcium: string, magnesium: string, figure: string): Asking => ({
  calculation: "hardness",
  texts: { calcium: `${calcium} mg/L`, magnesium: `${magnesium} mg/L` },
  figure,
});

/** A thermometer of today for one of IPTS-68: T68 = 1.00024 T90. */
const celsius = (given: Inputs, key: string): string => `${plain(given.number(key) / 1.00024)} C`;
function sea(given: Inputs, figure: string): Asking {
  const reference = given.has("Tref68_C") ? { reference: celsius(given, "Tref68_C") } : {};
  return {
    calculation: "salinity",
    texts: {
      salinity: `${given.text("S")} g/kg`,
      temperature: given.has("T68_C") ? celsius(given, "T68_C") : "20 C",
      ...reference,
    },
    figure,
  };
}

const content = (given: Inputs, figure: string): Asking => ({
  calculation: "salt-content",
  texts: { salt: given.text(["salt", "formula"]) },
  figure,
});
const oneDegree = (given: Inputs, of: "GH" | "KH"): Asking => ({
  calculation: "salt-for-hardness",
  texts: { salt: given.text("salt"), raise: `1 d${of}`, volume: "1 L", of },
  figure: "each-litre",
});
const FORM: Readonly<Record<string, string>> = { NO3: "nitrate", NO2: "nitrite", NH4: "ammonia" };
const copper = (given: Inputs, figure: string): Asking => ({
  calculation: "copper-criterion",
  texts: { hardness: `${given.text("hardness_mgCaCO3_L")} mg/L CaCO3` },
  figure,
});

const conversions = Object.fromEntries(
  [
    "mmol_per_dH",
    "meq_per_dH",
    "mgCaCO3_per_dH",
    "mgCaCO3_per_eH",
    "mgCaCO3_per_fH",
    "fH_per_dH",
    "dH_per_mmol",
    "fH_per_mmol",
    "eH_per_mmol",
    "dH_from_meq",
    "mgCaCO3_from_meq",
    "mgCaCO3_per_grain_per_USgal",
    "dH_to_mgCaCO3",
    "mgCaCO3_to_dH",
    "dKH_to_meq",
    "meq_to_dKH",
    "dKH_to_mgHCO3",
    "eH_to_dH",
    "dH_to_mgCa",
  ].map((name) => [name, hardnessUnits]),
);

const askings: Askings = {
  ...conversions,
  hardness_from_ca_mg: (given) => metals(given.text("Ca_mg_L"), given.text("Mg_mg_L"), "as-CaCO3"),
  hardness_from_ca_mg_dGH: (given) => metals(given.text("Ca_mg_L"), given.text("Mg_mg_L"), "GH"),
  hardness_factor_ca: (given) => metals(given.text("x_Ca_mg_L"), "0", "as-CaCO3"),
  hardness_factor_mg: (given) => metals("0", given.text("x_Mg_mg_L"), "as-CaCO3"),

  density_eos80_p0: (given) => sea(given, "density"),
  freezing_point_p0: (given) => sea(given, "freezing"),
  specific_gravity: (given) => sea(given, "gravity"),

  molar_mass: (given) => content(given, "molar-mass"),
  ion_mass_fraction: (given) => content(given, given.text("ion")),
  salt_mg_L_per_dGH: (given) => oneDegree(given, "GH"),
  salt_mg_L_per_dKH: (given) => oneDegree(given, "KH"),
  salt_mass_to_raise: (given) => {
    const of = given.has("raise_dGH") ? "GH" : "KH";
    return {
      calculation: "salt-for-hardness",
      texts: {
        salt: given.text("salt"),
        raise: `${given.text(`raise_d${of}`)} d${of}`,
        volume: `${given.text("V_L")} L`,
        of,
      },
      figure: "grams",
    };
  },
  species_conversion: (given) => {
    const ion = given.text("convert").replace("N_to_", "");
    const name = FORM[ion]!;
    return {
      calculation: "nitrogen-units",
      texts: { [name]: `${given.text("x_mg_L")} mg/L N` },
      figure: `${name}-${ion}`,
    };
  },

  cu_acute_1985_total: (given) => copper(given, "acute-total"),
  cu_chronic_1985_total: (given) => copper(given, "chronic-total"),
  cu_acute_dissolved: (given) => copper(given, "acute-dissolved"),
  cu_chronic_dissolved: (given) => copper(given, "chronic-dissolved"),
};

/** Asked below by the figures they are made of. */
const derived = new Set(["specific_volume_anomaly_p0", "salinity_pss78", "conductivity_ratio_pss78"]);
/** The table of weights is under every molar mass, and no calculation shows it by itself. */
const inner = new Set(["atomic_weight"]);

it("every row is asked, or said why not", () => {
  const quantities = new Set(rows.map(({ quantity }) => quantity));
  const known = [...Object.keys(askings), ...derived, ...inner];
  expect([...quantities].filter((quantity) => !known.includes(quantity))).toEqual([]);
});

function within(row: Row, got: number): void {
  const [least, most] = allowed(row);
  expect(got).toBeGreaterThanOrEqual(least);
  expect(got).toBeLessThanOrEqual(most);
}

describe("published", () => {
  it.each(rows.filter(({ quantity }) => quantity in askings).map((row) => [row.id, row] as const))(
    "%s",
    (_, row) => within(row, answerTo(row, askings)),
  );
});

describe("published, by what the calculation shows of it", () => {
  const of = (quantity: string): [string, Row][] =>
    rows.filter((row) => row.quantity === quantity).map((row) => [row.id, row]);
  const read = (row: Row): Record<string, number> =>
    Object.fromEntries(
      row.inputs
        .split(";")
        .map((pair) => pair.split("="))
        .map(([key, value]) => [key, Number(value)]),
    );
  const density = (S: number, t68: number): number =>
    asked("salinity", { salinity: plain(S), temperature: plain(t68 / 1.00024) }, "density").best!;
  /** C(35, 15, 0) in mS/cm, as the calculation has it. */
  const AT_35_15 = asked("salinity", { salinity: "35", temperature: plain(15 / 1.00024) }, "conductivity")
    .best!;

  it.each(of("specific_volume_anomaly_p0"))("%s from two densities", (_, row) => {
    const { S = Number.NaN, T68_C = Number.NaN } = read(row);
    within(row, (1 / density(S, T68_C) - 1 / density(35, 0)) * 1e8);
  });

  it.each(of("conductivity_ratio_pss78"))("%s from two conductivities", (_, row) => {
    const { S = Number.NaN, T68_C = Number.NaN } = read(row);
    const texts = { salinity: plain(S), temperature: plain(T68_C / 1.00024) };
    within(row, asked("salinity", texts, "conductivity").best! / AT_35_15);
  });

  // Of the two published, one is in depth; the calculation is for the surface.
  it.each(of("salinity_pss78").filter(([, row]) => read(row).p_dbar === 0))(
    "%s from a conductivity",
    (_, row) => {
      const { R = Number.NaN, T68_C = Number.NaN } = read(row);
      const texts = { conductivity: `${plain(R * 42.914)} mS/cm`, temperature: plain(T68_C / 1.00024) };
      within(row, asked("salinity", texts, "salinity").best!);
    },
  );
});
