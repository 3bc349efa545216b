import { lstatSync, readFileSync } from "node:fs";
import type { Shown } from "../files.ts";
import { writeWhole } from "../whole-file.ts";
import { Trouble, troubleWith } from "../world.ts";
import { replaceFile } from "../write.ts";

/** Writes a file that is not there yet, wholly or not at all. Throws `Trouble` where something stands in its place, be it a link that leads elsewhere. */
export function putNew(path: string, text: string, shown: Shown): void {
  if (isThere(path)) throw new Trouble(`${shown(path)}: something stands there already, and is left alone`);
  writeWhole(path, shown(path), (write) => write(text));
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
