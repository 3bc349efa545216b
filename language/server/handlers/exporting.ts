import type { Source } from "../../book/source.ts";
import { csvOf } from "../../exchange/export/csv.ts";
import { itemsOfLog } from "../../exchange/export/items-of-log.ts";
import { jsonOf, ndjsonOf } from "../../exchange/export/log-json.ts";
import { rowsOf, tables } from "../../exchange/export/tables.ts";
import type { View } from "../../features/view.ts";
import type { Group } from "../group.ts";
import { type ExportParams, type ExportPart, exportRequest } from "../protocol.ts";
import { about } from "./own-requests.ts";

/** A logbook for other tools, handed over part by part: it may be larger than one answer should be. */
export const exporting: Group = {
  capabilities: () => ({}),
  serve(session) {
    let running: Export | undefined;
    about(session, exportRequest, null, ({ view }, params) => {
      if (params.part === 0) running = new Export(view, params);
      const part = running?.next(params.part) ?? null;
      if (part === null || part.isLast) running = undefined;
      return part;
    });
  },
};

/** Letters of one part. */
const partLength = 1 << 21;

class Export {
  private readonly sources: readonly Source[];
  private readonly texts: readonly string[];
  private readonly parts: Generator<string>;
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
    let text = "";
    while (text.length < partLength) {
      const made = this.parts.next();
      if (made.done === true)
        return { text, filesDone: this.filesDone, files: this.sources.length, isLast: true };
      text += made.value;
    }
    return { text, filesDone: this.filesDone, files: this.sources.length, isLast: false };
  }
}

/** What all paths begin with, up to a slash. */
function commonFolder(paths: readonly string[]): string {
  const folder = (path: string): string => path.slice(0, path.lastIndexOf("/") + 1);
  let shared = folder(paths[0] ?? "");
  for (const path of paths) while (!path.startsWith(shared)) shared = folder(shared.slice(0, -1));
  return shared;
}
