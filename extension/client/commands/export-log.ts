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
      const given = form === "csv" || form === "json" || form === "ndjson" ? form : undefined;
      const picked = await pickWhat(given, typeof name === "string" ? name : undefined);
      if (picked === undefined) return;
      const target =
        to instanceof vscode.Uri ? to : await pickFile(services, uri, picked.table ?? "log", picked.form);
      if (target === undefined) return;
      if (target.path.endsWith(".tank")) {
        void vscode.window.showErrorMessage(
          vscode.l10n.t("{0} is a log, and is not written over.", nameOf(target)),
        );
        return;
      }
      const made = await gather(services, { uri, ...picked });
      if (made !== undefined) await save(services, target, made);
    },
  );
}

interface What {
  readonly form: Form;
  /** Of CSV. */
  readonly table?: string;
}

/** The form, then of CSV the table, from which a button leads back to the form. */
async function pickWhat(given: Form | undefined, name: string | undefined): Promise<What | undefined> {
  for (;;) {
    const form = given ?? (await pick(vscode.l10n.t("In which form?"), forms(), false));
    if (form !== "csv") return form === undefined || form === "back" ? undefined : { form };
    const items = tables.map(({ name: table, doc }) => ({ label: table, detail: doc, is: table }));
    const table = name ?? (await pick(vscode.l10n.t("Which table?"), items, given === undefined));
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

const nameOf = ({ path }: vscode.Uri): string => path.slice(path.lastIndexOf("/") + 1);

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

interface Made {
  readonly parts: readonly Uint8Array[];
  readonly unread: readonly string[];
}

/** All parts, in order; undefined where it was cancelled, or could not be. */
function gather(services: Services, params: Omit<ExportParams, "part">): Thenable<Made | undefined> {
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
      if (part.isLast) return { parts, unread: part.unread };
    }
  });
}

async function save({ log }: Services, target: vscode.Uri, { parts, unread }: Made): Promise<void> {
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
  const told = vscode.l10n.t("The log is exported: {0}", target.path);
  const chosen =
    unread.length === 0
      ? vscode.window.showInformationMessage(told, open)
      : vscode.window.showWarningMessage(
          vscode.l10n.t("{0}. What stands in {1} is missing, as it cannot be read.", told, unread.join(", ")),
          open,
        );
  void chosen.then((button) => {
    if (button === open) void vscode.commands.executeCommand("vscode.open", target);
  });
}
