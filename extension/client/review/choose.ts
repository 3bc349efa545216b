import * as vscode from "vscode";
import type { GitCommit, GitRepository } from "./git-api.ts";
import { commitAt, head, type Version } from "./versions.ts";

/** Picks the two states that are compared: commits, branches, tags, days, what is staged, the files. */

interface VersionItem extends vscode.QuickPickItem {
  readonly version?: Version;
  readonly isDay?: boolean;
}

const commitsListed = 60;

export interface Pair {
  readonly before: Version;
  readonly after: Version;
}

/** Undefined where it was given up. @param now what is compared at present */
export async function choosePair(repository: GitRepository, now: Pair): Promise<Pair | undefined> {
  const items = await itemsOf(repository);
  const title = vscode.l10n.t("Review Changes");
  const before = await pick(
    repository,
    items,
    now.before,
    `${title} (1/2)`,
    vscode.l10n.t("What was before?"),
  );
  if (before === undefined) return undefined;
  const files: VersionItem = {
    label: vscode.l10n.t("The files as they are"),
    iconPath: new vscode.ThemeIcon("files"),
    version: { is: "files" },
  };
  const after = await pick(
    repository,
    [files, ...items],
    now.after,
    `${title} (2/2)`,
    vscode.l10n.t("What came after it?"),
  );
  return after === undefined ? undefined : { before, after };
}

async function pick(
  repository: GitRepository,
  items: readonly VersionItem[],
  now: Version,
  title: string,
  placeHolder: string,
): Promise<Version | undefined> {
  const marked = items.map((item) => {
    const isNow = JSON.stringify(item.version) === JSON.stringify(now);
    return isNow
      ? { ...item, description: [item.description, vscode.l10n.t("now")].filter(Boolean).join(", ") }
      : item;
  });
  const item = await vscode.window.showQuickPick(marked, {
    title,
    placeHolder,
    matchOnDescription: true,
    matchOnDetail: true,
  });
  return item?.isDay === true ? pickDay(repository, title) : item?.version;
}

async function pickDay(repository: GitRepository, title: string): Promise<Version | undefined> {
  const day = await vscode.window.showInputBox({
    title,
    prompt: vscode.l10n.t("The last commit at the end of this day"),
    placeHolder: "2026-03-01",
    validateInput: (text) =>
      /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text))
        ? undefined
        : vscode.l10n.t("A day is written like 2026-03-01."),
  });
  if (day === undefined) return undefined;
  const found = await commitAt(repository, day);
  if (found === undefined)
    void vscode.window.showInformationMessage(vscode.l10n.t("There is no commit by the end of {0}.", day));
  return found;
}

async function itemsOf(repository: GitRepository): Promise<VersionItem[]> {
  const isUnborn = repository.state.HEAD?.commit === undefined;
  const [refs, commits] = isUnborn
    ? [[], []]
    : await Promise.all([
        repository.getRefs({}).catch(() => []),
        repository.log({ maxEntries: commitsListed }).catch(() => []),
      ]);
  const commit = ({ hash, message, authorDate, authorName = "" }: GitCommit): VersionItem => ({
    label: message.split("\n", 1)[0] ?? "",
    description: `${hash.slice(0, 8)} ${authorDate?.toLocaleDateString() ?? ""} ${authorName}`,
    iconPath: new vscode.ThemeIcon("git-commit"),
    version: { is: "commit", ref: hash, name: hash.slice(0, 8) },
  });
  return [
    {
      label: vscode.l10n.t("The last commit"),
      description: "HEAD",
      iconPath: new vscode.ThemeIcon("git-commit"),
      version: head,
    },
    {
      label: vscode.l10n.t("What is staged"),
      iconPath: new vscode.ThemeIcon("diff-added"),
      version: { is: "index" },
    },
    { label: vscode.l10n.t("A day …"), iconPath: new vscode.ThemeIcon("calendar"), isDay: true },
    ...refs.flatMap(({ name, type }): VersionItem[] =>
      name === undefined
        ? []
        : [
            {
              label: name,
              iconPath: new vscode.ThemeIcon(type === 2 ? "tag" : "git-branch"),
              version: { is: "commit", ref: name, name },
            },
          ],
    ),
    ...commits.map(commit),
  ];
}
