import { existsSync } from "node:fs";
import { resolve } from "node:path";
import type { Call } from "../command.ts";
import { kindOfPath, shownFrom } from "../files.ts";
import {
  atDay,
  headOf,
  isDay,
  named,
  partingOf,
  type Repository,
  type Revision,
  repositoryOf,
  revisionOf,
  staged,
  workingFiles,
} from "../repository/repository.ts";
import { Trouble } from "../world.ts";

/** Which two states of the log a call of `diff` is about. */
export interface Pair {
  readonly repository: Repository;
  readonly from: Revision;
  readonly to: Revision;
}

/** Throws `Trouble` for words that name neither a revision nor a folder, and for options that speak against each other. */
export function pairOf(call: Call): Pair {
  const { world } = call;
  const { words, folder } = folderIn(call);
  const path = resolve(world.cwd, folder);
  const shown = shownFrom(world.cwd, false);
  kindOfPath(path, shown);
  const repository = repositoryOf(world, path, shown(path));
  return { repository, ...sides(call, repository, words) };
}

/** The last word is a folder where there is one of that name, and it is no revision. `./name` is always one. */
function folderIn({ words, world }: Call): { words: readonly string[]; folder: string } {
  const last = words.at(-1);
  if (words.length > 3)
    throw new Trouble("two revisions and one folder at most: standpipe diff main work samples/cellar");
  if (last === undefined || !existsSync(resolve(world.cwd, last)) || isRevisionHere(world.cwd, last, world))
    return { words, folder: "." };
  return { words: words.slice(0, -1), folder: last };
}

function isRevisionHere(cwd: string, word: string, world: Call["world"]): boolean {
  if (/^\.{0,2}[/\\]|^\.{1,2}$/.test(word)) return false;
  try {
    return named(repositoryOf(world, cwd, "."), word) !== undefined;
  } catch {
    return false;
  }
}

function sides(call: Call, repository: Repository, words: readonly string[]): Omit<Pair, "repository"> {
  const [isStaged, isUnstaged, since] = [call.has("staged"), call.has("unstaged"), call.value("since")];
  if ([isStaged, isUnstaged, since !== undefined].filter(Boolean).length > 1)
    throw new Trouble("--staged, --unstaged and --since are ways to name one side: one of them");
  const [first, second, ...more] = words;
  if (more.length > 0) throw new Trouble(`“${more[0]}”: there is no such folder`);
  if (isUnstaged) {
    if (first !== undefined)
      throw new Trouble("--unstaged compares what is staged with the files, and takes no revision");
    return { from: staged, to: workingFiles };
  }
  if (isStaged) {
    if (second !== undefined) throw new Trouble("--staged takes one revision at most: the one before");
    return { from: first === undefined ? headOf(repository) : revisionOf(repository, first), to: staged };
  }
  if (since !== undefined) {
    if (!isDay(since)) throw new Trouble(`--since takes a day like 2026-03-01, not “${since}”`);
    if (second !== undefined) throw new Trouble("--since takes one revision at most: the one after");
    return {
      from: atDay(repository, since, "begin"),
      to: first === undefined ? workingFiles : revisionOf(repository, first),
    };
  }
  const range = /^(.*?)(\.{2,3})(.*)$/.exec(first ?? "");
  if (range !== null && second === undefined) {
    const [from, to] = [range[1] || "HEAD", range[3] || "HEAD"].map((word) => revisionOf(repository, word));
    return { from: range[2] === "..." ? partingOf(repository, from!, to!) : from!, to: to! };
  }
  return {
    from: first === undefined ? headOf(repository) : revisionOf(repository, first),
    to: second === undefined ? workingFiles : revisionOf(repository, second),
  };
}
