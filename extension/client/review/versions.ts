import * as vscode from "vscode";
import type { VersionText } from "../../../language/server/review-protocol.ts";
import type { GitApi, GitChange, GitRepository } from "./git-api.ts";

/** A state of the log to be compared. */
export type Version =
  | { readonly is: "files" }
  | { readonly is: "index" }
  | { readonly is: "commit"; readonly ref: string; readonly name: string };

export const head: Version = { is: "commit", ref: "HEAD", name: "HEAD" };

export function nameOf(version: Version): string {
  if (version.is === "files") return vscode.l10n.t("the files as they are");
  return version.is === "index" ? vscode.l10n.t("what is staged") : version.name;
}

/** For the head of a narrow view. */
export function shortNameOf(version: Version): string {
  if (version.is === "files") return vscode.l10n.t("files");
  return version.is === "index" ? vscode.l10n.t("staged") : version.name;
}

/** A day as the editor's language writes it, so that a day is never taken for a month; empty for none. */
export const dayText = (date: Date | undefined): string =>
  date?.toLocaleDateString(vscode.env.language, { dateStyle: "medium" }) ?? "";

/** Whether nothing was committed yet. */
export const isUnborn = ({ state }: GitRepository): boolean => state.HEAD?.commit === undefined;

/** Whether a clone holds only the last commits. */
export async function isShallow({ rootUri }: GitRepository): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(vscode.Uri.joinPath(rootUri, ".git", "shallow"));
    return true;
  } catch {
    return false;
  }
}

/** The git extension's word for a version. */
const refOf = (version: Version): string =>
  version.is === "commit" ? version.ref : version.is === "index" ? "" : "HEAD";

const isLog = ({ path }: vscode.Uri): boolean => path.endsWith(".tank");

/**
 * The files that are others in a version than they are now, with their texts there.
 * @param asUri how the server names a file
 */
export async function textsOf(
  repository: GitRepository,
  version: Version,
  asUri: (uri: vscode.Uri) => string,
): Promise<VersionText[]> {
  if (version.is === "files") return [];
  const { state } = repository;
  const unborn = isUnborn(repository);
  const changes: readonly GitChange[] = [
    ...state.workingTreeChanges,
    ...(state.mergeChanges ?? []),
    ...(state.untrackedChanges ?? []),
    ...(version.is === "index" ? [] : state.indexChanges),
    ...(version.is === "commit" && !unborn ? await repository.diffWith(version.ref) : []),
  ];
  return textsIn(repository, version, logsOf(changes), asUri);
}

/** The files of the log among changes, under the names on both sides. */
export function logsOf(changes: readonly GitChange[]): vscode.Uri[] {
  const files = new Map<string, vscode.Uri>();
  for (const { uri, originalUri, renameUri } of changes)
    for (const each of [uri, originalUri, renameUri])
      if (each !== undefined && isLog(each)) files.set(each.toString(), each);
  return [...files.values()];
}

export function textsIn(
  repository: GitRepository,
  version: Version,
  files: readonly vscode.Uri[],
  asUri: (uri: vscode.Uri) => string,
): Promise<VersionText[]> {
  return Promise.all(
    files.map(async (uri) => ({ uri: asUri(uri), text: await textAt(repository, version, uri) })),
  );
}

/** The text of a file in a version; null where it is not there. */
export async function textAt(
  repository: GitRepository,
  version: Version,
  uri: vscode.Uri,
): Promise<string | null> {
  // What is staged of a merge that is not settled is our side.
  for (const ref of version.is === "index" ? ["", ":2", ":3"] : [refOf(version)])
    try {
      return await repository.show(ref, uri.fsPath);
    } catch {
      // It is not there.
    }
  return null;
}

/** A document of the editor's with a file as it is in a version. */
export function documentOf(git: GitApi, version: Version, uri: vscode.Uri): vscode.Uri {
  return version.is === "files" ? uri : git.toGitUri(uri, version.is === "index" ? "~" : version.ref);
}

/** The commit that a word names: a branch, tag or commit, or else a day; undefined if it names none. */
export async function revisionOf(repository: GitRepository, word: string): Promise<Version | undefined> {
  // No branch begins with a dash: such a word is never given to git as an option.
  if (word === "" || word.startsWith("-") || word.includes("\0")) return undefined;
  try {
    const { hash } = await repository.getCommit(`${word}^{commit}`);
    return { is: "commit", ref: hash, name: word };
  } catch {
    const isDay = /^\d{4}-\d{2}-\d{2}$/.test(word) && !Number.isNaN(Date.parse(word));
    return isDay ? commitAt(repository, word) : undefined;
  }
}

/** The last commit at the end of a day; undefined where there is none. @param day ISO 8601 */
export async function commitAt(repository: GitRepository, day: string): Promise<Version | undefined> {
  const commits = await repository.log({ maxEntries: 5000 });
  const end = new Date(`${day}T23:59:59`).getTime();
  const found = commits.find(({ authorDate }) => authorDate !== undefined && authorDate.getTime() <= end);
  return found === undefined ? undefined : { is: "commit", ref: found.hash, name: day };
}
