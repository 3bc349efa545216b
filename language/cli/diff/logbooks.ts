import { resolve } from "node:path";
import { blocksOf } from "../../history/log-lines.ts";
import type { LogText } from "../../history/match-lines.ts";
import { logbookFolders } from "../../room/logbooks.ts";
import type { Call } from "../command.ts";
import { type Shown, shownFrom, type Unread } from "../files.ts";
import { Objects, textsAt } from "../repository/read.ts";
import { absolute } from "../repository/repository.ts";
import { Trouble } from "../world.ts";
import type { Pair } from "./revisions.ts";

/** A logbook on both sides. */
export interface LogbookPair {
  /** From the root of the repository. */
  readonly folder: string;
  readonly before: readonly LogText[];
  readonly after: readonly LogText[];
}

export interface ReadPairs {
  readonly logbooks: readonly LogbookPair[];
  readonly unread: readonly Unread[];
  /** How a path of the repository is told. */
  readonly shown: Shown;
}

/** Reads both sides, each logbook apart. Throws `Trouble` where there is no log on either. */
export function readPairs(call: Call, { repository, from, to }: Pair): ReadPairs {
  const fromHere = shownFrom(call.world.cwd, false);
  const shown: Shown = (path) => fromHere(absolute(repository, path));
  const objects = new Objects(repository);
  const { below } = repository;
  const read = (where: string) => {
    const part = { ...repository, below: where };
    return [textsAt(part, from, shown, objects), textsAt(part, to, shown, objects)] as const;
  };
  let [before, after] = read(below);
  // A part of a logbook is asked for: its room stands above.
  if (below !== "" && ![before, after].some(({ texts }) => [...texts.values()].some(hasRoom)))
    [before, after] = read("");
  if (before.texts.size + after.texts.size === 0 && before.unread.length + after.unread.length === 0)
    throw new Trouble(
      `${fromHere(resolve(repository.root, below))}: no .tank file here or below, on neither side`,
    );
  const logbooks = pairs(before.texts, after.texts).filter((pair) =>
    [...pair.before, ...pair.after].some(({ path }) => isBelow(path, below)),
  );
  const unread = [...before.unread, ...after.unread];
  return {
    logbooks,
    unread: unread.filter(({ message }, at) => unread.findIndex((each) => each.message === message) === at),
    shown,
  };
}

const isBelow = (path: string, folder: string): boolean =>
  folder === "" || path === folder || path.startsWith(`${folder}/`);

type Texts = ReadonlyMap<string, string>;

/** The logbooks of each side, by the folder that holds the room. One that went and one that came are the same, if there is one of each. */
export function pairs(before: Texts, after: Texts): LogbookPair[] {
  const [was, now] = [byFolder(before), byFolder(after)];
  const gone = [...was.keys()].filter((folder) => !now.has(folder));
  const made = [...now.keys()].filter((folder) => !was.has(folder));
  if (gone.length === 1 && made.length === 1) {
    was.set(made[0]!, was.get(gone[0]!)!);
    was.delete(gone[0]!);
  }
  return [...new Set([...was.keys(), ...now.keys()])]
    .sort()
    .map((folder) => ({ folder, before: was.get(folder) ?? [], after: now.get(folder) ?? [] }));
}

function byFolder(texts: Texts): Map<string, LogText[]> {
  const folders = logbookFolders([...texts].map(([path, text]) => ({ path, hasRoom: hasRoom(text) })));
  const found = new Map<string, LogText[]>();
  for (const [path, folder] of folders) {
    const file = { path, text: texts.get(path)! };
    const known = found.get(folder);
    if (known === undefined) found.set(folder, [file]);
    else known.push(file);
  }
  return found;
}

function hasRoom(text: string): boolean {
  return (
    /^\ufeff?room(?:[\s"]|$)/m.test(text) &&
    blocksOf(text).some(({ kind, name }) => kind === "definition" && /^room\b/.test(name))
  );
}
