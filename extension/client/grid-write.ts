import * as vscode from "vscode";
import {
  type GridAbout,
  type GridChange,
  type GridWritten,
  gridChangeRequest,
} from "../../language/server/grid-protocol.ts";
import type { Outcome } from "../views/grid/messages.ts";
import type { Waiting } from "./grid-progress.ts";
import { rangeOf } from "./places.ts";
import type { Services } from "./services.ts";

/** Who types while a change is on its way gets it moved along; who does not stop typing is told. */
const mostTries = 4;

/**
 * Writes a change of cells as one edit, one undoable step. It is made for the versions that the documents have when it is applied: where one is
 * another by then the server is asked again, which knows the rows by what they are called, not by where they stood.
 */
export async function writeChange(
  services: Services,
  about: GridAbout,
  change: GridChange,
  waiting: Waiting,
): Promise<Outcome> {
  const givenUp = (): boolean => waiting.token.isCancellationRequested;
  for (let tried = 0; tried < mostTries; tried++) {
    const made = await services.ask(
      gridChangeRequest,
      { ...about, change, ticket: waiting.ticket },
      waiting.token,
    );
    if (givenUp()) return refusal(vscode.l10n.t("Given up: nothing was written."));
    if (made === undefined)
      return refusal(vscode.l10n.t("The server did not answer; its log says more. Nothing was written."));
    if (made === null)
      return refusal(vscode.l10n.t("The server does not know this file. Nothing was written."));
    if (made.is === "refused") return made;
    const { cells, left } = made;
    if (made.files.length === 0) return { is: "written", cells: 0, files: 0, left };
    if (await applied(services, made)) return { is: "written", cells, files: made.files.length, left };
  }
  return refusal(vscode.l10n.t("The text is being changed all the time: nothing was written. Try again."));
}

const refusal = (message: string): Outcome => ({ is: "refused", message });

async function applied(
  { client }: Services,
  { files }: Extract<GridWritten, { is: "edits" }>,
): Promise<boolean> {
  const edit = new vscode.WorkspaceEdit();
  const documents: [vscode.TextDocument, number | null][] = [];
  for (const { uri, version, isNew, edits } of files) {
    const file = client.protocol2CodeConverter.asUri(uri);
    if (isNew) edit.createFile(file, { ignoreIfExists: true });
    else documents.push([await vscode.workspace.openTextDocument(file), version]);
    for (const { range, newText } of edits) edit.replace(file, rangeOf(range), newText);
  }
  // Nothing is waited for from here on. A file that was not open is by now, and its edits are made for what is open.
  if (documents.some(([document, version]) => document.version !== version)) return false;
  return vscode.workspace.applyEdit(edit);
}
