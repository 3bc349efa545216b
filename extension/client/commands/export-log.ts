import * as vscode from "vscode";
import { tables } from "../../../language/exchange/export/tables.ts";
import { type ExportParams, exportRequest } from "../../../language/server/protocol.ts";
import { logUri } from "../places.ts";
import type { Services } from "../services.ts";

type Form = ExportParams["form"];

/** Exports the logbook: in which form, as which table, and to which file, is picked. */
export function exportLog(services: Services): vscode.Disposable {
  return vscode.commands.registerCommand(
    "standpipe.log.export",
    async (form?: unknown, name?: unknown, to?: unknown) => {
      const uri = await logUri(services);
      if (uri === undefined) return;
      const picked = form === "csv" || form === "json" || form === "ndjson" ? form : await pickForm();
      if (picked === undefined) return;
      const table = picked !== "csv" ? undefined : typeof name === "string" ? name : await pickTable();
      if (picked === "csv" && table === undefined) return;
      const target = to instanceof vscode.Uri ? to : await pickFile(services, uri, table ?? "log", picked);
      if (target === undefined) return;
      const parts = await gather(services, { uri, form: picked, ...(table === undefined ? {} : { table }) });
      if (parts !== undefined) await save(services, target, parts);
    },
  );
}

async function pickForm(): Promise<Form | undefined> {
  const forms: readonly (vscode.QuickPickItem & { readonly form: Form })[] = [
    {
      label: "CSV",
      description: vscode.l10n.t("one flat table, for a spreadsheet or an analysis"),
      form: "csv",
    },
    {
      label: "JSON",
      description: vscode.l10n.t("the whole log; a log can be made of it again"),
      form: "json",
    },
    { label: "NDJSON", description: vscode.l10n.t("the same, an item a line"), form: "ndjson" },
  ];
  const placeHolder = vscode.l10n.t("In which form?");
  return (await vscode.window.showQuickPick(forms, { title: vscode.l10n.t("Export Log"), placeHolder }))
    ?.form;
}

async function pickTable(): Promise<string | undefined> {
  const items = tables.map(({ name, doc }) => ({ label: name, description: doc }));
  const placeHolder = vscode.l10n.t("Which table?");
  return (await vscode.window.showQuickPick(items, { title: vscode.l10n.t("Export Log"), placeHolder }))
    ?.label;
}

async function pickFile(
  { client }: Services,
  uri: string,
  name: string,
  form: Form,
): Promise<vscode.Uri | undefined> {
  const beside = client.protocol2CodeConverter.asUri(uri);
  return vscode.window.showSaveDialog({
    ...(beside.scheme === "untitled"
      ? {}
      : { defaultUri: vscode.Uri.joinPath(beside, "..", `${name}.${form}`) }),
    filters: { [form.toUpperCase()]: [form] },
    title: vscode.l10n.t("Export Log"),
  });
}

/** All parts, in order; undefined where it was cancelled, or could not be. */
function gather(services: Services, params: Omit<ExportParams, "part">): Thenable<Uint8Array[] | undefined> {
  const options = {
    location: vscode.ProgressLocation.Notification,
    title: vscode.l10n.t("Exporting the log"),
    cancellable: true,
  };
  return vscode.window.withProgress(options, async (progress, token) => {
    const parts: Uint8Array[] = [];
    let shown = 0;
    for (let at = 0; ; at++) {
      const part = await services.ask(exportRequest, { ...params, part: at }, token);
      if (token.isCancellationRequested) return undefined;
      if (part === undefined || part === null) {
        void vscode.window.showErrorMessage(
          vscode.l10n.t("The log was edited while it was exported. Nothing was written; export it again."),
        );
        return undefined;
      }
      parts.push(new TextEncoder().encode(part.text));
      const percent = Math.floor((100 * part.filesDone) / Math.max(1, part.files));
      progress.report({ increment: percent - shown, message: `${percent} %` });
      shown = percent;
      if (part.isLast) return parts;
    }
  });
}

async function save({ log }: Services, target: vscode.Uri, parts: readonly Uint8Array[]): Promise<void> {
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  try {
    await vscode.workspace.fs.writeFile(target, bytes);
  } catch (error) {
    log.warn(`export: ${error}`);
    void vscode.window.showErrorMessage(
      vscode.l10n.t("The log could not be exported there: {0}", target.path),
    );
    return;
  }
  const open = vscode.l10n.t("Open");
  const chosen = vscode.window.showInformationMessage(
    vscode.l10n.t("The log is exported: {0}", target.path),
    open,
  );
  void chosen.then((button) => {
    if (button === open) void vscode.commands.executeCommand("vscode.open", target);
  });
}
