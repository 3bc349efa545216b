import * as vscode from "vscode";
import { type DayParams, dayRequest } from "../../../language/server/protocol.ts";
import { logUri, rangeOf } from "../places.ts";
import type { Services } from "../services.ts";

/** Begins today, or writes into it: the server says where and what, the editor's own undo takes it back. */
export function writeDay(services: Services): vscode.Disposable {
  return vscode.Disposable.from(
    vscode.commands.registerCommand("standpipe.day.start", () => write(services, "start")),
    vscode.commands.registerCommand("standpipe.sheet.due", () => write(services, "sheet")),
    vscode.commands.registerCommand("standpipe.round.type", () => write(services, "round")),
  );
}

/**
 * @param entry the line to write, where an entry is to be written
 * @param of a file of the logbook that is meant; without it the one that the keeper is at
 */
export async function write(
  services: Services,
  what: DayParams["write"],
  entry?: string,
  of?: string,
): Promise<void> {
  const uri = of ?? (await logUri(services));
  if (uri === undefined) return;
  const params = { uri, write: what, ...(entry === undefined ? {} : { entry }) };
  const edit = await services.ask(dayRequest, params);
  if (edit === undefined) return;
  if (edit === null) {
    if (what === "sheet") void vscode.window.showInformationMessage(vscode.l10n.t("No test is due today."));
    if (what === "round")
      void vscode.window.showInformationMessage(
        vscode.l10n.t("Nothing was tested of late, and no test is a duty: the round sheet has no boxes."),
      );
    return;
  }
  const file = services.client.protocol2CodeConverter.asUri(edit.uri);
  const change = new vscode.WorkspaceEdit();
  if (edit.isNew) change.createFile(file, { ignoreIfExists: true });
  for (const { range, newText } of edit.edits) change.replace(file, rangeOf(range), newText);
  if (change.size > 0) await vscode.workspace.applyEdit(change);
  const editor = await vscode.window.showTextDocument(file);
  const at = new vscode.Position(edit.position.line, edit.position.character);
  editor.selection = new vscode.Selection(at, at);
  editor.revealRange(new vscode.Range(at, at), vscode.TextEditorRevealType.InCenterIfOutsideViewport);
  if (edit.snippet !== "") {
    await editor.insertSnippet(new vscode.SnippetString(edit.snippet), at, {
      ...undoSteps,
      keepWhitespace: true,
    });
  }
  if (what === "start") await vscode.commands.executeCommand("editor.action.triggerSuggest");
}

const undoSteps = { undoStopBefore: true, undoStopAfter: true };
