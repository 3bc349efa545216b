/** Which files make a logbook together, by where they stand and which of them hold a `room` block (FORMAT.md, section 1). */

export interface FileOfLogbook {
  /** A path or a URI, with `/` between folders. */
  readonly path: string;
  readonly hasRoom: boolean;
}

/**
 * The folder of each file's logbook, by the file's path: the nearest folder at or above it that holds a room; where there is none, its own folder.
 * Files with the same folder are one logbook.
 * @param folderOf the folder of a file, for files that stand in none
 */
export function logbookFolders(
  files: Iterable<FileOfLogbook>,
  folderOf: (path: string) => string = folderOfPath,
): Map<string, string> {
  const all = [...files];
  const rooms = new Set(all.filter((file) => file.hasRoom).map((file) => folderOf(file.path)));
  return new Map(all.map(({ path }) => [path, nearestRoom(folderOf(path), rooms)]));
}

/** All before the last `/`; empty for a name alone. */
export function folderOfPath(path: string): string {
  const slash = path.lastIndexOf("/");
  return slash < 0 ? "" : path.slice(0, slash);
}

function nearestRoom(folder: string, rooms: ReadonlySet<string>): string {
  let at = folder;
  while (!rooms.has(at)) {
    if (at === "") return folder;
    at = folderOfPath(at);
  }
  return at;
}
