import * as vscode from "vscode";
import { InlayHintRequest, type Middleware } from "vscode-languageclient";
import type { Services } from "./services.ts";

/** The line that somebody types in has no hint: a figure of what is half written says nothing, and would push the caret about. */
let typedIn: { readonly uri: string; readonly line: number } | undefined;

export const hintsMiddleware: Middleware = {
  provideInlayHints: async (document, range, token, next) => {
    const hints = await next(document, range, token);
    const active = typedIn?.uri === document.uri.toString() ? typedIn.line : undefined;
    return active === undefined ? hints : hints?.filter(({ position }) => position.line !== active);
  },
};

/** Follows the caret: its line is the one typed in from the first change to when it leaves. */
export function followTyping({ client }: Services): vscode.Disposable {
  const setTypedIn = (now: typeof typedIn) => {
    if (typedIn?.uri === now?.uri && typedIn?.line === now?.line) return;
    typedIn = now;
    const feature = client.getFeature(InlayHintRequest.method);
    for (const { document } of vscode.window.visibleTextEditors)
      feature?.getProvider(document)?.onDidChangeInlayHints.fire();
  };
  return vscode.Disposable.from(
    vscode.workspace.onDidChangeTextDocument(({ document, contentChanges, reason }) => {
      const editor = vscode.window.activeTextEditor;
      if (document !== editor?.document || document.languageId !== "standpipe") return;
      if (contentChanges.length === 0 || reason !== undefined) return;
      const last = contentChanges.at(-1)!;
      const line = last.range.start.line + last.text.split("\n").length - 1;
      setTypedIn({ uri: document.uri.toString(), line });
    }),
    vscode.window.onDidChangeTextEditorSelection(({ textEditor, selections }) => {
      if (textEditor.document.uri.toString() !== typedIn?.uri) return;
      if (!selections.some(({ active }) => active.line === typedIn?.line)) setTypedIn(undefined);
    }),
    vscode.window.onDidChangeActiveTextEditor(() => setTypedIn(undefined)),
    vscode.workspace.onDidSaveTextDocument(() => setTypedIn(undefined)),
  );
}
