import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

/** A command run to its end. */
export interface Run {
  readonly wallMs: number;
  /** Peak resident memory; NaN where the system does not tell. */
  readonly peakMiB: number;
  readonly status: number | null;
}

const peakHook = fileURLToPath(new URL("./peak.mjs", import.meta.url));

/** Runs a command several times and gives the run with the median time. Its output goes nowhere. */
export async function medianRun(command: string, args: readonly string[], times: number): Promise<Run> {
  const runs: Run[] = [];
  for (let at = 0; at < times; at++) runs.push(await run(command, args));
  runs.sort((a, b) => a.wallMs - b.wallMs);
  return runs[runs.length >> 1]!;
}

function run(command: string, args: readonly string[]): Promise<Run> {
  const isNode = command === process.execPath;
  // Node tells its own peak on a pipe of its own; another program is asked of GNU time, which adds a millisecond.
  const [program, all] = isNode
    ? [command, ["--import", peakHook, ...args]]
    : ["/usr/bin/time", ["-f", "%M", command, ...args]];
  return new Promise((resolve, reject) => {
    const begun = performance.now();
    const child = spawn(program, all, { stdio: ["ignore", "ignore", "pipe", "pipe"] });
    let told = "";
    let errors = "";
    child.stdio[3]?.on("data", (chunk) => {
      told += chunk;
    });
    child.stderr?.on("data", (chunk) => {
      errors += chunk;
    });
    child.on("error", reject);
    child.on("close", (status) => {
      const wallMs = performance.now() - begun;
      const kib = isNode ? told : (errors.trim().split("\n").at(-1) ?? "");
      resolve({ wallMs, peakMiB: Number(kib.trim()) / 1024, status });
    });
  });
}

/** The value below which a share of the samples lie. */
export function quantile(samples: readonly number[], share: number): number {
  const sorted = [...samples].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}
