import * as vscode from "vscode";
import { type LineStep, lineHistoryRequest } from "../../../language/server/review-protocol.ts";
import type { Services } from "../services.ts";
import { type GitApi, type GitCommit, type GitRepository, gitApi } from "./git-api.ts";
import { documentOf, textAt, type Version } from "./versions.ts";

/** The history of the line at the cursor, or of the value there: from commit to commit, to be looked at one by one. */

/** So many commits of the file are looked through. */
const mostCommits = 200;

export async function lineHistory(services: Services, of: "line" | "value"): Promise<void> {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== "standpipe" || editor.document.uri.scheme === "git") return;
  const { document, selection } = editor;
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
    read(services, repository, document, selection.active.line, value),
  );
  if (found === undefined) return;
  await pick(git, document, found, value);
}

function wordAt(document: vscode.TextDocument, position: vscode.Position): string | undefined {
  const range = document.getWordRangeAtPosition(position, /[\p{L}][\p{L}\p{N}_-]*/u);
  return range === undefined ? undefined : document.getText(range);
}

interface Found {
  readonly steps: readonly LineStep[];
  /** What made each text: the first is not committed. */
  readonly commits: readonly (GitCommit | undefined)[];
}

async function read(
  { ask, client }: Services,
  repository: GitRepository,
  document: vscode.TextDocument,
  line: number,
  value: string,
): Promise<Found | undefined> {
  const { uri } = document;
  const commits = await repository.log({ maxEntries: mostCommits, path: uri.fsPath }).catch(() => []);
  const at = (ref: string): Version => ({ is: "commit", ref, name: ref });
  const texts = await Promise.all(commits.map(({ hash }) => textAt(repository, at(hash), uri)));
  // Before the first commit of the file there was none, unless there are more than were looked through.
  const end = commits.length < mostCommits ? [null] : [];
  const all = [document.getText(), ...texts, ...end];
  const steps = await ask(lineHistoryRequest, {
    uri: client.code2ProtocolConverter.asUri(uri),
    line,
    texts: all,
    value,
  });
  if (steps === undefined) return undefined;
  if (steps === null) {
    void vscode.window.showInformationMessage(vscode.l10n.t("This line says nothing of its own."));
    return undefined;
  }
  return { steps, commits: [undefined, ...commits] };
}

interface StepItem extends vscode.QuickPickItem {
  readonly step: LineStep;
}

async function pick(
  git: GitApi,
  document: vscode.TextDocument,
  { steps, commits }: Found,
  value: string,
): Promise<void> {
  if (steps.length === 0) {
    void vscode.window.showInformationMessage(
      value === ""
        ? vscode.l10n.t("No commit changed this line.")
        : vscode.l10n.t("No commit changed {0} on this line.", value),
    );
    return;
  }
  const items = steps.map((step): StepItem => {
    const commit = commits[step.at];
    return {
      label: step.text,
      description:
        commit === undefined
          ? vscode.l10n.t("not committed yet")
          : (commit.authorDate?.toLocaleDateString() ?? ""),
      ...(commit === undefined
        ? {}
        : {
            detail: `${commit.hash.slice(0, 8)} ${commit.message.split("\n", 1)[0]}, ${commit.authorName ?? ""}`,
          }),
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
  const { step } = chosen;
  const versionOf = (at: number): Version => {
    const commit = commits[at];
    return commit === undefined
      ? { is: "files" }
      : { is: "commit", ref: commit.hash, name: commit.hash.slice(0, 8) };
  };
  const right = documentOf(git, versionOf(step.at), document.uri);
  const selection = new vscode.Range(step.line, 0, step.line, 0);
  if (commits[step.at + 1] === undefined) {
    await vscode.window.showTextDocument(right, { selection, preview: true });
    return;
  }
  const left = documentOf(git, versionOf(step.at + 1), document.uri);
  const name = `${document.uri.path.split("/").at(-1)} (${chosen.description})`;
  await vscode.commands.executeCommand("vscode.diff", left, right, name, { selection, preview: true });
}
