/** One run of the suite inside one extension host of a served VS Code. */

import { globSync } from "node:fs";
import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { build } from "esbuild";
import type { Browser, Page } from "playwright-core";
import type { ServedEditor } from "../../extension/build/served-editor.ts";
import { type Host, MARK, type Message } from "./suite/host.ts";
import type { Outcome } from "./suite/runner.ts";
import { EditorWindow, remote } from "./window.ts";

const RUN_LIMIT_MS = 10 * 60_000;

/**
 * Bundles the suite for one host into the folder of an extension, and returns the file. It has to be inside the folder
 * of an extension: the suite runs in the host where that extension runs.
 */
export async function bundleSuite(extension: string, host: Host, only: string): Promise<string> {
  const suite = join(import.meta.dirname, "suite");
  const files = globSync("*.test.ts", { cwd: suite }).sort();
  const contents = [...files.map((file) => `import "./${file}";`), 'export { run } from "./index.ts";'];
  const outfile = join(extension, "host-tests.js");
  await build({
    stdin: { contents: contents.join("\n"), resolveDir: suite, loader: "ts" },
    ...{ bundle: true, format: "cjs", platform: "browser", target: "es2022", external: ["vscode"] },
    ...{ outfile, sourcemap: "inline", logLevel: "warning" },
    define: { HOST: JSON.stringify(host), ONLY: JSON.stringify(only) },
  });
  return outfile;
}

/** An extension that does nothing, for a suite about an extension that is not under development. */
export async function writeCarrier(folder: string): Promise<string> {
  const manifest = { name: "host-tests", publisher: "standpipe", version: "0.0.0", engines: { vscode: "*" } };
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, "package.json"), JSON.stringify(manifest));
  return folder;
}

export interface HostRun {
  readonly browser: Browser;
  readonly editor: ServedEditor;
  readonly room: string;
  /** The extension under development; the suite lies in its folder and runs where it runs. */
  readonly extension: string;
  readonly suite: string;
}

/**
 * Opens a window that runs the suite and hears its outcomes; throws, with the end of the window's log, unless every
 * test that was announced was also reported.
 */
export async function runInHost(run: HostRun, report: (outcome: Outcome) => void): Promise<void> {
  const { browser, editor, room: folder, extension } = run;
  const log: string[] = [];
  let announced: number | undefined;
  let reported = 0;
  const hear = (level: string, args: readonly unknown[]) => {
    const text = args.map((arg) => (typeof arg === "string" ? arg : JSON.stringify(arg))).join(" ");
    if (!text.startsWith(MARK)) return void log.push(`${level}: ${text}`);
    const message: Message = JSON.parse(text.slice(MARK.length));
    if ("begin" in message) announced = message.begin.tests;
    else {
      reported++;
      report(message.outcome);
    }
  };
  const payload = [["extensionTestsPath", remote(editor, run.suite)]] as const;
  let timer: NodeJS.Timeout | undefined;
  try {
    let window: EditorWindow | undefined;
    await new Promise<void>((resolve, reject) => {
      timer = setTimeout(
        () => reject(new Error(`not done within ${RUN_LIMIT_MS / 60_000} min`)),
        RUN_LIMIT_MS,
      );
      const prepare = async (page: Page) => {
        await page.exposeFunction("codeAutomationLog", hear);
        await page.exposeFunction("codeAutomationExit", () => resolve());
        page.once("crash", () => reject(new Error("the window crashed")));
      };
      const options = { folder, extension, payload, prepare };
      EditorWindow.open(browser, editor, options).then((opened) => {
        window = opened;
      }, reject);
    });
    await window?.close();
    if (announced !== reported)
      throw new Error(`${reported} of ${announced ?? "unknown"} tests were reported`);
    if (reported === 0) throw new Error("no test was run");
  } catch (error) {
    const words = error instanceof Error ? error.message : String(error);
    throw new Error(`${words}\n${log.slice(-30).join("\n")}`);
  } finally {
    clearTimeout(timer);
  }
}
