import { isUtf8 } from "node:buffer";
import {
  type Dirent,
  existsSync,
  lstatSync,
  readdirSync,
  readFileSync,
  realpathSync,
  statSync,
} from "node:fs";
import { basename, dirname, isAbsolute, join, relative, sep } from "node:path";
import { either, nearest } from "../quantity/nearest.ts";
import { Trouble, troubleWith } from "./world.ts";

/** Files of logs: finding them below a folder, and reading them as text. */

export const extension = ".tank";

/** Something that was found and could not be read. */
export interface Unread {
  /** As it is shown. */
  readonly file: string;
  /** Why, in plain words, the path before them. */
  readonly message: string;
}

/** How a path is shown to the reader; as it is, whatever letters are in it. */
export type Shown = (path: string) => string;

/** Paths as the reader writes them: from where they stand; what lies elsewhere whole, if that is how they named it. */
export function shownFrom(cwd: string, asAbsolute: boolean): Shown {
  return (path) => {
    const from = relative(cwd, path) || ".";
    const isElsewhere = from.startsWith("..") || isAbsolute(from);
    return slashed(asAbsolute && isElsewhere ? path : from);
  };
}

/** With `/` between folders, as logs are named everywhere else. */
export const slashed = (path: string): string => (sep === "/" ? path : path.split(sep).join("/"));

/** What a path given by the reader is. Throws `Trouble` where there is none, with the nearest names beside it. */
export function kindOfPath(path: string, shown: Shown): "file" | "folder" {
  try {
    return statSync(path).isDirectory() ? "folder" : "file";
  } catch (error) {
    const near = namesNear(path);
    const meant = near.length > 0 ? `; did you mean ${either(near.map(shown))}?` : "";
    throw new Trouble(`${troubleWith(shown(path), error)}${meant}`);
  }
}

function namesNear(path: string): string[] {
  try {
    const folder = dirname(path);
    return nearest(basename(path), readdirSync(folder)).map((name) => join(folder, name));
  } catch {
    return [];
  }
}

/**
 * The `.tank` files at and below a folder, in order of their names. Folders whose name begins with a dot and `node_modules` are left
 * out. A link is followed only to where it stays inside the folder, and nothing is found twice.
 */
export function walk(folder: string, unread: Unread[], shown: Shown): string[] {
  const found: string[] = [];
  const links: string[] = [];
  const seen = new Set<string>();
  const visit = (path: string): void => {
    let entries: Dirent[];
    try {
      const real = realpathSync(path);
      if (seen.has(real)) return;
      seen.add(real);
      entries = readdirSync(path, { withFileTypes: true });
    } catch (error) {
      unread.push({ file: shown(path), message: troubleWith(shown(path), error) });
      return;
    }
    for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const at = join(path, entry.name);
      if (entry.isDirectory()) {
        if (!entry.name.startsWith(".") && entry.name !== "node_modules") visit(at);
      } else if (entry.isSymbolicLink()) links.push(at);
      else if (entry.isFile() && entry.name.endsWith(extension)) found.push(at);
    }
  };
  visit(folder);
  const files = new Set(found.map((path) => join(realOf(dirname(path)), basename(path))));
  for (const link of links) followLink(link, folder, files, found, visit);
  return found.sort();
}

/** Links come last: by then it is known what is found without them. */
function followLink(
  link: string,
  folder: string,
  files: Set<string>,
  found: string[],
  visit: (path: string) => void,
): void {
  const real = realOf(link);
  const root = realOf(folder);
  if (real === "" || (real !== root && !real.startsWith(root.endsWith(sep) ? root : root + sep))) return;
  const target = lstatSync(real);
  if (target.isDirectory()) visit(link);
  else if (target.isFile() && link.endsWith(extension) && !files.has(real)) {
    files.add(real);
    found.push(link);
  }
}

/** Where a path really leads; empty where it leads nowhere. */
function realOf(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return "";
  }
}

/** The `.tank` files that stand in a folder itself. */
export function filesIn(folder: string): string[] {
  try {
    return readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isFile() && entry.name.endsWith(extension))
      .map((entry) => join(folder, entry.name))
      .sort();
  } catch {
    return [];
  }
}

/** The folders above a path, the nearest first; not beyond the root of the repository it is in. */
export function* foldersAbove(path: string): Generator<string> {
  let at = path;
  while (dirname(at) !== at && !isRepository(at)) {
    at = dirname(at);
    yield at;
  }
}

const isRepository = (folder: string): boolean => existsSync(join(folder, ".git"));

/** The text of a file. Throws `Trouble` for what is no UTF-8 text. */
export function readText(path: string, shown: Shown): string {
  let bytes: Buffer;
  try {
    bytes = readFileSync(path);
  } catch (error) {
    throw new Trouble(troubleWith(shown(path), error));
  }
  return textOf(bytes, shown(path));
}

/** Bytes as text, with a byte order mark where there is one. Throws `Trouble` for what is no UTF-8 text. @param name for the message */
export function textOf(bytes: Uint8Array, name: string): string {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const isWide = (buffer[0] === 0xff && buffer[1] === 0xfe) || (buffer[0] === 0xfe && buffer[1] === 0xff);
  if (isWide) throw new Trouble(`${name}: this is UTF-16; save it as UTF-8`);
  if (buffer.includes(0)) throw new Trouble(`${name}: this is no text`);
  if (!isUtf8(buffer))
    throw new Trouble(`${name}:${firstBadLine(buffer)}: this line is not UTF-8; save the file as UTF-8`);
  return buffer.toString("utf8");
}

function firstBadLine(buffer: Buffer): number {
  let line = 1;
  for (let start = 0; start < buffer.length; line++) {
    const feed = buffer.indexOf(0x0a, start);
    const end = feed < 0 ? buffer.length : feed + 1;
    if (!isUtf8(buffer.subarray(start, end))) break;
    start = end;
  }
  return line;
}
