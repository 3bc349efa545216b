import * as vscode from "vscode";
import { ImportPage } from "../import/import-page.ts";
import { put, putRejects } from "../import/put.ts";
import { Table } from "../import/table.ts";
import { logUri } from "../places.ts";
import type { Services } from "../services.ts";

/**
 * Imports a table into the logbook: a page shows what it is taken for, asks what is open, and writes nothing before it is told to.
 * A key may name the table, from the folder of the log on, and answer what is open.
 */
export function importTable(services: Services): vscode.Disposable {
  return vscode.commands.registerCommand(
    "standpipe.table.import",
    async (given?: unknown, answers?: unknown) => {
      const uri = await logUri(services);
      if (uri === undefined) return undefined;
      const log = services.client.protocol2CodeConverter.asUri(uri);
      const file =
        given instanceof vscode.Uri
          ? given
          : typeof given === "string"
            ? vscode.Uri.joinPath(log, "..", given)
            : await pickTable(log);
      if (file === undefined) return undefined;
      const table = new Table(services, uri, file);
      const known =
        typeof answers !== "object" || answers === null || Array.isArray(answers)
          ? undefined
          : Object.fromEntries(Object.entries(answers).map(([id, value]) => [id, String(value)]));
      if (known !== undefined) {
        const outcome = await importAtOnce(services, table, known);
        if (outcome !== undefined) return outcome;
      }
      void new ImportPage(services, table, known ?? {}).start();
      return undefined;
    },
  );
}

async function pickTable(beside: vscode.Uri): Promise<vscode.Uri | undefined> {
  const files = await vscode.window.showOpenDialog({
    ...(beside.scheme === "untitled" ? {} : { defaultUri: vscode.Uri.joinPath(beside, "..") }),
    filters: {
      [vscode.l10n.t("Tables")]: ["csv", "tsv", "tab", "txt", "dat"],
      [vscode.l10n.t("All Files")]: ["*"],
    },
    title: vscode.l10n.t("Import Table"),
    openLabel: vscode.l10n.t("Import"),
  });
  return files?.[0];
}

/**
 * With answers that leave nothing open, for keys and other extensions: imports without a page, and gives what was counted. Undefined where something is
 * open, or the table is refused: the page tells.
 */
async function importAtOnce(
  services: Services,
  table: Table,
  answers: Readonly<Record<string, string>>,
): Promise<unknown> {
  const stop = new vscode.CancellationTokenSource();
  const { token } = stop;
  const taken = await table.handOver(token, () => {});
  if (taken?.is !== "taken") return undefined;
  const proposal = await table.ask({ step: "propose", answers, maps: [] }, token);
  if (proposal?.is !== "proposal" || proposal.mapping === null) return undefined;
  const made = await table.ask({ step: "write", mapping: proposal.mapping }, token);
  if (made?.is !== "writing") return undefined;
  const files = made.files.length === 0 ? [] : await put(services, made);
  if (!Array.isArray(files)) return undefined;
  const rejects =
    made.rejects === null ? undefined : await putRejects(services, table.logFolder, table.name, made.rejects);
  table.leave();
  return {
    rows: made.rows,
    files: files.map(({ uri, isNew, lines, isSaved }) => ({ uri, isNew, lines, isSaved })),
    rejects: rejects ?? made.rejects,
  };
}
