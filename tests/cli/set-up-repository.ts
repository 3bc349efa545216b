import { spawnSync } from "node:child_process";
import { cpSync, realpathSync } from "node:fs";
import { onTestFinished } from "vitest";
import {
  type GitRepository,
  gitEnvironment,
  gitRepository,
  repositoryAt,
} from "../support/git-repository.ts";
import { type Ended, folderOf, standpipe } from "./support.ts";

/** Repositories in which `standpipe git` is run, as a process of its own, and git calls it back. */

export const room = 'room "Shed"\n  as-of last-entry\n\ntank dam\n  volume 100 L\ntank r4\n  volume 20 L\n';
export const march = `2026-03-01
  dam  change 30 %
  dam  test nitrate 18 mg/L, pH 7.2
  r4   feed flake

2026-03-02
  dam  feed flake
`;

export function emptyRepository(folder?: string): GitRepository {
  const repository = gitRepository(folder === undefined ? folderOf({}) : realpathSync(folder));
  onTestFinished(() => repository.remove());
  return repository;
}

const templates = new Map<string, Promise<string>>();

/** A repository with a room and two days, set up: made once a test file for the same words, then copied. */
export async function setUp(...words: string[]): Promise<GitRepository> {
  const key = words.join(" ");
  const known = templates.get(key) ?? template(words);
  templates.set(key, known);
  const folder = folderOf({});
  cpSync(await known, folder, { recursive: true });
  return repositoryAt(folder);
}

async function template(words: readonly string[]): Promise<string> {
  const repository = gitRepository();
  process.on("exit", () => repository.remove());
  repository.write({ "room.tank": room, "2026-03.tank": march });
  const { status, err } = await called(repository.folder, ...words);
  if (status !== 0) throw new Error(err);
  repository.git("add", "-A");
  repository.git("commit", "-q", "--no-verify", "-m", "The room");
  return repository.folder;
}

/** `standpipe git` in a folder. */
export const called = (cwd: string, ...words: string[]): Promise<Ended> =>
  standpipe(["git", ...words], { cwd, env: { ...gitEnvironment, COLUMNS: "88" } });

/** Git, however it ends. */
export function git({ folder }: { readonly folder: string }, ...words: string[]): Ended {
  const env = { ...gitEnvironment, GIT_EDITOR: "true", GIT_SEQUENCE_EDITOR: "true" };
  const ended = spawnSync("git", words, { cwd: folder, env, encoding: "utf8" });
  return { status: ended.status, out: ended.stdout, err: ended.stderr };
}
