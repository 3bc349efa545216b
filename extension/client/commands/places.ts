import * as vscode from "vscode";
import type { FilePlace, Position } from "../../../language/server/protocol.ts";
import { rangeOf } from "../places.ts";
import type { Services } from "../services.ts";

/** What lenses lead to; these commands are in no menu. */
export function places({ client }: Services): vscode.Disposable {
  const uriOf = (uri: string) => client.protocol2CodeConverter.asUri(uri);
  const positionOf = ({ line, character }: Position) => new vscode.Position(line, character);
  return vscode.Disposable.from(
    // Places of the log to look through, in the editor's own list.
    vscode.commands.registerCommand(
      "standpipe.places.show",
      (uri: string, position: Position, found: readonly FilePlace[]) =>
        vscode.commands.executeCommand(
          "editor.action.showReferences",
          uriOf(uri),
          positionOf(position),
          found.map((each) => new vscode.Location(uriOf(each.uri), rangeOf(each.range))),
        ),
    ),
    // The preview shows what the cursor is at.
    vscode.commands.registerCommand("standpipe.card.show", async (uri: string, position: Position) => {
      const at = positionOf(position);
      await vscode.window.showTextDocument(uriOf(uri), { selection: new vscode.Range(at, at) });
      await vscode.commands.executeCommand("standpipe.preview.open");
    }),
  );
}
