/** Every long-running process of the build and the tests is started here, so that none outlives what started it. */

import { spawn } from "node:child_process";
import { join } from "node:path";
import type { Readable } from "node:stream";

export interface Leashed {
  /** Null where the output goes straight to ours. */
  readonly stdout: Readable | null;
  readonly stderr: Readable | null;
  /** The exit status, once the process has ended. */
  readonly ended: Promise<number>;
  /** Ends it and all it started; resolves when they are gone. */
  end(): Promise<void>;
}

export interface LeashOptions {
  readonly output: "ours" | "piped";
  readonly folder?: string;
  readonly environment?: NodeJS.ProcessEnv;
}

/** Starts a program that ends when told to, and also when this process does, however that happens. */
export function leashed(program: string, args: readonly string[], options: LeashOptions): Leashed {
  const output = options.output === "ours" ? "inherit" : "pipe";
  const child = spawn(process.execPath, [join(import.meta.dirname, "leash.ts"), program, ...args], {
    cwd: options.folder,
    env: options.environment,
    // A group of its own: the terminal's Ctrl-C reaches us alone, and we end the others in order.
    detached: true,
    stdio: ["pipe", output, output],
  });
  const ended = new Promise<number>((resolve, reject) => {
    child.once("error", reject).once("close", (code) => resolve(code ?? 1));
  });
  return {
    stdout: child.stdout,
    stderr: child.stderr,
    ended,
    end: async () => {
      child.stdin?.destroy();
      await ended;
    },
  };
}
