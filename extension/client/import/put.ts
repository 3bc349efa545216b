import * as vscode from "vscode";
import { isRejects, rejectsName } from "../../../language/exchange/import/rejects-file.ts";
import type { ImportWriting } from "../../../language/server/import-protocol.ts";
import { rangeOf } from "../places.ts";
import type { Services } from "../services.ts";

/** What an import leaves: entries in the log, rejected rows, a mapping. */

export interface PutFile {
  readonly uri: vscode.Uri;
  readonly isNew: boolean;
  readonly lines: number;
  isSaved: boolean;
  /** Its text without the import; undefined where there was no file. */
  readonly before: string | undefined;
  /** Its text with it. */
  after: string;
}

/**
 * Makes the edits, all or none. Files that had no unsaved changes are saved. "outdated" where the edits are for other texts than
 * there are, a place where something stands in the way of a new file.
 */
export async function put(
  { client }: Services,
  { files }: ImportWriting,
): Promise<PutFile[] | "failed" | "outdated" | { readonly inTheWay: string }> {
  const change = new vscode.WorkspaceEdit();
  const documents: { readonly document: vscode.TextDocument; readonly version: number | null }[] = [];
  const made: PutFile[] = [];
  for (const { uri, version, isNew, edits, lines } of files) {
    const file = client.protocol2CodeConverter.asUri(uri);
    const document = isNew ? undefined : await vscode.workspace.openTextDocument(file);
    const before = document?.getText();
    made.push({ uri: file, isNew, lines, isSaved: false, before, after: "" });
    if (document !== undefined) documents.push({ document, version });
    else if (await isThere(file)) return { inTheWay: nameOf(file) };
    else change.createFile(file, { overwrite: false });
    for (const { range, newText } of edits) change.replace(file, rangeOf(range), newText);
  }
  // Nothing is waited for from here on. A file that was not open is by now, and its edits are made for what is open.
  if (documents.some(({ document, version }) => document.version !== version)) return "outdated";
  const unsaved = new Set(
    documents
      .filter(({ document }) => document.isDirty || document.isUntitled)
      .map(({ document }) => document.uri.toString()),
  );
  if (!(await vscode.workspace.applyEdit(change))) return "failed";
  for (const each of made) {
    each.isSaved = !unsaved.has(each.uri.toString()) && (await saved(each.uri));
    // As it is saved: the editor may trim blanks or end the last line.
    each.after = (await vscode.workspace.openTextDocument(each.uri)).getText();
  }
  return made;
}

/** Saves a file. Returns whether it is saved. */
export async function saved(uri: vscode.Uri): Promise<boolean> {
  const document = await vscode.workspace.openTextDocument(uri);
  return !document.isDirty || (!document.isUntitled && (await document.save()));
}

export const nameOf = ({ path }: vscode.Uri): string => path.slice(path.lastIndexOf("/") + 1);

export async function isThere(file: vscode.Uri): Promise<boolean> {
  return vscode.workspace.fs.stat(file).then(
    () => true,
    () => false,
  );
}

/**
 * Writes the rejected rows beside the log, over an older such file only. Undefined where something else stands there, or it cannot be written: they are
 * shown without a file then.
 * @param folder of the log; undefined for one that is not stored
 * @param table its name
 */
export async function putRejects(
  { log }: Services,
  folder: vscode.Uri | undefined,
  table: string,
  text: string,
): Promise<vscode.Uri | undefined> {
  if (folder === undefined) return undefined;
  const target = vscode.Uri.joinPath(folder, rejectsName(table));
  try {
    const { fs } = vscode.workspace;
    if ((await isThere(target)) && !isRejects(new TextDecoder().decode(await fs.readFile(target))))
      return undefined;
    await fs.writeFile(target, new TextEncoder().encode(text));
    return target;
  } catch (error) {
    log.warn(`import: ${error}`);
    return undefined;
  }
}

/** Shows rejected rows: their file, or without one a document of their own. */
export async function showRejects(file: vscode.Uri | undefined, content: string): Promise<void> {
  const document = await (file === undefined
    ? vscode.workspace.openTextDocument({ language: "plaintext", content })
    : vscode.workspace.openTextDocument(file));
  await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.Beside, preview: false });
}

/** Keeps a mapping beside the log, over an older one only where that is a mapping, too. Returns what became of it, in words. */
export async function keepMap({ log }: Services, target: vscode.Uri, text: string): Promise<string> {
  try {
    if ((await isThere(target)) && !isMap(await vscode.workspace.fs.readFile(target)))
      return vscode.l10n.t("{0}: another file stands there, and is left alone.", nameOf(target));
    await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(text));
  } catch (error) {
    log.warn(`import: ${error}`);
    return vscode.l10n.t(
      "The mapping could not be kept as {0}; the log of Standpipe says why.",
      nameOf(target),
    );
  }
  return vscode.l10n.t(
    "The mapping is kept as {0}, and is offered for the next table that it is for.",
    nameOf(target),
  );
}

function isMap(bytes: Uint8Array): boolean {
  try {
    return (JSON.parse(new TextDecoder().decode(bytes)) as { standpipe?: unknown }).standpipe === "import";
  } catch {
    return false;
  }
}
