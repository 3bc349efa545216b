import * as vscode from "vscode";
import { cardOfRequest, casebookRequest, type FilePlace } from "../../language/server/protocol.ts";
import {
  type CaseCard,
  type CaseItem,
  type CaseLine,
  type CaseNode,
  childrenOf,
  itemOf,
} from "./casebook-items.ts";
import { logEditor, reveal } from "./places.ts";
import { caseCommand } from "./preview.ts";
import type { Part, Services } from "./services.ts";

/** The view of cases in the side bar: those that are open, then those that were closed; below each what belongs to it. */

export const casebookView = "standpipe.casebook";

export const casebook: Part = (services) => {
  const cases = new Casebook(services);
  const tree = vscode.window.createTreeView(casebookView, { treeDataProvider: cases, showCollapseAll: true });
  const fresh = (): void => {
    // What nobody sees is not asked for; it is when the view comes back.
    if (tree.visible) cases.refresh();
  };
  return vscode.Disposable.from(
    tree,
    cases,
    services.onChanged(fresh),
    tree.onDidChangeVisibility(fresh),
    vscode.window.onDidChangeActiveTextEditor((editor) => {
      if (editor?.document.languageId === "standpipe" && cases.isOther(editor)) fresh();
    }),
    vscode.commands.registerCommand("standpipe.casebook.open", () =>
      vscode.commands.executeCommand(`${casebookView}.focus`),
    ),
    vscode.commands.registerCommand("standpipe.casebook.line", (place: FilePlace) => reveal(services, place)),
  );
};

class Casebook implements vscode.TreeDataProvider<CaseNode>, vscode.Disposable {
  private readonly services: Services;
  private readonly changed = new vscode.EventEmitter<undefined>();
  readonly onDidChangeTreeData = this.changed.event;
  /** The file of the logbook that is shown. */
  private uri: string | undefined;

  constructor(services: Services) {
    this.services = services;
  }

  dispose(): void {
    this.changed.dispose();
  }

  refresh(): void {
    this.changed.fire(undefined);
  }

  /** Whether an editor shows another file than the one the view is of: its logbook may be another. */
  isOther({ document }: vscode.TextEditor): boolean {
    return this.services.client.code2ProtocolConverter.asUri(document.uri) !== this.uri;
  }

  getTreeItem(node: CaseNode): vscode.TreeItem {
    return itemOf(node);
  }

  async getChildren(node?: CaseNode): Promise<CaseNode[]> {
    if (node === undefined) return this.roots();
    if (node.is === "closed") return [...node.cases];
    if (node.is === "case") {
      const card = await this.cardOf(node);
      return card === undefined ? [] : childrenOf(node, card);
    }
    return node.is === "part" ? [...node.lines] : [];
  }

  private async roots(): Promise<CaseNode[]> {
    const { client, ask } = this.services;
    const document =
      logEditor()?.document.uri ?? (await vscode.workspace.findFiles("**/*.tank", undefined, 1))[0];
    if (document === undefined) return [];
    const uri = client.code2ProtocolConverter.asUri(document);
    this.uri = uri;
    const book = await ask(casebookRequest, { uri });
    if (book === undefined || book === null) return [];
    const line = (item: CaseItem): CaseLine => ({ is: "case", item, uri, today: book.day });
    const open = book.open.map(line);
    return book.closed.length === 0 ? open : [...open, { is: "closed", cases: book.closed.map(line) }];
  }

  private async cardOf({ item, uri }: CaseLine): Promise<CaseCard | undefined> {
    const { name, episode } = item;
    const card = await this.services.ask(cardOfRequest, { uri, case: name, episode });
    return card?.is === "case" ? card : undefined;
  }
}

/** Shows a case in the preview. */
export const showCase = (uri: string, { name, episode }: CaseItem): Thenable<unknown> =>
  vscode.commands.executeCommand(caseCommand, uri, name, episode);
