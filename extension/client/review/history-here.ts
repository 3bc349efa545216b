import * as vscode from "vscode";
import type { Services } from "../services.ts";
import { type GitApi, type GitRepository, gitApi } from "./git-api.ts";
import { revisionScheme } from "./git-command.ts";
import type { LinePlace } from "./line-walk.ts";
import { documentOf, isShallow } from "./versions.ts";

/** What histories have in common: the log in the editor with its repository, and a change that is shown. */

export interface HistoryHere {
  readonly editor: vscode.TextEditor;
  readonly git: GitApi;
  readonly repository: GitRepository;
}

/** Undefined where no log of now is in the editor, or no history can be read, which is said. */
export async function historyHere(services: Services): Promise<HistoryHere | undefined> {
  const editor = vscode.window.activeTextEditor;
  const say = (words: string): undefined => void vscode.window.showInformationMessage(words);
  if (editor?.document.languageId !== "standpipe")
    return say(vscode.l10n.t("Open a log, and put the cursor on the line that is meant."));
  const { uri } = editor.document;
  if (uri.scheme === "git" || uri.scheme === revisionScheme)
    return say(vscode.l10n.t("This is a log as it was once: its history is asked for in the log as it is."));
  if (!vscode.workspace.isTrusted)
    return say(
      vscode.l10n.t("The history is read through git, which is not run in a folder that is not trusted."),
    );
  const git = await gitApi(services);
  if (git === undefined) return say(vscode.l10n.t("The history is read through git, which is not there."));
  const repository = await git.getRepository(uri);
  if (repository !== null) return { editor, git, repository };
  return say(
    git.state === "uninitialized"
      ? vscode.l10n.t("The editor looks for git repositories still. Ask again in a moment.")
      : vscode.l10n.t("{0} is in no git repository.", uri.path.split("/").at(-1) ?? ""),
  );
}

/** What is to be said of a history that may go on: in a clone that holds only the last commits, or behind as many as are looked through. */
export async function cutNote(repository: GitRepository, isCut: boolean): Promise<string> {
  if (await isShallow(repository))
    return vscode.l10n.t("This clone holds only the last commits: git fetch --unshallow brings the rest.");
  return isCut ? vscode.l10n.t("Older commits are not looked through: standpipe history tells them.") : "";
}

/** A change beside what was before; what came or went alone. @param name of the change, for the title */
export async function showChange(
  git: GitApi,
  { now, before }: { readonly now: LinePlace | undefined; readonly before: LinePlace | undefined },
  name: string,
): Promise<void> {
  const place = now ?? before;
  if (place === undefined) return;
  const selection = new vscode.Range(place.line, 0, place.line, 0);
  const own = documentOf(git, place.version, place.uri);
  if (now === undefined || before === undefined) {
    await vscode.window.showTextDocument(own, { selection, preview: true });
    return;
  }
  const left = documentOf(git, before.version, before.uri);
  const title = `${now.uri.path.split("/").at(-1)} (${name})`;
  await vscode.commands.executeCommand("vscode.diff", left, own, title, { selection, preview: true });
}
