import * as vscode from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { filesChangedNotification, filesRequest, readRequest } from "../../language/server/protocol.ts";
import type { Services } from "./services.ts";

/** The server sees files by asking here: through the editor's own file systems, whatever they stand for. */

const pattern = "**/*.tank";
/** A folder of a file system without a search is walked, so far. */
const mostFolders = 2000;

/** To be set up before the server starts. */
export function answerForFiles(client: BaseLanguageClient): vscode.Disposable {
  const uriOf = (uri: vscode.Uri) => client.code2ProtocolConverter.asUri(uri);
  return vscode.Disposable.from(
    client.onRequest(filesRequest.method, async () => {
      const folders = vscode.workspace.workspaceFolders ?? [];
      const found = await Promise.all(folders.map(({ uri }) => tankFiles(uri)));
      return [...new Set(found.flat().map(uriOf))];
    }),
    client.onRequest(readRequest.method, async ({ uris }: { readonly uris: readonly string[] }) =>
      Promise.all(uris.map((uri) => read(client.protocol2CodeConverter.asUri(uri)))),
    ),
  );
}

export function createWatcher(): vscode.FileSystemWatcher {
  return vscode.workspace.createFileSystemWatcher(pattern);
}

/** Folders that are moved or deleted take files with them of which the watcher hears nothing. */
export function watchFolders({ tell }: Services): vscode.Disposable {
  const changed = (uris: readonly vscode.Uri[]) => {
    if (uris.some(({ path }) => !path.endsWith(".tank"))) tell(filesChangedNotification, null);
  };
  return vscode.Disposable.from(
    vscode.workspace.onDidDeleteFiles(({ files }) => changed(files)),
    vscode.workspace.onDidRenameFiles(({ files }) =>
      changed(files.flatMap(({ oldUri, newUri }) => [oldUri, newUri])),
    ),
  );
}

async function tankFiles(folder: vscode.Uri): Promise<vscode.Uri[]> {
  const found = await vscode.workspace.findFiles(new vscode.RelativePattern(folder, pattern));
  // The web's file systems often come without a search: it then finds nothing.
  return found.length > 0 || folder.scheme === "file" ? found : walk(folder);
}

async function walk(root: vscode.Uri): Promise<vscode.Uri[]> {
  const found: vscode.Uri[] = [];
  const folders = [root];
  for (let at = 0; at < folders.length && at < mostFolders; at++) {
    const folder = folders[at]!;
    const entries = await Promise.resolve(vscode.workspace.fs.readDirectory(folder)).catch(() => []);
    for (const [name, type] of entries) {
      if (name.startsWith(".") || name === "node_modules") continue;
      const uri = vscode.Uri.joinPath(folder, name);
      if (type & vscode.FileType.Directory) folders.push(uri);
      else if (name.endsWith(".tank")) found.push(uri);
    }
  }
  return found;
}

async function read(uri: vscode.Uri): Promise<string | null> {
  try {
    return new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
  } catch {
    return null;
  }
}

/** Is it a document of a logbook, and not one side of a comparison with an older revision? */
export function isLog({ uri }: vscode.TextDocument): boolean {
  return (
    uri.scheme === "untitled" ||
    vscode.workspace.fs.isWritableFileSystem(uri.scheme) === true ||
    vscode.workspace.getWorkspaceFolder(uri) !== undefined
  );
}
