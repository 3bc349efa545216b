/**
 * A headless Chromium for the host tests: the system's own if there is one; else Debian's, installed with apt-get when
 * we are root; else the one from the npm registry. What it has to fetch it says.
 */

import { execFileSync, spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { pathToFileURL } from "node:url";
import { type Browser, chromium } from "playwright-core";
import { fetched, npm, runVisibly } from "../../extension/build/fetched.ts";

const NAMES = ["chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome"];
const NPM_CHROMIUM = "153.0.0";
const FLAGS = [
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

export async function launchBrowser(): Promise<Browser> {
  const { program, flags } = await findBrowser();
  const isRoot = process.getuid?.() === 0;
  const args = [...new Set([...FLAGS, ...flags, ...(isRoot ? ["--no-sandbox"] : [])])];
  return chromium.launch({ executablePath: program, args, chromiumSandbox: !isRoot });
}

interface FoundBrowser {
  readonly program: string;
  /** What this build of it needs beside our own flags. */
  readonly flags: readonly string[];
}

async function findBrowser(): Promise<FoundBrowser> {
  const installed = systemBrowser() ?? (await debianBrowser());
  return installed ? { program: installed, flags: [] } : npmBrowser();
}

/** On Ubuntu `chromium-browser` may be a stub that only asks for a snap: a browser is one that tells its version. */
function systemBrowser(): string | undefined {
  const folders = (process.env.PATH ?? "").split(delimiter);
  const candidates = NAMES.flatMap((name) => folders.map((folder) => join(folder, name))).filter(existsSync);
  return candidates.find((file) => spawnSync(file, ["--version"], { timeout: 20_000 }).status === 0);
}

async function debianBrowser(): Promise<string | undefined> {
  const isRoot = process.getuid?.() === 0;
  if (!isRoot || spawnSync("apt-get", ["--version"]).status !== 0) return undefined;
  console.log("No Chromium on this machine: installing Debian's (about 100 MB to fetch; first use only)");
  try {
    await runVisibly("apt-get update", "apt-get", ["update"]);
    const packages = ["chromium", "fonts-dejavu-core"];
    const install = ["DEBIAN_FRONTEND=noninteractive", "apt-get", "install", "-y", "--no-install-recommends"];
    await runVisibly(`apt-get install ${packages.join(" ")}`, "env", [...install, ...packages]);
  } catch (error) {
    console.log(
      `${error instanceof Error ? error.message : error}\nTrying the one from the npm registry instead.`,
    );
  }
  return systemBrowser();
}

async function npmBrowser(): Promise<FoundBrowser> {
  const name = "@sparticuz/chromium";
  const folder = await fetched(`chromium-${NPM_CHROMIUM}`, async (unfinished) => {
    console.log(
      `No Chromium on this machine: fetching ${name} ${NPM_CHROMIUM} (about 70 MB; first use only)`,
    );
    await npm(name, unfinished, "install", "--ignore-scripts", `${name}@${NPM_CHROMIUM}`);
  });
  const entry = execFileSync(process.execPath, ["-p", `require.resolve("${name}")`], {
    cwd: folder,
    encoding: "utf8",
  }).trim();
  const { default: packed } = await import(pathToFileURL(entry).href);
  return { program: await packed.executablePath(), flags: packed.args };
}
