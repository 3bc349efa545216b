import * as vscode from "vscode";
import {
  type ImportAnswer,
  type ImportParams,
  importProgress,
  importRequest,
  mostTableBytes,
} from "../../../language/server/import-protocol.ts";
import type { Services } from "../services.ts";

/** A table handed to the server, and what is asked of it there. */

export type StepOf<Each> = Each extends unknown ? Omit<Each, "uri" | "id"> : never;
/** Undefined where it was cancelled. */
export type Answered = ImportAnswer | undefined;

/** Bytes of one part; three of them are four letters. */
const partBytes = 3 << 18;
const mostMaps = 20;
const mostMapBytes = 1 << 18;

let imports = 0;

export class Table {
  readonly uri: string;
  readonly file: vscode.Uri;
  readonly name: string;
  private readonly services: Services;
  private readonly id = ++imports;
  private folder = "";

  /** @param uri of a file of the logbook that it is for */
  constructor(services: Services, uri: string, file: vscode.Uri) {
    this.services = services;
    this.uri = uri;
    this.file = file;
    this.name = file.path.slice(file.path.lastIndexOf("/") + 1);
  }

  /** Reads it and hands it over. @param step hears how far it is, in percent */
  async handOver(token: vscode.CancellationToken, step: (percent: number) => void): Promise<Answered> {
    const bytes = await this.read();
    if (typeof bytes === "string") return { is: "refused", why: bytes };
    let taken: Answered;
    for (let part = 0; part === 0 || part * partBytes < bytes.length; part++) {
      if (token.isCancellationRequested) return undefined;
      step(Math.floor((100 * part * partBytes) / Math.max(1, bytes.length)));
      const base64 = base64Of(bytes.subarray(part * partBytes, (part + 1) * partBytes));
      const take = { step: "take", part, name: this.name, bytes: bytes.length, base64 } as const;
      taken = await this.ask(take, token);
      if (taken?.is !== "taken") return taken;
    }
    if (taken?.is === "taken") this.folder = taken.folder;
    return taken;
  }

  /** Its bytes, or why there are none. */
  private async read(): Promise<Uint8Array | string> {
    try {
      const { size, type } = await vscode.workspace.fs.stat(this.file);
      if ((type & vscode.FileType.Directory) !== 0)
        return vscode.l10n.t("{0} is a folder; choose one table.", this.name);
      if (size > mostTableBytes)
        return vscode.l10n.t(
          "{0} is over {1} MB, more than the editor holds. In the terminal, “standpipe import” reads it in parts, whatever its size.",
          this.name,
          mostTableBytes / 1024 / 1024,
        );
      return await vscode.workspace.fs.readFile(this.file);
    } catch (error) {
      this.services.log.warn(`import: ${error}`);
      return vscode.l10n.t("{0} cannot be read; the log of Standpipe says why.", this.name);
    }
  }

  /** The folder of the log; undefined for one that is not stored. */
  get logFolder(): vscode.Uri | undefined {
    return this.folder === "" ? undefined : this.services.client.protocol2CodeConverter.asUri(this.folder);
  }

  /** The mappings that lie beside the log. */
  async maps(): Promise<{ readonly name: string; readonly text: string }[]> {
    const folder = this.logFolder;
    if (folder === undefined) return [];
    const { fs } = vscode.workspace;
    const maps: { readonly name: string; readonly text: string }[] = [];
    try {
      const names = (await fs.readDirectory(folder)).map(([name]) => name);
      for (const name of names.filter((each) => each.endsWith(".map.json")).slice(0, mostMaps)) {
        const file = vscode.Uri.joinPath(folder, name);
        if ((await fs.stat(file)).size > mostMapBytes) continue;
        maps.push({ name, text: new TextDecoder().decode(await fs.readFile(file)) });
      }
    } catch (error) {
      this.services.log.warn(`import: mappings beside the log: ${error}`);
    }
    return maps;
  }

  /** @param step hears how far it is, in percent */
  async ask(
    params: StepOf<ImportParams>,
    token: vscode.CancellationToken,
    step: (percent: number) => void = () => {},
  ): Promise<Answered> {
    const { services, id, uri } = this;
    const heard = services.client.onNotification(
      importProgress.method,
      (told: { readonly id: number; readonly percent: number }) => {
        if (told.id === id && !token.isCancellationRequested) step(told.percent);
      },
    );
    try {
      const answer = await services.ask(importRequest, { uri, id, ...params } as ImportParams, token);
      if (token.isCancellationRequested) return undefined;
      return (
        answer ?? {
          is: "refused",
          why: vscode.l10n.t("The server no longer has the table, or gave no answer. Read it again."),
        }
      );
    } finally {
      heard.dispose();
    }
  }

  /** The server need not hold it any longer. */
  leave(): void {
    void this.services.ask(importRequest, { uri: this.uri, id: this.id, step: "leave" });
  }
}

function base64Of(bytes: Uint8Array): string {
  const letters: string[] = [];
  const atOnce = 1 << 13;
  for (let at = 0; at < bytes.length; at += atOnce)
    letters.push(String.fromCharCode(...bytes.subarray(at, at + atOnce)));
  return btoa(letters.join(""));
}
