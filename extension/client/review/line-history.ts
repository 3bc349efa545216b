import * as vscode from "vscode";
import type { Services } from "../services.ts";
import { type GitApi, gitApi } from "./git-api.ts";
import { lineWalk, type WalkStep } from "./line-walk.ts";
import { documentOf } from "./versions.ts";

/** The history of the line at the cursor, or of the value there: from commit to commit, to be looked at one by one. */

export async function lineHistory(services: Services, of: "line" | "value"): Promise<void> {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== "standpipe" || editor.document.uri.scheme === "git") return;
  const { document, selection } = editor;
  if (!vscode.workspace.isTrusted) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t("The history is read through git, which is not run in a folder that is not trusted."),
    );
    return;
  }
  const git = await gitApi(services);
  const repository = (await git?.getRepository(document.uri)) ?? undefined;
  if (git === undefined || repository === undefined) {
    void vscode.window.showInformationMessage(
      git === undefined
        ? vscode.l10n.t("The history is read through git, which is not there.")
        : vscode.l10n.t("{0} is in no git repository.", document.uri.path.split("/").at(-1) ?? ""),
    );
    return;
  }
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
  else if (found !== undefined) await pick(git, found, value);
}

function wordAt(document: vscode.TextDocument, position: vscode.Position): string | undefined {
  const range = document.getWordRangeAtPosition(position, /[\p{L}][\p{L}\p{N}_-]*/u);
  return range === undefined ? undefined : document.getText(range);
}

interface StepItem extends vscode.QuickPickItem {
  readonly step: WalkStep;
}

async function pick(git: GitApi, steps: readonly WalkStep[], value: string): Promise<void> {
  if (steps.length === 0) {
    void vscode.window.showInformationMessage(
      value === ""
        ? vscode.l10n.t("No commit changed this line.")
        : vscode.l10n.t("No commit changed {0} on this line.", value),
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
      description: authorDate?.toLocaleDateString() ?? "",
      detail: [`${hash.slice(0, 8)} ${subject}`, authorName, where].filter(Boolean).join(", "),
      step,
    };
  });
  const title = value === "" ? vscode.l10n.t("History of This Line") : vscode.l10n.t("History of {0}", value);
  const chosen = await vscode.window.showQuickPick(items, {
    title,
    placeHolder: vscode.l10n.t("Shows the change"),
    matchOnDetail: true,
  });
  if (chosen === undefined) return;
  const { now, before } = chosen.step;
  const right = documentOf(git, now.version, now.uri);
  const selection = new vscode.Range(now.line, 0, now.line, 0);
  if (before === undefined) {
    await vscode.window.showTextDocument(right, { selection, preview: true });
    return;
  }
  const left = documentOf(git, before.version, before.uri);
  const name = `${now.uri.path.split("/").at(-1)} (${chosen.description})`;
  await vscode.commands.executeCommand("vscode.diff", left, right, name, { selection, preview: true });
}
