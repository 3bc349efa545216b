import {
  CodeActionKind,
  type CreateFile,
  type Diagnostic,
  type CodeAction as LspAction,
} from "vscode-languageserver";
import { type ActionKind, type CodeAction, codeActions } from "../../features/code-actions.ts";
import type { Group } from "../group.ts";
import type { Looked, Session } from "../session.ts";
import { diagnosticOf, workspaceEdit } from "../to-lsp.ts";

/** What can be done at a place. Its edits are made when it is chosen, for the text as it is then. */
export const actions: Group = {
  capabilities: () => ({
    codeActionProvider: {
      codeActionKinds: [...kinds],
      resolveProvider: true,
    },
  }),
  serve(session) {
    const { connection, client } = session;
    connection.onCodeAction(
      session.fileHandler("actions", [] as LspAction[], (looked, { range, context }) => {
        const { uri, document, view } = looked;
        const span = { start: document.offsetAt(range.start), end: document.offsetAt(range.end) };
        const { only = [] } = context;
        return codeActions(view, span, only).map((action, index) => {
          const made = actionOf(session, looked, action, context.diagnostics);
          // Kinds that are applied on save are applied as they come.
          if (!client.resolvesActions || action.kind === "source.fixAll.standpipe")
            return { ...made, edit: editOf(session, action) };
          return { ...made, data: { uri, span, only, index, title: action.title } };
        });
      }),
    );
    connection.onCodeActionResolve(
      session.resolver<LspAction>("an action", (asked) => {
        const { uri, span, only, index, title } = asked.data as {
          uri: string;
          span: { start: number; end: number };
          only: readonly string[];
          index: number;
          title: string;
        };
        const looked = session.look(uri);
        const all = looked === undefined ? [] : codeActions(looked.view, span, only);
        const found = all[index]?.title === title ? all[index] : all.find((each) => each.title === title);
        return found === undefined ? asked : { ...asked, edit: editOf(session, found) };
      }),
    );
  },
};

/** The trade's kinds are the protocol's by their names. */
const kinds: readonly ActionKind[] = [
  CodeActionKind.QuickFix,
  `${CodeActionKind.SourceFixAll}.standpipe`,
  CodeActionKind.Refactor,
  CodeActionKind.RefactorRewrite,
];

function actionOf(
  session: Session,
  { document }: Looked,
  { title, kind, isPreferred, finding }: CodeAction,
  asked: readonly Diagnostic[],
): LspAction {
  const own = finding === undefined ? undefined : diagnosticOf(session, document, finding);
  // The client's own diagnostics are named where they are meant: it knows them again.
  const mended = asked.filter(
    ({ code, message }) => own !== undefined && code === own.code && message === own.message,
  );
  return {
    title,
    kind,
    ...(isPreferred ? { isPreferred } : {}),
    ...(mended.length > 0 ? { diagnostics: mended } : {}),
  };
}

function editOf(session: Session, { title, edits, newFile }: CodeAction) {
  const edit = workspaceEdit(session, edits, title);
  if (newFile === undefined || edit.documentChanges === undefined) return edit;
  const create: CreateFile = { kind: "create", uri: newFile, options: { ignoreIfExists: true } };
  const text = edits.filter(({ path }) => path === newFile).map((each) => each.text);
  const start = { line: 0, character: 0 };
  const filled = {
    textDocument: { uri: newFile, version: null },
    edits: [{ range: { start, end: start }, newText: text.join("") }],
  };
  return { ...edit, documentChanges: [...edit.documentChanges, create, filled] };
}
