import * as vscode from "vscode";
import { tables } from "../../../language/exchange/export/tables.ts";
import { bytesOfBase64 } from "../../../language/server/base64.ts";
import { exportRequest, type ExportForm as Form } from "../../../language/server/protocol.ts";
import { logUri } from "../places.ts";
import type { Services } from "../services.ts";
import { whyNotWritten, writeWhole } from "../whole-file.ts";

/** Exports the logbook: in which form, as which table, and to which file, is picked. */
export function exportLog(services: Services): vscode.Disposable {
  return vscode.commands.registerCommand(
    "standpipe.log.export",
    async (form?: unknown, name?: unknown, to?: unknown) => {
      const uri = await logUri(services);
      if (uri === undefined) return;
      const given = forms().find(({ is }) => is === form)?.is;
      const picked = await pickWhat(given, typeof name === "string" ? name : undefined);
      if (picked === undefined) return;
      const target = to instanceof vscode.Uri ? logRefused(to) : await pickFile(services, uri, picked);
      if (target !== undefined) await run(services, uri, picked, target);
    },
  );
}

interface What {
  readonly form: Form;
  /** Of CSV and Parquet. */
  readonly table?: string;
}

const isTable = (form: Form): boolean => form === "csv" || form === "parquet";

/** The form, then of flat tables which, from where a button leads back to the form. */
async function pickWhat(given: Form | undefined, name: string | undefined): Promise<What | undefined> {
  for (;;) {
    const form = given ?? (await pick(vscode.l10n.t("In which form?"), forms(), false));
    if (form === undefined || form === "back") return undefined;
    if (!isTable(form)) return { form };
    const items = tables.map(({ name: table, doc }) => ({ label: table, detail: doc, is: table }));
    const known = tables.find((table) => table.name === name)?.name;
    const table = known ?? (await pick(vscode.l10n.t("Which table?"), items, given === undefined));
    if (table !== "back") return table === undefined ? undefined : { form, table };
  }
}

interface Choice<Is> extends vscode.QuickPickItem {
  readonly is: Is;
}

const forms = (): readonly Choice<Form>[] => [
  { label: "CSV", detail: vscode.l10n.t("one flat table, for a spreadsheet or an analysis"), is: "csv" },
  { label: "JSON", detail: vscode.l10n.t("the whole log; a log can be made of it again"), is: "json" },
  { label: "NDJSON", detail: vscode.l10n.t("the same, an item a line"), is: "ndjson" },
  {
    label: "Parquet",
    detail: vscode.l10n.t("one flat table with the types of its columns, for an analysis of many years"),
    is: "parquet",
  },
];

/** One step; undefined where it is left by Escape. */
function pick<Is extends string>(
  placeholder: string,
  items: readonly Choice<Is>[],
  hasBack: boolean,
): Promise<Is | "back" | undefined> {
  const quick = vscode.window.createQuickPick<Choice<Is>>();
  quick.title = vscode.l10n.t("Export Log");
  quick.placeholder = placeholder;
  quick.items = items;
  quick.matchOnDetail = true;
  if (hasBack) quick.buttons = [vscode.QuickInputButtons.Back];
  return new Promise((settle) => {
    quick.onDidAccept(() => {
      const [chosen] = quick.selectedItems;
      if (chosen !== undefined) settle(chosen.is);
      quick.hide();
    });
    quick.onDidTriggerButton(() => {
      settle("back");
      quick.hide();
    });
    quick.onDidHide(() => {
      settle(undefined);
      quick.dispose();
    });
    quick.show();
  });
}

/** The file to write; a name that is a log's is asked for anew. Undefined where the dialog is left. */
async function pickFile(services: Services, uri: string, what: What): Promise<vscode.Uri | undefined> {
  for (;;) {
    const target = await vscode.window.showSaveDialog({
      ...suggestion(services, uri, `${what.table ?? "log"}.${what.form}`),
      filters: { [what.form.toUpperCase()]: [what.form] },
      title: vscode.l10n.t("Export Log"),
    });
    if (target === undefined || !isLog(target)) return target;
    const again = vscode.l10n.t("Choose Another File");
    if ((await vscode.window.showErrorMessage(refusal(target), again)) !== again) return undefined;
  }
}

/** Beside the log; of one that is not stored in the folder of the window. */
function suggestion({ client }: Services, uri: string, name: string): { defaultUri?: vscode.Uri } {
  const log = client.protocol2CodeConverter.asUri(uri);
  const folder =
    log.scheme === "untitled" ? vscode.workspace.workspaceFolders?.[0]?.uri : vscode.Uri.joinPath(log, "..");
  return folder === undefined ? {} : { defaultUri: vscode.Uri.joinPath(folder, name) };
}

const isLog = ({ path }: vscode.Uri): boolean => /\.tank$/i.test(path);

const refusal = ({ path }: vscode.Uri): string =>
  vscode.l10n.t("{0} is a log, and is not written over.", path.slice(path.lastIndexOf("/") + 1));

function logRefused(target: vscode.Uri): vscode.Uri | undefined {
  if (!isLog(target)) return target;
  void vscode.window.showErrorMessage(refusal(target));
  return undefined;
}

/** A file of this machine as its user writes it. */
const shown = (target: vscode.Uri): string => (target.scheme === "file" ? target.fsPath : target.path);

interface Made {
  readonly parts: readonly Uint8Array[];
  readonly told: number;
  readonly unread: readonly string[];
}

/** All of it, up to the file; nothing is written where it is cancelled. */
async function run(services: Services, uri: string, what: What, target: vscode.Uri): Promise<void> {
  const options = {
    location: vscode.ProgressLocation.Notification,
    title: vscode.l10n.t("Exporting the log"),
    cancellable: true,
  };
  const made = await vscode.window.withProgress(options, async (progress, token) => {
    const gathered = await gather(services, uri, what, progress, token);
    if (gathered === undefined || !hasSomething(gathered, what)) return undefined;
    try {
      const isWritten = await writeWhole(target, joined(gathered.parts), () => token.isCancellationRequested);
      return isWritten ? gathered : undefined;
    } catch (error) {
      services.log.warn(`export: ${error}`);
      const why = whyNotWritten(error);
      void vscode.window.showErrorMessage(
        vscode.l10n.t("The log could not be exported to {0}: {1}", shown(target), why),
      );
      return undefined;
    }
  });
  // The command is done, whenever the notice is answered.
  if (made !== undefined) void tell(target, what, made.unread);
}

type Progress = vscode.Progress<{ increment: number; message: string }>;

/** All parts, in order; undefined where it was cancelled, or could not be. */
async function gather(
  services: Services,
  uri: string,
  what: What,
  progress: Progress,
  token: vscode.CancellationToken,
): Promise<Made | undefined> {
  const parts: Uint8Array[] = [];
  const encoder = new TextEncoder();
  let reported = 0;
  for (let at = 0; ; at++) {
    const part = await services.ask(exportRequest, { uri, ...what, part: at }, token);
    if (token.isCancellationRequested) {
      // So that the server keeps nothing of it.
      void services.ask(exportRequest, { uri, ...what, part: -1 });
      return undefined;
    }
    if (part === undefined || part === null) {
      void vscode.window.showErrorMessage(
        vscode.l10n.t("The log was edited while it was exported. Nothing was written; export it again."),
      );
      return undefined;
    }
    parts.push(what.form === "parquet" ? bytesOfBase64(part.text) : encoder.encode(part.text));
    const percent = Math.floor((100 * part.filesDone) / Math.max(1, part.files));
    progress.report({ increment: percent - reported, message: `${percent} %` });
    reported = percent;
    if (part.isLast) return { parts, told: part.told, unread: part.unread };
  }
}

/** Says where there is nothing to write. */
function hasSomething({ told }: Made, { table }: What): boolean {
  if (told > 0) return true;
  void vscode.window.showInformationMessage(
    table === undefined
      ? vscode.l10n.t("There is nothing in this log yet. Nothing was written.")
      : vscode.l10n.t("This log has nothing for the table “{0}”. Nothing was written.", table),
  );
  return false;
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}

/** Where it went, and what leads there. */
async function tell(target: vscode.Uri, { form }: What, unread: readonly string[]): Promise<void> {
  const open = vscode.l10n.t("Open");
  const reveal = vscode.l10n.t("Reveal");
  const isInWindow = vscode.workspace.getWorkspaceFolder(target) !== undefined;
  const isOnDesktop =
    target.scheme === "file" &&
    vscode.env.uiKind === vscode.UIKind.Desktop &&
    vscode.env.remoteName === undefined;
  // Parquet is no text.
  const buttons = [...(form === "parquet" ? [] : [open]), ...(isInWindow || isOnDesktop ? [reveal] : [])];
  const told = vscode.l10n.t("The log is exported: {0}", shown(target));
  const chosen = await (unread.length === 0
    ? vscode.window.showInformationMessage(told, ...buttons)
    : vscode.window.showWarningMessage(
        vscode.l10n.t("{0}. What stands in {1} is missing, as it cannot be read.", told, unread.join(", ")),
        ...buttons,
      ));
  if (chosen === open) await vscode.commands.executeCommand("vscode.open", target);
  if (chosen === reveal)
    await vscode.commands.executeCommand(isInWindow ? "revealInExplorer" : "revealFileInOS", target);
}
