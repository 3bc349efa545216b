/**
 * `npm run test:host`: the host tests in a real VS Code, served on this machine and opened in a headless browser.
 *
 *     --host NAME   only one of: node, web, packed, page, files
 *     --only TEXT   only tests with this in their name
 *     --dev         builds as for development: quicker to read, and entries not written yet are left out
 *
 * Each run has a fresh profile, its own copy of the test room, and its own server.
 */

import { cpSync, globSync, mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import type { Browser } from "playwright-core";
import { runAsCommand } from "../../extension/build/as-command.ts";
import { bundle } from "../../extension/build/bundle.ts";
import { pack } from "../../extension/build/package.ts";
import { built, vsix } from "../../extension/build/places.ts";
import { installExtension, type ServedEditor, startEditor } from "../../extension/build/served-editor.ts";
import { launchBrowser } from "./browser.ts";
import { suite as filesSuite } from "./files.ts";
import { bundleSuite, runInHost, writeCarrier } from "./hosts.ts";
import { type Fixture, suite as pageSuite } from "./page/suite.ts";
import type { Host } from "./suite/host.ts";
import type { Outcome } from "./suite/runner.ts";
import { type Command, EditorWindow, type WindowOptions } from "./window.ts";

export interface Tally {
  passed: number;
  failed: number;
}

const RUNS = {
  node: "In the extension host on Node",
  web: "In the extension host in a web worker",
  packed: "The packed extension, installed in a fresh profile",
  page: "The editor as its user sees it",
  files: "The package",
} as const;
type Run = keyof typeof RUNS;
const RUN_NAMES = Object.keys(RUNS) as Run[];

export interface HostTestOptions {
  readonly runs?: readonly Run[];
  readonly only?: string;
}

/** Runs the host tests on what was built and packed last. A run that could not run counts as one failure. */
export async function runHostTests({ runs = RUN_NAMES, only = "" }: HostTestOptions): Promise<Tally> {
  const temporary = mkdtempSync(join(tmpdir(), "standpipe-host-"));
  const remove = () => rmSync(temporary, { recursive: true, force: true, maxRetries: 3 });
  process.once("exit", remove);
  const tally: Tally = { passed: 0, failed: 0 };
  const report = (outcome: Outcome) => {
    if (outcome.failure) tally.failed++;
    else tally.passed++;
    const mark = outcome.failure ? "not ok" : "ok";
    console.log(`  ${mark}  ${outcome.name} (${outcome.durationMs} ms)`);
    if (outcome.failure) console.log(ownLines(outcome.failure).replace(/^/gm, "        "));
  };
  // A copy, so that a build in the meantime does not pull the extension from under the tests.
  const extension = join(temporary, "extension");
  cpSync(built().extension, extension, { recursive: true });
  const browser = await launchBrowser();
  try {
    for (const name of runs) {
      console.log(`\n${RUNS[name]}`);
      try {
        await RUN_BY_NAME[name]({ browser, extension, temporary: join(temporary, name), only, report });
      } catch (error) {
        report({
          name: "the run",
          failure: error instanceof Error ? error.message : String(error),
          durationMs: 0,
        });
      }
    }
  } finally {
    await browser.close();
    remove();
  }
  return tally;
}

interface RunContext {
  readonly browser: Browser;
  readonly extension: string;
  readonly temporary: string;
  readonly only: string;
  readonly report: (outcome: Outcome) => void;
}

const RUN_BY_NAME: Record<Run, (context: RunContext) => Promise<void>> = {
  node: (context) => runSuite("node", context),
  web: (context) => runSuite("web", context),
  packed: (context) => runSuite("packed", context),
  files: (context) => filesSuite.run(undefined, context.report, { only: context.only }),
  page: runPages,
};

const inWeb = { "remote.extensionKind": { "standpipe.standpipe": ["web"] } };

async function runSuite(
  host: Host,
  { browser, extension, temporary, only, report }: RunContext,
): Promise<void> {
  const profile = join(temporary, "profile");
  let underDevelopment = join(temporary, "extension");
  if (host === "packed") {
    await installExtension(profile, vsix);
    underDevelopment = await writeCarrier(underDevelopment);
  } else {
    cpSync(extension, underDevelopment, { recursive: true });
  }
  const suite = await bundleSuite(underDevelopment, host, only);
  // The way for a keeper, too, to have the extension run in the browser though the server could run it.
  const settings = host === "web" ? inWeb : {};
  await withEditor(temporary, settings, async (editor) => {
    await runInHost(
      { browser, editor, room: testRoom(temporary), extension: underDevelopment, suite },
      report,
    );
  });
}

/** Each page test opens a window of its own, and a slow machine takes a minute over some: the limit only ends what hangs. */
const pageLimitMs = 240_000;

/** The tests beside a browser share one server; each window has a room and a browser profile of its own. */
async function runPages({ browser, extension, temporary, only, report }: RunContext): Promise<void> {
  for (const file of globSync(join(import.meta.dirname, "page", "*.test.ts")).sort()) await import(file);
  if (pageSuite.count(only) === 0) throw new Error("no test was run");
  await withEditor(temporary, {}, async (editor) => {
    const windows: EditorWindow[] = [];
    const others: ServedEditor[] = [];
    const openIn = async (
      served: ServedEditor,
      options: Partial<WindowOptions> = {},
      commands: readonly Command[] = [],
    ) => {
      const folder = options.folder ?? testRoom(temporary);
      const window = await EditorWindow.open(browser, served, { folder, extension, ...options }, commands);
      windows.push(window);
      return window;
    };
    const open: Fixture["open"] = (options, commands) => openIn(editor, options, commands);
    const openUntrusted: Fixture["openUntrusted"] = async (options, commands) => {
      // Nobody is asked: folders stay as they are, not trusted.
      const settings = { "security.workspace.trust.startupPrompt": "never" };
      others.push(
        await startEditor({
          profile: join(temporary, "untrusted"),
          forTests: true,
          asksTrust: true,
          settings,
        }),
      );
      return openIn(others.at(-1)!, options, commands);
    };
    const openInWeb: Fixture["openInWeb"] = async (options, commands) => {
      others.push(await startEditor({ profile: join(temporary, "web"), forTests: true, settings: inWeb }));
      return openIn(others.at(-1)!, options, commands);
    };
    const after = async () => {
      for (const window of windows.splice(0)) await window.close();
      for (const other of others.splice(0)) await other.stop();
    };
    await pageSuite.run({ open, openUntrusted, openInWeb }, report, { only, after, limitMs: pageLimitMs });
  });
}

async function withEditor(
  temporary: string,
  settings: Record<string, unknown>,
  use: (editor: ServedEditor) => Promise<void>,
): Promise<void> {
  const editor = await startEditor({
    profile: join(temporary, "profile"),
    forTests: true,
    // A blinking cursor would keep a window from ever coming to rest.
    settings: { ...settings, "editor.cursorBlinking": "solid" },
  });
  try {
    await use(editor);
  } finally {
    await editor.stop();
  }
}

/** A failure without the stack below the test itself. */
function ownLines(failure: string): string {
  const lines = failure
    .split("\n")
    .filter((line) => !/^\s+at .*((runner|host\/run|all|as-command)\.ts|node:internal)/.test(line));
  return lines.slice(0, 60).join("\n");
}

/** A copy of the test room that a test may change. */
function testRoom(temporary: string): string {
  mkdirSync(temporary, { recursive: true });
  const room = join(mkdtempSync(join(temporary, "room-")), "room");
  cpSync(join(import.meta.dirname, "room"), room, { recursive: true });
  return room;
}

if (import.meta.main) {
  await runAsCommand(async () => {
    const { values } = parseArgs({
      options: { host: { type: "string" }, only: { type: "string" }, dev: { type: "boolean" } },
    });
    // A package built for development is not the one that ships.
    const possible = RUN_NAMES.filter((name) => name !== "files" || !values.dev);
    const runs = possible.filter((name) => values.host === undefined || name === values.host);
    if (runs.length === 0) throw new Error(`--host is one of ${possible.join(", ")}`);
    console.log("Building and packing the extension");
    await bundle({ dev: values.dev ?? false });
    await pack();
    const { passed, failed } = await runHostTests({ runs, only: values.only ?? "" });
    console.log(`\n${passed} passed, ${failed} failed`);
    process.exit(failed > 0 ? 1 : 0);
  });
}
