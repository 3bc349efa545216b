import * as vscode from "vscode";
import type { Services } from "../services.ts";
import { isThere, nameOf, type PutFile, saved } from "./put.ts";

/**
 * Takes an import back: the files that it made are deleted, the others are as they were before. All or nothing: where one was edited since, nothing is.
 * Gives why not; empty where it is done.
 */
export async function takeBack(
  { log }: Services,
  files: readonly PutFile[],
  rejects: { readonly uri: vscode.Uri; readonly text: string } | undefined,
): Promise<string> {
  const change = new vscode.WorkspaceEdit();
  for (const { uri, before, after } of files) {
    if (!(await isThere(uri)) && uri.scheme !== "untitled")
      return vscode.l10n.t("{0} is no longer there; nothing is taken back.", nameOf(uri));
    const document = await vscode.workspace.openTextDocument(uri);
    if (document.getText() !== after)
      return vscode.l10n.t(
        "{0} was edited since; nothing is taken back. Undo what was edited, or take the lines out by hand.",
        nameOf(uri),
      );
    if (before === undefined) change.deleteFile(uri, { ignoreIfNotExists: true });
    else {
      const { from, to, text } = difference(after, before);
      change.replace(uri, new vscode.Range(document.positionAt(from), document.positionAt(to)), text);
    }
  }
  if (!(await vscode.workspace.applyEdit(change)))
    return vscode.l10n.t("The editor did not make the edits; nothing was taken back.");
  for (const { uri, before, isSaved } of files) if (before !== undefined && isSaved) await saved(uri);
  // A file of rejected rows in which rows were mended is left.
  if (rejects !== undefined)
    try {
      const now = new TextDecoder().decode(await vscode.workspace.fs.readFile(rejects.uri));
      if (now === rejects.text) await vscode.workspace.fs.delete(rejects.uri);
    } catch (error) {
      log.warn(`import: ${error}`);
    }
  return "";
}

/** The part in which one text differs from another. */
function difference(one: string, other: string): { from: number; to: number; text: string } {
  const most = Math.min(one.length, other.length);
  let from = 0;
  while (from < most && one.charCodeAt(from) === other.charCodeAt(from)) from++;
  let behind = 0;
  while (
    behind < most - from &&
    one.charCodeAt(one.length - 1 - behind) === other.charCodeAt(other.length - 1 - behind)
  )
    behind++;
  return { from, to: one.length - behind, text: other.slice(from, other.length - behind) };
}
