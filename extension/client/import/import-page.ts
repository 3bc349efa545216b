import * as vscode from "vscode";
import type { ImportProposal } from "../../../language/server/import-protocol.ts";
import { type Form, type ToHost, type ToPage, toHostShape } from "../../views/import/messages.ts";
import type { Services } from "../services.ts";
import { pageOptions, webviewPage } from "../webview-page.ts";
import { nameOf } from "./put.ts";
import type { Table } from "./table.ts";
import { Written, writeTable } from "./written.ts";

/** One import with its page: what is decided, what comes of it, and at last what was written. */

export class ImportPage implements vscode.Disposable {
  private readonly services: Services;
  private readonly table: Table;
  private readonly panel: vscode.WebviewPanel;
  private readonly listeners: vscode.Disposable[] = [];
  private answers: Record<string, string>;
  private maps: readonly { readonly name: string; readonly text: string }[] = [];
  private map = "";
  private form: Form | undefined;
  private mapping: string | null = null;
  private written: Written | undefined;
  private last: ToPage = { say: "working", what: vscode.l10n.t("Reading"), percent: null };
  private lastCounts: ToPage | undefined;
  private work = new vscode.CancellationTokenSource();
  private isWriting = false;

  /** @param answers known before anything is asked */
  constructor(services: Services, table: Table, answers: Readonly<Record<string, string>>) {
    this.services = services;
    this.table = table;
    this.answers = { ...answers };
    const extension = services.context.extensionUri;
    this.panel = vscode.window.createWebviewPanel(
      "standpipe.import",
      vscode.l10n.t("Import {0}", table.name.replace(/\p{Cc}+/gu, " ")),
      vscode.ViewColumn.Active,
      { ...pageOptions(extension), enableFindWidget: true },
    );
    this.panel.iconPath = {
      light: vscode.Uri.joinPath(extension, "media", "file-light.svg"),
      dark: vscode.Uri.joinPath(extension, "media", "file-dark.svg"),
    };
    this.listeners.push(
      this.panel.webview.onDidReceiveMessage((message) => this.hear(message)),
      this.panel.onDidDispose(() => this.dispose()),
      // What is known may be other by then.
      services.onChanged(() => {
        if (this.form !== undefined && this.written === undefined && !this.isWriting)
          void this.propose(false);
      }),
    );
    this.panel.webview.html = webviewPage(this.panel.webview, extension, "import", "Import");
  }

  dispose(): void {
    this.work.cancel();
    for (const each of this.listeners.splice(0)) each.dispose();
    this.table.leave();
  }

  /** Work that makes earlier work void. */
  private begin(): vscode.CancellationToken {
    this.work.cancel();
    this.work = new vscode.CancellationTokenSource();
    return this.work.token;
  }

  /** Reads the table, and shows what it is taken for. */
  async start(): Promise<void> {
    const token = this.begin();
    this.form = undefined;
    const reading = vscode.l10n.t("Reading {0}", this.table.name);
    const step = (percent: number): void => this.tell({ say: "working", what: reading, percent });
    step(0);
    const taken = await this.table.handOver(token, step);
    if (taken === undefined) return;
    if (taken.is !== "taken") return this.refuse(taken);
    this.maps = await this.table.maps();
    if (token.isCancellationRequested) return;
    const looking = vscode.l10n.t("Looking at {0}", this.table.name);
    const proposal = await this.table.ask(
      { step: "propose", answers: this.answers, maps: this.maps },
      token,
      (percent) => this.tell({ say: "working", what: looking, percent }),
    );
    if (proposal === undefined) return;
    if (proposal.is !== "proposal") return this.refuse(proposal);
    this.maps = this.maps.filter(({ name }) => proposal.fits.includes(name));
    this.map = this.maps[0]?.name ?? "";
    if (this.map !== "") await this.propose(true);
    else this.show(proposal);
  }

  private refuse(answer: { readonly is: string; readonly why?: string }): void {
    this.form = undefined;
    this.tell({
      say: "refused",
      why: answer.why ?? vscode.l10n.t("The server gave no answer; its log says more."),
    });
  }

  /** @param isByMap begins from the mapping that was chosen, not from answers */
  private async propose(isByMap: boolean, changed = ""): Promise<void> {
    const token = this.begin();
    const by = isByMap ? this.maps.find(({ name }) => name === this.map)?.text : undefined;
    const proposal = await this.table.ask(
      { step: "propose", answers: this.answers, maps: [], ...(by === undefined ? {} : { by }) },
      token,
    );
    if (proposal === undefined) return;
    if (proposal.is === "proposal") {
      if (isByMap) this.answers = { ...proposal.answers };
      this.show(proposal);
      return;
    }
    const why = proposal.is === "refused" ? proposal.why : "";
    if (this.form === undefined) return this.refuse(proposal);
    // The page keeps what there was to decide: an answer can be taken back.
    this.mapping = null;
    const decisions = this.form.decisions.map((each) =>
      each.id === changed ? { ...each, value: this.answers[changed] } : each,
    );
    this.form = { ...this.form, decisions, isSettled: false, problem: why };
    this.tell({ say: "form", form: this.form });
  }

  private show(proposal: ImportProposal): void {
    const { rows, said, columns, reasons, decisions, preview, mapping } = proposal;
    this.mapping = mapping;
    this.lastCounts = undefined;
    this.form = {
      name: this.table.name,
      rows,
      said,
      columns: [...columns.map((each) => ({ ...each, samples: [...each.samples] }))],
      reasons: [...reasons],
      decisions: [...decisions],
      preview: [...preview],
      isSettled: mapping !== null,
      maps: this.maps.map(({ name }) => name),
      map: this.map,
      problem: "",
    };
    this.tell({ say: "form", form: this.form });
    if (mapping !== null) void this.count(mapping);
  }

  private async count(mapping: string): Promise<void> {
    const token = this.begin();
    const counted = await this.table.ask({ step: "count", mapping }, token, (percent) =>
      this.tellCounts({ say: "counts", percent, counts: null }),
    );
    if (counted?.is === "counts") {
      const files = counted.files.map(({ uri, isNew, lines }) => ({
        name: nameOf(this.services.client.protocol2CodeConverter.asUri(uri)),
        isNew,
        lines,
      }));
      this.tellCounts({
        say: "counts",
        percent: 100,
        counts: { rows: counted.rows, files, rejects: [...counted.rejects] },
      });
    } else if (counted?.is === "refused" && this.form !== undefined) {
      this.mapping = null;
      this.form = { ...this.form, isSettled: false, problem: counted.why };
      this.tell({ say: "form", form: this.form });
    }
  }

  private hear(raw: unknown): void {
    const heard = toHostShape.safeParse(raw);
    if (heard.success) void this.answer(heard.data);
    else this.services.log.warn("the page of an import said what nobody understands");
  }

  private async answer(message: ToHost): Promise<void> {
    switch (message.say) {
      case "ready":
        this.tell(this.last);
        if (this.lastCounts !== undefined) this.tell(this.lastCounts, false);
        return;
      case "answer": {
        const { [message.id]: _, ...others } = this.answers;
        this.answers = message.value === "" ? others : { ...others, [message.id]: message.value };
        // What is edited is no longer the mapping that was kept.
        this.map = "";
        await this.propose(false, message.id);
        return;
      }
      case "map":
        this.map = message.name;
        this.answers = {};
        await this.propose(message.name !== "");
        return;
      case "import":
        await this.write();
        return;
      case "close":
        this.panel.dispose();
        return;
      case "again":
        this.written = undefined;
        await this.start();
        return;
      default:
        await this.afterwards(message.say);
    }
  }

  /** What is done with an import that was made. */
  private async afterwards(say: "keep" | "rejects" | "save" | "show" | "back"): Promise<void> {
    const { written } = this;
    if (written === undefined) return;
    switch (say) {
      case "rejects":
        return written.showRejects();
      case "show":
        return written.show();
      case "keep":
        await written.keep();
        break;
      case "save":
        await written.save();
        break;
      case "back":
        if (await written.takeBack()) {
          this.written = undefined;
          this.form = undefined;
          this.tell({ say: "back", name: this.table.name });
          return;
        }
    }
    this.tell({ say: "done", done: written.done });
  }

  /** Writes what is settled, as the log is by now. */
  private async write(): Promise<void> {
    const { mapping, form } = this;
    if (mapping === null || form === undefined || this.isWriting) return;
    this.isWriting = true;
    try {
      await this.writeBy(mapping, form);
    } finally {
      this.isWriting = false;
    }
  }

  private async writeBy(mapping: string, form: Form): Promise<void> {
    const token = this.begin();
    const what = vscode.l10n.t("Importing {0}", this.table.name);
    const step = (percent: number): void => this.tell({ say: "working", what, percent });
    step(0);
    const written = await writeTable(this.services, this.table, mapping, token, step);
    if (written === undefined) return;
    if (!(written instanceof Written)) return this.refuse({ is: "", why: written.why });
    // A mapping that lies there already need not be kept again.
    if (form.map === "") written.offerKeep();
    this.written = written;
    this.tell({ say: "done", done: written.done });
  }

  private tellCounts(message: ToPage): void {
    this.lastCounts = message;
    this.tell(message, false);
  }

  /** @param isLast it is said again to a page that comes back */
  private tell(message: ToPage, isLast = true): void {
    if (isLast) this.last = message;
    void this.panel.webview.postMessage(message);
  }
}
