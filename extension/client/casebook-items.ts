import * as vscode from "vscode";
import { spokenDay } from "../../language/book/dates.ts";
import type * as cards from "../../language/features/case-cards.ts";
import type { FilePlace, Placed } from "../../language/server/protocol.ts";

/** What stands in the casebook, line by line. */

export type CaseItem = Placed<cards.CaseItemCard>;
export type CaseCard = Placed<cards.CaseCard>;

export type CaseNode =
  | CaseLine
  | { readonly is: "closed"; readonly cases: readonly CaseLine[] }
  | {
      readonly is: "part";
      readonly key: string;
      readonly label: string;
      readonly icon: string;
      readonly lines: readonly LineNode[];
    }
  | LineNode;

export interface CaseLine {
  readonly is: "case";
  readonly item: CaseItem;
  /** A file of its logbook. */
  readonly uri: string;
  /** Today, for the logbook. */
  readonly today: number;
}

interface LineNode {
  readonly is: "line";
  readonly key: string;
  readonly label: string;
  readonly description: string;
  readonly at: FilePlace | null;
}

export function itemOf(node: CaseNode): vscode.TreeItem {
  const { None, Collapsed } = vscode.TreeItemCollapsibleState;
  switch (node.is) {
    case "case":
      return caseItem(node, Collapsed);
    case "closed": {
      const item = new vscode.TreeItem(vscode.l10n.t("Closed"), Collapsed);
      item.id = "closed";
      item.description = String(node.cases.length);
      item.iconPath = new vscode.ThemeIcon("archive");
      return item;
    }
    case "part": {
      const item = new vscode.TreeItem(node.label, Collapsed);
      item.id = node.key;
      item.description = String(node.lines.length);
      item.iconPath = new vscode.ThemeIcon(node.icon);
      return item;
    }
    case "line": {
      const item = new vscode.TreeItem(node.label, None);
      item.id = node.key;
      item.description = node.description;
      item.tooltip = [node.label, node.description].filter(Boolean).join(" ");
      goesTo(item, node.at);
      return item;
    }
  }
}

/** A click, or Enter, goes to the line. */
function goesTo(item: vscode.TreeItem, at: FilePlace | null): void {
  if (at === null) return;
  item.command = {
    command: "standpipe.casebook.line",
    title: vscode.l10n.t("Go to Line"),
    arguments: [at],
  };
}

function caseItem({ item: card, today }: CaseLine, state: vscode.TreeItemCollapsibleState): vscode.TreeItem {
  const { name, episode, tanks, state: told, text, closed, since, at } = card;
  const item = new vscode.TreeItem(name, state);
  item.id = idOf(card);
  const where = tanks.map((tank) => tank.name).join(", ");
  const parts = [where, closed === null ? `since ${spokenDay(since, today)}` : told, text];
  item.description = parts.filter(Boolean).join(" · ");
  item.contextValue = closed === null ? "case.open" : "case.closed";
  item.iconPath = new vscode.ThemeIcon(closed === null ? "pulse" : "check");
  const time = episode > 1 ? `, time ${episode}` : "";
  item.tooltip = [
    `${name}${time}: ${told}`,
    `since ${spokenDay(since, today)}`,
    where === "" ? "" : `in ${where}`,
    text,
  ]
    .filter(Boolean)
    .join("\n");
  item.accessibilityInformation = {
    label: [
      `case ${name}${time}`,
      told,
      `since ${spokenDay(since, today)}`,
      where === "" ? "" : `in ${where}`,
      text,
    ]
      .filter(Boolean)
      .join(", "),
  };
  goesTo(item, at);
  return item;
}

const idOf = ({ name, episode }: CaseItem): string => `case ${name} ${episode}`;

/** What belongs to a case: its first sign, tanks, courses, samples and results, tanks that may be exposed, its entries. */
export function childrenOf({ item }: { readonly item: CaseItem }, card: CaseCard): CaseNode[] {
  const id = idOf(item);
  const line = (key: string, label: string, description: string, at: FilePlace | null): LineNode => ({
    is: "line",
    key: `${id} ${key}`,
    label,
    description,
    at,
  });
  const part = (key: string, label: string, icon: string, lines: readonly LineNode[]): CaseNode[] =>
    lines.length === 0 ? [] : [{ is: "part", key: `${id} ${key}`, label, icon, lines }];
  const on = (day: number): string => spokenDay(day, card.day);
  const first = card.signs.filter((sign) => sign.first === card.since).map(({ word }) => word);
  const { courses, baths } = card.courses;
  return [
    line(
      "first",
      vscode.l10n.t("First signs"),
      [on(card.since), first.join(", ")].filter(Boolean).join(": "),
      card.at,
    ),
    ...card.rates.map((rate) => line(`rate ${rate.is}`, rate.title, rate.text, null)),
    ...part(
      "tanks",
      vscode.l10n.t("Tanks"),
      "home",
      card.tanks.map((tank) => line(`tank ${tank.name}`, tank.name, tank.text, tank.at)),
    ),
    ...part("courses", vscode.l10n.t("Courses"), "beaker", [
      ...courses.map((course, at) =>
        line(
          `course ${at}`,
          `${course.remedy}, ${course.water}`,
          course.stateText,
          course.doses[0]?.at ?? course.at,
        ),
      ),
      ...baths.map((bath, at) =>
        line(
          `bath ${at}`,
          `${bath.remedy}, ${bath.tank}`,
          `${on(Math.floor(bath.time))}: ${bath.text}`,
          bath.at,
        ),
      ),
    ]),
    ...part("samples", vscode.l10n.t("Samples and results"), "microscope", [
      ...card.samples.map((sample, at) => line(`sample ${at}`, sample.text, sample.state, sample.at)),
      ...card.results.map((result, at) =>
        line(
          `result ${at}`,
          result.outcome === "" ? vscode.l10n.t("result") : result.outcome,
          [on(result.day), result.note].filter(Boolean).join(": "),
          result.at,
        ),
      ),
    ]),
    ...part(
      "hold",
      vscode.l10n.t("Tanks to hold"),
      "git-branch",
      (card.exposure?.hold ?? []).map((held, at) =>
        line(`hold ${at}`, held.tank, `${held.kind}: ${held.why}`, held.steps.at(-1)?.at ?? null),
      ),
    ),
    ...part(
      "entries",
      vscode.l10n.t("Entries"),
      "list-unordered",
      card.entries.map((entry, at) => line(`entry ${at}`, on(entry.day), entry.text, entry.at)),
    ),
  ];
}
