import * as vscode from "vscode";
import { type DutyItem, dutiesRequest } from "../../../language/server/protocol.ts";
import { logUri, reveal } from "../places.ts";
import type { Services } from "../services.ts";
import { write } from "./write-day.ts";

interface DutyPick extends vscode.QuickPickItem {
  readonly duty?: DutyItem;
}

/** A pick of what is due, in the order of hands: Enter writes the entry into today, the button goes to where the duty is stated. */
export function duties(services: Services): vscode.Disposable {
  return vscode.commands.registerCommand("standpipe.duties.show", async () => {
    const uri = await logUri(services);
    const due = uri === undefined ? undefined : await services.ask(dutiesRequest, { uri });
    if (due === undefined) return;
    if (due.length === 0) {
      void vscode.window.showInformationMessage(vscode.l10n.t("Nothing is due today."));
      return;
    }
    const picker = vscode.window.createQuickPick<DutyPick>();
    picker.title = vscode.l10n.t("Due Today");
    picker.placeholder = vscode.l10n.t("Enter writes it into today; the button shows where it is stated");
    picker.matchOnDescription = true;
    picker.items = items(due);
    picker.onDidTriggerItemButton(({ item }) => {
      picker.hide();
      if (item.duty !== undefined) void reveal(services, item.duty);
    });
    picker.onDidAccept(() => {
      const duty = picker.selectedItems[0]?.duty;
      picker.hide();
      if (duty === undefined) return;
      void write(services, "entry", duty.entry);
    });
    picker.onDidHide(() => picker.dispose());
    picker.show();
  });
}

function items(due: readonly DutyItem[]): DutyPick[] {
  const buttons = [
    { iconPath: new vscode.ThemeIcon("go-to-file"), tooltip: vscode.l10n.t("Show Where It Is Stated") },
  ];
  const pick = (duty: DutyItem): DutyPick => ({ label: duty.what, description: duty.when, buttons, duty });
  const group = (label: string, some: readonly DutyItem[]): DutyPick[] =>
    some.length === 0 ? [] : [{ label, kind: vscode.QuickPickItemKind.Separator }, ...some.map(pick)];
  const stages = [...new Set(due.map(({ stage }) => stage))];
  if (stages.length > 1)
    return stages.flatMap((stage) => {
      const some = due.filter((each) => each.stage === stage);
      const before = some[0]?.before ?? "";
      return group(before === "" ? stage : `${stage}: ${before}`, some);
    });
  return [
    ...group(
      vscode.l10n.t("late"),
      due.filter(({ late }) => late > 0),
    ),
    ...group(
      vscode.l10n.t("today"),
      due.filter(({ late }) => late <= 0),
    ),
  ];
}
