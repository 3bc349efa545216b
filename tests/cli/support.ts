import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { build } from "esbuild";
import { onTestFinished } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { run } from "../../language/cli/run.ts";

/** The terminal command as it is used: one bundle, a process of its own, a folder of logs. */

const checkout = join(import.meta.dirname, "..", "..");
export const cellar = join(checkout, "samples", "cellar");

let bundle: Promise<string> | undefined;

/** Builds the command once a test file. */
async function command(): Promise<string> {
  bundle ??= (async () => {
    const folder = mkdtempSync(join(tmpdir(), "standpipe-command-"));
    process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
    const outfile = join(folder, "standpipe.mjs");
    await build({
      absWorkingDir: checkout,
      entryPoints: ["language/cli/main.ts"],
      outfile,
      bundle: true,
      platform: "node",
      format: "esm",
      target: "node20",
      logLevel: "error",
    });
    return outfile;
  })();
  return bundle;
}

export interface Ended {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

export interface Around {
  readonly cwd?: string;
  readonly env?: Record<string, string>;
  readonly input?: string | Uint8Array;
}

/** Runs the command in a process of its own. */
export async function standpipe(args: readonly string[], around: Around = {}): Promise<Ended> {
  const ended = spawnSync(process.execPath, [await command(), ...args], {
    cwd: around.cwd ?? checkout,
    // Nothing of what this machine happens to set.
    env: { PATH: process.env.PATH ?? "", ...around.env },
    input: around.input ?? "",
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  return { status: ended.status, out: ended.stdout, err: ended.stderr };
}

/** A shell line in which `standpipe` is the command. */
export async function shell(line: string, around: Around = {}): Promise<Ended> {
  const script = `standpipe() { '${process.execPath}' '${await command()}' "$@"; }\n${line}`;
  const ended = spawnSync("sh", ["-c", script], { cwd: around.cwd ?? checkout, encoding: "utf8" });
  return { status: ended.status, out: ended.stdout, err: ended.stderr };
}

export interface Desk {
  readonly cwd?: string;
  readonly columns?: number;
  readonly isTTY?: boolean;
  readonly env?: Record<string, string>;
  /** Today on the calendar. */
  readonly day?: string;
  readonly input?: string;
}

/** Runs the command in this process, on a terminal of our making. */
export async function atDesk(args: readonly string[], desk: Desk = {}): Promise<Ended> {
  const out: string[] = [];
  const err: string[] = [];
  const { isTTY = true, columns } = desk;
  const stream = (to: string[]) => ({ isTTY, columns, write: (text: string) => void to.push(text) });
  const status = await run(args, {
    cwd: desk.cwd ?? checkout,
    env: desk.env ?? {},
    day: dayOf(desk.day ?? "2026-03-31"),
    out: stream(out),
    err: stream(err),
    input: async () => new TextEncoder().encode(desk.input ?? ""),
  });
  return { status, out: out.join(""), err: err.join("") };
}

/** A folder with these files, gone when the test is over. */
export function folderOf(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "standpipe-")));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (const [name, text] of Object.entries(files)) {
    const path = join(folder, name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  }
  return folder;
}

/** A room with one tank and a test that is out of its limit, whose today is its last day. */
export const room = `room "Shed"
  as-of  last-entry
  every  28 d clean

tank dam "Rainbowfish dam"
  volume  100 L
  limits  nitrate <= 25 mg/L
`;
export const bad = `2026-03-01
  dam  test nitrate 40
  dam  tset pH 7
`;
