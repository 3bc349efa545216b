import * as vscode from "vscode";
import type { Part } from "../services.ts";
import { lineHistory } from "./line-history.ts";
import { nameHistory } from "./name-history.ts";
import { lineCommand } from "./review-items.ts";
import { pageScheme, ReviewTree, reviewView } from "./review-tree.ts";

/** The view beside source control: what changed in the log since the last commit, and what follows from it. */

export const review: Part = (services) => {
  const tree = new ReviewTree(services);
  const view = vscode.window.createTreeView(reviewView, { treeDataProvider: tree });
  tree.view = view;
  const { registerCommand, executeCommand } = vscode.commands;
  return vscode.Disposable.from(
    view,
    tree,
    vscode.workspace.registerTextDocumentContentProvider(pageScheme, tree),
    services.onChanged(() => tree.soon()),
    view.onDidChangeVisibility(() => tree.soon(0)),
    vscode.workspace.onDidGrantWorkspaceTrust(() => tree.soon(0)),
    registerCommand("standpipe.review.open", async () => {
      await executeCommand(`${reviewView}.focus`);
      tree.soon(0);
    }),
    registerCommand("standpipe.review.choose", () => tree.choose()),
    registerCommand("standpipe.review.refresh", () => tree.soon(0)),
    vscode.window.onDidChangeActiveTextEditor(() => tree.look()),
    registerCommand("standpipe.review.page", () => tree.page()),
    registerCommand("standpipe.review.copy", () => tree.copy()),
    registerCommand("standpipe.review.next", () => tree.step(1)),
    registerCommand("standpipe.review.previous", () => tree.step(-1)),
    registerCommand(lineCommand, (places: unknown) => tree.go(places)),
    registerCommand("standpipe.history.line", () => lineHistory(services, "line")),
    registerCommand("standpipe.history.value", () => lineHistory(services, "value")),
    registerCommand("standpipe.history.name", () => nameHistory(services)),
    new vscode.Disposable(() => void executeCommand("setContext", "standpipe.review.state", undefined)),
  );
};
