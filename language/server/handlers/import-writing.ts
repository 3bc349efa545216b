import { TextDocument } from "vscode-languageserver-textdocument";
import { newDays } from "../../exchange/import/entry-lines.ts";
import { importTable } from "../../exchange/import/import-table.ts";
import { KnownLog } from "../../exchange/import/known-log.ts";
import { Refused } from "../../exchange/import/refused.ts";
import { rejectsText } from "../../exchange/import/rejects-file.ts";
import type { TableFile, Watch } from "../../exchange/import/table-file.ts";
import { unsettledIn, unsettledWords } from "../../exchange/import/unsettled.ts";
import { type FileWriting, writeDays } from "../../exchange/import/write-days.ts";
import { nameOfFile } from "../../features/files-in-text.ts";
import type { Logbook } from "../../room/logbook.ts";
import type { ImportAnswer, ImportParams, ImportWriting } from "../import-protocol.ts";
import { filesRequest } from "../protocol.ts";
import type { Session } from "../session.ts";
import { textEdits } from "../to-lsp.ts";
import { mappingOf } from "./import-proposal.ts";

const rejectsTold = 20;

/** What a table comes to by a mapping: counted, or as edits. */
export async function written(
  session: Session,
  table: TableFile,
  logbook: Logbook,
  { uri, step, mapping: text }: Extract<ImportParams, { step: "count" | "write" }>,
  watch: Watch,
): Promise<ImportAnswer> {
  const mapping = mappingOf(text);
  if (mapping === undefined) throw new Refused("this is no mapping");
  const texts = new Map([...logbook.sources].map(([path, source]) => [path, source.text]));
  const imported = await importTable(table, mapping, new KnownLog(logbook), watch);
  const now = session.look(uri)?.view.checked.logbook;
  const isSame =
    now === logbook &&
    now.sources.size === texts.size &&
    [...texts].every(([path, was]) => now.sources.get(path)?.text === was);
  if (!isSame) return { is: "outdated" };
  // From here on nothing waits: the edits are for the texts that were read.
  const writings = writeDays(logbook, newDays(imported, table.name));
  if (folderOf(logbook) === "" && writings.some(({ isNew }) => isNew))
    throw new Refused("the log is not stored yet, and the days need a file of their own: store it first");
  const { rows, rejects } = imported;
  if (step === "count")
    return {
      is: "counts",
      rows,
      files: writings.map(({ path, isNew, lines }) => ({ uri: path, isNew, lines })),
      rejects: rejects.slice(0, rejectsTold).map(({ line, why }) => ({ line, why })),
    };
  return {
    is: "writing",
    rows,
    files: writings.map((each) => fileOf(session, each)),
    rejects: rejects.length === 0 ? null : rejectsText(imported, table.name),
  };
}

function fileOf(session: Session, made: FileWriting): ImportWriting["files"][number] {
  const { path: uri, lines, isNew } = made;
  const document = session.workspace.document(uri) ?? TextDocument.create(uri, "standpipe", 0, "");
  const edits = made.isNew ? [{ start: 0, end: 0, text: made.text }] : made.edits;
  const version = session.workspace.files.get(uri)?.version ?? null;
  return { uri, version, isNew, edits: textEdits(document, edits), lines };
}

/** The folder of the room, or of its first file. */
export function folderOf({ sources }: Logbook): string {
  const all = [...sources.values()];
  const room = all.find(({ blocks }) => blocks.some(({ definition }) => definition?.word === "room"));
  const path = (room ?? all[0])?.path ?? "";
  return path.slice(0, path.lastIndexOf("/") + 1);
}

/** Throws `Refused` while a part of the log is not known: what stands in it would be written twice. */
export async function refuseUnknown(session: Session, uri: string, logbook: Logbook): Promise<void> {
  const { files } = session.workspace;
  if (session.client.options.givesFiles === true) {
    const folder = files.get(uri)?.folder ?? "";
    const unread = (await session.ask(filesRequest, null)).find(
      (each) => each.startsWith(folder) && !files.has(each),
    );
    if (unread !== undefined)
      throw new Refused(
        `${nameOfFile(unread)} cannot be read; nothing is imported before it can, as what stands in it would be written twice`,
      );
  }
  const unsettled = unsettledIn(logbook);
  if (unsettled !== undefined) throw new Refused(unsettledWords(nameOfFile(unsettled.path), unsettled.line));
}
