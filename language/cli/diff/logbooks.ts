import { resolve } from "node:path";
import { hasRoom, type LogbookPair, logbookPairs } from "../../history/review/logbook-pairs.ts";
import type { Call } from "../command.ts";
import { type Shown, shownFrom, type Unread } from "../files.ts";
import { Objects, textsAt } from "../repository/read.ts";
import { absolute } from "../repository/repository.ts";
import { Trouble } from "../world.ts";
import type { Pair } from "./revisions.ts";

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
      `${fromHere(resolve(repository.root, below))}: no .tank file here or below, on neither side${to.is === "index" ? "; git add stages what is to be committed" : ""}`,
    );
  const logbooks = logbookPairs(before.texts, after.texts).filter((pair) =>
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
