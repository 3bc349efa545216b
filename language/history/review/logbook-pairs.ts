import { folderOfPath, logbookFolders } from "../../room/logbooks.ts";
import { fill } from "../fill.ts";
import { blocksOf } from "../log-lines.ts";
import type { LogText } from "../match-lines.ts";

/** Which files make a logbook together on both sides: a repository may hold several. */

/** A logbook on both sides. */
export interface LogbookPair {
  /** As the paths have it. */
  readonly folder: string;
  readonly before: readonly LogText[];
  readonly after: readonly LogText[];
}

type Texts = ReadonlyMap<string, string>;

/**
 * The logbooks of both sides, by the folder that holds the room, on either side: a room that is new takes in what stood there without one.
 * One that went and one that came are the same, if there is one of each.
 */
export function logbookPairs(before: Texts, after: Texts): LogbookPair[] {
  const rooms = new Set([before, after].flatMap((texts) => roomsIn(texts)));
  const [was, now] = [byFolder(before, rooms), byFolder(after, rooms)];
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

const roomsIn = (texts: Texts): string[] =>
  [...texts].flatMap(([path, text]) => (hasRoom(text) ? [folderOfPath(path)] : []));

function byFolder(texts: Texts, rooms: ReadonlySet<string>): Map<string, LogText[]> {
  const files = [...texts.keys()].map((path) => ({ path, hasRoom: false }));
  const folders = logbookFolders([...files, ...[...rooms].map(roomFile)]);
  const found = new Map<string, LogText[]>();
  for (const [path, text] of texts) fill(found, [{ path, text }], () => folders.get(path)!);
  return found;
}

/** Stands for whichever file of a folder holds its room. */
const roomFile = (folder: string) => ({ path: folder === "" ? "room" : `${folder}/room`, hasRoom: true });

/** Whether a text defines a room. */
export function hasRoom(text: string): boolean {
  // Looked for as letters first: most texts have none, and they are long.
  return (
    (/^\ufeff?room/.test(text) || text.includes("\nroom") || text.includes("\rroom")) &&
    blocksOf(text).some(({ kind, name }) => kind === "definition" && /^room\b/.test(name))
  );
}
