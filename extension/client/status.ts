import * as vscode from "vscode";
import { type Status, statusRequest } from "../../language/server/protocol.ts";
import { logEditor } from "./places.ts";
import type { Services } from "./services.ts";

/** One item at the right of the status bar, while a logbook is to be seen: what is due and what is found. */
export function status({ ask, client, onChanged }: Services): vscode.Disposable {
  const item = vscode.window.createStatusBarItem("standpipe.status", vscode.StatusBarAlignment.Right, 90);
  item.name = vscode.l10n.t("Logbook: Due and Findings");
  item.command = "standpipe.duties.show";
  let asked: vscode.CancellationTokenSource | undefined;
  const update = async () => {
    asked?.cancel();
    const editor = logEditor();
    if (editor === undefined) return item.hide();
    asked = new vscode.CancellationTokenSource();
    const { token } = asked;
    const uri = client.code2ProtocolConverter.asUri(editor.document.uri);
    const status = await ask(statusRequest, { uri }, token);
    if (token.isCancellationRequested) return;
    if (status === undefined || status === null) return item.hide();
    show(item, status);
  };
  void update();
  return vscode.Disposable.from(
    item,
    new vscode.Disposable(() => asked?.cancel()),
    onChanged(update),
    vscode.window.onDidChangeActiveTextEditor(update),
    vscode.window.onDidChangeVisibleTextEditors(update),
  );
}

function show(item: vscode.StatusBarItem, { title, today, due, late, findings }: Status): void {
  const { error, warning, information } = findings;
  const all = due + late;
  const duties = late > 0 ? vscode.l10n.t("{0} due, {1} late", all, late) : vscode.l10n.t("{0} due", all);
  const toSee = error + warning;
  item.text = `$(checklist) ${duties}${toSee > 0 ? `  $(${error > 0 ? "error" : "warning"}) ${toSee}` : ""}`;
  const words = [
    title === "" ? vscode.l10n.t("Logbook") : title,
    vscode.l10n.t("today is {0}", today),
    duties,
    vscode.l10n.t("{0} errors, {1} warnings, {2} notes", error, warning, information),
  ];
  item.tooltip = words.join("\n");
  item.accessibilityInformation = { label: words.join(", "), role: "button" };
  item.show();
}
