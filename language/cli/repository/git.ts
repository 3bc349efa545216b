import { spawnSync } from "node:child_process";
import { Trouble, type World } from "../world.ts";

/** The `git` command: run with a list of words, never through a shell. */

/** Output larger than this is refused: a repository of logs is far below. */
const mostBytes = 1 << 30;

/** How a run of git ended. */
export interface GitRun {
  readonly status: number;
  readonly out: Buffer;
  /** What it complained of, without `fatal:`. */
  readonly complaint: string;
}

/**
 * Nothing that a repository sets is run for us: no monitor of files, no program that shows a diff. Locks are not taken for what only looks.
 */
const settings = ["-c", "core.fsmonitor=false", "-c", "core.quotePath=false", "--no-pager"];
const environment = { GIT_OPTIONAL_LOCKS: "0", LC_ALL: "C", GIT_TERMINAL_PROMPT: "0" };

/** Runs git in a folder. Throws `Trouble` where there is no git. */
export function git(world: World, folder: string, words: readonly string[], input?: string): GitRun {
  const ended = spawnSync("git", [...settings, ...words], {
    cwd: folder,
    env: { ...world.env, ...environment },
    input: input ?? "",
    maxBuffer: mostBytes,
    windowsHide: true,
  });
  if (ended.error !== undefined) {
    const code = (ended.error as NodeJS.ErrnoException).code;
    if (code === "ENOENT") throw new Trouble("git is not installed here, or not on the path");
    if (code === "ENOBUFS") throw new Trouble(`git ${words[0]}: there is too much to read at once`);
    throw new Trouble(`git ${words[0]}: ${ended.error.message}`);
  }
  const complaint = ended.stderr
    .toString("utf8")
    .replace(/^(?:fatal|error): /gm, "")
    .trim();
  return { status: ended.status ?? 1, out: ended.stdout, complaint };
}

/** The same where it has to go well. Throws `Trouble` with what git says. */
export function gitOut(world: World, folder: string, words: readonly string[], input?: string): Buffer {
  const { status, out, complaint } = git(world, folder, words, input);
  if (status !== 0) throw new Trouble(`git ${words[0]}: ${complaint || `it ended with ${status}`}`);
  return out;
}
