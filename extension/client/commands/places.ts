import * as vscode from "vscode";
import type { FilePlace, Position } from "../../../language/server/protocol.ts";
import { rangeOf } from "../places.ts";
import type { Services } from "../services.ts";

/** Places of the log to look through, in the editor's own list. For lenses: it is in no menu. */
export function places({ client }: Services): vscode.Disposable {
  const uriOf = (uri: string) => client.protocol2CodeConverter.asUri(uri);
  return vscode.commands.registerCommand(
    "standpipe.places.show",
    (uri: string, { line, character }: Position, found: readonly FilePlace[]) =>
      vscode.commands.executeCommand(
        "editor.action.showReferences",
        uriOf(uri),
        new vscode.Position(line, character),
        found.map((each) => new vscode.Location(uriOf(each.uri), rangeOf(each.range))),
      ),
  );
}
