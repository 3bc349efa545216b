import {
  type CompletionItem,
  CompletionItemKind,
  InsertTextFormat,
  InsertTextMode,
  type CompletionList as LspList,
  MarkupKind,
  type SignatureHelp,
} from "vscode-languageserver";
import type { TextDocument } from "vscode-languageserver-textdocument";
import {
  type About,
  type Completion,
  type CompletionSort,
  completions,
  resolveCompletion,
} from "../../features/completion.ts";
import { signatureHelp } from "../../features/signature-help.ts";
import type { Client } from "../client.ts";
import type { Group } from "../group.ts";
import { rangeOf } from "../to-lsp.ts";

/** What may be written at the cursor, and what the line takes. */
export const completing: Group = {
  capabilities: () => ({
    // Not the space: a list would open behind every word, and the key that ends the line would take from it.
    completionProvider: { triggerCharacters: [",", "@", ">", "(", '"'], resolveProvider: true },
    signatureHelpProvider: { triggerCharacters: [" ", ","] },
  }),
  serve(session) {
    const { connection, client } = session;
    connection.onCompletion(
      session.fileHandler("completion", null as LspList | null, ({ uri, view, document }, { position }) => {
        const { items, isIncomplete } = completions(view, document.offsetAt(position));
        return { isIncomplete, items: items.map((item) => itemOf(client, uri, document, item)) };
      }),
    );
    connection.onCompletionResolve(
      session.resolver("completion", (item: CompletionItem) => {
        const { uri, about } = item.data as { uri: string; about?: About };
        const looked = session.look(uri);
        const value = looked === undefined ? "" : resolveCompletion(looked.view, { about });
        return value === "" ? item : { ...item, documentation: { kind: MarkupKind.Markdown, value } };
      }),
    );
    connection.onSignatureHelp(
      session.fileHandler(
        "signature help",
        null as SignatureHelp | null,
        ({ view, document }, { position }) => {
          const help = signatureHelp(view, document.offsetAt(position));
          if (help === undefined) return null;
          const markdown = (value: string) => ({ kind: MarkupKind.Markdown, value });
          const parameters = help.parameters.map(({ span, documentation }) => ({
            label: [span.start, span.end] as [number, number],
            documentation: markdown(documentation),
          }));
          // Past all that can be written none is marked.
          const activeParameter = help.active ?? parameters.length;
          // One thing at a time: what the line is for, where nothing more particular is to be said.
          const documentation =
            help.active === undefined ? { documentation: markdown(help.documentation) } : {};
          const signature = { label: help.label, ...documentation, parameters };
          return { signatures: [signature], activeSignature: 0, activeParameter };
        },
      ),
    );
  },
};

function itemOf(client: Client, uri: string, document: TextDocument, item: Completion): CompletionItem {
  const { label, sort, insertText, isSnippet, filterText, sortText, about, goesOn } = item;
  const detail = item.detail.replace(/`/g, "");
  const insert = rangeOf(document, item.insert);
  const replace = rangeOf(document, item.replace);
  const asksAgain = goesOn && client.options.commands?.includes("editor.action.triggerSuggest") === true;
  return {
    label,
    ...(client.showsLabelDetails ? { labelDetails: { description: detail } } : { detail }),
    kind: kinds[sort],
    filterText,
    sortText,
    insertTextFormat:
      isSnippet && client.takesSnippets ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    insertTextMode: InsertTextMode.asIs,
    textEdit: client.takesInsertReplace
      ? { newText: textFor(client, insertText, isSnippet), insert, replace }
      : { newText: textFor(client, insertText, isSnippet), range: insert },
    data: { uri, about },
    ...(asksAgain ? { command: { command: "editor.action.triggerSuggest", title: "" } } : {}),
  };
}

/** A snippet without its places, for who takes none. */
function textFor({ takesSnippets }: Client, text: string, isSnippet: boolean): string {
  if (!isSnippet || takesSnippets) return text;
  return text.replace(/\$\{\d+:?((?:\\.|[^}\\])*)\}|\$\d+/g, "$1").replace(/\\([\\$}])/g, "$1");
}

/** The protocol's kinds are those of programs; these are the nearest by their icons. */
const kinds: Readonly<Record<CompletionSort, CompletionItemKind>> = {
  due: CompletionItemKind.Event,
  usual: CompletionItemKind.Value,
  kind: CompletionItemKind.Method,
  sheet: CompletionItemKind.Struct,
  date: CompletionItemKind.Constant,
  lead: CompletionItemKind.Keyword,
  word: CompletionItemKind.EnumMember,
  unit: CompletionItemKind.Unit,
  property: CompletionItemKind.Property,
  parameter: CompletionItemKind.Field,
  case: CompletionItemKind.Reference,
  lot: CompletionItemKind.Reference,
  order: CompletionItemKind.Reference,
  room: CompletionItemKind.Module,
  water: CompletionItemKind.Constant,
  system: CompletionItemKind.Module,
  tank: CompletionItemKind.Class,
  group: CompletionItemKind.Folder,
  species: CompletionItemKind.Struct,
  food: CompletionItemKind.EnumMember,
  remedy: CompletionItemKind.Interface,
  gear: CompletionItemKind.Variable,
};
