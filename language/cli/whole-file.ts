import { closeSync, fsyncSync, mkdtempSync, openSync, renameSync, rmSync, writeSync } from "node:fs";
import { dirname, join } from "node:path";
import { Trouble, troubleWith } from "./world.ts";

/** Takes more of a file that is being written. */
export type Write = (part: string | Uint8Array) => void;

/**
 * Writes a file part by part, wholly or not at all: what was there before stays until the new one is complete on the disk.
 * Throws `Trouble` if it cannot be written.
 */
export function writeWhole(path: string, shown: string, fill: (write: Write) => void): void {
  let apart = "";
  let file = -1;
  try {
    apart = mkdtempSync(join(dirname(path), ".standpipe-"));
    file = openSync(join(apart, "new"), "wx");
    let pending = "";
    const flush = (): void => {
      if (pending !== "") writeBytes(file, Buffer.from(pending, "utf8"));
      pending = "";
    };
    fill((part) => {
      if (typeof part === "string") pending += part;
      if (typeof part === "string" && pending.length < enough) return;
      flush();
      if (typeof part !== "string") writeBytes(file, part);
    });
    flush();
    fsyncSync(file);
    closeSync(file);
    file = -1;
    renameSync(join(apart, "new"), path);
  } catch (error) {
    throw error instanceof Trouble ? error : new Trouble(troubleWith(shown, error));
  } finally {
    if (file >= 0) closeSync(file);
    if (apart !== "") rmSync(apart, { recursive: true, force: true });
  }
}

/** Letters that are gathered before they are written. */
const enough = 1 << 16;

function writeBytes(file: number, bytes: Uint8Array): void {
  for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at);
}
