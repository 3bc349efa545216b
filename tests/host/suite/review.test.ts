import * as vscode from "vscode";
import { equal, ok, roomFile, test } from "./suite.ts";

/** The review beside source control. The room of these tests is in no repository: what the view says then, and that nothing throws. */

test("Review Changes opens its view, and says where there is no repository", async () => {
  await vscode.window.showTextDocument(roomFile("2026-03.tank"));
  await vscode.commands.executeCommand("standpipe.review.open");
  await vscode.commands.executeCommand("standpipe.review.refresh");
  const all = await vscode.commands.getCommands(true);
  for (const id of ["choose", "page", "line", "copy", "next", "previous"])
    ok(all.includes(`standpipe.review.${id}`), `there is standpipe.review.${id}`);
  ok(all.includes("standpipe.review.focus"), "the view is there");
});

test("the histories of a line, a value and a tank ask for a repository, and leaves the editor as it is", async () => {
  const editor = await vscode.window.showTextDocument(roomFile("2026-03.tank"));
  const text = editor.document.getText();
  for (const each of ["line", "value", "name"])
    await vscode.commands.executeCommand(`standpipe.history.${each}`);
  equal(
    vscode.window.activeTextEditor?.document.uri.toString(),
    roomFile("2026-03.tank").toString(),
    "the editor",
  );
  equal(editor.document.getText(), text, "its text");
});
