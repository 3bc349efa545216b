import * as vscode from "vscode";
import { diagnostics, equal, ok, roomFile, test, when } from "./suite.ts";

/** Lines from the board into today and out again; the page itself is tested as its user sees it, in `page/board.test.ts`. */

interface Logged {
  readonly is: string;
  readonly lines?: readonly string[];
  readonly reasons?: readonly { readonly key: string; readonly message: string }[];
}
interface TakenBack {
  readonly lines: readonly string[];
  readonly left: readonly string[];
}

test("Open Board opens it as an editor, once", async () => {
  await openLog();
  await vscode.commands.executeCommand("standpipe.board.open");
  const board = () =>
    vscode.window.tabGroups.all
      .flatMap(({ tabs }) => tabs)
      .filter(
        ({ input }) => input instanceof vscode.TabInputWebview && input.viewType.endsWith("standpipe.board"),
      );
  await when(vscode.window.tabGroups.onDidChangeTabs, () => board()[0]);
  await vscode.commands.executeCommand("standpipe.board.open");
  equal(board().length, 1, "boards");
  await vscode.window.tabGroups.close(board());
});

test("lines go into today's block and are saved; Take Back takes them out, and is saved", async () => {
  const { document } = await openLog();
  const before = document.getText();
  const logged = await log("ford clean front-glass", "dam feed cyclops 2 cubes");
  equal(logged.lines, ["ford clean front-glass", "dam feed cyclops 2 cubes"], "what was written");
  const end = document.getText().slice(before.trimEnd().length);
  ok(
    /^\n {2}ford +clean front-glass\n {2}dam +feed cyclops 2 cubes\n?$/.test(end),
    `the end of the log: ${end}`,
  );
  equal(document.isDirty, false, "unsaved");
  const taken = await takeBack();
  equal(
    [...taken!.lines].sort(),
    ["dam feed cyclops 2 cubes", "ford clean front-glass"],
    "what was taken back",
  );
  equal(document.getText().trimEnd(), before.trimEnd(), "the text");
  equal(document.isDirty, false, "unsaved");
});

test("one undo of the editor takes all lines of a logging back", async () => {
  const { document } = await openLog();
  const before = document.getText();
  await log("ford clean front-glass", "dam clean front-glass");
  ok(document.getText() !== before, "nothing was written");
  await vscode.window.showTextDocument(document);
  await vscode.commands.executeCommand("undo");
  equal(document.getText(), before, "the text");
  const taken = await takeBack();
  equal(taken?.lines, [], "what is not there is not taken back");
  equal(taken?.left.length, 2, "and is told");
  await document.save();
});

test("a log with unsaved changes stays unsaved", async () => {
  const editor = await openLog();
  const { document } = editor;
  await editor.edit((edit) => edit.insert(new vscode.Position(0, 0), "# by hand\n"));
  await log("ford clean front-glass");
  equal(document.isDirty, true, "unsaved");
  await takeBack();
  await vscode.commands.executeCommand("workbench.action.files.revert");
});

test("of lines of which one is no entry none is written, and it is told why", async () => {
  const { document } = await openLog();
  const before = document.getText();
  const logged = await log("ford clean front-glass", "ford chnge 30 %");
  equal(logged.is, "refused", "the answer");
  equal(
    logged.reasons?.map(({ key }) => key),
    ["ford chnge 30 %"],
    "which",
  );
  ok(logged.reasons![0]!.message !== "", "a reason");
  equal(document.getText(), before, "the text");
});

test("a line that was changed since is left, the others of its logging are taken back", async () => {
  const editor = await openLog();
  const { document } = editor;
  await log("ford clean front-glass", "dam feed cyclops 2 cubes");
  const at = document.getText().indexOf("2 cubes");
  await editor.edit((edit) => edit.insert(document.positionAt(at), "1"));
  const taken = await takeBack();
  equal(
    taken,
    {
      keys: ["ford clean front-glass", "dam feed cyclops 2 cubes"],
      lines: ["ford clean front-glass"],
      left: ["dam feed cyclops 2 cubes"],
    },
    "taken back",
  );
  ok(document.getText().includes("feed cyclops 12 cubes"), "the changed line");
  ok(!document.getText().includes("front-glass"), "the other line");
  await vscode.commands.executeCommand("undo");
  await vscode.commands.executeCommand("workbench.action.files.revert");
  const stored = document.getText();
  await editor.edit((edit) =>
    edit.replace(
      new vscode.Range(0, 0, document.lineCount, 0),
      stored.replace(/\n {2}(ford|dam) +(clean front-glass|feed cyclops \d+ cubes)/g, ""),
    ),
  );
  await document.save();
});

test("loggings that follow fast are written one after the other", async () => {
  const { document } = await openLog();
  const before = document.getText();
  await Promise.all(["a", "b", "c", "d"].map((words) => log(`ford note "${words}"`)));
  const notes = [...document.getText().matchAll(/ford +note "(\w)"/g)].map(([, words]) => words);
  equal(notes, ["a", "b", "c", "d"], "notes");
  for (let times = 0; times < 4; times++) await takeBack();
  equal(document.getText().trimEnd(), before.trimEnd(), "the text");
});

test("a file that today begins is made, and a log that no editor shows is written to", async () => {
  const settings = vscode.workspace.getConfiguration("standpipe");
  const file = roomFile("2026-04.tank");
  await openLog();
  await settings.update("asOf", "2026-04-02", vscode.ConfigurationTarget.Global);
  try {
    await new Promise((resolve) => setTimeout(resolve, 300));
    await vscode.commands.executeCommand("workbench.action.closeAllEditors");
    const stored = async () => {
      const text = new TextDecoder().decode(await vscode.workspace.fs.readFile(file));
      return text
        .trimEnd()
        .split("\n")
        .map((line) => line.replace(/ +/g, " "));
    };
    await log("dam clean front-glass");
    equal(await stored(), ["2026-04-02", " dam clean front-glass"], "the new file");
    await log("ford clean front-glass");
    equal((await stored()).at(-1), " ford clean front-glass", "its last line");
    await takeBack();
    await takeBack();
    ok(!(await stored()).join("\n").includes("clean"), "both are taken back");
  } finally {
    await settings.update("asOf", undefined, vscode.ConfigurationTarget.Global);
    await vscode.commands.executeCommand("workbench.action.closeAllEditors");
    await vscode.workspace.fs.delete(file);
  }
});

/** The log of the test room, whose day is its last. */
async function openLog(): Promise<vscode.TextEditor> {
  const file = roomFile("2026-03.tank");
  const editor = await vscode.window.showTextDocument(file, { viewColumn: vscode.ViewColumn.One });
  await diagnostics(file, () => true);
  return editor;
}

const log = (...lines: readonly string[]): Thenable<Logged> =>
  vscode.commands.executeCommand("standpipe.board.lines", {
    lines,
    uri: roomFile("2026-03.tank").toString(),
  });

const takeBack = (): Thenable<TakenBack | undefined> =>
  vscode.commands.executeCommand("standpipe.board.takeBack");
