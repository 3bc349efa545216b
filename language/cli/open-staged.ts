import { resolve } from "node:path";
import { Source } from "../book/source.ts";
import { CheckedLogbook } from "../checks/check.ts";
import { logbookFolders } from "../room/logbooks.ts";
import type { Call } from "./command.ts";
import { kindOfPath, type Shown, shownFrom } from "./files.ts";
import type { Opened, Opening } from "./open.ts";
import { textsAt } from "./repository/read.ts";
import {
  absolute,
  headOf,
  type Repository,
  type Revision,
  repositoryOf,
  staged,
} from "./repository/repository.ts";
import { Trouble } from "./world.ts";

/** The logbooks of a repository as they are staged, and as they were committed last. */
export interface Staged {
  readonly now: Opening;
  readonly before: Opening;
}

/** @param path of a folder in the repository; all of the repository is read, as a log's room may stand above */
export function openStaged(call: Call, path: string): Staged {
  const shown = shownFrom(call.world.cwd, false);
  const folder = resolve(call.world.cwd, path);
  if (kindOfPath(folder, shown) === "file")
    throw new Trouble(`${shown(folder)}: what is staged is checked as a whole: name a folder`);
  const repository = { ...repositoryOf(call.world, folder, shown(folder)), below: "" };
  return {
    now: openRevision(call, repository, staged, shown),
    before: openRevision(call, repository, headOf(repository), shown),
  };
}

function openRevision(call: Call, repository: Repository, revision: Revision, shown: Shown): Opening {
  const shownOf: Shown = (path) => shown(absolute(repository, path));
  const { texts, unread } = textsAt(repository, revision, shownOf);
  const sources = [...texts].map(([path, text]) => new Source(path, text));
  const hasRoom = (source: Source): boolean =>
    source.blocks.some(({ definition }) => definition?.word === "room");
  const folders = logbookFolders(sources.map((source) => ({ path: source.path, hasRoom: hasRoom(source) })));
  const books = new Map<string, CheckedLogbook>();
  for (const source of sources) {
    const folder = folders.get(source.path)!;
    let checked = books.get(folder);
    if (checked === undefined) {
      checked = new CheckedLogbook();
      checked.logbook.asOf = call.asOf;
      books.set(folder, checked);
    }
    checked.put(source);
  }
  const logbooks = [...books]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([folder, checked]): Opened => {
      return {
        folder: shownOf(folder),
        checked,
        isAsked: () => true,
        shown: (source) => shownOf(source.path),
      };
    });
  return { logbooks, unread };
}
