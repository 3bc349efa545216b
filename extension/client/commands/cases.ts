import * as vscode from "vscode";
import { casebookRequest } from "../../../language/server/protocol.ts";
import { showCase } from "../casebook.ts";
import type { CaseItem, CaseNode } from "../casebook-items.ts";
import { logUri } from "../places.ts";
import type { Services } from "../services.ts";
import { write } from "./write-day.ts";

/**
 * Shows a case, or closes one: by the line of the casebook that was clicked, by its name (of a key that the keeper binds), else chosen
 * from a list.
 */
export function cases(services: Services): vscode.Disposable {
  return vscode.Disposable.from(
    vscode.commands.registerCommand("standpipe.case.show", async (which?: CaseNode | string) => {
      const chosen = await chosenBy(services, which, false, vscode.l10n.t("Show Case"));
      if (chosen !== undefined) await showCase(chosen.uri, chosen.item);
    }),
    vscode.commands.registerCommand(
      "standpipe.case.close",
      async (which?: CaseNode | string, outcome?: string) => {
        const chosen = await chosenBy(services, which, true, vscode.l10n.t("Close Case"));
        if (chosen === undefined) return;
        const { name, target } = chosen.item;
        const ended = outcomes.find((each) => each === outcome) ?? (await pickOutcome(name));
        // The editor's own undo takes it back.
        if (ended !== undefined)
          await write(services, "entry", `${target} close ${name} ${ended}\${1}`, chosen.uri);
      },
    ),
  );
}

const outcomes = ["recovered", "died", "euthanised", "unresolved"] as const;
type Outcome = (typeof outcomes)[number];

interface Chosen {
  readonly item: CaseItem;
  readonly uri: string;
}

async function chosenBy(
  services: Services,
  which: CaseNode | string | undefined,
  isOpenOnly: boolean,
  title: string,
): Promise<Chosen | undefined> {
  if (typeof which === "object" && which.is === "case") return { item: which.item, uri: which.uri };
  return pick(services, isOpenOnly, title, typeof which === "string" ? which : undefined);
}

/** @param name of the one that is meant; without it the keeper is asked */
async function pick(
  services: Services,
  isOpenOnly: boolean,
  title: string,
  name: string | undefined,
): Promise<Chosen | undefined> {
  const uri = await logUri(services);
  const book = uri === undefined ? undefined : await services.ask(casebookRequest, { uri });
  if (uri === undefined || book === undefined || book === null) return undefined;
  const items = isOpenOnly ? book.open : [...book.open, ...book.closed];
  const meant = items.find((item) => item.name === name);
  if (meant !== undefined) return { item: meant, uri };
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

async function pickOutcome(name: string): Promise<Outcome | undefined> {
  const descriptions: Readonly<Record<Outcome, string>> = {
    recovered: vscode.l10n.t("no more signs"),
    died: vscode.l10n.t("none of the sick is alive"),
    euthanised: "",
    unresolved: vscode.l10n.t("it is over, and nobody knows why"),
  };
  const chosen = await vscode.window.showQuickPick(
    outcomes.map((label) => ({ label, description: descriptions[label] })),
    {
      title: vscode.l10n.t("Close {0}", name),
      placeHolder: vscode.l10n.t("How it ended; the entry is written into today"),
    },
  );
  return chosen?.label;
}
