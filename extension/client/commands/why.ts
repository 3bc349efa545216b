import * as vscode from "vscode";
import type { WhyCard } from "../../../language/features/cards.ts";
import { type FilePlace, type Placed, whyRequest } from "../../../language/server/protocol.ts";
import { reveal } from "../places.ts";
import type { Services } from "../services.ts";

interface WhyPick extends vscode.QuickPickItem {
  readonly at: FilePlace | null;
}

/** The entries and the formula behind the figure at the cursor, as a pick that leads to them. */
export function why(services: Services): vscode.Disposable {
  return vscode.commands.registerCommand("standpipe.why.show", async () => {
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.languageId !== "standpipe") return;
    const { client, ask } = services;
    const tree = await ask(whyRequest, {
      uri: client.code2ProtocolConverter.asUri(editor.document.uri),
      position: client.code2ProtocolConverter.asPosition(editor.selection.active),
    });
    if (tree === undefined) return;
    if (tree === null) {
      void vscode.window.showInformationMessage(vscode.l10n.t("Nothing is computed here."));
      return;
    }
    const chosen = await vscode.window.showQuickPick(lines(tree), {
      title: vscode.l10n.t("Why"),
      placeHolder: vscode.l10n.t("Enter goes to the line"),
      matchOnDetail: true,
    });
    if (chosen?.at) await reveal(services, chosen.at);
  });
}

function lines(node: Placed<WhyCard>, depth = 0): WhyPick[] {
  const indent = "\u2003".repeat(depth);
  const detail = [node.formula, node.source].filter((words) => words !== "").join("  —  ");
  const own: WhyPick = {
    label: `${indent}${node.what}`,
    description: node.value,
    ...(detail === "" ? {} : { detail: `${indent}${detail}` }),
    at: node.at,
  };
  return [own, ...node.from.flatMap((each) => lines(each, depth + 1))];
}
