/**
 * `npm run build`: makes the extension's folder (dist/extension) and the terminal command (dist/standpipe.mjs) anew.
 *
 *     --dev      source maps, nothing minified; an entry that is not written yet is left out with a word
 *     --explain  what each bundle is made of
 */

import { existsSync, globSync } from "node:fs";
import { chmod, cp, mkdir, readFile, rm, stat, writeFile } from "node:fs/promises";
import { basename, dirname, join, relative } from "node:path";
import { analyzeMetafile, type BuildOptions, build } from "esbuild";
import { runAsCommand } from "./as-command.ts";
import { notices } from "./notices.ts";
import { built, checkout, dist, version } from "./places.ts";

/** The engine floor in the manifest, VS Code 1.101, runs on Node 22; the terminal command on any Node we allow. */
const EXTENSION_NODE = "node22";
const TERMINAL_NODE = "node20";
/** What the browsers that VS Code for the Web supports have in common. */
const BROWSER = "es2022";

const fromCheckout = (...parts: string[]) => join(checkout, ...parts);

interface Bundle {
  readonly out: string;
  readonly entry: string;
  readonly budgetKiB: number;
  readonly options: BuildOptions;
}

/** Every bundle but the webviews', which are found by their folders. */
export function bundles(into = dist): readonly Bundle[] {
  const { extension, command } = built(into);
  return [
    {
      out: join(extension, "client-node.cjs"),
      entry: fromCheckout("extension/client/node.ts"),
      budgetKiB: 600,
      options: { platform: "node", format: "cjs", target: EXTENSION_NODE, external: ["vscode"] },
    },
    {
      out: join(extension, "client-browser.js"),
      entry: fromCheckout("extension/client/browser.ts"),
      budgetKiB: 560,
      options: { platform: "browser", format: "cjs", target: BROWSER, external: ["vscode"] },
    },
    {
      out: join(extension, "server-node.cjs"),
      entry: fromCheckout("language/server/node.ts"),
      // The protocol's and the parser's libraries are 310 of it, the calculations with their pages 200.
      budgetKiB: 1850,
      options: { platform: "node", format: "cjs", target: EXTENSION_NODE },
    },
    {
      out: join(extension, "server-browser.js"),
      entry: fromCheckout("language/server/browser.ts"),
      budgetKiB: 1850,
      options: { platform: "browser", format: "iife", target: BROWSER },
    },
    {
      out: command,
      entry: fromCheckout("language/cli/main.ts"),
      budgetKiB: 1850,
      options: { platform: "node", format: "esm", target: TERMINAL_NODE },
    },
  ];
}

/** Files of extension/ that go into the package as they are; all else there is source. */
const ASSETS = [
  "package.nls*.json",
  "language-configuration.json",
  "syntaxes",
  "snippets",
  "media",
  "walkthrough",
  "l10n",
];

/** Files of the checkout's root that every package shows. */
const DOCUMENTS = ["README.md", "CHANGELOG.md", "LICENSE"];

export interface BundleOptions {
  readonly dev?: boolean;
  readonly explain?: boolean;
  /** The folder to build in, `dist` unless said otherwise. */
  readonly into?: string;
}

export async function bundle(options: BundleOptions = {}): Promise<void> {
  const { extension, command } = built(options.into);
  await rm(extension, { recursive: true, force: true });
  await rm(command, { force: true });
  await mkdir(extension, { recursive: true });
  await copyAssets(extension);
  await writeManifest(extension, options);
  const wanted = bundles(options.into).filter(({ entry }) => isWritten(entry, options));
  const sources = await Promise.all([
    ...wanted.map((one) => writeBundle(one, options)),
    writeWebviews(extension, options),
  ]);
  await writeFile(join(extension, "THIRD-PARTY-NOTICES.txt"), notices(sources.flat()));
}

/** Writes one bundle and returns the files it is made of. */
async function writeBundle(
  { out, entry, budgetKiB, options }: Bundle,
  how: BundleOptions,
): Promise<string[]> {
  const { metafile } = await build({
    ...common(how),
    ...options,
    entryPoints: [entry],
    outfile: out,
    metafile: true,
  });
  if (out.endsWith(".mjs")) await makeExecutable(out);
  reportSize(out, (await stat(out)).size, how, budgetKiB);
  if (how.explain) console.log(await analyzeMetafile(metafile));
  return Object.keys(metafile.inputs);
}

/** `extension/views/NAME/webview.ts` and the style sheet beside it become `webview/NAME.js` and `webview/NAME.css`. */
async function writeWebviews(extension: string, how: BundleOptions): Promise<string[]> {
  const sources = globSync("extension/views/*/webview.{ts,css}", { cwd: checkout });
  if (sources.length === 0) return [];
  const entryPoints = sources.map((file) => ({ in: fromCheckout(file), out: basename(dirname(file)) }));
  const { metafile } = await build({
    ...common(how),
    ...{ platform: "browser", format: "iife", target: BROWSER, metafile: true },
    ...{ entryPoints, outdir: join(extension, "webview") },
  });
  for (const [file, { bytes }] of Object.entries(metafile.outputs)) {
    if (!file.endsWith(".map")) reportSize(join(checkout, file), bytes, how);
  }
  return Object.keys(metafile.inputs);
}

function reportSize(
  file: string,
  bytes: number,
  { into = dist, dev }: BundleOptions,
  budgetKiB = Infinity,
): void {
  const sizeKiB = bytes / 1024;
  const over = !dev && sizeKiB > budgetKiB ? `  over its budget of ${budgetKiB} KiB` : "";
  console.log(`  ${relative(into, file).padEnd(32)}${sizeKiB.toFixed(1).padStart(8)} KiB${over}`);
}

function common({ dev = false }: BundleOptions): BuildOptions {
  return {
    absWorkingDir: checkout,
    bundle: true,
    minify: !dev,
    sourcemap: dev ? "linked" : false,
    legalComments: "none",
    logLevel: "warning",
    define: { "process.env.NODE_ENV": dev ? '"development"' : '"production"' },
  };
}

async function makeExecutable(file: string): Promise<void> {
  const text = await readFile(file, "utf8");
  if (!text.startsWith("#!")) await writeFile(file, `#!/usr/bin/env node\n${text}`);
  await chmod(file, 0o755);
}

async function copyAssets(extension: string): Promise<void> {
  const assets = globSync(ASSETS, { cwd: fromCheckout("extension") });
  for (const asset of assets) {
    await cp(fromCheckout("extension", asset), join(extension, asset), { recursive: true });
  }
  for (const document of globSync(DOCUMENTS, { cwd: checkout })) {
    const text = await readFile(fromCheckout(document), "utf8");
    // In the package the extension's folder is the root.
    await writeFile(join(extension, document), text.replaceAll("](extension/", "]("));
  }
}

/**
 * The manifest as it is packed: with the workspace's version, and without the `type` that only the sources beside it
 * need. Every file it names must be there once all is built.
 */
async function writeManifest(extension: string, { dev, into }: BundleOptions): Promise<void> {
  const source = await readFile(fromCheckout("extension", "package.json"), "utf8");
  const { type: _, ...manifest } = JSON.parse(source);
  await writeFile(join(extension, "package.json"), JSON.stringify({ ...manifest, version }, null, 2));
  const outs = new Set(bundles(into).map(({ out }) => out));
  const missing = filesNamedIn(manifest).filter((file) => {
    const path = join(extension, file);
    return !outs.has(path) && !existsSync(path);
  });
  if (missing.length === 0) return;
  const words = `extension/package.json names files that are not there: ${missing.join(", ")}`;
  if (!dev) throw new Error(words);
  console.log(`  ${words}`);
}

/** Every string in a manifest that is a path into the package, as `./path`; the icon stands without the dot. */
function filesNamedIn(value: unknown): string[] {
  if (typeof value === "string") return value.startsWith("./") ? [value] : [];
  if (typeof value !== "object" || value === null) return [];
  const icon =
    "icon" in value && typeof value.icon === "string" && /\.\w+$/.test(value.icon) ? [value.icon] : [];
  return [...icon, ...Object.values(value).flatMap(filesNamedIn)];
}

function isWritten(file: string, { dev }: BundleOptions): boolean {
  if (existsSync(file)) return true;
  const words = `${relative(checkout, file)} is not there`;
  if (!dev) throw new Error(words);
  console.log(`  ${words}: left out`);
  return false;
}

if (import.meta.main) {
  await runAsCommand(async (flags) => {
    console.log("Building the extension and the terminal command");
    await bundle({ dev: flags.has("--dev"), explain: flags.has("--explain") });
  });
}
