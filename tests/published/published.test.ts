import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import process from "node:process";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { CALCULATIONS, calculationOf } from "./mapping.ts";
import { measureOf } from "./measure.ts";
import { evaluate, type Row, readRows, referenceFiles } from "./published.ts";

/**
 * Quantities in the reference files that no calculation gives yet. The list may only shrink: a row of any
 * other quantity that cannot be computed fails here, and a quantity that has its calculation must leave the
 * list.
 */
const NOT_YET_MAPPED: readonly string[] = [];

const files = referenceFiles().map((path) => ({ name: basename(path), rows: readRows(path) }));
const rows = files.flatMap((file) => file.rows);

const row = (change: Partial<Row>): Row => ({
  id: "X-1",
  quantity: "us_gal_to_L",
  inputs: "x_usgal=1",
  expected: "3.785411784",
  unit: "L",
  tolerance: "0",
  source: "NIST SP 811",
  provenance: "seen",
  ...change,
});

describe.each(files)("published values: $name", ({ rows: each }) => {
  test.each(each.map((one) => [one.id, one.quantity, one.inputs, one] as const))(
    "%s %s %s",
    (_, quantity, __, one) => {
      const outcome = evaluate(one);
      const wanted = NOT_YET_MAPPED.includes(quantity) ? "unknown" : "passed";
      expect(outcome.status, outcome.status === "passed" ? "" : outcome.reason).toBe(wanted);
    },
  );
});

describe("the collection", () => {
  test("has rows, each with an identity of its own and a source", () => {
    expect(rows.length).toBeGreaterThan(0);
    expect(new Set(rows.map((one) => one.id)).size).toBe(rows.length);
    for (const one of rows) expect(one.source, one.id).not.toBe("");
  });

  test("says of each row whether it was seen or remembered", () => {
    for (const one of rows) expect(one.provenance, one.id).toMatch(/^(seen|memory)/);
    expect(rows.filter((one) => one.provenance.startsWith("memory"))).not.toHaveLength(0);
  });

  test("is counted right in the README: rows, and what of them was seen, computed and recalled", () => {
    const readme = readFileSync(fileURLToPath(new URL("README.md", import.meta.url)), "utf8");
    const told = [...readme.matchAll(/^\| (\d\d-[\w-]+) \| (\d+) \| (\d+) \| (\d+) \| (\d+) \|/gm)];
    const counted = files.map(({ name, rows: each }) => {
      const memory = each.filter((one) => one.provenance.startsWith("memory")).length;
      const computed = each.filter((one) => /^seen \((formula|definition)/.test(one.provenance)).length;
      return [name.replace(/\.csv$/, ""), each.length, each.length - memory - computed, computed, memory];
    });
    expect(told.map(([, name, ...figures]) => [name, ...figures.map(Number)])).toEqual(counted);
  });

  test("every input of every row has its part in the figure", () => {
    for (const one of rows) {
      const outcome = evaluate(one);
      expect(outcome.status === "passed" ? outcome.unused : [], one.id).toEqual([]);
    }
  });

  test("what is not mapped yet is in the files, and really not mapped", () => {
    for (const quantity of NOT_YET_MAPPED) {
      expect(
        rows.some((one) => one.quantity === quantity),
        quantity,
      ).toBe(true);
      expect(calculationOf(quantity), quantity).toBeUndefined();
    }
  });
});

describe("a row", () => {
  test("passes within its tolerance, which is absolute", () => {
    expect(evaluate(row({}))).toMatchObject({ status: "passed", got: 3.785411784 });
    expect(evaluate(row({ expected: "3.79", tolerance: "0.005" })).status).toBe("passed");
  });

  test("fails outside it, and says by how much", () => {
    const outcome = evaluate(row({ expected: "3.79", tolerance: "0.004" }));
    expect(outcome).toMatchObject({ status: "failed" });
    expect(outcome.status !== "passed" && outcome.reason).toContain("3.785411784 is 0.0045");
    expect(evaluate(row({ expected: "3.7855" })).status, "0 is exact").toBe("failed");
  });

  test("fails without a figure to compare with, or a tolerance", () => {
    expect(evaluate(row({ expected: "" })).status).toBe("failed");
    expect(evaluate(row({ tolerance: "" })).status).toBe("failed");
    expect(evaluate(row({ tolerance: "-1" })).status).toBe("failed");
  });

  test("fails where the formula is not valid and gives no figure", () => {
    const outcome = evaluate(
      row({ quantity: "nh3_fraction_freshwater", inputs: "pH=8;T_C=60;S=0", expected: "0.3" }),
    );
    expect(outcome).toMatchObject({
      status: "failed",
      reason: "no figure: temperature 60 C is not within 0 to 50 C",
    });
  });

  test("is unknown when its quantity is, or an input is missing", () => {
    expect(evaluate(row({ quantity: "colour_of_the_snail" })).status).toBe("unknown");
    expect(evaluate(row({ inputs: "x_cup=1" }))).toMatchObject({
      status: "unknown",
      reason: "x_cup is not in US gal",
    });
    expect(evaluate(row({ inputs: "x_usgal=many" })).status).toBe("unknown");
  });

  test("may give its inputs in any unit of their dimension", () => {
    const dose = (inputs: string) =>
      evaluate(row({ quantity: "product_mass_for_ppm", inputs, expected: "0.2", unit: "g" }));
    expect(dose("V_L=100;dose_mg_L=2;percent_active=100").status).toBe("passed");
    expect(dose("V_m3=0.1;dose_g_L=0.002").status).toBe("passed");
  });
});

describe("a row of other units", () => {
  const status = (quantity: string, inputs: string, expected: string, unit: string, tolerance = "0") =>
    evaluate(row({ quantity, inputs, expected, unit, tolerance })).status;

  test.each([
    // Each against the definition of the unit, not against the same row in another.
    ["tank_volume_rect", "L_ft=1;W_ft=1;H_ft=1", "28.316846592", "L"],
    ["tank_volume_rect", "L_cm=10;W_cm=10;H_cm=45.4609", "1", "imp gal"],
    ["tank_volume_rect_usgal", "L_in=11;W_in=7;H_in=3", "1", "US gal"],
    ["volume_rect_m3", "L_m=2;W_m=1;D_m=1", "2000", "L"],
    ["degree_days_single_day", "Tmean_C=20;base_C=10", "18", "F-days"],
    ["F_to_C", "x_F=32", "273.15", "K"],
    ["batch_series_fraction_new", "percent=50;count=2", "75", "percent"],
    ["batch_series_fraction_new", "f=0.5;n=2", "0.75", "fraction"],
    ["epa2013_chronic_CCC_TAN_2sf", "pH=7;T_F=68", "1900", "ug N/L"],
    ["std_atm_pressure", "h_m=0", "760.0000017", "mmHg"],
    ["std_atm_pressure", "h_ft=0", "1", "atm"],
    ["daily_feed_kg", "biomass_g=1000;percent_per_day=2", "20", "g/day"],
    ["flow_from_half_life", "V_L=100;t_half_min=60", "69.31471806", "L/h"],
    ["mgCaCO3_per_fH", "x_fH=1", "10", "mg/L"],
    ["dilution_c1v1", "C1_mM=500;V1_mL=1;V2_L=0.1", "0.005", "M"],
    ["ounce_to_grain", "x_oz=1", "437.5", "grain"],
    ["hardness_from_ca_mg", "Ca_mg_L=40.078;Mg_mg_L=0", "1", "mmol/L"],
    ["makeup", "evap=10;cycles=2", "20", "gal/h"],
    ["N_to_NO3", "x_ug_L=1000", "4.426643820946669", "mg/L NO3"],
  ])("%s %s is %s %s", (quantity, inputs, expected, unit) => {
    expect(status(quantity, inputs, expected, unit)).toBe("passed");
    expect(status(quantity, inputs, String(Number(expected) * 1.001 + 1e-3), unit)).toBe("failed");
  });

  test("oxygen by volume and by moles: 1 mL/L is 1.429 mg/L, 44.66 umol/L", () => {
    // 22.391 L/mol for oxygen at 0 C and 1 atm (its molar volume, recalled).
    expect(
      status("do_saturation_1atm", "T_C=20;S=0", String((9.092 / 31.998) * 22.391), "mL/L", "0.002"),
    ).toBe("passed");
    expect(status("do_saturation_1atm", "T_C=20;S=0", String(9092 / 31.998), "umol/L", "0.05")).toBe(
      "passed",
    );
  });

  test("spaces, a last semicolon, a backward range and powers of ten are read", () => {
    expect(status("tank_volume_rect", " L_cm = 6e1 ; W_cm=3e1; H_cm = 36 ; ", "64.8", "L")).toBe("passed");
    expect(status("sen_slope", "x=3|2|1; t=3..1", "1", "per step")).toBe("passed");
    expect(status("mann_kendall_S", "x = 1 | 2 | 3", "3", "count")).toBe("passed");
  });

  test("a key in another case is read where no other is alike", () => {
    expect(status("co2_rule_of_thumb", "kh_dKH=4;ph=7", "12", "mg/L")).toBe("passed");
    expect(status("co2_rule_of_thumb", "KH_dKH=4;ph=7;PH=8", "12", "mg/L")).toBe("unknown");
  });

  test("nothing is guessed: what is in no unit, the wrong one or one of several is unknown", () => {
    expect(status("tank_volume_rect", "L=60;W_cm=30;H_cm=36", "64.8", "L")).toBe("unknown");
    expect(status("tank_volume_rect", "L_kg=60;W_cm=30;H_cm=36", "64.8", "L")).toBe("unknown");
    expect(status("product_mass_for_ppm", "V_gal=1;dose_mg_L=1", "3.79", "mg", "0.01")).toBe("unknown");
    expect(status("tank_volume_rect", "L_cm=60;W_cm=30;H_cm=36", "64.8", "kg")).toBe("unknown");
    expect(status("tank_volume_rect", "L_cm=60;W_cm=30;H_cm=36", "17.1", "gal", "1")).toBe("unknown");
    // A source in a unit that does not serve is not a source of 0.
    const change = "C0_mg_L=40;fraction=0.5;n=1;";
    expect(status("batch_change_series_conc", change, "20", "mg/L")).toBe("passed");
    expect(status("batch_change_series_conc", `${change}Cin_dKH=0`, "20", "mg/L")).toBe("unknown");
    expect(status("constructor", "x=1", "1", "")).toBe("unknown");
  });

  test("an input that has no part in the figure is told", () => {
    const outcome = evaluate(row({ inputs: "x_usgal=1;T_C=20" }));
    expect(outcome).toMatchObject({ status: "passed", unused: ["T_C"] });
    const failed = evaluate(row({ inputs: "x_usgal=2;T_C=20" }));
    expect(failed.status !== "passed" && failed.reason).toContain("not used: T_C");
  });
});

describe("a row that expects no figure", () => {
  test.each(["outside", "error", " Outside "])(
    "%s: passes when there is a reason, and only then",
    (expected) => {
      const copper = (hardness: string) =>
        evaluate(
          row({
            quantity: "cu_acute_dissolved",
            inputs: `hardness_mgCaCO3_L=${hardness}`,
            expected,
            unit: "ug/L",
            tolerance: "",
          }),
        );
      expect(copper("10").status).toBe("passed");
      expect(copper("NaN").status).toBe("passed");
      expect(copper("100").status).toBe("failed");
      expect(copper("soft").status, "no figure was given at all").toBe("unknown");
    },
  );

  test.each([
    ["nh3_fraction_freshwater", "pH=8;T_C=20;S=34"],
    ["wilson_upper", "x=5;n=4"],
    ["poisson_exact_upper", "x=-1"],
    ["kaplan_meier_S", "t=1|2;event=1|0;at=5"],
    ["sen_slope_lower", "x=1|2|3;t=1..3"],
    ["mann_kendall_p_exact", "x=1|1|2|3"],
    ["mann_kendall_p_exact", "n=4;S=5"],
    ["ewma", "x=1|2;lambda=0;z0=1;i=1"],
    ["hardness_from_ca_mg", "Ca_mg_L=-1;Mg_mg_L=3"],
    ["blowdown", "evap=10;cycles=1"],
    ["conc_after_evaporation", "C0_mg_L=3;V0_L=10;V_L=0"],
    ["zebrafish_hours_at_T", "h_at_28_5=48;T_C=20"],
  ])("%s %s", (quantity, inputs) => {
    expect(evaluate(row({ quantity, inputs, expected: "outside", tolerance: "" }))).toMatchObject({
      status: "passed",
    });
    expect(evaluate(row({ quantity, inputs, expected: "0", tolerance: "1e9" })).status).toBe("failed");
  });
});

describe("the names", () => {
  test("of every calculation are found in any case, and each says a unit", () => {
    for (const [name, calculation] of Object.entries(CALCULATIONS)) {
      expect(calculationOf(name.toUpperCase()), name).toBe(calculation);
      expect(calculation.unit, name).not.toBe("");
    }
  });

  test("of units: the same figure comes back from one unit in another", () => {
    for (const [one, other] of [
      ["mg_L", "mg/L"],
      ["mgN_L", "mg N/L"],
      ["mgCaCO3_L", "mg/L CaCO3"],
      ["usgal", "US gal"],
      ["L_min", "L/min"],
      ["lb_acre_ft", "lb/acre-ft"],
      ["mS_cm", "mS/cm"],
      ["kg_day", "kg/day"],
    ] as const) {
      expect(measureOf(one), one).toEqual(measureOf(other));
      expect(measureOf(one), one).toBeDefined();
    }
    for (const none of ["gal", "per_step", "same as x", "half_h", ""])
      expect(measureOf(none)).toBeUndefined();
  });

  test("a calculation without inputs asks for them", () => {
    for (const [name, calculation] of Object.entries(CALCULATIONS)) {
      const outcome = evaluate(
        row({ quantity: name, inputs: "", expected: "-987.25", unit: calculation.unit }),
      );
      // What needs no input gives its figure, which is not that one.
      expect(outcome.status === "unknown" || outcome.status === "failed", name).toBe(true);
    }
  });
});

describe("a row that asks a calculation by its own names", () => {
  const asked = (change: Partial<Row>) =>
    evaluate(
      row({ quantity: "free-ammonia.share", expected: "5.37", unit: "%", tolerance: "0.01", ...change }),
    );

  test("is worked out as in the terminal, and says what it lacks", () => {
    expect(asked({ inputs: "total=1 mg/L;pH=8;temperature=77 F" })).toMatchObject({ status: "passed" });
    expect(asked({ inputs: "total=1 mg/L;pH=8" })).toMatchObject({
      status: "unknown",
      reason: "temperature is missing: temperature=1 C",
    });
    expect(asked({ inputs: "total=1 mg/L;pH=20;temperature=25", expected: "outside" }).status).toBe("passed");
    expect(asked({ quantity: "free-ammonia.colour" }).status).toBe("unknown");
  });
});

describe("the command", () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "published-"));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const head = "id,quantity,inputs,expected,unit,tolerance,source,provenance";
  function run(text: string) {
    const file = join(folder, "values.csv");
    writeFileSync(file, text);
    const command = fileURLToPath(new URL("published.ts", import.meta.url));
    return spawnSync(process.execPath, [command, file], { encoding: "utf8" });
  }

  test("names what did not pass, counts all, and its status says so", () => {
    const { stdout, status } = run(
      [
        head,
        'A-1,us_gal_to_L,x_usgal=1,3.785411784,L,0,"a source, with a comma",seen',
        "A-2,us_gal_to_L,x_usgal=2,3.785411784,L,0,a source,seen",
        "A-3,colour_of_the_snail,x=1,1,L,0,a source,seen",
        "",
      ].join("\n"),
    );
    const lines = stdout.trimEnd().split("\n");
    expect(lines.at(-1)).toBe("1 passed, 1 failed, 1 unknown");
    expect(lines[0]).toMatch(/^failed {2}A-2 {2}us_gal_to_L {2}x_usgal=2 {2}7\.57/);
    expect(lines[1]).toMatch(/^unknown {2}A-3/);
    expect(status).toBe(1);
  });

  test("is content when all pass, with Windows line ends too", () => {
    const { stdout, status } = run(`${head}\r\nA-1,F_to_C,x_F=77,25,C,0,a source,memory\r\n`);
    expect(stdout).toBe("1 passed, 0 failed, 0 unknown\n");
    expect(status).toBe(0);
  });

  test("refuses a file of another format", () => {
    const { stderr, status } = run("name,value\na,1\n");
    expect(stderr).toContain("has no column id");
    expect(status).toBe(2);
  });

  test("notes what a row gives for nothing", () => {
    const { stdout, status } = run(`${head}\nA-1,F_to_C,x_F=77;S=0,25,C,0,a source,memory\n`);
    expect(stdout).toBe("note  A-1  F_to_C  not used: S\n1 passed, 0 failed, 0 unknown\n");
    expect(status).toBe(0);
  });
});
