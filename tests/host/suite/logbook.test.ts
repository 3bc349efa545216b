import * as vscode from "vscode";
import { diagnostics, equal, ok, roomFile, test, when } from "./suite.ts";

/** A file of its own for each test, so that none sees what another has typed. */
async function open(name: string, lines: readonly string[]): Promise<vscode.TextEditor> {
  const file = roomFile(name);
  await vscode.workspace.fs.writeFile(file, new TextEncoder().encode(lines.join("\n")));
  return vscode.window.showTextDocument(file);
}

/** Asks again after each change of findings, which come when the server has read what was asked about. */
function asked<T>(command: string, enough: (answer: T) => boolean, ...args: readonly unknown[]): Promise<T> {
  return when(vscode.languages.onDidChangeDiagnostics, async () => {
    const answer = await vscode.commands.executeCommand<T | undefined>(command, ...args);
    return answer !== undefined && enough(answer) ? answer : undefined;
  });
}

const codeOf = ({ code }: vscode.Diagnostic) => (typeof code === "object" ? code.value : code);

test("a finding appears where the slip is, with its code and a page", async () => {
  const { document } = await open("slip.tank", ["2026-03-05", "  dam  test pH 72", ""]);
  const [found] = await diagnostics(document.uri, (all) => all.length === 1);
  ok(found, "nothing was found");
  equal(codeOf(found), "value/impossible", "code");
  equal(document.getText(found.range), "72", "what is marked");
  const { target } = found.code as { target: vscode.Uri };
  const page = await vscode.workspace.openTextDocument(target);
  ok(
    page.getText().includes("value/impossible"),
    `the page of the finding, not “${page.getText()}” of ${target}`,
  );
});

test("findings of files that nobody opened are there too", async () => {
  const file = roomFile("unseen.tank");
  await vscode.workspace.fs.writeFile(file, new TextEncoder().encode("2026-03-05\n  dmm change 30 %\n"));
  const [found] = await diagnostics(file, (all) => all.length === 1);
  equal(found && codeOf(found), "name/target", "code");
  await vscode.workspace.fs.delete(file);
  await diagnostics(file, (all) => all.length === 0);
});

test("the light bulb mends a finding", async () => {
  const { document } = await open("mend.tank", ["2026-03-05", "  dam  chnge 30 %", ""]);
  const [found] = await diagnostics(document.uri, (all) => all.length === 1);
  const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
    "vscode.executeCodeActionProvider",
    document.uri,
    found!.range,
    vscode.CodeActionKind.QuickFix.value,
    10,
  );
  const action = actions.find(({ isPreferred }) => isPreferred) ?? actions[0];
  ok(action?.edit, `a way to mend it among ${actions.length}`);
  await vscode.workspace.applyEdit(action.edit);
  equal(document.lineAt(1).text.replace(/ +/g, " "), " dam change 30 %", "the line");
  await diagnostics(document.uri, (all) => all.length === 0);
});

test("figures stand at the ends of their lines", async () => {
  const { document } = await open("hints.tank", ["2026-03-06", "  dam  change 30 %", ""]);
  const whole = new vscode.Range(0, 0, document.lineCount, 0);
  const hints = await asked<vscode.InlayHint[]>(
    "vscode.executeInlayHintProvider",
    (all) => all.length > 0,
    document.uri,
    whole,
  );
  equal(hints[0]!.position, document.lineAt(1).range.end, "place");
  ok(String(hints[0]!.label).includes("90 L"), `litres in “${hints[0]!.label}”`);
});

test("a new name is written in all files", async () => {
  const { document } = await open("more.tank", ["2026-03-07", "  ford  feed cyclops 2 cubes", ""]);
  await diagnostics(document.uri, (all) => all.length === 0);
  const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
    "vscode.executeDocumentRenameProvider",
    document.uri,
    new vscode.Position(1, 3),
    "weir",
  );
  const files = edit
    .entries()
    .map(([uri]) => uri.path.split("/").at(-1))
    .sort();
  equal(files, ["2026-03.tank", "more.tank", "room.tank"], "files");
});

test("laying out on save is done once and for all", async () => {
  const { document } = await open("layout.tank", [
    "2026-03-09",
    " dam clean glass",
    "   ford feed  cyclops 1 cube # fed",
    "",
  ]);
  const settings = vscode.workspace.getConfiguration("editor", {
    uri: document.uri,
    languageId: "standpipe",
  });
  await settings.update("formatOnSave", true, vscode.ConfigurationTarget.Workspace, true);
  const edit = new vscode.WorkspaceEdit();
  edit.insert(document.uri, new vscode.Position(3, 0), "  dam feed none\n");
  await vscode.workspace.applyEdit(edit);
  await document.save();
  const once = document.getText();
  equal(
    once,
    "2026-03-09\n  dam   clean glass\n  ford  feed cyclops 1 cube  # fed\n  dam   feed none\n",
    "laid out",
  );
  const formatting = await vscode.commands.executeCommand<vscode.TextEdit[] | undefined>(
    "vscode.executeFormatDocumentProvider",
    document.uri,
    { tabSize: 2, insertSpaces: true },
  );
  equal(formatting ?? [], [], "nothing is left to lay out");
  await settings.update("formatOnSave", undefined, vscode.ConfigurationTarget.Workspace, true);
});

test("a log that is stored nowhere is checked as well", async () => {
  const document = await vscode.workspace.openTextDocument({
    language: "standpipe",
    content: "2026-03-01\n  dam chnge 3 %\n",
  });
  await vscode.window.showTextDocument(document);
  const found = await diagnostics(document.uri, (all) => all.length > 0);
  equal(found.map(codeOf), ["entry/kind"], "codes");
});

test("a log of a file system that is no disk is checked, and an older side of a comparison is not", async () => {
  const text = new TextEncoder().encode("2026-03-01\n  dam chnge 3 %\n");
  const nothing = new vscode.EventEmitter<vscode.FileChangeEvent[]>();
  const memory: vscode.FileSystemProvider = {
    onDidChangeFile: nothing.event,
    watch: () => nothing,
    stat: () => ({ type: vscode.FileType.File, ctime: 0, mtime: 0, size: text.length }),
    readFile: () => text,
    readDirectory: () => [],
    createDirectory() {},
    writeFile() {},
    delete() {},
    rename() {},
  };
  const registered = vscode.Disposable.from(
    vscode.workspace.registerFileSystemProvider("tank-memory", memory),
    vscode.workspace.registerFileSystemProvider("tank-history", memory, { isReadonly: true }),
  );
  const older = vscode.Uri.parse("tank-history:/room/log.tank");
  await vscode.window.showTextDocument(older);
  const now = vscode.Uri.parse("tank-memory:/room/log.tank");
  await vscode.window.showTextDocument(now);
  const found = await diagnostics(now, (all) => all.length > 0);
  equal(found.map(codeOf), ["entry/kind"], "codes");
  equal(vscode.languages.getDiagnostics(older).length, 0, "findings of the older side");
  registered.dispose();
});
