import * as vscode from "vscode";
import type { Services } from "../services.ts";
import { cutNote, type HistoryHere, historyHere, showChange } from "./history-here.ts";
import { lineWalk, type Walk, type WalkStep } from "./line-walk.ts";
import { dayText } from "./versions.ts";

/** The history of the line at the cursor, or of the value there: from commit to commit, to be looked at one by one. */

export async function lineHistory(services: Services, of: "line" | "value"): Promise<void> {
  const here = await historyHere(services);
  if (here === undefined) return;
  const { editor, repository } = here;
  const { document, selection } = editor;
  const value = of === "line" ? "" : wordAt(document, selection.active);
  if (value === undefined) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t("Put the cursor on a parameter, a property or a species."),
    );
    return;
  }
  const options = { location: vscode.ProgressLocation.Window, title: vscode.l10n.t("Reading the history") };
  const found = await vscode.window.withProgress(options, () =>
    lineWalk(services, repository, document, selection.active.line, value),
  );
  if (found === null)
    void vscode.window.showInformationMessage(vscode.l10n.t("This line says nothing of its own."));
  else if (found !== undefined) await pick(here, found, value, await cutNote(repository, found.isCut));
}

function wordAt(document: vscode.TextDocument, position: vscode.Position): string | undefined {
  const range = document.getWordRangeAtPosition(position, /[\p{L}][\p{L}\p{N}_-]*/u);
  return range === undefined ? undefined : document.getText(range);
}

interface StepItem extends vscode.QuickPickItem {
  readonly step?: WalkStep;
}

async function pick(here: HistoryHere, { steps }: Walk, value: string, note: string): Promise<void> {
  if (steps.length === 0) {
    void vscode.window.showInformationMessage(
      value === ""
        ? vscode.l10n.t("No commit changed this line. {0}", note)
        : vscode.l10n.t("No commit changed {0} on this line. {1}", value, note),
    );
    return;
  }
  const items = steps.map((step): StepItem => {
    const { commit, now, before, text } = step;
    const file = now.uri.path.split("/").at(-1) ?? "";
    const came =
      before === undefined || before.uri.path === now.uri.path ? "" : before.uri.path.split("/").at(-1)!;
    const where = came === "" ? file : vscode.l10n.t("from {0} to {1}", came, file);
    if (commit === undefined)
      return { label: text, description: vscode.l10n.t("not committed yet"), detail: where, step };
    const { hash, message, authorName = "", authorDate } = commit;
    const subject = message.split("\n", 1)[0] ?? "";
    return {
      label: text,
      description: dayText(authorDate),
      detail: [`${hash.slice(0, 8)} ${subject}`, authorName, where].filter(Boolean).join(", "),
      step,
    };
  });
  const title = value === "" ? vscode.l10n.t("History of This Line") : vscode.l10n.t("History of {0}", value);
  const noted: readonly StepItem[] =
    note === "" ? [] : [{ label: note, iconPath: new vscode.ThemeIcon("info"), alwaysShow: true }];
  const chosen = await vscode.window.showQuickPick([...items, ...noted], {
    title,
    placeHolder: vscode.l10n.t("Shows the change"),
    matchOnDetail: true,
  });
  if (chosen?.step === undefined) return;
  await showChange(here.git, chosen.step, chosen.description ?? "");
}
