import type { TextEdit } from "vscode-languageserver";
import { formatNewLine, formatSource } from "../../features/format.ts";
import type { Group } from "../group.ts";
import { textEdits } from "../to-lsp.ts";

/** Laying out: white space only, in the smallest edits. */
export const layout: Group = {
  capabilities: () => ({
    documentFormattingProvider: true,
    documentRangeFormattingProvider: { rangesSupport: false },
    documentOnTypeFormattingProvider: { firstTriggerCharacter: "\n" },
  }),
  serve(session) {
    const { connection } = session;
    const none: TextEdit[] = [];
    connection.onDocumentFormatting(
      session.fileHandler("formatting", none, ({ view, document }) =>
        textEdits(document, formatSource(view.source)),
      ),
    );
    connection.onDocumentRangeFormatting(
      session.fileHandler("formatting", none, ({ view, document }, { range }) => {
        const within = { start: document.offsetAt(range.start), end: document.offsetAt(range.end) };
        return textEdits(document, formatSource(view.source, within));
      }),
    );
    connection.onDocumentOnTypeFormatting(
      session.fileHandler("formatting", none, ({ view, document }, { position, ch }) =>
        ch === "\n" ? textEdits(document, formatNewLine(view.source, document.offsetAt(position))) : none,
      ),
    );
  },
};
