import {
  chmodSync,
  closeSync,
  fsyncSync,
  openSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import type { Shown } from "./files.ts";
import { Trouble, troubleWith } from "./world.ts";

/**
 * Replaces a file by another text, wholly or not at all: what was there stays until the new file is complete on the disk. The file keeps
 * its mode, and a link keeps leading to it. Throws `Trouble` if it could not be written, or is no longer what was read.
 * @param was the bytes that were read
 */
export function replaceFile(path: string, was: Uint8Array, text: string, shown: Shown): void {
  let fresh = "";
  try {
    const real = realpathSync(path);
    fresh = join(dirname(real), `.${basename(real)}.${process.pid}.new`);
    writeAll(fresh, Buffer.from(text, "utf8"), statSync(real).mode);
    if (!readFileSync(real).equals(was))
      throw new Trouble(`${shown(path)}: changed by somebody else just now, and left alone`);
    renameSync(fresh, real);
  } catch (error) {
    if (fresh !== "") rmSync(fresh, { force: true });
    throw error instanceof Trouble ? error : new Trouble(troubleWith(shown(path), error));
  }
}

function writeAll(path: string, bytes: Buffer, mode: number): void {
  // Never over a file that is there already.
  const file = openSync(path, "wx", mode);
  try {
    for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
  // What opens a file takes the umask off its mode.
  chmodSync(path, mode & 0o7777);
}
