import * as vscode from "vscode";
import type {
  CauseItem,
  ChangeItem,
  FollowItem,
  ReviewAnswer,
} from "../../../language/server/review-protocol.ts";

/** What stands in the view of a review, line by line. */
export type ReviewNode =
  | {
      readonly is: "section" | "group";
      readonly key: string;
      readonly label: string;
      readonly about: string;
      readonly nodes: readonly ReviewNode[];
    }
  | {
      readonly is: "follow";
      readonly key: string;
      readonly item: FollowItem;
      readonly of: string;
      /** The changes it may follow from. */
      readonly nodes: readonly ReviewNode[];
    }
  | { readonly is: "cause"; readonly key: string; readonly item: CauseItem }
  | {
      readonly is: "change";
      readonly key: string;
      readonly item: ChangeItem;
      readonly of: string;
      readonly day: string;
    }
  | { readonly is: "said"; readonly key: string; readonly label: string };

export function nodesOf(answer: ReviewAnswer): ReviewNode[] {
  const { follows, groups, counts, files, small, day, onDay } = answer;
  const followed = follows.map(({ title, items }, at): ReviewNode => {
    const key = `follows ${title} ${at}`;
    const nodes = items.map((item, index) => followNode(`${key} ${index}`, item, title));
    return { is: "group", key, label: title, about: String(items.length), nodes };
  });
  if (small > 0) followed.push(said("small", vscode.l10n.t("{0} smaller differences are not listed", small)));
  if (followed.length === 0) followed.push(said("none", vscode.l10n.t("No figure is another")));
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
      nodes: [...files.map((text, at) => said(`file ${at}`, text)), ...groups.map(groupNode)],
    },
  ];
}

const said = (key: string, label: string): ReviewNode => ({ is: "said", key, label });

function followNode(key: string, item: FollowItem, of: string): ReviewNode {
  const { causes, more } = item;
  const nodes = causes.map((cause, at): ReviewNode => ({ is: "cause", key: `${key} by ${at}`, item: cause }));
  if (more > 0) nodes.push(said(`${key} more`, vscode.l10n.t("and {0} more in its water", more)));
  return { is: "follow", key, item, of, nodes };
}

function groupNode({ name, title, count, days, left }: ReviewAnswer["groups"][number]): ReviewNode {
  const key = `changes ${name}`;
  const nodes = days.flatMap(({ title: day, lines }, at) =>
    lines.map(
      (item, index): ReviewNode => ({ is: "change", key: `${key} ${at} ${index}`, item, of: name, day }),
    ),
  );
  if (left > 0)
    nodes.push(said(`${key} left`, vscode.l10n.t("and {0} more: standpipe diff --all lists them", left)));
  return {
    is: "group",
    key,
    label: name,
    about: [title, String(count)].filter(Boolean).join(" · "),
    nodes,
  };
}

/** What leads to a line, in the order in which it stands: what follows, then what changed. */
export function stopsOf(nodes: readonly ReviewNode[]): ReviewNode[] {
  const leaves = (each: readonly ReviewNode[]): ReviewNode[] =>
    each.flatMap((node) => (node.is === "section" || node.is === "group" ? leaves(node.nodes) : [node]));
  return leaves(nodes).filter(
    (node) =>
      (node.is === "follow" && node.item.at !== null) ||
      (node.is === "change" && (node.item.before !== null || node.item.after !== null)),
  );
}

/**
 * The stop behind another line of the view, or before it; behind the last the first is next.
 * @param from the key of that line: of a stop, of what hangs on one, or of what holds some; any other is in front of all
 */
export function stopFrom(stops: readonly ReviewNode[], from: string, by: 1 | -1): ReviewNode | undefined {
  const at = stops.findIndex(({ key }) => from === key || from.startsWith(`${key} `));
  const inside = stops.findIndex(({ key }) => key.startsWith(`${from} `));
  const back = by < 0 ? -1 : 0;
  const next = at >= 0 ? at + by : inside >= 0 ? inside + back : back;
  return stops[(next + stops.length) % stops.length];
}

/** Whose child each is. */
export function parentsOf(nodes: readonly ReviewNode[]): Map<ReviewNode, ReviewNode> {
  const parents = new Map<ReviewNode, ReviewNode>();
  const take = (node: ReviewNode): void => {
    if (!("nodes" in node)) return;
    for (const child of node.nodes) {
      parents.set(child, node);
      take(child);
    }
  };
  nodes.forEach(take);
  return parents;
}
