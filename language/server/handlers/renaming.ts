import { ErrorCodes, type Range, ResponseError, type WorkspaceEdit } from "vscode-languageserver";
import { prepareRename, rename } from "../../features/rename.ts";
import type { Group } from "../group.ts";
import { rangeOf, workspaceEdit } from "../to-lsp.ts";

/** A new name in all files, or the reason why not. */
export const renaming: Group = {
  capabilities: ({ preparesRename }) => ({
    renameProvider: preparesRename ? { prepareProvider: true } : true,
  }),
  serve(session) {
    const { connection } = session;
    connection.onPrepareRename(
      session.fileHandler(
        "renaming",
        null as { range: Range; placeholder: string } | null,
        ({ view, document }, { position }) => {
          const place = prepareRename(view, document.offsetAt(position));
          return place === undefined ? null : { range: rangeOf(document, place), placeholder: place.name };
        },
      ),
    );
    connection.onRenameRequest(
      session.fileHandler(
        "renaming",
        null as WorkspaceEdit | null,
        ({ view, document }, { position, newName }) => {
          const renamed = rename(view, document.offsetAt(position), newName);
          if ("refused" in renamed) throw new ResponseError(ErrorCodes.InvalidRequest, renamed.refused);
          return workspaceEdit(session, renamed.edits, `Rename to ${newName}`);
        },
      ),
    );
  },
};
