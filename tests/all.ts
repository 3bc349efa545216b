/**
 * `npm test`: everything. Types, the tests of the language, the build, and the host tests in a real VS Code. Nothing is
 * left out silently: a part that could not run is a failure. The last line is the sum, alone.
 */

import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { runAsCommand } from "../extension/build/as-command.ts";
import { bundle } from "../extension/build/bundle.ts";
import { leashed } from "../extension/build/leashed.ts";
import { pack } from "../extension/build/package.ts";
import { checkout } from "../extension/build/places.ts";
import { runHostTests, type Tally } from "./host/run.ts";

const begun = Date.now();
const NOTHING: Tally = { passed: 0, failed: 0 };
const sum: Tally = { ...NOTHING };

await runAsCommand(async () => {
  await part("Types", async () => {
    const status = await tool("typescript/bin/tsc", "--noEmit");
    if (status !== 0) throw new Error("The types do not fit");
    console.log("  They fit.");
    return NOTHING;
  });

  await part("Tests of the language and of all that needs no editor", unitTests);

  let isBuilt = false;
  await part("Build", async () => {
    await bundle();
    await pack();
    isBuilt = true;
    return NOTHING;
  });

  await part("Tests in a real VS Code", async () => {
    if (!isBuilt) throw new Error("Could not be run: there is no build");
    return runHostTests({});
  });

  console.log(`\nThe whole took ${Math.round((Date.now() - begun) / 1000)} s.`);
  console.log(`${sum.passed} passed, ${sum.failed} failed`);
  process.exit(sum.failed > 0 ? 1 : 0);
});

/** One part under its heading. What it throws counts as one failure, and the next part is still run. */
async function part(heading: string, work: () => Promise<Tally>): Promise<void> {
  console.log(`\n== ${heading}`);
  const start = Date.now();
  try {
    const { passed, failed } = await work();
    sum.passed += passed;
    sum.failed += failed;
  } catch (error) {
    sum.failed++;
    console.log(error instanceof Error ? error.message : error);
  }
  console.log(`   (${((Date.now() - start) / 1000).toFixed(1)} s)`);
}

async function unitTests(): Promise<Tally> {
  const folder = mkdtempSync(join(tmpdir(), "standpipe-unit-"));
  try {
    const file = join(folder, "results.json");
    const reporters = ["--reporter=default", "--reporter=json", `--outputFile.json=${file}`];
    await tool("vitest/vitest.mjs", "run", "--config", "tests/vitest.config.ts", ...reporters);
    const results: {
      readonly success: boolean;
      readonly numPassedTests: number;
      readonly numFailedTests: number;
      readonly numPendingTests: number;
      readonly testResults: readonly {
        readonly status: string;
        readonly assertionResults: readonly unknown[];
      }[];
    } = JSON.parse(readFileSync(file, "utf8"));
    const { numPassedTests: passed, numPendingTests: skipped, testResults } = results;
    // A file that does not even load has no tests that could fail.
    const broken = testResults.filter((one) => one.status === "failed" && one.assertionResults.length === 0);
    const failed = results.numFailedTests + broken.length;
    if (skipped > 0) console.log(`  ${skipped} tests were skipped`);
    return { passed, failed: failed === 0 && !results.success ? 1 : failed };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Runs a tool of node_modules on our own Node; the exit status. */
function tool(script: string, ...args: string[]): Promise<number> {
  const path = join(checkout, "node_modules", script);
  return leashed(process.execPath, [path, ...args], { output: "ours", folder: checkout }).ended;
}
