import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import process from "node:process";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { CALCULATIONS } from "./mapping.ts";
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
  test("is all there: sixteen files, every row with an identity of its own and a source", () => {
    expect(files).toHaveLength(16);
    expect(rows).toHaveLength(462);
    expect(new Set(rows.map((one) => one.id)).size).toBe(rows.length);
    for (const one of rows) expect(one.source, one.id).not.toBe("");
  });

  test("says of each row whether it was seen or remembered", () => {
    for (const one of rows) expect(one.provenance, one.id).toMatch(/^(seen|memory)/);
    expect(rows.filter((one) => one.provenance.startsWith("memory"))).not.toHaveLength(0);
  });

  test("what is not mapped yet is in the files, and really not mapped", () => {
    for (const quantity of NOT_YET_MAPPED) {
      expect(
        rows.some((one) => one.quantity === quantity),
        quantity,
      ).toBe(true);
      expect(CALCULATIONS, quantity).not.toHaveProperty(quantity);
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
      reason: "no input x_usgal",
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
});
