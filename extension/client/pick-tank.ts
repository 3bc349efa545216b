import * as vscode from "vscode";
import { cardChoicesRequest } from "../../language/server/protocol.ts";
import type { Services } from "./services.ts";

/** A tank or system of a logbook, chosen from a list; undefined where none was. `shown` is the one in use, marked with `mark`. */
export async function pickTank(
  { ask }: Services,
  uri: string,
  { shown, mark, ...options }: vscode.QuickPickOptions & { readonly shown: string; readonly mark: string },
): Promise<string | undefined> {
  const choices = (await ask(cardChoicesRequest, { uri })) ?? [];
  const items = choices.map(({ name, title, about }) => ({
    label: name,
    description: [title, about, name === shown ? mark : ""].filter(Boolean).join(" · "),
  }));
  return (await vscode.window.showQuickPick(items, { ...options, matchOnDescription: true }))?.label;
}
