import * as vscode from "vscode";
import type { GitCommit, GitRepository } from "./git-api.ts";
import { dayText, head, isShallow, isUnborn, nameOf, revisionOf, type Version } from "./versions.ts";

/** Picks the two states that are compared: commits, branches, tags, days, what is staged, the files; from a list, or typed. */

interface VersionItem extends vscode.QuickPickItem {
  readonly version?: Version;
  /** What was typed, to be looked for. */
  readonly typed?: true;
}

const commitsListed = 60;

export interface Pair {
  readonly before: Version;
  readonly after: Version;
}

/** Undefined where it was given up. @param now what is compared at present */
export async function choosePair(repository: GitRepository, now: Pair): Promise<Pair | undefined> {
  const items = await itemsOf(repository);
  const files: VersionItem = {
    label: vscode.l10n.t("The files as they are"),
    iconPath: new vscode.ThemeIcon("files"),
    version: { is: "files" },
  };
  for (let given: Version | undefined; ; ) {
    const before = await pick(repository, items, {
      step: 1,
      now: given ?? now.before,
      placeholder: vscode.l10n.t(
        "What was before? Choose, or type a commit, branch, tag or day like 2026-03-01",
      ),
    });
    if (before === undefined || before === "back") return undefined;
    given = before;
    const after = await pick(repository, [files, ...items], {
      step: 2,
      now: now.after,
      placeholder: vscode.l10n.t("What came after {0}? Choose, or type", nameOf(before)),
    });
    if (after === undefined) return undefined;
    if (after !== "back") return { before, after };
  }
}

interface Asked {
  readonly step: number;
  readonly now: Version;
  readonly placeholder: string;
}

/** Undefined where it was given up. */
function pick(
  repository: GitRepository,
  items: readonly VersionItem[],
  { step, now, placeholder }: Asked,
): Promise<Version | "back" | undefined> {
  const list = vscode.window.createQuickPick<VersionItem>();
  const isNow = ({ version }: VersionItem): boolean => same(version, now);
  const marked = items.map((item) =>
    isNow(item)
      ? { ...item, description: [item.description, vscode.l10n.t("now")].filter(Boolean).join(", ") }
      : item,
  );
  Object.assign(list, {
    title: vscode.l10n.t("Review Changes"),
    step,
    totalSteps: 2,
    placeholder,
    matchOnDescription: true,
    matchOnDetail: true,
    items: marked,
    activeItems: marked.filter(isNow),
    buttons: step === 1 ? [] : [vscode.QuickInputButtons.Back],
  });
  /** What was typed stands at the end: it may be what the list does not show. @param complaint where that is nothing */
  const typed = (value: string, complaint = ""): VersionItem[] =>
    value === "" || items.some(({ label }) => label === value)
      ? []
      : [
          {
            label: complaint || vscode.l10n.t("The commit, branch, tag or day “{0}”", value),
            iconPath: new vscode.ThemeIcon(complaint === "" ? "search" : "error"),
            alwaysShow: true,
            typed: true,
          },
        ];
  const show = (complaint = ""): void => {
    list.items = [...marked, ...typed(list.value.trim(), complaint)];
  };
  return new Promise((resolve) => {
    const end = (chosen: Version | "back" | undefined): void => {
      resolve(chosen);
      list.dispose();
    };
    list.onDidChangeValue(() => show());
    list.onDidTriggerButton(() => end("back"));
    list.onDidHide(() => end(undefined));
    list.onDidAccept(async () => {
      const [item] = list.activeItems;
      if (item?.version !== undefined) return end(item.version);
      // What was typed in haste may not stand in the list yet.
      const word = item === undefined || item.typed !== undefined ? list.value.trim() : "";
      if (word === "") return;
      list.busy = true;
      const found = await revisionOf(repository, word);
      if (found !== undefined) return end(found);
      list.busy = false;
      const cut = (await isShallow(repository))
        ? vscode.l10n.t("; this clone holds only the last commits")
        : "";
      // Meanwhile other things may have been typed.
      if (list.value.trim() === word)
        show(vscode.l10n.t("There is no commit, branch, tag or day “{0}”{1}", word, cut));
    });
    list.show();
  });
}

const same = (one: Version | undefined, other: Version): boolean =>
  JSON.stringify(one) === JSON.stringify(other);

async function itemsOf(repository: GitRepository): Promise<VersionItem[]> {
  const [refs, commits] = isUnborn(repository)
    ? [[], []]
    : await Promise.all([
        repository.getRefs({}).catch(() => []),
        repository.log({ maxEntries: commitsListed }).catch(() => []),
      ]);
  const last: VersionItem = isUnborn(repository)
    ? { label: vscode.l10n.t("Before the first commit"), version: head }
    : { label: vscode.l10n.t("The last commit"), description: "HEAD", version: head };
  const named = refs.flatMap(({ name, type }): VersionItem[] =>
    name === undefined
      ? []
      : [
          {
            label: name,
            iconPath: new vscode.ThemeIcon(type === 2 ? "tag" : "git-branch"),
            version: { is: "commit", ref: name, name },
          },
        ],
  );
  return [
    { ...last, iconPath: new vscode.ThemeIcon("git-commit") },
    {
      label: vscode.l10n.t("What is staged"),
      iconPath: new vscode.ThemeIcon("diff-added"),
      version: { is: "index" },
    },
    ...headed(vscode.l10n.t("branches and tags"), named),
    ...headed(vscode.l10n.t("commits"), commits.map(commitItem)),
  ];
}

const headed = (label: string, items: readonly VersionItem[]): VersionItem[] =>
  items.length === 0 ? [] : [{ label, kind: vscode.QuickPickItemKind.Separator }, ...items];

function commitItem({ hash, message, authorDate, authorName = "" }: GitCommit): VersionItem {
  const name = hash.slice(0, 8);
  return {
    label: message.split("\n", 1)[0] ?? "",
    description: [name, dayText(authorDate), authorName].filter(Boolean).join(" "),
    iconPath: new vscode.ThemeIcon("git-commit"),
    version: { is: "commit", ref: hash, name },
  };
}
