import * as vscode from "vscode";
import type { ImportWriting } from "../../../language/server/import-protocol.ts";
import type { Done } from "../../views/import/messages.ts";
import type { Services } from "../services.ts";
import { keepMap, nameOf, type PutFile, put, putRejects, saved, showRejects } from "./put.ts";
import type { Table } from "./table.ts";
import { takeBack } from "./take-back.ts";

/** What an import left: shown, saved, taken back. */

const mostTries = 3;

/** Writes by a mapping, as the log is by now. Gives why nothing was written; undefined where it was cancelled. */
export async function writeTable(
  services: Services,
  table: Table,
  mapping: string,
  token: vscode.CancellationToken,
  step: (percent: number) => void = () => {},
): Promise<Written | { readonly why: string } | undefined> {
  for (let tried = 0; tried < mostTries; tried++) {
    const made = await table.ask({ step: "write", mapping }, token, step);
    if (made?.is === "outdated") continue;
    if (made === undefined) return undefined;
    if (made.is !== "writing")
      return {
        why:
          made.is === "refused" ? made.why : vscode.l10n.t("The server gave no answer; its log says more."),
      };
    const files = made.files.length === 0 ? [] : await put(services, made);
    if (files === "outdated") continue;
    if (files === "failed")
      return { why: vscode.l10n.t("The editor did not make the edits; nothing was written.") };
    if (!Array.isArray(files))
      return {
        why: vscode.l10n.t("{0} stands where a new file would, and is left alone.", files.inTheWay),
      };
    const { logFolder, name } = table;
    const rejects =
      made.rejects === null ? undefined : await putRejects(services, logFolder, name, made.rejects);
    return new Written(services, table, mapping, made, files, rejects);
  }
  return { why: vscode.l10n.t("The log is being edited all the time. Try again.") };
}

export class Written {
  readonly made: ImportWriting;
  readonly files: readonly PutFile[];
  /** The file of rejected rows, if there is one. */
  readonly rejects: vscode.Uri | undefined;
  private readonly services: Services;
  private readonly table: Table;
  private readonly mapping: string;
  private isKeepOffered = false;
  private kept = "";
  private problem = "";

  constructor(
    services: Services,
    table: Table,
    mapping: string,
    made: ImportWriting,
    files: readonly PutFile[],
    rejects: vscode.Uri | undefined,
  ) {
    this.services = services;
    this.table = table;
    this.mapping = mapping;
    this.made = made;
    this.files = files;
    this.rejects = rejects;
  }

  /** Offers to keep the mapping, where it can be kept. */
  offerKeep(): void {
    this.isKeepOffered = this.table.logFolder !== undefined;
  }

  get done(): Done {
    const { made, files, rejects, isKeepOffered, kept, problem } = this;
    return {
      name: this.table.name,
      rows: made.rows,
      files: files.map(({ uri, isNew, lines, isSaved }) => ({ name: nameOf(uri), isNew, lines, isSaved })),
      rejects: rejects === undefined ? "" : nameOf(rejects),
      keep: isKeepOffered ? this.mapName : "",
      kept,
      problem,
    };
  }

  private get mapName(): string {
    return `${this.table.name.replace(/(?<=.)\.[^.]*$/, "").replace(/[\p{Cc}]+/gu, " ")}.map.json`;
  }

  async keep(): Promise<void> {
    const { logFolder } = this.table;
    if (logFolder === undefined) return;
    this.kept = await keepMap(this.services, vscode.Uri.joinPath(logFolder, this.mapName), this.mapping);
    this.isKeepOffered = false;
  }

  async save(): Promise<void> {
    for (const each of this.files) {
      const document = await vscode.workspace.openTextDocument(each.uri);
      const isOurs = document.getText() === each.after;
      each.isSaved = await saved(each.uri);
      // Saving may trim blanks: that is no edit of the keeper's.
      if (isOurs) each.after = document.getText();
    }
  }

  async show(): Promise<void> {
    const [first] = this.files;
    if (first !== undefined)
      await vscode.window.showTextDocument(first.uri, { viewColumn: vscode.ViewColumn.Active });
  }

  async showRejects(): Promise<void> {
    if (this.made.rejects !== null) await showRejects(this.rejects, this.made.rejects);
  }

  /** Whether all of it was taken back; what speaks against it is told with what was done. */
  async takeBack(): Promise<boolean> {
    const rejects =
      this.rejects === undefined || this.made.rejects === null
        ? undefined
        : { uri: this.rejects, text: this.made.rejects };
    this.problem = await takeBack(this.services, this.files, rejects);
    return this.problem === "";
  }
}
