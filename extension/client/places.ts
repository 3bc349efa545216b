import * as vscode from "vscode";
import type { FilePlace, Range } from "../../language/server/protocol.ts";
import type { Services } from "./services.ts";

/** From the protocol's places to the editor's. */

export function rangeOf({ start, end }: Range): vscode.Range {
  return new vscode.Range(start.line, start.character, end.line, end.character);
}

export async function reveal({ client }: Services, { uri, range }: FilePlace): Promise<vscode.TextEditor> {
  return vscode.window.showTextDocument(client.protocol2CodeConverter.asUri(uri), {
    selection: rangeOf(range),
  });
}

/** The same from a page, never in its place: in the column that shows the file or another log, else in the first. */
export async function revealBeside({ client }: Services, { uri, range }: FilePlace): Promise<void> {
  const file = client.protocol2CodeConverter.asUri(uri);
  const { visibleTextEditors } = vscode.window;
  const beside =
    visibleTextEditors.find(({ document }) => document.uri.toString() === file.toString()) ??
    visibleTextEditors.find(({ document }) => document.languageId === "standpipe");
  await vscode.window.showTextDocument(file, {
    selection: rangeOf(range),
    viewColumn: beside?.viewColumn ?? vscode.ViewColumn.One,
  });
}

/** The files that a card leads to. */
export function filesIn(value: unknown, into = new Set<string>()): Set<string> {
  if (typeof value !== "object" || value === null) return into;
  if ("uri" in value && "range" in value) return into.add(String(value.uri));
  for (const each of Object.values(value)) filesIn(each, into);
  return into;
}

/** The editor with a logbook that has the focus, or one that is to be seen. */
export function logEditor(): vscode.TextEditor | undefined {
  const { activeTextEditor, visibleTextEditors } = vscode.window;
  return [activeTextEditor, ...visibleTextEditors].find(
    (editor) => editor?.document.languageId === "standpipe",
  );
}

/** A file of the logbook that the keeper is at: the one in the editor, else any of the workspace. */
export async function logUri({ client }: Services): Promise<string | undefined> {
  const uri = logEditor()?.document.uri ?? (await vscode.workspace.findFiles("**/*.tank", undefined, 1))[0];
  if (uri !== undefined) return client.code2ProtocolConverter.asUri(uri);
  void vscode.window.showInformationMessage(
    vscode.l10n.t("There is no logbook here. “New Logbook from Sample” makes one."),
  );
  return undefined;
}
