import type { ClientCapabilities, InitializeParams } from "vscode-languageserver";
import type { ClientOptions } from "./protocol.ts";

/** What the client can, as far as the server asks. */
export interface Client {
  readonly pullsDiagnostics: boolean;
  readonly refreshesDiagnostics: boolean;
  readonly refreshesHints: boolean;
  readonly refreshesLenses: boolean;
  readonly refreshesTokens: boolean;
  readonly tellsConfiguration: boolean;
  readonly registersConfiguration: boolean;
  readonly showsProgress: boolean;
  /** Asks where a name stands before it asks for another. */
  readonly preparesRename: boolean;
  /** Asks for the edits of an action when it is chosen. */
  readonly resolvesActions: boolean;
  /** Edits for a version of a document. */
  readonly takesVersions: boolean;
  readonly annotatesChanges: boolean;
  readonly tellsFolders: boolean;
  /** Snippets in completion. */
  readonly takesSnippets: boolean;
  /** A word of completion may be put in, or take the place of all of the word at the cursor. */
  readonly takesInsertReplace: boolean;
  readonly showsLabelDetails: boolean;
  readonly options: ClientOptions;
}

export function clientOf({ capabilities, initializationOptions }: InitializeParams): Client {
  const { workspace, textDocument, window }: ClientCapabilities = capabilities;
  return {
    pullsDiagnostics: textDocument?.diagnostic !== undefined,
    refreshesDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    refreshesLenses: workspace?.codeLens?.refreshSupport === true,
    refreshesTokens: workspace?.semanticTokens?.refreshSupport === true,
    tellsConfiguration: workspace?.configuration === true,
    registersConfiguration: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    showsProgress: window?.workDoneProgress === true,
    preparesRename: textDocument?.rename?.prepareSupport === true,
    resolvesActions: textDocument?.codeAction?.resolveSupport?.properties.includes("edit") === true,
    takesVersions: workspace?.workspaceEdit?.documentChanges === true,
    annotatesChanges:
      workspace?.workspaceEdit?.documentChanges === true &&
      workspace.workspaceEdit.changeAnnotationSupport !== undefined,
    tellsFolders: workspace?.workspaceFolders === true,
    takesSnippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    takesInsertReplace: textDocument?.completion?.completionItem?.insertReplaceSupport === true,
    showsLabelDetails: textDocument?.completion?.completionItem?.labelDetailsSupport === true,
    options: (initializationOptions as ClientOptions | undefined) ?? {},
  };
}
