import { isAbsolute, resolve } from "node:path";
import { Source } from "../book/source.ts";
import { CheckedLogbook } from "../checks/check.ts";
import { folderOfPath, logbookFolders } from "../room/logbooks.ts";
import type { Call } from "./command.ts";
import {
  extension,
  filesIn,
  foldersAbove,
  kindOfPath,
  readText,
  type Shown,
  shownFrom,
  slashed,
  textOf,
  type Unread,
  walk,
} from "./files.ts";
import { Progress } from "./progress.ts";
import { listed } from "./text.ts";
import { Trouble } from "./world.ts";

/** A logbook that was asked for. */
export interface Opened {
  /** Its folder, as it is shown. */
  readonly folder: string;
  readonly checked: CheckedLogbook;
  /** Whether a file is among those asked for: its logbook may reach further. */
  isAsked(source: Source): boolean;
  shown(source: Source): string;
}

export interface Opening {
  readonly logbooks: readonly Opened[];
  readonly unread: readonly Unread[];
}

/** What the text of standard input is called. */
export const inputName = "stdin";

/**
 * Opens every logbook that the paths name or lie in: of a folder all at and below it, of a file the one it belongs to, of `-` the text
 * of standard input. Throws `Trouble` if a path leads nowhere, or there is no log.
 * @param isOutline for who reads the days himself: their lines are left unread, and nothing follows from them
 */
export async function open(call: Call, paths: readonly string[], isOutline = false): Promise<Opening> {
  if (paths.includes("-")) {
    if (paths.length > 1) throw new Trouble("“-” reads standard input and stands alone");
    return openInput(call, isOutline);
  }
  const reading = new Reading(call, paths.some(isAbsolute), isOutline);
  try {
    for (const path of paths.length === 0 ? ["."] : paths) reading.ask(resolve(call.world.cwd, path));
  } finally {
    reading.progress.end();
  }
  return reading.finish();
}

async function openInput(call: Call, isOutline: boolean): Promise<Opening> {
  const source = new Source(inputName, textOf(await call.world.input(), inputName), undefined, isOutline);
  const checked = new CheckedLogbook();
  checked.logbook.asOf = call.asOf;
  checked.put(source);
  return {
    logbooks: [{ folder: inputName, checked, isAsked: () => true, shown: () => inputName }],
    unread: [],
  };
}

/** The files of one opening. Sources are called by their absolute paths, with `/` between folders. */
class Reading {
  readonly progress: Progress;
  private readonly call: Call;
  private readonly shown: Shown;
  private readonly isOutline: boolean;
  private readonly sources = new Map<string, Source>();
  /** Read in search of a room, and taken in if it is the logbook's. */
  private readonly apart = new Map<string, Source>();
  private readonly asked = new Set<Source>();
  private readonly folders: string[] = [];
  private readonly unread: Unread[] = [];

  constructor(call: Call, asAbsolute: boolean, isOutline: boolean) {
    this.call = call;
    this.isOutline = isOutline;
    this.shown = shownFrom(call.world.cwd, asAbsolute);
    this.progress = new Progress(call.world.err, call.world.env.TERM === "dumb");
  }

  ask(path: string): void {
    const isFile = kindOfPath(path, this.shown) === "file";
    if (isFile && !path.endsWith(extension))
      throw new Trouble(`${this.shown(path)}: a log is a file that ends in ${extension}`);
    this.folders.push(path);
    const found = isFile ? [path] : walk(path, this.unread, this.shown);
    const sources = this.readAll(found);
    for (const source of sources) this.asked.add(source);
    // A part of a logbook is asked for: the rest stands beside it or above.
    if (this.roomless(sources)) this.reachUp(path);
  }

  finish(): Opening {
    if (this.asked.size === 0 && this.unread.length === 0) {
      const where = listed(this.folders.map(this.shown));
      throw new Trouble(
        `${where}: no ${extension} file here or below; a log begins with a file such as room${extension}`,
      );
    }
    const byFolder = new Map<string, Source[]>();
    for (const [path, folder] of this.foldersOf([...this.sources.values()])) {
      const source = this.sources.get(path)!;
      const known = byFolder.get(folder);
      if (known === undefined) byFolder.set(folder, [source]);
      else known.push(source);
    }
    const logbooks = [...byFolder]
      .filter(([, sources]) => sources.some((source) => this.asked.has(source)))
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([folder, sources]) => this.logbook(folder, sources));
    return { logbooks, unread: this.unread };
  }

  private logbook(folder: string, sources: readonly Source[]): Opened {
    const checked = new CheckedLogbook();
    checked.logbook.asOf = this.call.asOf;
    for (const source of sources) checked.put(source);
    return {
      folder: this.shown(folder === "" ? "/" : folder),
      checked,
      isAsked: (source) => this.asked.has(source),
      shown: (source) => this.shown(source.path),
    };
  }

  private readAll(paths: readonly string[]): Source[] {
    const sources: Source[] = [];
    paths.forEach((path, at) => {
      const source = this.read(path);
      if (source !== undefined) sources.push(source);
      this.progress.step("files read", at + 1, paths.length);
    });
    return sources;
  }

  private read(path: string): Source | undefined {
    const name = slashed(path);
    const known = this.sources.get(name);
    if (known !== undefined) return known;
    try {
      const source = this.apart.get(name) ?? this.sourceOf(path, name);
      this.sources.set(name, source);
      return source;
    } catch (error) {
      if (!(error instanceof Trouble)) throw error;
      const file = this.shown(path);
      if (!this.unread.some((each) => each.file === file)) this.unread.push({ file, message: error.message });
      return undefined;
    }
  }

  private sourceOf(path: string, name: string): Source {
    return new Source(name, readText(path, this.shown), undefined, this.isOutline);
  }

  private foldersOf(sources: readonly Source[]): Map<string, string> {
    return logbookFolders(sources.map((source) => ({ path: source.path, hasRoom: hasRoom(source) })));
  }

  /** Whether some of the files have no room at or above them, as far as is known. */
  private roomless(sources: readonly Source[]): boolean {
    const rooms = new Set([...this.sources.values()].filter(hasRoom).map(({ path }) => folderOfPath(path)));
    const folders = this.foldersOf([...this.sources.values()]);
    return sources.some((source) => !rooms.has(folders.get(source.path)!));
  }

  /** Looks for a room above, or beside a file, and reads all of its logbook. */
  private reachUp(path: string): void {
    for (const folder of foldersAbove(path)) {
      if (!filesIn(folder).some((file) => this.holdsRoom(file))) continue;
      this.readAll(walk(folder, this.unread, this.shown));
      return;
    }
  }

  /** A file that cannot be read holds no room: in a folder that may not be the logbook's it is nobody's business. */
  private holdsRoom(path: string): boolean {
    const name = slashed(path);
    try {
      const source = this.sources.get(name) ?? this.sourceOf(path, name);
      this.apart.set(name, source);
      return hasRoom(source);
    } catch {
      return false;
    }
  }
}

const hasRoom = (source: Source): boolean => source.blocks.some((block) => block.definition?.word === "room");
