import * as vscode from "vscode";
import { activeExtension, diagnostics, equal, ok, roomFile, test, when } from "./suite.ts";

test("every command of the manifest is there", async () => {
  const extension = await activeExtension();
  const known = new Set(await vscode.commands.getCommands(true));
  const contributed = extension.packageJSON.contributes.commands as { command: string }[];
  equal(
    contributed.map(({ command }) => command).filter((command) => !known.has(command)),
    [],
    "missing",
  );
});

test("a new logbook from the sample is open, not stored, and sound", async () => {
  await vscode.commands.executeCommand("standpipe.logbook.new");
  const document = vscode.window.activeTextEditor?.document;
  ok(document?.isUntitled, "an untitled document");
  equal(document.languageId, "standpipe", "language");
  const now = new Date();
  const today = new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
  ok(document.getText().includes(`\n${today}`), `a block for ${today}`);
});

test("Start Today writes the head of the day and goes below it", async () => {
  await vscode.window.showTextDocument(roomFile("2026-03.tank"));
  await diagnostics(roomFile("2026-03.tank"), () => true);
  await vscode.commands.executeCommand("standpipe.day.start");
  const editor = await when(vscode.window.onDidChangeTextEditorSelection, () => {
    const active = vscode.window.activeTextEditor;
    return active?.document.lineAt(active.selection.active.line).text === "  " ? active : undefined;
  });
  const line = editor.selection.active.line;
  ok(/^\d{4}-\d{2}-\d{2}$/.test(editor.document.lineAt(line - 1).text), "a date above the cursor");
  await vscode.commands.executeCommand("workbench.action.files.revert");
});

test("Type In Round Sheet has its boxes filled from one to the next, and one undo takes it back", async () => {
  const file = roomFile("round.tank");
  const log = "2026-03-09\n  ford test nitrate 5, pH 7\n";
  await vscode.workspace.fs.writeFile(file, new TextEncoder().encode(log));
  await vscode.window.showTextDocument(file);
  await diagnostics(file, () => true);
  await vscode.commands.executeCommand("standpipe.round.type");
  const editor = vscode.window.activeTextEditor;
  ok(editor, "an editor");
  ok(editor.document.getText().includes("sheet"), "a sheet");
  await vscode.commands.executeCommand("undo");
  equal(editor.document.getText(), log, "undone at once");
  await vscode.commands.executeCommand("standpipe.round.type");
  const before = log.trimEnd();
  ok(editor.document.getText().startsWith(`${before}\n  sheet `), "a sheet in today's block");
  for (const value of ["7.3", "20", "6.9", "<5"]) {
    await vscode.commands.executeCommand("type", { text: value });
    await vscode.commands.executeCommand("jumpToNextSnippetPlaceholder");
  }
  const sheet = editor.document
    .getText()
    .slice(before.length + 1)
    .split(/\r?\n/);
  equal(
    sheet.slice(0, 3).map((line) => line.trim().split(/ +/).join(" ")),
    ["sheet pH nitrate", "dam 7.3 20", "ford 6.9 <5"],
    "the sheet",
  );
  equal(editor.document.lineAt(editor.selection.active.line).text, "  ", "a line to go on");
  // The server hears at once of what is typed, and only after a while of a file that is gone.
  await editor.edit((edit) => edit.delete(new vscode.Range(0, 0, editor.document.lineCount, 0)));
  await editor.document.save();
  await vscode.commands.executeCommand("workbench.action.closeActiveEditor");
  await vscode.workspace.fs.delete(file);
});

test("Write Laboratory Sheet opens the sheet of a case beside the log, with the keeper's own details", async () => {
  const file = roomFile("case.tank");
  const log = '2026-03-05\n  dam sick praecox 2 of 9 signs "flashing" case host-1\n';
  await vscode.workspace.fs.writeFile(file, new TextEncoder().encode(log));
  const keeper = vscode.workspace.getConfiguration("standpipe.keeper");
  await keeper.update("name", "A keeper", vscode.ConfigurationTarget.Global);
  await vscode.window.showTextDocument(file);
  await diagnostics(file, () => true);
  await vscode.commands.executeCommand("standpipe.laboratory.write", "host-1", "markdown");
  const document = vscode.window.activeTextEditor?.document;
  equal(document?.languageId, "markdown", "language");
  ok(document?.isUntitled, "an untitled document");
  const text = document.getText();
  ok(text.startsWith("# Laboratory sheet: case host-1"), "the sheet");
  ok(text.includes("| Keeper | A keeper |"), "the keeper");
  await keeper.update("name", undefined, vscode.ConfigurationTarget.Global);
  await vscode.commands.executeCommand("workbench.action.revertAndCloseActiveEditor");
  await vscode.workspace.fs.delete(file);
});

test("Export Log writes a table, and the whole log as JSON, where it is asked to", async () => {
  const file = roomFile("exported.tank");
  await vscode.workspace.fs.writeFile(file, new TextEncoder().encode("2026-03-05\n  dam test nitrate 21\n"));
  await vscode.window.showTextDocument(file);
  await diagnostics(file, () => true);
  const [csv, json] = [roomFile("values.csv"), roomFile("log.json")];
  await vscode.commands.executeCommand("standpipe.log.export", "csv", "values", csv);
  const table = new TextDecoder().decode(await vscode.workspace.fs.readFile(csv));
  ok(/\d,2026-03-05,,dam,test,reading,nitrate,0,21,,21,/.test(table), "the reading");
  await vscode.commands.executeCommand("standpipe.log.export", "json", undefined, json);
  const items = JSON.parse(new TextDecoder().decode(await vscode.workspace.fs.readFile(json))) as {
    is: string;
    path?: string;
  }[];
  ok(
    items.some(({ is, path }) => is === "file" && path === "exported.tank"),
    "its file",
  );
  // A log is not written over.
  await vscode.commands.executeCommand("standpipe.log.export", "json", undefined, file);
  const log = new TextDecoder().decode(await vscode.workspace.fs.readFile(file));
  equal(log, "2026-03-05\n  dam test nitrate 21\n", "the log");
  // The four letters that Parquet begins and ends with (Apache Parquet, File Format).
  const parquet = roomFile("values.parquet");
  await vscode.commands.executeCommand("standpipe.log.export", "parquet", "values", parquet);
  const bytes = await vscode.workspace.fs.readFile(parquet);
  const letters = (from: number, to?: number) => String.fromCharCode(...bytes.slice(from, to));
  equal([letters(0, 4), letters(-4)], ["PAR1", "PAR1"], "the table as Parquet");
  await vscode.commands.executeCommand("standpipe.log.export", "csv", "values", csv);
  equal(new TextDecoder().decode(await vscode.workspace.fs.readFile(csv)), table, "written over, the same");
  await vscode.commands.executeCommand("notifications.clearAll");
  await vscode.commands.executeCommand("workbench.action.closeActiveEditor");
  for (const each of [csv, json, parquet, file]) await vscode.workspace.fs.delete(each);
});

test("Export Log takes no folder out of the way, and leaves nothing beside where it cannot write", async () => {
  const file = roomFile("exported.tank");
  const bytes = (text: string) => new TextEncoder().encode(text);
  await vscode.workspace.fs.writeFile(file, bytes("2026-03-05\n  dam test nitrate 21\n"));
  await vscode.window.showTextDocument(file);
  await diagnostics(file, () => true);
  const folder = roomFile("taken.csv");
  const inside = vscode.Uri.joinPath(folder, "kept.txt");
  await vscode.workspace.fs.writeFile(inside, bytes("kept"));
  const names = async () =>
    (await vscode.workspace.fs.readDirectory(vscode.Uri.joinPath(file, ".."))).map(([name]) => name).sort();
  const before = await names();
  await vscode.commands.executeCommand("standpipe.log.export", "csv", "values", folder);
  equal(
    new TextDecoder().decode(await vscode.workspace.fs.readFile(inside)),
    "kept",
    "what is in the folder",
  );
  // A part of the path is a file.
  const below = vscode.Uri.joinPath(file, "values.csv");
  await vscode.commands.executeCommand("standpipe.log.export", "csv", "values", below);
  equal(await names(), before, "the folder");
  await vscode.commands.executeCommand("notifications.clearAll");
  await vscode.commands.executeCommand("workbench.action.closeActiveEditor");
  await vscode.workspace.fs.delete(folder, { recursive: true });
  await vscode.workspace.fs.delete(file);
});

test("Import Table with answers writes at once and saves; one undo takes it back; again, nothing is new", async () => {
  const [file, table, rejects] = ["imported.tank", "lab.csv", "lab.rejects.csv"].map(roomFile) as [
    vscode.Uri,
    vscode.Uri,
    vscode.Uri,
  ];
  const log = "2031-05-06\n  dam test nitrate 21\n";
  const bytes = (text: string) => new TextEncoder().encode(text);
  const textOf = async (uri: vscode.Uri) => new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
  await vscode.workspace.fs.writeFile(file, bytes(log));
  await vscode.workspace.fs.writeFile(table, bytes("Date,pH\n2031-05-06,7.2\n2031-05-07,murky\n"));
  const document = await vscode.workspace.openTextDocument(file);
  await vscode.window.showTextDocument(document);
  await diagnostics(file, () => true);
  const run = () =>
    vscode.commands.executeCommand<{
      rows: { imported: number; known: number; rejected: number };
      files: { isSaved: boolean }[];
    }>("standpipe.table.import", table, { tank: "dam" });
  const first = await run();
  equal([first.rows.imported, first.rows.rejected], [1, 1], "counted");
  equal(
    first.files.map(({ isSaved }) => isSaved),
    [true],
    "saved",
  );
  ok(/^ {2}dam +test +pH 7\.2$/m.test(await textOf(file)), "the reading is stored");
  ok(/line 3: “murky”/.test(await textOf(rejects)), "the rejected row stands beside the log");
  const again = await run();
  equal([again.rows.imported, again.rows.known, again.files.length], [0, 1, 0], "again");
  await vscode.window.showTextDocument(document);
  await vscode.commands.executeCommand("undo");
  equal(document.getText(), log, "undone at once");
  // What was not saved before is not saved by an import.
  const unsaved = await run();
  equal(
    unsaved.files.map(({ isSaved }) => isSaved),
    [false],
    "left unsaved",
  );
  ok(document.isDirty, "unsaved");
  await vscode.commands.executeCommand("workbench.action.revertAndCloseActiveEditor");
  for (const each of [table, file, rejects]) await vscode.workspace.fs.delete(each);
});

test("Restart Server starts it again, and what is found is found again", async () => {
  const file = roomFile("restart.tank");
  await vscode.workspace.fs.writeFile(file, new TextEncoder().encode("2026-03-05\n  dmm change 30 %\n"));
  await vscode.window.showTextDocument(file);
  await diagnostics(file, (all) => all.length === 1);
  const cleared = diagnostics(file, (all) => all.length === 0);
  await vscode.commands.executeCommand("standpipe.server.restart");
  await cleared;
  await diagnostics(file, (all) => all.length === 1);
  await vscode.workspace.fs.delete(file);
});

test("the settings of a logbook's editor are its own", () => {
  const settings = vscode.workspace.getConfiguration("editor", { languageId: "standpipe" });
  equal(settings.get("tabSize"), 2, "tabSize");
  equal(settings.get("wordBasedSuggestions"), "off", "wordBasedSuggestions");
});
