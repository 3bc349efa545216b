import * as vscode from "vscode";
import type { ChangeItem, FollowItem, ReviewAnswer } from "../../../language/server/review-protocol.ts";

/** What stands in the view of a review, line by line. */
export type ReviewNode =
  | {
      readonly is: "section";
      readonly key: string;
      readonly label: string;
      readonly about: string;
      readonly nodes: readonly ReviewNode[];
    }
  | {
      readonly is: "group";
      readonly key: string;
      readonly label: string;
      readonly about: string;
      readonly nodes: readonly ReviewNode[];
    }
  | { readonly is: "follow"; readonly key: string; readonly item: FollowItem; readonly of: string }
  | {
      readonly is: "change";
      readonly key: string;
      readonly item: ChangeItem;
      readonly of: string;
      readonly day: string;
    }
  | { readonly is: "said"; readonly key: string; readonly label: string };

export const lineCommand = "standpipe.review.line";

export function nodesOf(answer: ReviewAnswer): ReviewNode[] {
  const { follows, groups, counts, files, small, day, onDay } = answer;
  const said = (key: string, label: string): ReviewNode => ({ is: "said", key, label });
  const followed = follows.map(({ title, items }, at): ReviewNode => {
    const key = `follows ${title} ${at}`;
    const nodes = items.map(
      (item, index): ReviewNode => ({ is: "follow", key: `${key} ${index}`, item, of: title }),
    );
    return { is: "group", key, label: title, about: String(items.length), nodes };
  });
  if (small > 0) followed.push(said("small", vscode.l10n.t("{0} smaller differences are not listed", small)));
  if (followed.length === 0)
    followed.push(said("none", vscode.l10n.t("Nothing that is computed is another")));
  const changed = groups.map(({ name, title, count, days }): ReviewNode => {
    const key = `changes ${name}`;
    const nodes = days.flatMap(({ title: on, lines }, at) =>
      lines.map(
        (item, index): ReviewNode => ({
          is: "change",
          key: `${key} ${at} ${index}`,
          item,
          of: name,
          day: on,
        }),
      ),
    );
    return {
      is: "group",
      key,
      label: name,
      about: [title, String(count)].filter(Boolean).join(" · "),
      nodes,
    };
  });
  return [
    {
      is: "section",
      key: "follows",
      label: vscode.l10n.t("What follows"),
      about: vscode.l10n.t("as of {0}", day),
      nodes: followed,
    },
    {
      is: "section",
      key: "changes",
      label: vscode.l10n.t("Entries and definitions"),
      about: [counts, onDay].filter(Boolean).join(" · "),
      nodes: [...files.map((text, at) => said(`file ${at}`, text)), ...changed],
    },
  ];
}

export function itemOf(node: ReviewNode): vscode.TreeItem {
  const { None, Collapsed, Expanded } = vscode.TreeItemCollapsibleState;
  switch (node.is) {
    case "section":
    case "group": {
      const item = new vscode.TreeItem(node.label, node.is === "section" ? Expanded : Collapsed);
      item.id = node.key;
      item.description = node.about;
      if (node.key.startsWith("follows ")) item.collapsibleState = Expanded;
      return item;
    }
    case "said": {
      const item = new vscode.TreeItem(node.label, None);
      item.id = node.key;
      return item;
    }
    case "follow":
      return followItem(node.key, node.item, node.of);
    case "change":
      return changeItem(node.key, node.item, node.of, node.day);
  }
}

const followIcons: Readonly<Record<FollowItem["tone"], readonly [icon: string, colour: string | undefined]>> =
  {
    worse: ["warning", "list.warningForeground"],
    better: ["pass", undefined],
    plain: ["arrow-small-right", undefined],
  };

function followItem(key: string, each: FollowItem, of: string): vscode.TreeItem {
  const { text, lead, tone, causes, more, at } = each;
  const item = new vscode.TreeItem(text, vscode.TreeItemCollapsibleState.None);
  item.id = key;
  const [icon, colour] =
    each.severity === "error" && tone === "worse" ? ["error", "list.errorForeground"] : followIcons[tone];
  item.iconPath = new vscode.ThemeIcon(
    icon,
    colour === undefined ? undefined : new vscode.ThemeColor(colour),
  );
  const others = more > 0 ? [vscode.l10n.t("and {0} more in its water", more)] : [];
  const by = causes.length === 0 ? "" : vscode.l10n.t("with {0}", [...causes, ...others].join("; "));
  item.description = [lead, by].filter(Boolean).join(" · ");
  item.tooltip = [[of, text].filter(Boolean).join(": "), lead, by].filter(Boolean).join("\n");
  const word = { worse: vscode.l10n.t("to look at"), better: vscode.l10n.t("better"), plain: "" }[tone];
  item.accessibilityInformation = { label: [word, of, lead, text, by].filter(Boolean).join(", ") };
  if (at !== null)
    goesTo(item, each.side === "before" ? { before: at, after: null } : { before: null, after: at });
  return item;
}

const changeIcons: Readonly<Record<ChangeItem["is"], readonly [icon: string, colour: string]>> = {
  added: ["diff-added", "gitDecoration.addedResourceForeground"],
  removed: ["diff-removed", "gitDecoration.deletedResourceForeground"],
  corrected: ["diff-modified", "gitDecoration.modifiedResourceForeground"],
  moved: ["diff-renamed", "gitDecoration.renamedResourceForeground"],
};

function changeItem(key: string, each: ChangeItem, of: string, day: string): vscode.TreeItem {
  const { is, text, before, after } = each;
  const item = new vscode.TreeItem(text, vscode.TreeItemCollapsibleState.None);
  item.id = key;
  item.description = day;
  const [icon, colour] = changeIcons[is];
  item.iconPath = new vscode.ThemeIcon(icon, new vscode.ThemeColor(colour));
  const words = {
    added: vscode.l10n.t("added"),
    removed: vscode.l10n.t("removed"),
    corrected: vscode.l10n.t("corrected"),
    moved: vscode.l10n.t("moved in time"),
  };
  item.tooltip = [`${words[is]}: ${text}`, day].filter(Boolean).join("\n");
  item.accessibilityInformation = { label: [words[is], of, text, day].filter(Boolean).join(", ") };
  if (before !== null || after !== null) goesTo(item, { before, after });
  return item;
}

/** A click, or Enter, goes to the line: beside the version before, where it is on both sides. */
function goesTo(item: vscode.TreeItem, places: Pick<ChangeItem, "before" | "after">): void {
  item.command = { command: lineCommand, title: vscode.l10n.t("Go to Line"), arguments: [places] };
}
