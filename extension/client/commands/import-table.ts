import * as vscode from "vscode";
import * as z from "zod/mini";
import { ImportPage } from "../import/import-page.ts";
import { Table } from "../import/table.ts";
import { Written, writeTable } from "../import/written.ts";
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
      const chosen = given instanceof vscode.Uri ? given : undefined;
      const uri = (chosen && (await logNear(services, chosen))) ?? (await logUri(services));
      if (uri === undefined) return undefined;
      const log = services.client.protocol2CodeConverter.asUri(uri);
      const file =
        chosen ?? (typeof given === "string" ? vscode.Uri.joinPath(log, "..", given) : await pickTable(log));
      if (file === undefined) return undefined;
      const table = new Table(services, uri, file);
      // What a menu gives with a file are other files, or a group of editors.
      const known = answersShape.safeParse(answers).data;
      if (known !== undefined) {
        const outcome = await importAtOnce(services, table, known);
        if (outcome !== undefined) return outcome;
      }
      void new ImportPage(services, table, known ?? {}).start();
      return undefined;
    },
  );
}

const answersShape = z.record(z.string(), z.string());

/** A file of the logbook that a table lies in or below, as far as the workspace goes. */
async function logNear({ client }: Services, file: vscode.Uri): Promise<string | undefined> {
  const top = vscode.workspace.getWorkspaceFolder(file)?.uri;
  if (top === undefined) return undefined;
  for (let folder = vscode.Uri.joinPath(file, ".."); ; folder = vscode.Uri.joinPath(folder, "..")) {
    const [log] = await vscode.workspace.findFiles(
      new vscode.RelativePattern(folder, "*.tank"),
      undefined,
      1,
    );
    if (log !== undefined) return client.code2ProtocolConverter.asUri(log);
    if (folder.path.length <= top.path.length) return undefined;
  }
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
  const written = await writeTable(services, table, proposal.mapping, token);
  if (!(written instanceof Written)) return undefined;
  table.leave();
  const { made, files, rejects } = written;
  return {
    rows: made.rows,
    files: files.map(({ uri, isNew, lines, isSaved }) => ({ uri, isNew, lines, isSaved })),
    rejects: rejects ?? made.rejects,
  };
}
