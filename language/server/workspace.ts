import type { TextDocumentContentChangeEvent } from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import { type BlockChange, Source } from "../book/source.ts";
import { CheckedLogbook } from "../checks/check.ts";
import type { View } from "../features/view.ts";
import { folderOfPath, logbookFolders } from "../room/logbooks.ts";

/** A file the server knows, open or not. */
export interface TankFile {
  readonly uri: string;
  readonly source: Source;
  /** The folder that names its logbook. */
  readonly folder: string;
  /** Undefined while it is not open. */
  readonly version: number | undefined;
  /** Was it stored when it was last looked at? */
  readonly isStored: boolean;
}

type Known = { -readonly [K in keyof TankFile]: TankFile[K] } & {
  document: TextDocument | undefined;
  hasRoom: boolean;
};

/**
 * All files and the logbooks they make. An open document goes before what is stored. Everything happens at once and in order; what takes
 * time (asking the client for texts) is the loader's.
 */
export class Workspace {
  /** Counts everything that may change an answer. */
  generation = 0;
  /** Counts what a client has not done itself: files stored by others, another day. */
  unseen = 0;
  private readonly known = new Map<string, Known>();
  private readonly logbooks = new Map<string, CheckedLogbook>();
  private readonly listeners = new Set<() => void>();
  private day = 0;
  private pinnedDay = Number.NaN;

  get files(): ReadonlyMap<string, TankFile> {
    return this.known;
  }

  /** The logbooks by their folders. */
  get rooms(): ReadonlyMap<string, CheckedLogbook> {
    return this.logbooks;
  }

  get worldDay(): number {
    return this.day;
  }

  /** Calls back after each change; returns what ends that. */
  onChange(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** @param isPinned this day goes before what a room says of itself */
  setToday(day: number, isPinned: boolean): void {
    this.day = day;
    this.pinnedDay = isPinned ? day : Number.NaN;
    for (const { logbook } of this.logbooks.values()) logbook.asOf = this.pinnedDay;
    this.unseen++;
    this.changed();
  }

  /** What a feature looks at; undefined for a file that is not known. */
  view(uri: string): View | undefined {
    const file = this.known.get(uri);
    const checked = file === undefined ? undefined : this.logbooks.get(file.folder);
    if (file === undefined || checked === undefined) return undefined;
    return { checked, source: file.source, worldDay: this.day };
  }

  /** A file's text with its lines. */
  document(uri: string): TextDocument | undefined {
    const file = this.known.get(uri);
    if (file === undefined) return undefined;
    file.document ??= TextDocument.create(uri, "standpipe", file.version ?? 0, file.source.text);
    return file.document;
  }

  open(uri: string, version: number, text: string): void {
    this.put(uri, text);
    const file = this.known.get(uri)!;
    file.version = version;
    file.document = TextDocument.create(uri, "standpipe", version, text);
  }

  /** Applies edits as they come, one after the other. */
  edit(uri: string, version: number, changes: readonly TextDocumentContentChangeEvent[]): void {
    const file = this.known.get(uri);
    const document = this.document(uri);
    if (file === undefined || document === undefined) return;
    for (const change of changes) {
      if ("range" in change) {
        const from = document.offsetAt(change.range.start);
        const to = document.offsetAt(change.range.end);
        this.replace(file, Math.min(from, to), Math.max(from, to), change.text);
      } else {
        this.rewrite(file, change.text);
      }
      TextDocument.update(document, [change], version);
    }
    file.version = version;
    file.document = document;
    this.changed();
  }

  /** The document is no longer open. Until it is read again its text stays what it was. */
  close(uri: string): void {
    const file = this.known.get(uri);
    if (file === undefined) return;
    file.version = undefined;
    if (!file.isStored) this.remove(uri);
  }

  /** Takes over texts as they are stored, null for what is gone; open documents stay as they are. */
  store(texts: Iterable<readonly [uri: string, text: string | null]>): void {
    for (const [uri, text] of texts) {
      const file = this.known.get(uri);
      if (file?.version !== undefined) file.isStored = text !== null;
      else if (text === null) this.drop(uri);
      else {
        this.put(uri, text, false);
        this.known.get(uri)!.isStored = true;
      }
    }
    this.regroup();
    this.unseen++;
    this.changed();
  }

  /** What is told beside the log is otherwise now: a setting. */
  retell(): void {
    this.unseen++;
    this.changed();
  }

  private remove(uri: string): void {
    this.drop(uri);
    this.regroup();
    this.changed();
  }

  private drop(uri: string): void {
    const file = this.known.get(uri);
    if (file === undefined) return;
    this.known.delete(uri);
    this.logbooks.get(file.folder)?.remove(uri);
  }

  /** Puts a text in; of a file that is known only what differs is read again. */
  private put(uri: string, text: string, alone = true): void {
    const file = this.known.get(uri);
    if (file !== undefined) {
      if (file.source.text === text) return;
      this.rewrite(file, text);
      file.document = undefined;
    } else {
      const source = new Source(uri, text);
      const hasRoom = holdsRoom(source);
      this.known.set(uri, {
        uri,
        source,
        folder: noFolder,
        version: undefined,
        isStored: false,
        document: undefined,
        hasRoom,
      });
    }
    if (!alone) return;
    this.regroup();
    this.changed();
  }

  private rewrite(file: Known, text: string): void {
    const before = file.source.text;
    const most = Math.min(before.length, text.length);
    let start = 0;
    while (start < most && before.charCodeAt(start) === text.charCodeAt(start)) start++;
    let alike = 0;
    while (
      alike < most - start &&
      before.charCodeAt(before.length - 1 - alike) === text.charCodeAt(text.length - 1 - alike)
    )
      alike++;
    this.replace(file, start, before.length - alike, text.slice(start, text.length - alike));
  }

  private replace(file: Known, start: number, end: number, text: string): void {
    const change = file.source.edit(start, end, text);
    this.logbooks.get(file.folder)?.take(change);
    if (touchesDefinition(change)) {
      const hadRoom = file.hasRoom;
      file.hasRoom = holdsRoom(file.source);
      if (file.hasRoom !== hadRoom) this.regroup();
    }
  }

  /** Gives every file to the logbook it belongs to. */
  private regroup(): void {
    const folders = logbookFolders(
      [...this.known.values()].map(({ uri, hasRoom }) => ({ path: uri, hasRoom })),
      folderOf,
    );
    for (const file of this.known.values()) {
      const folder = folders.get(file.uri)!;
      if (folder === file.folder) continue;
      this.logbooks.get(file.folder)?.remove(file.uri);
      file.folder = folder;
      this.logbookIn(folder).put(file.source);
    }
    for (const [folder, { logbook }] of this.logbooks)
      if (logbook.sources.size === 0) this.logbooks.delete(folder);
  }

  private logbookIn(folder: string): CheckedLogbook {
    let checked = this.logbooks.get(folder);
    if (checked === undefined) {
      checked = new CheckedLogbook();
      checked.logbook.asOf = this.pinnedDay;
      this.logbooks.set(folder, checked);
    }
    return checked;
  }

  private changed(): void {
    this.generation++;
    for (const listener of this.listeners) listener();
  }
}

/** The folder of a file that no logbook has yet. */
const noFolder = "\0";

/** What is not stored yet stands in no folder: a logbook of its own. */
function folderOf(uri: string): string {
  return uri.startsWith("untitled:") ? uri : folderOfPath(uri);
}

function holdsRoom(source: Source): boolean {
  return source.blocks.some((block) => block.definition?.word === "room");
}

function touchesDefinition({ removed, added }: BlockChange): boolean {
  return [...removed, ...added].some((block) => block.kind === "definition");
}
