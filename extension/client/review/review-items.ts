import * as vscode from "vscode";
import type { ChangeItem, FollowItem } from "../../../language/server/review-protocol.ts";
import type { ReviewNode } from "./review-nodes.ts";

/** How a line of the view looks and is spoken, and where it leads. A narrow side bar shows the beginning of it; all of it is in the tooltip. */

export const lineCommand = "standpipe.review.line";

/** Where a line stands in the version before, and now. */
export type LinePlaces = Pick<ChangeItem, "before" | "after">;

export function itemOf(node: ReviewNode): vscode.TreeItem {
  const { None, Collapsed, Expanded } = vscode.TreeItemCollapsibleState;
  switch (node.is) {
    case "section":
    case "group": {
      const isOpen = node.is === "section" || node.key.startsWith("follows ");
      const item = named(node.label, node.key, isOpen ? Expanded : Collapsed);
      item.description = node.about;
      item.tooltip = [node.label, node.about].filter(Boolean).join("\n");
      return item;
    }
    case "said": {
      const item = named(node.label, node.key, None);
      item.tooltip = shown(node.label);
      return item;
    }
    case "follow":
      return followItem(node);
    case "cause": {
      const item = named(vscode.l10n.t("with {0}", node.item.text), node.key, None);
      item.tooltip = item.label as string;
      goesTo(item, node.item);
      return item;
    }
    case "change":
      return changeItem(node);
  }
}

/** Where a line of the view leads; undefined for one that leads nowhere. */
export function placesOf(node: ReviewNode): LinePlaces | undefined {
  if (node.is === "change" || node.is === "cause") {
    const { before, after } = node.item;
    return before === null && after === null ? undefined : { before, after };
  }
  if (node.is !== "follow" || node.item.at === null) return undefined;
  const { at, side } = node.item;
  return side === "before" ? { before: at, after: null } : { before: null, after: at };
}

function named(label: string, key: string, state: vscode.TreeItemCollapsibleState): vscode.TreeItem {
  const item = new vscode.TreeItem(shown(label), state);
  item.id = key;
  return item;
}

/** What stands in a file that is no text, or would turn the line around, is left out. */
const shown = (text: string): string => text.replace(/[\p{Cc}\p{Cf}\ufffd]+/gu, " ");

const followIcons: Readonly<Record<FollowItem["tone"], readonly [icon: string, colour: string | undefined]>> =
  {
    worse: ["warning", "list.warningForeground"],
    better: ["pass", undefined],
    plain: ["arrow-small-right", undefined],
  };

function followItem(node: ReviewNode & { readonly is: "follow" }): vscode.TreeItem {
  const { item: each, of, key, nodes } = node;
  const { text, lead, tone, causes, more } = each;
  const { None, Collapsed } = vscode.TreeItemCollapsibleState;
  // What it is about stands first: a narrow side bar cuts the rest, and its day is said behind it.
  const [, day = "", words = text] = /^(\d{4}-\d{2}-\d{2}): (.*)$/s.exec(text) ?? [];
  const item = named(words, key, nodes.length === 0 ? None : Collapsed);
  const [icon, colour] =
    each.severity === "error" && tone === "worse" ? ["error", "list.errorForeground"] : followIcons[tone];
  item.iconPath = new vscode.ThemeIcon(
    icon,
    colour === undefined ? undefined : new vscode.ThemeColor(colour),
  );
  const others = more > 0 ? [vscode.l10n.t("and {0} more in its water", more)] : [];
  const by =
    causes.length === 0
      ? ""
      : vscode.l10n.t("with {0}", [...causes.map((cause) => cause.text), ...others].join("; "));
  item.description = [lead, day].filter(Boolean).join(" · ");
  item.tooltip = [[of, shown(text)].filter(Boolean).join(": "), lead, by].filter(Boolean).join("\n");
  const word = { worse: vscode.l10n.t("to look at"), better: vscode.l10n.t("better"), plain: "" }[tone];
  item.accessibilityInformation = { label: [word, of, lead, text, by].filter(Boolean).join(", ") };
  const places = placesOf(node);
  if (places !== undefined) goesTo(item, places);
  return item;
}

const changeIcons: Readonly<Record<ChangeItem["is"], readonly [icon: string, colour: string]>> = {
  added: ["diff-added", "gitDecoration.addedResourceForeground"],
  removed: ["diff-removed", "gitDecoration.deletedResourceForeground"],
  corrected: ["diff-modified", "gitDecoration.modifiedResourceForeground"],
  moved: ["diff-renamed", "gitDecoration.renamedResourceForeground"],
};

function changeItem(node: ReviewNode & { readonly is: "change" }): vscode.TreeItem {
  const { item: each, of, day, key } = node;
  const { is, text } = each;
  const item = named(text, key, vscode.TreeItemCollapsibleState.None);
  item.description = day;
  const [icon, colour] = changeIcons[is];
  item.iconPath = new vscode.ThemeIcon(icon, new vscode.ThemeColor(colour));
  const words = {
    added: vscode.l10n.t("added"),
    removed: vscode.l10n.t("removed"),
    corrected: vscode.l10n.t("corrected"),
    moved: vscode.l10n.t("moved in time"),
  };
  item.tooltip = [`${of}, ${words[is]}: ${shown(text)}`, day].filter(Boolean).join("\n");
  item.accessibilityInformation = { label: [words[is], of, text, day].filter(Boolean).join(", ") };
  const places = placesOf(node);
  if (places !== undefined) goesTo(item, places);
  return item;
}

/** A click, or Enter, goes to the line: beside the version before, where it is on both sides. */
function goesTo(item: vscode.TreeItem, { before, after }: LinePlaces): void {
  const places = { before, after };
  item.command = { command: lineCommand, title: vscode.l10n.t("Go to Line"), arguments: [places] };
}
