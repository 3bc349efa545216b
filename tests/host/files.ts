/** Tests of the package itself: what is in it, and how large. */

import { strict as assert } from "node:assert";
import { execFileSync } from "node:child_process";
import { readFileSync, statSync } from "node:fs";
import { join, relative } from "node:path";
import { bundles } from "../../extension/build/bundle.ts";
import { VSIX_BUDGET_KIB } from "../../extension/build/package.ts";
import { built, checkout, dist, vsix } from "../../extension/build/places.ts";
import { Suite } from "./suite/runner.ts";

export const suite = new Suite();

suite.test("the package holds the files it is known to hold, and no other", () => {
  const known = readFileSync(join(import.meta.dirname, "package-files.txt"), "utf8")
    .trim()
    .split("\n");
  assert.deepEqual(
    filesInZip(vsix),
    known,
    "where the change is meant, change tests/host/package-files.txt too",
  );
});

suite.test("no file of the package names a place on the machine it was built on", () => {
  for (const { out } of bundles()) {
    const text = readFileSync(out, "utf8");
    assert(!text.includes(checkout), `${relative(dist, out)} holds ${checkout}`);
    assert(!text.includes("sourceMappingURL"), `${relative(dist, out)} refers to a source map`);
  }
});

suite.test("the package keeps to its budget", () => {
  const sizeKiB = statSync(vsix).size / 1024;
  assert(sizeKiB <= VSIX_BUDGET_KIB, `${sizeKiB.toFixed(0)} of ${VSIX_BUDGET_KIB} KiB`);
});

suite.test("every library in the package comes with its licence", () => {
  const text = readFileSync(join(built().extension, "THIRD-PARTY-NOTICES.txt"), "utf8");
  const [, ...libraries] = text.split(`\n${"-".repeat(80)}\n`).map((part) => part.trim());
  assert(libraries.some((one) => one.startsWith("chevrotain ")));
  const bare = libraries.filter((one) => !/copyright|licen[cs]e/i.test(one.slice(one.indexOf("\n"))));
  assert.deepEqual(bare, []);
});

suite.test("the terminal command is one file that runs by itself", () => {
  const { command } = built();
  assert(readFileSync(command, "utf8").startsWith("#!/usr/bin/env node\n"));
  const help = execFileSync(process.execPath, [command, "--help"], { encoding: "utf8", cwd: "/" });
  assert.match(help, /standpipe/);
});

/** The names in a zip archive's directory, in order of the alphabet; the format is PKWARE's APPNOTE, 4.3.12 and 4.3.16. */
function filesInZip(file: string): string[] {
  const bytes = readFileSync(file);
  const end = bytes.lastIndexOf("PK\x05\x06", undefined, "latin1");
  const names: string[] = [];
  let entry = bytes.readUInt32LE(end + 16);
  for (let left = bytes.readUInt16LE(end + 10); left > 0; left--) {
    const nameLength = bytes.readUInt16LE(entry + 28);
    names.push(bytes.toString("utf8", entry + 46, entry + 46 + nameLength));
    entry += 46 + nameLength + bytes.readUInt16LE(entry + 30) + bytes.readUInt16LE(entry + 32);
  }
  return names.sort();
}
