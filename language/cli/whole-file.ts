import {
  closeSync,
  fsyncSync,
  linkSync,
  lstatSync,
  mkdtempSync,
  openSync,
  renameSync,
  rmSync,
  writeSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { Trouble, troubleWith } from "./world.ts";

/** Takes more of a file that is being written. */
export type Write = (part: string | Uint8Array) => void;

/** Begins one file of several. */
export type Begin = (path: string, shown: string) => OneOfSeveral;

export interface OneOfSeveral {
  readonly write: Write;
  /** Says that all of it is written; said by itself at the end of all. */
  end(): void;
}

/**
 * Writes a file part by part, wholly or not at all: what was there before stays until the new one is complete on the disk.
 * Throws `Trouble` if it cannot be written.
 */
export function writeWhole(path: string, shown: string, fill: (write: Write) => void): void {
  writeTogether((begin) => fill(begin(path, shown).write));
}

/**
 * Writes several files, all or none. None takes its place before all are complete on the disk; where one then cannot take it, those that
 * were there before come back. Throws `Trouble` that names the file.
 */
export function writeTogether(fill: (begin: Begin) => void): void {
  const set = new Together();
  let last = "";
  try {
    fill((path, shown) => {
      last = shown;
      return set.begin(path, shown);
    });
    set.place();
  } catch (error) {
    throw error instanceof Trouble ? error : new Trouble(troubleWith(last, error));
  } finally {
    set.tidy();
  }
}

class Together {
  private readonly files: Beside[] = [];
  /** By the folder of a file the one beside it in which it is written. */
  private readonly apart = new Map<string, string>();
  /** What is in there is all that is left of a file. */
  private isNeeded = false;

  begin(path: string, shown: string): Beside {
    return named(shown, () => {
      // Asked before the work, and again at its end.
      refuseFolder(path);
      const folder = dirname(path);
      const apart = this.apart.get(folder) ?? mkdtempSync(join(folder, ".standpipe-"));
      this.apart.set(folder, apart);
      const file = new Beside(path, shown, join(apart, String(this.files.length)));
      this.files.push(file);
      return file;
    });
  }

  place(): void {
    for (const file of this.files) file.end();
    const placed: Beside[] = [];
    for (const file of this.files) {
      placed.push(file);
      try {
        file.place(this.files.length > 1);
      } catch (error) {
        this.takeBack(placed);
        throw new Trouble(troubleWith(file.shown, error));
      }
    }
  }

  private takeBack(placed: readonly Beside[]): void {
    const left = placed.filter((file) => !file.takeBack());
    if (left.length === 0) return;
    this.isNeeded = true;
    const where = [...this.apart.values()].join(", ");
    const names = left.map(({ shown }) => shown).join(", ");
    throw new Trouble(`${names}: could not be put back as it was; what stood there is in ${where}`);
  }

  tidy(): void {
    for (const file of this.files) file.close();
    if (this.isNeeded) return;
    for (const folder of this.apart.values()) rmSync(folder, { recursive: true, force: true });
  }
}

/** A file that is written beside its place. */
class Beside implements OneOfSeveral {
  readonly shown: string;
  private readonly path: string;
  private readonly fresh: string;
  private readonly old: string;
  private file: number;
  private pending = "";

  constructor(path: string, shown: string, beside: string) {
    this.path = path;
    this.shown = shown;
    this.fresh = `${beside}.new`;
    this.old = `${beside}.old`;
    this.file = openSync(this.fresh, "wx");
  }

  readonly write: Write = (part) => {
    if (typeof part === "string") this.pending += part;
    if (typeof part === "string" && this.pending.length < enough) return;
    this.flush();
    if (typeof part !== "string") named(this.shown, () => writeBytes(this.file, part));
  };

  end(): void {
    if (this.file < 0) return;
    this.flush();
    named(this.shown, () => fsyncSync(this.file));
    this.close();
  }

  close(): void {
    if (this.file >= 0) closeSync(this.file);
    this.file = -1;
  }

  /** @param mayComeBack whether what is there is to be kept until all is done */
  place(mayComeBack: boolean): void {
    refuseFolder(this.path);
    if (mayComeBack && isThere(this.path)) {
      try {
        linkSync(this.path, this.old);
      } catch {
        // A file system without links.
        renameSync(this.path, this.old);
      }
    }
    renameSync(this.fresh, this.path);
  }

  /** False if that cannot be done. */
  takeBack(): boolean {
    try {
      if (isThere(this.old)) renameSync(this.old, this.path);
      // What did not take its place is still beside it.
      else if (!isThere(this.fresh)) rmSync(this.path);
      return true;
    } catch {
      return false;
    }
  }

  private flush(): void {
    if (this.pending !== "")
      named(this.shown, () => writeBytes(this.file, Buffer.from(this.pending, "utf8")));
    this.pending = "";
  }
}

const isThere = (path: string): boolean => lstatSync(path, { throwIfNoEntry: false }) !== undefined;

/** A folder could be moved out of the way as a file is, and must not be. */
function refuseFolder(path: string): void {
  if (lstatSync(path, { throwIfNoEntry: false })?.isDirectory() === true)
    throw Object.assign(new Error("a folder"), { code: "EISDIR" });
}

/** What the disk refuses, with the name of the file. */
function named<T>(shown: string, act: () => T): T {
  try {
    return act();
  } catch (error) {
    throw error instanceof Trouble ? error : new Trouble(troubleWith(shown, error));
  }
}

/** Letters that are gathered before they are written. */
const enough = 1 << 16;

function writeBytes(file: number, bytes: Uint8Array): void {
  for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at);
}
