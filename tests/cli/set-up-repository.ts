import { spawnSync } from "node:child_process";
import { realpathSync } from "node:fs";
import { onTestFinished } from "vitest";
import { type GitRepository, gitEnvironment, gitRepository } from "../support/git-repository.ts";
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

/** A repository with a room and two days, set up. */
export async function setUp(
  files: Readonly<Record<string, string>> = {},
  ...words: string[]
): Promise<GitRepository> {
  const repository = emptyRepository();
  repository.commit("The room", { "room.tank": room, "2026-03.tank": march, ...files });
  const { status, err } = await called(repository.folder, ...words);
  if (status !== 0) throw new Error(err);
  repository.commit("Set up");
  return repository;
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
