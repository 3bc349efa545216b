import * as vscode from "vscode";
import { activeExtension, equal, ok, roomFile, test, when } from "./suite.ts";

/** The grid as an editor among others, in every host; its page is tested as its user sees it, in `page/grid.test.ts`. */

const log = (): vscode.Uri => roomFile("2026-03.tank");
const tabs = (): readonly vscode.Tab[] => vscode.window.tabGroups.all.flatMap((group) => group.tabs);
const grids = (): readonly vscode.Tab[] =>
  tabs().filter(({ input }) => input instanceof vscode.TabInputCustom && input.viewType === "standpipe.grid");

async function closed(): Promise<void> {
  await vscode.commands.executeCommand("workbench.action.closeAllEditors");
}

test("the text stays the way in: a log opens as text, as a grid only when asked", async () => {
  await activeExtension();
  await closed();
  await vscode.commands.executeCommand("vscode.open", log());
  await when(vscode.window.tabGroups.onDidChangeTabs, () => tabs()[0]);
  equal(grids().length, 0, "grids");
  await vscode.commands.executeCommand("standpipe.grid.open");
  await when(vscode.window.tabGroups.onDidChangeTabs, () => grids()[0]);
  await closed();
});

test("the grid's page runs: it begins at the line of the text, and leads back to it", async () => {
  await activeExtension();
  await closed();
  const document = await vscode.workspace.openTextDocument(log());
  const line = 6;
  for (let tried = 0; ; tried++) {
    const editor = await vscode.window.showTextDocument(document, { preview: false });
    const at = new vscode.Position(line, 0);
    editor.selection = new vscode.Selection(at, at);
    await vscode.commands.executeCommand("standpipe.grid.open");
    // The page says where its cursor is some time after it is there, and no event tells that it did.
    await new Promise((resolve) => setTimeout(resolve, 1500 * (tried + 1)));
    await vscode.commands.executeCommand("standpipe.grid.text");
    // The grid selects its row in the text; where its page is not there yet the text is as it was left, with nothing selected.
    const selection = vscode.window.activeTextEditor?.selection;
    if (selection?.active.line === line && !selection.isEmpty) break;
    ok(tried < 6, `the grid never led to line ${line + 1}, but to ${selection?.active}`);
  }
  await closed();
});

test("two logs are compared as texts, and a text that cannot be written opens as a grid", async () => {
  await activeExtension();
  await closed();
  const old = vscode.workspace.registerTextDocumentContentProvider("old-log", {
    provideTextDocumentContent: () => "2026-03-01\n  dam  test nitrate 18\n",
  });
  try {
    const before = vscode.Uri.parse("old-log:/2026-03.tank");
    await vscode.commands.executeCommand("vscode.diff", before, log());
    const compared = await when(vscode.window.tabGroups.onDidChangeTabs, () =>
      tabs().find(({ input }) => input instanceof vscode.TabInputTextDiff),
    );
    ok(compared.isActive, "the comparison is shown");
    equal(grids().length, 0, "grids");
    await vscode.commands.executeCommand("vscode.openWith", before, "standpipe.grid");
    const grid = await when(vscode.window.tabGroups.onDidChangeTabs, () => grids()[0]);
    equal((grid.input as vscode.TabInputCustom).uri.scheme, "old-log", "the scheme");
    await closed();
  } finally {
    old.dispose();
  }
});
