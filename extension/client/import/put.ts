import * as vscode from "vscode";
import type { ImportWriting } from "../../../language/server/import-protocol.ts";
import { rangeOf } from "../places.ts";
import type { Services } from "../services.ts";

/** What an import leaves: entries in the log, rejected rows, a mapping. */

/**
 * Shows the edits in the editor's own preview, which takes or leaves them; taken, one undo takes them back. "outdated" where the edits are for
 * other texts than there are, a place where something stands in the way of a new file.
 */
export async function previewed(
  { client }: Services,
  { files }: ImportWriting,
  label: string,
): Promise<"taken" | "left" | "outdated" | { readonly inTheWay: string }> {
  const change = new vscode.WorkspaceEdit();
  const documents: [vscode.TextDocument, number | null][] = [];
  for (const { uri, version, isNew, edits, lines } of files) {
    const file = client.protocol2CodeConverter.asUri(uri);
    const description = lines === 1 ? vscode.l10n.t("1 line") : vscode.l10n.t("{0} lines", lines);
    const note = { needsConfirmation: false, label, description };
    if (!isNew) documents.push([await vscode.workspace.openTextDocument(file), version]);
    else if (await isThere(file)) return { inTheWay: file.path };
    else change.createFile(file, {}, note);
    for (const { range, newText } of edits) change.replace(file, rangeOf(range), newText, note);
  }
  // What needs confirmation has the preview shown, and is not ticked in it. So that all of the import is, an edit of nothing asks for it.
  const [first] = files;
  if (first !== undefined)
    change.insert(client.protocol2CodeConverter.asUri(first.uri), new vscode.Position(0, 0), "", {
      needsConfirmation: true,
      label: vscode.l10n.t("Look over what is written, then apply"),
      description: vscode.l10n.t("ticked or not, this line itself writes nothing"),
    });
  // Nothing is waited for from here on. A file that was not open is by now, and its edits are made for what is open.
  if (documents.some(([document, version]) => document.version !== version)) return "outdated";
  return (await vscode.workspace.applyEdit(change)) ? "taken" : "left";
}

export async function isThere(file: vscode.Uri): Promise<boolean> {
  return vscode.workspace.fs.stat(file).then(
    () => true,
    () => false,
  );
}

export async function showRejects(content: string): Promise<void> {
  const document = await vscode.workspace.openTextDocument({ language: "plaintext", content });
  await vscode.window.showTextDocument(document, {
    viewColumn: vscode.ViewColumn.Beside,
    preserveFocus: true,
    preview: false,
  });
}

/** Keeps a mapping beside the log, over an older one only where that is a mapping, too. */
export async function keepMap({ log }: Services, target: vscode.Uri, text: string): Promise<void> {
  try {
    if ((await isThere(target)) && !isMap(await vscode.workspace.fs.readFile(target))) {
      void vscode.window.showWarningMessage(
        vscode.l10n.t("{0}: another file stands there, and is left alone.", target.path),
      );
      return;
    }
    await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(text));
  } catch (error) {
    log.warn(`import: ${error}`);
    void vscode.window.showErrorMessage(vscode.l10n.t("The mapping could not be kept: {0}", target.path));
    return;
  }
  void vscode.window.showInformationMessage(vscode.l10n.t("The mapping is kept: {0}", target.path));
}

function isMap(bytes: Uint8Array): boolean {
  try {
    return (JSON.parse(new TextDecoder().decode(bytes)) as { standpipe?: unknown }).standpipe === "import";
  } catch {
    return false;
  }
}
