import * as vscode from "vscode";
import {
  laboratorySheetRequest,
  type SheetCase,
  sheetCasesRequest,
} from "../../../language/server/protocol.ts";
import { logEditor, logUri } from "../places.ts";
import type { Services } from "../services.ts";

/** Writes the laboratory sheet of a case: a pick of cases, then as Markdown beside the log, or as a page that is saved and opened to print. */
export function laboratory(services: Services): vscode.Disposable {
  return vscode.commands.registerCommand(
    "standpipe.laboratory.write",
    async (name?: unknown, as?: unknown) => {
      const uri = await logUri(services);
      if (uri === undefined) return;
      const asked = typeof name === "string" ? name : await pickCase(services, uri);
      if (asked === undefined) return;
      const form = as === "markdown" || as === "html" ? as : await pickForm();
      if (form === undefined) return;
      const text = await vscode.window.withProgress(
        { location: vscode.ProgressLocation.Window, title: vscode.l10n.t("Writing the laboratory sheet") },
        () => services.ask(laboratorySheetRequest, { uri, case: asked, form }),
      );
      if (text === undefined) return;
      if (text === null) {
        void vscode.window.showWarningMessage(vscode.l10n.t("There is no case “{0}” on this day.", asked));
        return;
      }
      if (form === "markdown") await showBeside(text);
      else await saveAndOpen(services, uri, asked, text);
    },
  );
}

interface CasePick extends vscode.QuickPickItem {
  readonly name?: string;
}

async function pickCase(services: Services, uri: string): Promise<string | undefined> {
  const editor = logEditor();
  const { code2ProtocolConverter: converter } = services.client;
  const position =
    editor !== undefined && converter.asUri(editor.document.uri) === uri
      ? { position: converter.asPosition(editor.selection.active) }
      : {};
  const cases = await services.ask(sheetCasesRequest, { uri, ...position });
  if (cases === undefined) return undefined;
  if (cases.length === 0) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t("No case is known yet. Signs open one: sick, with a species and “case” and a name."),
    );
    return undefined;
  }
  const picker = vscode.window.createQuickPick<CasePick>();
  picker.title = vscode.l10n.t("Laboratory Sheet");
  picker.placeholder = vscode.l10n.t("Of which case?");
  picker.matchOnDescription = true;
  picker.items = itemsOf(cases);
  const here = cases.find(({ isHere }) => isHere)?.name;
  const active = picker.items.filter(({ name }) => name !== undefined && name === here);
  if (active.length > 0) picker.activeItems = active;
  return new Promise((resolve) => {
    picker.onDidAccept(() => {
      resolve(picker.selectedItems[0]?.name);
      picker.hide();
    });
    picker.onDidHide(() => {
      resolve(undefined);
      picker.dispose();
    });
    picker.show();
  });
}

function itemsOf(cases: readonly SheetCase[]): CasePick[] {
  const group = (label: string, some: readonly SheetCase[]): CasePick[] =>
    some.length === 0 ? [] : [{ label, kind: vscode.QuickPickItemKind.Separator }, ...some.map(itemOf)];
  return [
    ...group(
      vscode.l10n.t("open"),
      cases.filter(({ closed }) => closed === null),
    ),
    ...group(
      vscode.l10n.t("closed"),
      cases.filter(({ closed }) => closed !== null),
    ),
  ];
}

function itemOf({ name, since, closed, tanks, samples, isHere }: SheetCase): CasePick {
  const dates =
    closed === null
      ? vscode.l10n.t("since {0}", since)
      : vscode.l10n.t("{0} to {1}, told as of its close", since, closed);
  const told = [
    tanks.join(", "),
    dates,
    samples === 0 ? vscode.l10n.t("no samples") : vscode.l10n.t("samples: {0}", samples),
    isHere ? vscode.l10n.t("at the cursor") : "",
  ];
  return { label: name, description: told.filter((part) => part !== "").join(" · "), name };
}

async function pickForm(): Promise<"markdown" | "html" | undefined> {
  const chosen = await vscode.window.showQuickPick(
    [
      {
        label: vscode.l10n.t("$(markdown) Markdown"),
        description: vscode.l10n.t("a new document beside the log"),
        form: "markdown" as const,
      },
      {
        label: vscode.l10n.t("$(browser) Page to Print"),
        description: vscode.l10n.t("HTML, saved where you choose and opened in the browser"),
        form: "html" as const,
      },
    ],
    { title: vscode.l10n.t("Laboratory Sheet"), placeHolder: vscode.l10n.t("In which form?") },
  );
  return chosen?.form;
}

async function showBeside(content: string): Promise<void> {
  const document = await vscode.workspace.openTextDocument({ language: "markdown", content });
  await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.Beside });
}

async function saveAndOpen(
  { client, log }: Services,
  uri: string,
  name: string,
  text: string,
): Promise<void> {
  const beside = client.protocol2CodeConverter.asUri(uri);
  const file = `${name.replace(/[^\p{L}\p{N}_-]+/gu, "-")}-laboratory-sheet.html`;
  const folder = beside.scheme === "untitled" ? undefined : vscode.Uri.joinPath(beside, "..", file);
  const target = await vscode.window.showSaveDialog({
    ...(folder === undefined ? {} : { defaultUri: folder }),
    filters: { HTML: ["html"] },
    title: vscode.l10n.t("Save the Laboratory Sheet"),
  });
  if (target === undefined) return;
  try {
    await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(text));
  } catch (error) {
    log.warn(`laboratory sheet: ${error}`);
    void vscode.window.showErrorMessage(vscode.l10n.t("The laboratory sheet could not be saved there."));
    return;
  }
  // A browser opens what lies on the disk only.
  if (target.scheme === "file" && (await vscode.env.openExternal(target))) return;
  void vscode.window.showInformationMessage(vscode.l10n.t("The laboratory sheet is saved: {0}", target.path));
}
