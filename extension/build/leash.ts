/**
 * Runs a command and ends it, with every process it started, when told to or when whoever asked for it is gone.
 *
 *     node leash.ts COMMAND [ARGUMENT...]
 *
 * Told to: a SIGINT, SIGTERM or SIGHUP. Gone: standard input, a pipe held open by the caller, comes to its end,
 * which it does even if the caller is killed outright. Exits as the command did.
 */

import { execFileSync, spawn } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";

const GRACE_MS = 3000;

const [program = "", ...args] = process.argv.slice(2);
const child = spawn(program, args, { stdio: ["ignore", "inherit", "inherit"] });
child.once("error", (error) => {
  console.error(`${program}: ${error.message}`);
  process.exit(127);
});
child.once("exit", (code, signal) => {
  if (!ending) process.exit(code ?? (signal ? 1 : 0));
});

let ending = false;
for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.on(signal, end);
process.stdin.on("end", end).on("error", end).resume();

async function end(): Promise<void> {
  if (ending) return;
  ending = true;
  if (process.platform === "win32") {
    execFileSync("taskkill", ["/pid", String(child.pid), "/t", "/f"], { stdio: "ignore" });
    process.exit(0);
  }
  // Taken before the first signal: a process whose parent has ended no longer shows whose it was.
  const tree = descendants(process.pid);
  signalAll(tree, "SIGTERM");
  const deadline = Date.now() + GRACE_MS;
  while (anyRuns(tree) && Date.now() < deadline) await new Promise((done) => setTimeout(done, 30));
  signalAll([...tree, ...descendants(process.pid)], "SIGKILL");
  process.exit(0);
}

/** Ids of all processes below one, parents before their children. */
function descendants(root: number): number[] {
  const children = new Map<number, number[]>();
  for (const { pid, parent } of running()) children.set(parent, [...(children.get(parent) ?? []), pid]);
  const found = [...(children.get(root) ?? [])];
  for (const pid of found) found.push(...(children.get(pid) ?? []));
  return found;
}

function anyRuns(pids: readonly number[]): boolean {
  const now = new Set(running().map(({ pid }) => pid));
  return pids.some((pid) => now.has(pid));
}

/**
 * Every process but those that have ended and only wait for their parent to hear of it: from /proc where there is one
 * (small Linux images have no `ps`), else from `ps`.
 */
function running(): { pid: number; parent: number }[] {
  const lines = existsSync("/proc/self/stat") ? linesOfProc() : linesOfPs();
  return lines
    .map((line) => line.trim().split(/\s+/))
    .filter(([, state]) => !state?.startsWith("Z"))
    .map(([pid, , parent]) => ({ pid: Number(pid), parent: Number(parent) }));
}

function linesOfPs(): string[] {
  return execFileSync("ps", ["-A", "-o", "pid=,stat=,ppid="], { encoding: "utf8" }).trim().split("\n");
}

function linesOfProc(): string[] {
  return readdirSync("/proc")
    .filter((name) => /^\d+$/.test(name))
    .flatMap((pid) => {
      try {
        // PID (NAME) STATE PARENT ...; the name may hold anything, parentheses too.
        const stat = readFileSync(`/proc/${pid}/stat`, "utf8");
        return [`${pid} ${stat.slice(stat.lastIndexOf(")") + 2)}`];
      } catch {
        return [];
      }
    });
}

function signalAll(pids: readonly number[], signal: NodeJS.Signals): void {
  for (const pid of pids) {
    try {
      process.kill(pid, signal);
    } catch {
      // Ended by itself in the meantime.
    }
  }
}
