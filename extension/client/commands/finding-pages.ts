import * as vscode from "vscode";
import { codesRequest, pageRequest } from "../../../language/server/protocol.ts";
import type { Services } from "../services.ts";

const scheme = "standpipe-page";

/** Where the page of a code is to be read: a document that the server writes. */
export const pageAddress = `${scheme}:/{code}.md`;

/** The manual's page of a finding's code: what it says, why it matters, what to do. */
export function findingPages({ ask }: Services): vscode.Disposable {
  const pages: vscode.TextDocumentContentProvider = {
    provideTextDocumentContent: async ({ path }) =>
      (await ask(pageRequest, { code: path.slice(1).replace(/\.md$/, "") })) ?? "",
  };
  const explain = async (code?: string) => {
    const wanted = typeof code === "string" ? code : (codeAtCursor() ?? (await pickCode()));
    if (wanted === undefined) return;
    const page = vscode.Uri.parse(pageAddress.replace("{code}", wanted));
    await vscode.commands.executeCommand("markdown.showPreviewToSide", page);
  };
  const pickCode = async () => {
    const codes = (await ask(codesRequest, null)) ?? [];
    const items = codes.map(({ code, title }) => ({ label: title, description: code }));
    const chosen = await vscode.window.showQuickPick(items, {
      title: vscode.l10n.t("Explain a Finding"),
      placeHolder: vscode.l10n.t("Which finding?"),
      matchOnDescription: true,
    });
    return chosen?.description;
  };
  return vscode.Disposable.from(
    vscode.workspace.registerTextDocumentContentProvider(scheme, pages),
    vscode.commands.registerCommand("standpipe.findings.explain", explain),
  );
}

function codeAtCursor(): string | undefined {
  const editor = vscode.window.activeTextEditor;
  if (editor === undefined) return undefined;
  const at = editor.selection.active;
  const found = vscode.languages
    .getDiagnostics(editor.document.uri)
    .find(({ source, range }) => source === "standpipe" && range.contains(at));
  return typeof found?.code === "object" ? String(found.code.value) : undefined;
}
