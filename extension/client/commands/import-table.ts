import * as vscode from "vscode";
import {
  type ImportAnswer,
  type ImportParams,
  type ImportProposal,
  type ImportWriting,
  importProgress,
  importRequest,
  mostTableBytes,
} from "../../../language/server/import-protocol.ts";
import { askQuestion, pickMap, showColumns, shownWords } from "../import/ask.ts";
import { keepMap, previewed, showRejects } from "../import/put.ts";
import { logUri } from "../places.ts";
import type { Services } from "../services.ts";

/** Imports a table into the logbook: what it leaves open is asked, and what it would write is shown before it is written. */
export function importTable(services: Services): vscode.Disposable {
  return vscode.commands.registerCommand(
    "standpipe.table.import",
    async (table?: unknown, answers?: unknown) => {
      const uri = await logUri(services);
      if (uri === undefined) return;
      const file = table instanceof vscode.Uri ? table : await pickTable(services, uri);
      if (file === undefined) return;
      await new Import(services, uri, file).run(
        typeof answers !== "object" || answers === null
          ? undefined
          : Object.entries(answers).map(([id, value]) => [id, String(value)] as const),
      );
    },
  );
}

async function pickTable({ client }: Services, uri: string): Promise<vscode.Uri | undefined> {
  const beside = client.protocol2CodeConverter.asUri(uri);
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

type Given = readonly (readonly [id: string, value: string])[];
type StepOf<Each> = Each extends unknown ? Omit<Each, "uri" | "id"> : never;

/** Bytes of one part; three of them are four letters. */
const partBytes = 3 << 18;
const mostTries = 3;
const mostMaps = 20;
const mostMapBytes = 1 << 18;

let imports = 0;

class Import {
  private readonly services: Services;
  private readonly uri: string;
  private readonly file: vscode.Uri;
  private readonly name: string;
  private readonly title: string;
  private readonly id = ++imports;
  private folder = "";

  constructor(services: Services, uri: string, file: vscode.Uri) {
    this.services = services;
    this.uri = uri;
    this.file = file;
    this.name = file.path.slice(file.path.lastIndexOf("/") + 1);
    this.title = vscode.l10n.t("Import {0}", shownWords(this.name));
  }

  /** @param answers those that are known before anything is asked */
  async run(answers: Given | undefined): Promise<void> {
    const bytes = await this.read();
    if (bytes === undefined || !(await this.handOver(bytes))) return;
    const maps = answers === undefined ? await this.maps() : [];
    const first = await this.propose(answers ?? [], maps);
    if (first?.is !== "proposal") {
      if (first !== undefined) this.fail(first.why);
      return;
    }
    const name = first.fits.length === 0 ? "" : await pickMap(first.fits, this.title);
    if (name === undefined) return;
    const kept = maps.find((each) => each.name === name)?.text;
    const mapping = kept ?? (await this.settle(first, answers));
    if (mapping !== undefined) await this.write(mapping, kept === undefined);
  }

  private async read(): Promise<Uint8Array | undefined> {
    try {
      const { size } = await vscode.workspace.fs.stat(this.file);
      if (size <= mostTableBytes) return await vscode.workspace.fs.readFile(this.file);
      this.fail(vscode.l10n.t("it is over 20 MB. In the terminal, “standpipe import” reads it."));
    } catch (error) {
      this.services.log.warn(`import: ${error}`);
      this.fail(vscode.l10n.t("it cannot be read."));
    }
    return undefined;
  }

  private async handOver(bytes: Uint8Array): Promise<boolean> {
    const answer = await this.work(async (ask) => {
      let taken: ImportAnswer | undefined;
      for (let part = 0; part === 0 || part * partBytes < bytes.length; part++) {
        const base64 = base64Of(bytes.subarray(part * partBytes, (part + 1) * partBytes));
        taken = await ask({ step: "take", part, name: this.name, base64 });
        if (taken?.is !== "taken") return taken;
      }
      return taken;
    });
    if (answer?.is === "refused") this.fail(answer.why);
    if (answer?.is !== "taken") return false;
    this.folder = answer.folder;
    return true;
  }

  /** The mappings that lie beside the log. */
  private async maps(): Promise<{ readonly name: string; readonly text: string }[]> {
    const folder = this.logFolder();
    if (folder === undefined) return [];
    const { fs } = vscode.workspace;
    try {
      const names = (await fs.readDirectory(folder)).map(([name]) => name);
      const maps: { readonly name: string; readonly text: string }[] = [];
      for (const name of names.filter((each) => each.endsWith(".map.json")).slice(0, mostMaps)) {
        const file = vscode.Uri.joinPath(folder, name);
        if ((await fs.stat(file)).size > mostMapBytes) continue;
        maps.push({ name, text: new TextDecoder().decode(await fs.readFile(file)) });
      }
      return maps;
    } catch (error) {
      this.services.log.warn(`import: mappings beside the log: ${error}`);
      return [];
    }
  }

  private logFolder(): vscode.Uri | undefined {
    return this.folder === "" ? undefined : this.services.client.protocol2CodeConverter.asUri(this.folder);
  }

  private async propose(
    answers: Given,
    maps: readonly { readonly name: string; readonly text: string }[] = [],
  ): Promise<Extract<ImportAnswer, { is: "proposal" | "refused" }> | undefined> {
    const answer = await this.ask({ step: "propose", answers: Object.fromEntries(answers), maps });
    return answer?.is === "proposal" || answer?.is === "refused" ? answer : undefined;
  }

  /** Asks until nothing is open. The mapping, as text. */
  private async settle(first: ImportProposal, known: Given | undefined): Promise<string | undefined> {
    let proposal = first;
    let problem = "";
    const asked: (readonly [string, string])[] = [];
    for (;;) {
      const [question] = proposal.questions;
      if (question === undefined && proposal.mapping === null) {
        this.fail(vscode.l10n.t("what it holds cannot be told."));
        return undefined;
      }
      if (question === undefined && known !== undefined) return proposal.mapping ?? undefined;
      const step = {
        title: this.title,
        step: asked.length + 1,
        steps: asked.length + proposal.questions.length + (known === undefined ? 1 : 0),
      };
      const answer = await (question === undefined
        ? showColumns(proposal, step)
        : askQuestion(question, step, problem));
      if (answer === undefined) return undefined;
      if (question === undefined && answer.is === "answer") return proposal.mapping ?? undefined;
      if (answer.is === "back") asked.pop();
      else asked.push([question!.id, answer.value]);
      const next = await this.propose([...(known ?? []), ...asked]);
      if (next === undefined) return undefined;
      problem = next.is === "refused" ? next.why : "";
      if (next.is === "proposal") proposal = next;
      else asked.pop();
    }
  }

  private async write(mapping: string, isFresh: boolean): Promise<void> {
    for (let tried = 0; tried < mostTries; tried++) {
      const made = await this.ask({ step: "write", mapping });
      if (made?.is === "outdated") continue;
      if (made?.is === "refused") this.fail(made.why);
      if (made?.is !== "writing") return;
      if (made.files.length === 0) {
        void vscode.window.showInformationMessage(
          vscode.l10n.t("{0}: nothing is new. {1}", shownWords(this.name), countsOf(made)),
        );
        if (made.rejects !== null) await showRejects(made.rejects);
        return;
      }
      void vscode.window.showInformationMessage(
        vscode.l10n.t("{0}: {1} The preview shows what is written.", shownWords(this.name), countsOf(made)),
      );
      const outcome = await previewed(this.services, made, this.title);
      if (outcome === "outdated") continue;
      if (typeof outcome === "object")
        this.fail(
          vscode.l10n.t(
            "{0} stands where a new file would, and is left alone.",
            shownWords(outcome.inTheWay),
          ),
        );
      else if (outcome === "left")
        void vscode.window.showInformationMessage(
          vscode.l10n.t("{0}: nothing was written.", shownWords(this.name)),
        );
      else await this.done(made, isFresh ? mapping : undefined);
      return;
    }
    this.fail(vscode.l10n.t("the log is being edited all the time. Try again."));
  }

  /** @param mapping one that may be kept */
  private async done({ rejects }: ImportWriting, mapping: string | undefined): Promise<void> {
    if (rejects !== null) await showRejects(rejects);
    const folder = this.logFolder();
    if (mapping === undefined || folder === undefined) return;
    const stem = this.name.replace(/(?<=.)\.[^.]*$/, "");
    const keep = vscode.l10n.t("Keep Mapping");
    const offered = vscode.window.showInformationMessage(
      vscode.l10n.t(
        "{0} is imported. The mapping can be kept beside the log, as {1}, for the next table of this kind.",
        shownWords(this.name),
        shownWords(`${stem}.map.json`),
      ),
      keep,
    );
    void offered.then((button) => {
      if (button === keep)
        void keepMap(this.services, vscode.Uri.joinPath(folder, `${stem}.map.json`), mapping);
    });
  }

  private fail(why: string): void {
    void vscode.window.showErrorMessage(
      vscode.l10n.t("{0} was not imported: {1}", shownWords(this.name), shownWords(why)),
    );
  }

  private ask(step: StepOf<ImportParams>): Thenable<ImportAnswer | undefined> {
    return this.work((ask) => ask(step));
  }

  /** Asks the server, and shows how far it is. Undefined where it was cancelled, or could not be, which is told. */
  private work(
    run: (
      ask: (step: StepOf<ImportParams>) => Promise<ImportAnswer | undefined>,
    ) => Promise<ImportAnswer | undefined>,
  ): Thenable<ImportAnswer | undefined> {
    const { services, id, uri } = this;
    const options = {
      location: vscode.ProgressLocation.Notification,
      title: this.title,
      cancellable: true,
    };
    return vscode.window.withProgress(options, async (progress, token) => {
      const heard = services.client.onNotification(
        importProgress.method,
        (told: { readonly id: number; readonly percent: number }) => {
          if (told.id === id) progress.report({ message: `${told.percent} %` });
        },
      );
      try {
        return await run(async (step) => {
          const answer = await services.ask(importRequest, { uri, id, ...step } as ImportParams, token);
          if (token.isCancellationRequested) return undefined;
          if (answer === undefined || answer === null)
            this.fail(vscode.l10n.t("the server gave no answer; its log says more. Import it again."));
          return answer ?? undefined;
        });
      } finally {
        heard.dispose();
      }
    });
  }
}

function countsOf({ rows }: ImportWriting): string {
  return vscode.l10n.t(
    "Rows: {0} read = {1} imported + {2} skipped + {3} rejected.",
    rows.read,
    rows.imported,
    rows.skipped,
    rows.rejected,
  );
}

function base64Of(bytes: Uint8Array): string {
  const letters: string[] = [];
  const atOnce = 1 << 13;
  for (let at = 0; at < bytes.length; at += atOnce)
    letters.push(String.fromCharCode(...bytes.subarray(at, at + atOnce)));
  return btoa(letters.join(""));
}
