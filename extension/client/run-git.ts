import { execFile } from "node:child_process";

/** Runs the `git` command in a folder with a list of words, never through a shell; gives what it prints. Rejects where it fails, or is not there. */
export type RunGit = (folder: string, words: readonly string[]) => Promise<string>;

/** Output larger than this is refused: a repository of logs is far below. */
const mostBytes = 1 << 28;

/** Nothing that a repository sets is run for us: no monitor of files, no pager. Locks are not taken for what only looks. */
const settings = ["-c", "core.fsmonitor=false", "-c", "core.quotePath=false", "--no-pager"];

export const runGit: RunGit = (folder, words) =>
  new Promise((resolve, reject) => {
    const env = { ...process.env, GIT_OPTIONAL_LOCKS: "0", GIT_TERMINAL_PROMPT: "0", LC_ALL: "C" };
    execFile(
      "git",
      [...settings, ...words],
      { cwd: folder, env, maxBuffer: mostBytes, windowsHide: true },
      (error, out) => {
        if (error === null) resolve(out);
        else reject(error);
      },
    );
  });
