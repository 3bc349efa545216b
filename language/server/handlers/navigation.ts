import {
  type DocumentHighlight,
  DocumentHighlightKind,
  type DocumentLink,
  type Location,
  type SelectionRange,
} from "vscode-languageserver";
import { definitionsAt } from "../../features/definition.ts";
import { documentLinks } from "../../features/document-links.ts";
import { highlightsAt } from "../../features/highlights.ts";
import { referencesAt } from "../../features/references.ts";
import { selectionRanges } from "../../features/selection-ranges.ts";
import type { Group } from "../group.ts";
import { addressOf, lspLocations, rangeOf } from "../to-lsp.ts";

/** Going from what stands at a place to where else it stands. */
export const navigation: Group = {
  capabilities: () => ({
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    documentLinkProvider: { resolveProvider: false },
    selectionRangeProvider: true,
  }),
  serve(session) {
    const { connection } = session;
    connection.onDefinition(
      session.fileHandler("definition", [] as Location[], ({ view, document }, { position }) =>
        lspLocations(session, definitionsAt(view, document.offsetAt(position))),
      ),
    );
    connection.onReferences(
      session.fileHandler("references", [] as Location[], ({ view, document }, { position, context }) =>
        lspLocations(session, referencesAt(view, document.offsetAt(position), context.includeDeclaration)),
      ),
    );
    connection.onDocumentHighlight(
      session.fileHandler("highlights", [] as DocumentHighlight[], ({ view, document }, { position }) =>
        highlightsAt(view, document.offsetAt(position)).map((highlight) => ({
          range: rangeOf(document, highlight),
          kind: highlight.is === "write" ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
        })),
      ),
    );
    connection.onDocumentLinks(
      session.fileHandler("links", [] as DocumentLink[], ({ view, document }) =>
        documentLinks(view).map((link) => ({
          range: rangeOf(document, link),
          target: addressOf(session, link.target),
          tooltip: link.title,
        })),
      ),
    );
    connection.onSelectionRanges(
      session.fileHandler("selection", [] as SelectionRange[], ({ view, document }, { positions }) =>
        positions.map((position) => {
          const spans = selectionRanges(view, document.offsetAt(position));
          const nested = spans.reduceRight<SelectionRange | undefined>(
            (parent, span) => ({
              range: rangeOf(document, span),
              ...(parent === undefined ? {} : { parent }),
            }),
            undefined,
          );
          return nested ?? { range: { start: position, end: position } };
        }),
      ),
    );
  },
};
