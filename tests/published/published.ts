/**
 * Holds published values against the public calculations.
 *
 *     npm run published -- FILE.csv...
 *
 * A file has the columns `id,quantity,inputs,expected,unit,tolerance,source,provenance`: `inputs` as in
 * `inputs.ts`, `tolerance` absolute in the unit of `expected`, 0 for exact. Without a file it takes all of
 * `reference/`. Ends with `N passed, M failed, K unknown` and the status 0 only when none failed and none was
 * unknown.
 */
import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import process from "node:process";
import { fileURLToPath } from "node:url";
import Papa from "papaparse";
import { AMBIGUOUS } from "../../language/quantity/units.ts";
import { type Figure, isOutside } from "../../language/science/result.ts";
import { Inputs, MissingInput } from "./inputs.ts";
import { calculationOf } from "./mapping.ts";
import { convertedBetween, type Measure, measureOf } from "./measure.ts";

export interface Row {
  readonly id: string;
  readonly quantity: string;
  readonly inputs: string;
  readonly expected: string;
  readonly unit: string;
  readonly tolerance: string;
  readonly source: string;
  readonly provenance: string;
}

export type Outcome =
  | {
      readonly row: Row;
      readonly status: "passed";
      /** The figure in the row's unit, or the reason why there is none where the row expects that. */
      readonly got: Figure;
      /** Inputs that had no part in it. */
      readonly unused: readonly string[];
    }
  | { readonly row: Row; readonly status: "failed" | "unknown"; readonly reason: string };

/**
 * The rows of a file. Throws when a column is missing: a file of another format must not pass by having no
 * rows.
 */
export function readRows(path: string): Row[] {
  const { data, meta } = Papa.parse<Row>(readFileSync(path, "utf8"), {
    header: true,
    skipEmptyLines: "greedy",
  });
  for (const column of [
    "id",
    "quantity",
    "inputs",
    "expected",
    "unit",
    "tolerance",
    "source",
    "provenance",
  ]) {
    if (!meta.fields?.includes(column)) throw new Error(`${basename(path)} has no column ${column}`);
  }
  return data;
}

/** What `expected` says where a calculation must give a reason and no figure. */
const REFUSED = new Set(["outside", "error"]);

/** Computes one row and compares. */
export function evaluate(row: Row): Outcome {
  const calculation = calculationOf(row.quantity.trim());
  if (calculation === undefined) return { row, status: "unknown", reason: "no calculation of that name" };
  let got: Figure;
  let unused: readonly string[];
  try {
    const given = new Inputs(row.inputs, row.unit.trim());
    got = inUnit(calculation.compute(given), calculation.unit, given.unit);
    unused = given.unused();
  } catch (error) {
    if (error instanceof MissingInput) return { row, status: "unknown", reason: error.message };
    return { row, status: "failed", reason: String(error) };
  }
  const wantsReason = REFUSED.has(row.expected.trim().toLowerCase());
  if (isOutside(got)) {
    if (wantsReason) return { row, status: "passed", got, unused };
    return { row, status: "failed", reason: `no figure: ${got.outside}` };
  }
  const notUsed = unused.length === 0 ? "" : `; not used: ${unused.join(", ")}`;
  if (wantsReason) return { row, status: "failed", reason: `${got}, where none was expected${notUsed}` };
  const expected = figure(row.expected);
  const tolerance = figure(row.tolerance);
  if (Number.isNaN(expected) || !(tolerance >= 0)) {
    return {
      row,
      status: "failed",
      reason: `expected ${row.expected} with tolerance ${row.tolerance} is no figure`,
    };
  }
  // An exact value is exact but for the last bits of a double.
  const apart = Math.abs(got - expected);
  if (apart <= tolerance + 1e-9 * Math.abs(expected)) return { row, status: "passed", got, unused };
  return {
    row,
    status: "failed",
    reason: `${got} is ${apart} from ${expected}, ${tolerance} is allowed${notUsed}`,
  };
}

/** A figure in the unit that a row names, where both are units; any other word (`same as x`) names the figure's own. */
function inUnit(got: Figure, unit: string, wanted: string): Figure {
  const from = measureOf(unit);
  if (from === undefined || isOutside(got)) return got;
  const to = measureOf(wanted) ?? meantBy(wanted, unit, from);
  if (to === undefined) return got;
  // Hardness is as CaCO3 where it is computed as that, whether or not a row says so again.
  const isPlainMgL = to.dimension === "concentration" && to.factor === 1 && to.basis === undefined;
  if (from.dimension === "hardness" && from.basis === "CaCO3" && isPlainMgL) return got;
  const said = convertedBetween(got, from, to) ?? (unit === "mg/L O2" ? oxygenIn(got, to) : undefined);
  if (said === undefined) throw new MissingInput(`computed in ${unit}, which does not convert to ${wanted}`);
  return said;
}

/** What `gal` or `mmol/L` means for a figure in a unit: that unit where it is one of them, else nobody can tell. */
function meantBy(wanted: string, unit: string, from: Measure): Measure | undefined {
  const candidates = AMBIGUOUS.get(wanted.replace(/ alkaline earths$/, ""));
  if (candidates === undefined || candidates.some((each) => each.symbol === unit)) return undefined;
  // A mole of hardness counted as CaCO3 is one of calcium.
  if (wanted.startsWith("mmol/L") && from.basis === "CaCO3") return measureOf("mmol/L Ca");
  throw new MissingInput(`${wanted} may be ${candidates.map((each) => each.symbol).join(" or ")}`);
}

/** Oxygen as a gas at 0 C and 1 atm, 44.6596 umol/mL (Garcia & Gordon 1992, recalled), or in moles of 31.998 g. */
function oxygenIn(mgL: number, to: Measure): number | undefined {
  const molL = mgL / 31_998;
  if (to.dimension === "molarity") return molL / to.factor;
  if (to.dimension !== "volume-concentration") return undefined;
  return ((molL * 1e6) / 44.6596) * (1000 / to.factor);
}

/** A missing figure is none, not 0. */
function figure(text: string): number {
  return text.trim() === "" ? Number.NaN : Number(text);
}

/** All files of published values that the project keeps. */
export function referenceFiles(): string[] {
  const folder = fileURLToPath(new URL("reference/", import.meta.url));
  return readdirSync(folder)
    .filter((name) => name.endsWith(".csv"))
    .sort()
    .map((name) => join(folder, name));
}

/** Runs files and says what did not pass. @returns the exit status */
function run(paths: readonly string[]): number {
  const count = { passed: 0, failed: 0, unknown: 0 };
  for (const path of paths.length > 0 ? paths : referenceFiles()) {
    for (const row of readRows(path)) {
      const outcome = evaluate(row);
      count[outcome.status]++;
      if (outcome.status !== "passed") {
        process.stdout.write(
          `${outcome.status}  ${row.id}  ${row.quantity}  ${row.inputs}  ${outcome.reason}\n`,
        );
      } else if (outcome.unused.length > 0) {
        process.stdout.write(`note  ${row.id}  ${row.quantity}  not used: ${outcome.unused.join(", ")}\n`);
      }
    }
  }
  process.stdout.write(`${count.passed} passed, ${count.failed} failed, ${count.unknown} unknown\n`);
  return count.failed + count.unknown === 0 ? 0 : 1;
}

if (process.argv[1] !== undefined && fileURLToPath(import.meta.url) === process.argv[1]) {
  try {
    process.exitCode = run(process.argv.slice(2));
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    process.exitCode = 2;
  }
}
