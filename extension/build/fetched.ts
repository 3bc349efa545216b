/**
 * What is too large for `npm ci` and is fetched from the npm registry on first use: the served editor and, where the
 * system has none, a browser. Each lives in a folder of its own under the kept folder, named by its version, and
 * comes into being whole: it is made under another name and moved into place when complete.
 *
 * The kept folder is in the checkout, not in the user's cache: nothing is left behind when the checkout is removed,
 * two checkouts never disturb each other, and a read-only home is no obstacle. STANDPIPE_HOST names another place
 * for those who want to share one between checkouts.
 */

import { existsSync } from "node:fs";
import { mkdir, rename, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { leashed } from "./leashed.ts";
import { keptFolder } from "./places.ts";

/** The folder called `name`, made by `make` if it is not there yet. */
export async function fetched(name: string, make: (folder: string) => Promise<void>): Promise<string> {
  const folder = join(keptFolder, name);
  if (existsSync(folder)) return folder;
  const unfinished = join(keptFolder, `${name}.unfinished-${process.pid}`);
  await mkdir(unfinished, { recursive: true });
  await writeFile(join(unfinished, "package.json"), '{ "private": true }\n');
  try {
    await make(unfinished);
    await rename(unfinished, folder).catch((error) => {
      // Another run finished the same thing first: use that one.
      if (!existsSync(folder)) throw error;
    });
  } finally {
    await rm(unfinished, { recursive: true, force: true });
  }
  return folder;
}

/** Runs npm in a folder, with a sign of life every few seconds; throws with npm's own words if it fails. */
export async function npm(what: string, folder: string, ...args: string[]): Promise<void> {
  const quiet = ["--no-audit", "--no-fund", "--no-update-notifier", "--loglevel=error"];
  await runVisibly(what, ...npmCommand("--prefix", folder, ...args, ...quiet), folder);
}

/** Runs a program of which only the outcome matters, saying how long it has been at it. */
export async function runVisibly(
  what: string,
  program: string,
  args: readonly string[],
  folder?: string,
): Promise<void> {
  console.log(`  ${what} ...`);
  const begun = Date.now();
  const elapsed = () => `${Math.round((Date.now() - begun) / 1000)} s`;
  const sign = setInterval(() => console.log(`    still at it, ${elapsed()}`), 5000);
  const output: Buffer[] = [];
  try {
    const child = leashed(program, args, { output: "piped", ...(folder ? { folder } : {}) });
    child.stdout?.on("data", (data) => output.push(data));
    child.stderr?.on("data", (data) => output.push(data));
    const status = await child.ended;
    if (status !== 0) throw new Error(`${what}: ${program} ended with ${status}\n${Buffer.concat(output)}`);
  } finally {
    clearInterval(sign);
  }
  console.log(`    done in ${elapsed()}`);
}

/** npm as it was started, if it was: then it runs on the same Node as we do. */
function npmCommand(...args: string[]): [program: string, args: string[]] {
  const npmScript = process.env.npm_execpath;
  return npmScript?.endsWith(".js") ? [process.execPath, [npmScript, ...args]] : ["npm", args];
}
