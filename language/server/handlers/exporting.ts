import type { GenericRequestHandler } from "vscode-languageserver";
import type { Source } from "../../book/source.ts";
import { csvOf } from "../../exchange/export/csv.ts";
import { itemsOfLog } from "../../exchange/export/items-of-log.ts";
import { jsonOf, ndjsonOf } from "../../exchange/export/log-json.ts";
import { rowsOf, tables } from "../../exchange/export/tables.ts";
import type { View } from "../../features/view.ts";
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
      if (looked === undefined) return null;
      if (params.part === 0) {
        running = new Export(looked.view, params);
        running.unread = await unreadFiles(session, params.uri);
      }
      const part = running?.next(params.part) ?? null;
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
  return all
    .filter((each) => each.startsWith(folder) && !files.has(each))
    .map((each) => decodeURIComponent(each.slice(each.lastIndexOf("/") + 1)));
}

/** Letters of one part. */
const partLength = 1 << 21;

class Export {
  private readonly sources: readonly Source[];
  private readonly texts: readonly string[];
  private readonly parts: Generator<string>;
  unread: readonly string[] = [];
  private filesDone = 0;
  private expected = 0;

  constructor({ checked }: View, { form, table: name }: ExportParams) {
    const { book, logbook } = checked;
    this.sources = [...logbook.sources.values()].sort((a, b) => (a.path < b.path ? -1 : 1));
    this.texts = this.sources.map(({ text }) => text);
    const shared = commonFolder(this.sources.map(({ path }) => path));
    const items = itemsOfLog(book, this.sources, ({ path }) => {
      this.filesDone++;
      return decodeURIComponent(path.slice(shared.length));
    });
    const table = tables.find((each) => each.name === name) ?? tables[0]!;
    this.parts =
      form === "csv"
        ? csvOf(table.columns, rowsOf(table, items), false)
        : form === "json"
          ? jsonOf(items)
          : ndjsonOf(items);
  }

  /** Null where another part comes next, or the log is no longer what it was. */
  next(part: number): ExportPart | null {
    if (part !== this.expected || this.sources.some(({ text }, at) => text !== this.texts[at])) return null;
    this.expected++;
    const { unread } = this;
    let text = "";
    while (text.length < partLength) {
      const made = this.parts.next();
      if (made.done === true)
        return { text, filesDone: this.filesDone, files: this.sources.length, isLast: true, unread };
      text += made.value;
    }
    return { text, filesDone: this.filesDone, files: this.sources.length, isLast: false, unread };
  }
}

/** What all paths begin with, up to a slash. */
function commonFolder(paths: readonly string[]): string {
  const folder = (path: string): string => path.slice(0, path.lastIndexOf("/") + 1);
  let shared = folder(paths[0] ?? "");
  for (const path of paths) while (!path.startsWith(shared)) shared = folder(shared.slice(0, -1));
  return shared;
}
