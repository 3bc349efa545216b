import * as vscode from "vscode";
import { equal, ok, roomFile, test, when } from "./suite.ts";

const tabs = vscode.window.tabGroups;

test("Open Casebook opens the view, and a case is shown in the preview and stays", async () => {
  const editor = await logWithCase();
  await vscode.commands.executeCommand("standpipe.casebook.open");
  await vscode.commands.executeCommand("standpipe.case.show", "cough-1");
  await when(tabs.onDidChangeTabs, () => preview("Preview cough-1"));
  select(editor, "  ford  count");
  await new Promise((resolve) => setTimeout(resolve, 600));
  ok(preview("Preview cough-1") !== undefined, "the preview did not stay with the case");
  await closed();
  await undone(editor);
});

test("on the name of a case the preview turns to it", async () => {
  const editor = await logWithCase();
  await vscode.commands.executeCommand("standpipe.preview.open");
  select(editor, "case cough");
  await when(tabs.onDidChangeTabs, () => preview("Preview cough-1"));
  await closed();
  await undone(editor);
});

test("Close Case writes the close into today, and one undo takes it back", async () => {
  const editor = await logWithCase();
  const before = editor.document.getText();
  await vscode.commands.executeCommand("standpipe.case.close", "cough-1", "recovered");
  ok(/\n {2}ford +close cough-1 recovered/.test(editor.document.getText()), "the close stands in the day");
  await vscode.commands.executeCommand("undo");
  equal(editor.document.getText().trimEnd(), before.trimEnd(), "the text after undo");
  await undone(editor);
});

async function closed(): Promise<void> {
  await tabs.close(
    tabs.all.flatMap((group) => group.tabs).filter(({ label }) => label.startsWith("Preview ")),
  );
}

/** The log of the test room, with a case on its last line. */
async function logWithCase(): Promise<vscode.TextEditor> {
  const editor = await vscode.window.showTextDocument(roomFile("2026-03.tank"), {
    viewColumn: vscode.ViewColumn.One,
  });
  const { document } = editor;
  const end = document.lineAt(document.lineCount - 1).range.end;
  const gap = document.getText().endsWith("\n") ? "" : "\n";
  await editor.edit((edit) =>
    edit.insert(end, `${gap}  ford  sick praecox 2 of 14 signs "flashing" case cough-1\n`),
  );
  return editor;
}

/** As it is stored. */
async function undone({ document }: vscode.TextEditor): Promise<void> {
  await vscode.window.showTextDocument(document, vscode.ViewColumn.One);
  await vscode.commands.executeCommand("workbench.action.files.revert");
}

const preview = (label: string): vscode.Tab | undefined =>
  tabs.all.flatMap((group) => group.tabs).find((tab) => tab.label === label);

function select(editor: vscode.TextEditor, words: string): void {
  const at = editor.document.getText().indexOf(words);
  ok(at >= 0, `the log has no “${words}”`);
  const cursor = editor.document.positionAt(at + words.length);
  editor.selection = new vscode.Selection(cursor, cursor);
}
