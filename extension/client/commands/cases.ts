import * as vscode from "vscode";
import { casebookRequest } from "../../../language/server/protocol.ts";
import { showCase } from "../casebook.ts";
import type { CaseItem, CaseNode } from "../casebook-items.ts";
import { logUri } from "../places.ts";
import type { Services } from "../services.ts";
import { write } from "./write-day.ts";

/** Shows a case, or closes one: chosen from a list, or by the line of the casebook that was clicked. */
export function cases(services: Services): vscode.Disposable {
  return vscode.Disposable.from(
    vscode.commands.registerCommand("standpipe.case.show", async (node?: CaseNode) => {
      const chosen = caseOf(node) ?? (await pick(services, false, vscode.l10n.t("Show Case")));
      if (chosen !== undefined) await showCase(chosen.uri, chosen.item);
    }),
    vscode.commands.registerCommand("standpipe.case.close", async (node?: CaseNode) => {
      const chosen = caseOf(node) ?? (await pick(services, true, vscode.l10n.t("Close Case")));
      if (chosen === undefined) return;
      const { name, target } = chosen.item;
      const outcome = await pickOutcome(name);
      if (outcome !== undefined)
        // The editor's own undo takes it back.
        await write(services, "entry", `${target} close ${name} ${outcome}\${1}`, chosen.uri);
    }),
  );
}

interface Chosen {
  readonly item: CaseItem;
  readonly uri: string;
}

const caseOf = (node: CaseNode | undefined): Chosen | undefined =>
  node?.is === "case" ? { item: node.item, uri: node.uri } : undefined;

async function pick(services: Services, isOpenOnly: boolean, title: string): Promise<Chosen | undefined> {
  const uri = await logUri(services);
  const book = uri === undefined ? undefined : await services.ask(casebookRequest, { uri });
  if (uri === undefined || book === undefined || book === null) return undefined;
  const items = isOpenOnly ? book.open : [...book.open, ...book.closed];
  if (items.length === 0) {
    void vscode.window.showInformationMessage(
      isOpenOnly ? vscode.l10n.t("No case is open.") : vscode.l10n.t("No case is written."),
    );
    return undefined;
  }
  const chosen = await vscode.window.showQuickPick(
    items.map((item) => ({
      label: item.name,
      description: [item.state, item.tanks.map((tank) => tank.name).join(", ")].filter(Boolean).join(" · "),
      detail: item.text,
      item,
    })),
    { title, matchOnDescription: true, matchOnDetail: true },
  );
  return chosen === undefined ? undefined : { item: chosen.item, uri };
}

async function pickOutcome(name: string): Promise<string | undefined> {
  const outcomes = [
    { label: "recovered", description: vscode.l10n.t("no more signs") },
    { label: "died", description: vscode.l10n.t("none of the sick is alive") },
    { label: "euthanised", description: "" },
    { label: "unresolved", description: vscode.l10n.t("it is over, and nobody knows why") },
  ];
  const chosen = await vscode.window.showQuickPick(outcomes, {
    title: vscode.l10n.t("Close {0}", name),
    placeHolder: vscode.l10n.t("How it ended; the entry is written into today"),
  });
  return chosen?.label;
}
