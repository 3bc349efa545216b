import * as vscode from "vscode";
import { equal, ok, roomFile, test, when } from "./suite.ts";

const tabs = vscode.window.tabGroups;

test("the preview opens beside the text and is about the tank at the cursor", async () => {
  const editor = await editorAt("  ford  count");
  await vscode.commands.executeCommand("standpipe.preview.open");
  const tab = await previewCalled("Preview ford");
  ok(tab.group.viewColumn !== editor.viewColumn, "the preview is in the editor's own group");
  ok(vscode.window.activeTextEditor === editor, "the focus left the text");
});

test("the preview follows the cursor to another tank, and to a day", async () => {
  const editor = await editorAt("  dam   test");
  await previewCalled("Preview dam");
  select(editor, "2026-03-08");
  await previewCalled("Preview 2026-03-08");
});

test("a preview that is open is not opened twice", async () => {
  await editorAt("  dam   test");
  await vscode.commands.executeCommand("standpipe.preview.open");
  await previewCalled("Preview dam");
  equal(previews().length, 1, "previews");
});

test("a pinned preview stays, and another one follows", async () => {
  const editor = await editorAt("  dam   test");
  const pinned = await previewCalled("Preview dam");
  await focus(pinned);
  await vscode.commands.executeCommand("standpipe.preview.pin");
  await vscode.window.showTextDocument(editor.document, editor.viewColumn);
  await vscode.commands.executeCommand("standpipe.preview.open");
  select(await editorAt("  ford  count"), "  ford  count");
  await previewCalled("Preview ford");
  equal(
    previews()
      .map(({ label }) => label)
      .sort(),
    ["Preview dam", "Preview ford"],
    "previews",
  );
  await tabs.close(previews());
});

/** The text editor of the test room's log, with the cursor in the first line that holds some words. */
async function editorAt(words: string): Promise<vscode.TextEditor> {
  const editor = await vscode.window.showTextDocument(roomFile("2026-03.tank"), {
    viewColumn: vscode.ViewColumn.One,
  });
  select(editor, words);
  return editor;
}

function select(editor: vscode.TextEditor, words: string): void {
  const at = editor.document.getText().indexOf(words);
  ok(at >= 0, `the log has no “${words}”`);
  const cursor = editor.document.positionAt(at + words.length);
  editor.selection = new vscode.Selection(cursor, cursor);
}

function previews(): vscode.Tab[] {
  return tabs.all
    .flatMap((group) => group.tabs)
    .filter(
      ({ input }) => input instanceof vscode.TabInputWebview && input.viewType.endsWith("standpipe.preview"),
    );
}

function previewCalled(label: string): Promise<vscode.Tab> {
  return when(tabs.onDidChangeTabs, () => previews().find((tab) => tab.label === label));
}

/** Makes a tab the one that commands are about: nothing but a command does. */
async function focus(tab: vscode.Tab): Promise<void> {
  const groups = ["First", "Second", "Third"] as const;
  await vscode.commands.executeCommand(
    `workbench.action.focus${groups[tab.group.viewColumn - 1]}EditorGroup`,
  );
}
