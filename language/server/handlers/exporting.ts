import type { GenericRequestHandler } from "vscode-languageserver";
import type { Source } from "../../book/source.ts";
import { csvOf } from "../../exchange/export/csv.ts";
import { itemsOfLog } from "../../exchange/export/items-of-log.ts";
import { jsonOf, ndjsonOf } from "../../exchange/export/log-json.ts";
import { parquetOf } from "../../exchange/export/parquet.ts";
import { rowsOf, tables } from "../../exchange/export/tables.ts";
import { decoded, nameOfFile } from "../../features/files-in-text.ts";
import type { View } from "../../features/view.ts";
import { base64Of } from "../base64.ts";
import type { Group } from "../group.ts";
import { type ExportParams, type ExportPart, exportRequest, filesRequest } from "../protocol.ts";
import type { Session } from "../session.ts";

/** A logbook for other tools, handed over part by part: it may be larger than one answer should be. */
export const exporting: Group = {
  capabilities: () => ({}),
  serve(session) {
    let running: Export | undefined;
    const next = async (params: ExportParams): Promise<ExportPart | null> => {
      const looked = session.look(params.uri);
      if (looked === undefined || params.part < 0) {
        running = undefined;
        return null;
      }
      if (params.part === 0) {
        running = new Export(looked.view, params);
        running.unread = await unreadFiles(session, params.uri);
      }
      const part = running?.next(params.part, looked.view) ?? null;
      if (part === null || part.isLast) running = undefined;
      return part;
    };
    const handler = session.handler<ExportParams, ExportPart | null>(exportRequest.method, null, next);
    session.connection.onRequest(exportRequest.method, handler as GenericRequestHandler<unknown, never>);
  },
};

/** The names of the files of a log that the editor lists and cannot read. */
async function unreadFiles(session: Session, uri: string): Promise<string[]> {
  if (session.client.options.givesFiles !== true) return [];
  const { files } = session.workspace;
  const folder = files.get(uri)?.folder ?? "";
  const all = await session.ask(filesRequest, null);
  return all.filter((each) => each.startsWith(folder) && !files.has(each)).map(nameOfFile);
}

/** Letters of one part, and lines of the log in which as many must not come together. */
const partLength = 1 << 21;
const partLines = 10_000;

class Export {
  private readonly sources: readonly Source[];
  private readonly texts: readonly string[];
  private readonly parts: Generator<string | Uint8Array>;
  unread: readonly string[] = [];
  private filesDone = 0;
  private lines = 0;
  private told = 0;
  private expected = 0;

  constructor({ checked }: View, { form, table: name }: ExportParams) {
    this.sources = sorted(checked.logbook.sources.values());
    this.texts = this.sources.map(({ text }) => text);
    const shared = commonFolder(this.sources.map(({ path }) => path));
    const pathOf = ({ path }: Source): string => {
      this.filesDone++;
      const below = decoded(path.slice(shared.length)).replace(/^untitled:/, "");
      return below.endsWith(".tank") ? below : `${below}.tank`;
    };
    const items = this.counted(
      itemsOfLog(checked.book, this.sources, pathOf),
      "lines",
      ({ is }) => is !== "log" && is !== "file",
    );
    const table = tables.find((each) => each.name === name) ?? tables[0]!;
    const rows = this.counted(rowsOf(table, items), "told", () => true);
    switch (form) {
      case "csv":
        this.parts = csvOf(table.columns, rows, false);
        break;
      case "parquet":
        this.parts = parquetOf(table, "standpipe", rows);
        break;
      default:
        this.parts = (form === "json" ? jsonOf : ndjsonOf)(
          this.counted(items, "told", ({ is }) => is !== "log" && is !== "file"),
        );
    }
  }

  private *counted<T>(all: Iterable<T>, what: "lines" | "told", isOne: (each: T) => boolean): Generator<T> {
    for (const each of all) {
      if (isOne(each)) this[what]++;
      yield each;
    }
  }

  /** Null where another part comes next, or the log is no longer what it was. */
  next(part: number, { checked }: View): ExportPart | null {
    const now = sorted(checked.logbook.sources.values());
    const isSame =
      now.length === this.sources.length &&
      this.sources.every((source, at) => source === now[at] && source.text === this.texts[at]);
    if (part !== this.expected || !isSame) return null;
    this.expected++;
    const texts: string[] = [];
    const bytes: Uint8Array[] = [];
    const until = this.lines + partLines;
    let isLast = false;
    for (let length = 0; length < partLength && this.lines < until; ) {
      const made = this.parts.next();
      isLast = made.done === true;
      if (made.done === true) break;
      length += made.value.length;
      if (typeof made.value === "string") texts.push(made.value);
      else bytes.push(made.value);
    }
    const text = bytes.length > 0 ? base64Of(joined(bytes)) : texts.join("");
    const { filesDone, told, unread } = this;
    return { text, filesDone, files: this.sources.length, isLast, told, unread };
  }
}

const sorted = (sources: Iterable<Source>): Source[] =>
  [...sources].sort((a, b) => (a.path < b.path ? -1 : 1));

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

/** What all paths begin with, up to a slash. */
function commonFolder(paths: readonly string[]): string {
  const folder = (path: string): string => path.slice(0, path.lastIndexOf("/") + 1);
  let shared = folder(paths[0] ?? "");
  for (const path of paths) while (!path.startsWith(shared)) shared = folder(shared.slice(0, -1));
  return shared;
}
