import * as vscode from "vscode";
import { activeExtension, EXTENSION_ID, equal, host, ok, roomFile, test, when } from "./suite.ts";

test("a file ending in .tank is a standpipe logbook", async () => {
  const document = await vscode.workspace.openTextDocument(roomFile("room.tank"));
  equal(document.languageId, "standpipe", "language");
});

test("opening a logbook wakes the extension", async () => {
  const extension = vscode.extensions.getExtension(EXTENSION_ID);
  ok(extension, `${EXTENSION_ID} is not installed`);
  await vscode.window.showTextDocument(roomFile("room.tank"));
  await when(often, () => extension.isActive || undefined);
});

test("the extension runs in the host and from the place this run is about", async () => {
  const extension = await activeExtension();
  // The worker's stand-in for `process` has no versions; Node's has.
  const onNode = typeof globalThis.process?.versions?.node === "string";
  equal(onNode, host !== "web", "on Node");
  const installed = /\/extensions\/standpipe\.standpipe-[^/]+$/.test(extension.extensionUri.path);
  equal(installed, host === "packed", "installed from the package");
});

/** Nothing tells that an extension has become active: look again and again. */
function often(look: () => void): vscode.Disposable {
  const timer = setInterval(look, 20);
  return new vscode.Disposable(() => clearInterval(timer));
}
