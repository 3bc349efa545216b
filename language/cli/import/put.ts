import {
  closeSync,
  fsyncSync,
  lstatSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import type { Shown } from "../files.ts";
import { Trouble, troubleWith } from "../world.ts";
import { replaceFile } from "../write.ts";

/** Writes a file that is not there yet, wholly or not at all. Throws `Trouble` where something stands in its place, be it a link that leads elsewhere. */
export function putNew(path: string, text: string, shown: Shown): void {
  const fresh = join(dirname(path), `.${basename(path)}.${process.pid}.new`);
  try {
    if (isThere(path)) throw new Trouble(`${shown(path)}: something stands there already, and is left alone`);
    const file = openSync(fresh, "wx");
    try {
      const bytes = Buffer.from(text, "utf8");
      for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(fresh, path);
  } catch (error) {
    rmSync(fresh, { force: true });
    throw error instanceof Trouble ? error : new Trouble(troubleWith(shown(path), error));
  }
}

/** Writes a file of ours, over an older one only where that is ours, too. */
export function putOwn(path: string, text: string, isOurs: (text: string) => boolean, shown: Shown): void {
  if (!isThere(path)) {
    putNew(path, text, shown);
    return;
  }
  let was: Buffer;
  try {
    was = readFileSync(path);
  } catch (error) {
    throw new Trouble(troubleWith(shown(path), error));
  }
  if (!isOurs(was.toString("utf8")))
    throw new Trouble(`${shown(path)}: another file stands there, and is left alone`);
  replaceFile(path, was, text, shown);
}

function isThere(path: string): boolean {
  try {
    lstatSync(path);
    return true;
  } catch {
    return false;
  }
}
