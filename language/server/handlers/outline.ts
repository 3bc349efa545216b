import {
  type DocumentSymbol,
  type FoldingRange,
  FoldingRangeKind,
  SymbolKind,
  type WorkspaceSymbol,
} from "vscode-languageserver";
import type { TextDocument } from "vscode-languageserver-textdocument";
import { foldingRanges } from "../../features/folding.ts";
import {
  documentSymbols,
  type OutlineSymbol,
  type SymbolSort,
  workspaceSymbols,
} from "../../features/symbols.ts";
import type { Group } from "../group.ts";
import { lspLocation, rangeOf } from "../to-lsp.ts";

/** The shape of a file, and names over all files. */
export const outline: Group = {
  capabilities: () => ({
    documentSymbolProvider: { label: "Standpipe" },
    workspaceSymbolProvider: true,
    foldingRangeProvider: true,
  }),
  serve(session) {
    const { connection, workspace } = session;
    connection.onDocumentSymbol(
      session.fileHandler("outline", [] as DocumentSymbol[], ({ view, document }) =>
        documentSymbols(view.source).map((symbol) => symbolOf(document, symbol)),
      ),
    );
    connection.onWorkspaceSymbol(
      session.handler("names of all files", [] as WorkspaceSymbol[], ({ query }) =>
        [...workspace.rooms.values()].flatMap((checked) =>
          workspaceSymbols(checked, query).flatMap(({ name, detail, sort, place }) => {
            const location = lspLocation(session, place);
            return location === undefined
              ? []
              : [{ name, kind: kinds[sort], location, containerName: detail }];
          }),
        ),
      ),
    );
    connection.onFoldingRanges(
      session.fileHandler("folding", [] as FoldingRange[], ({ view, document }) =>
        foldingRanges(view.source).map((fold) => ({
          startLine: document.positionAt(fold.start).line,
          endLine: document.positionAt(fold.end).line,
          ...(fold.is === "comment" ? { kind: FoldingRangeKind.Comment } : {}),
        })),
      ),
    );
  },
};

function symbolOf(document: TextDocument, symbol: OutlineSymbol): DocumentSymbol {
  return {
    name: symbol.name,
    detail: symbol.detail,
    kind: kinds[symbol.sort],
    range: rangeOf(document, symbol),
    selectionRange: rangeOf(document, symbol.place),
    children: symbol.children.map((child) => symbolOf(document, child)),
  };
}

/** The protocol's kinds are those of programs; these are the nearest by their icons. */
const kinds: Readonly<Record<SymbolSort, SymbolKind>> = {
  room: SymbolKind.Namespace,
  water: SymbolKind.Constant,
  system: SymbolKind.Module,
  tank: SymbolKind.Class,
  group: SymbolKind.Array,
  species: SymbolKind.Struct,
  food: SymbolKind.EnumMember,
  remedy: SymbolKind.Interface,
  gear: SymbolKind.Object,
  lot: SymbolKind.Constant,
  order: SymbolKind.Package,
  day: SymbolKind.Event,
  property: SymbolKind.Property,
  sheet: SymbolKind.Array,
  row: SymbolKind.Field,
  case: SymbolKind.Key,
  care: SymbolKind.Method,
  animals: SymbolKind.Number,
  health: SymbolKind.Key,
  breeding: SymbolKind.Enum,
  plants: SymbolKind.Package,
  prose: SymbolKind.String,
};
