import * as vscode from "vscode";
import {
  type GridAbout,
  gridChartRequest,
  gridChoicesRequest,
  gridCompletionRequest,
  gridCopyRequest,
  gridFindRequest,
  gridPlaceRequest,
  gridRequest,
  gridSummaryRequest,
} from "../../language/server/grid-protocol.ts";
import {
  type CellRef,
  type Face,
  type Layout,
  type Press,
  type Question,
  type ToGrid,
  toHostShape,
} from "../views/grid/messages.ts";
import { isLog } from "./files.ts";
import { GridFixes } from "./grid-fixes.ts";
import { isReadOnly, noticeOf } from "./grid-limits.ts";
import type { GridProgress, Waiting } from "./grid-progress.ts";
import { writeChange } from "./grid-write.ts";
import { rangeOf } from "./places.ts";
import type { Services } from "./services.ts";
import { pageOptions, webviewPage } from "./webview-page.ts";

/** Column choice and widths of a workspace. */
export interface Layouts {
  all(): Readonly<Record<string, Layout>>;
  keep(key: string, layout: Layout): void;
}

/** One grid over one document: its page asks, the server answers, and what is changed is written into the document. */
export class GridEditor implements vscode.Disposable {
  readonly document: vscode.TextDocument;
  readonly panel: vscode.WebviewPanel;
  private readonly services: Services;
  private readonly layouts: Layouts;
  private readonly progress: GridProgress;
  private readonly fixes: GridFixes;
  private readonly listeners: readonly vscode.Disposable[];
  private readonly isReadOnly: boolean;
  private at: { readonly face: Face; readonly cell: CellRef } | undefined;
  /** Where the page is to begin: nobody else tells a custom editor. */
  private line: number | undefined;
  /** One change after the other: the second is made for what the first left. */
  private writing: Promise<unknown> = Promise.resolve();
  /** Changes that are waited for, by the question. */
  private readonly waiting = new Map<number, Waiting>();

  constructor(
    services: Services,
    layouts: Layouts,
    progress: GridProgress,
    document: vscode.TextDocument,
    panel: vscode.WebviewPanel,
    line: number | undefined,
  ) {
    this.services = services;
    this.layouts = layouts;
    this.progress = progress;
    this.document = document;
    this.panel = panel;
    this.line = line;
    this.isReadOnly = isReadOnly(document.uri);
    this.fixes = new GridFixes(services);
    const extension = services.context.extensionUri;
    this.listeners = [
      panel.webview.onDidReceiveMessage((message) => this.hear(message)),
      services.onChanged(() => this.stale()),
      vscode.workspace.onDidChangeTextDocument(({ document: { languageId }, contentChanges }) => {
        if (languageId === "standpipe" && contentChanges.length > 0) this.stale();
      }),
      panel.onDidChangeViewState(() => panel.visible && this.stale()),
    ];
    panel.webview.options = pageOptions(extension);
    panel.webview.html = webviewPage(panel.webview, extension, "grid", "Grid");
  }

  dispose(): void {
    for (const each of this.listeners) each.dispose();
  }

  press(press: Press, column?: string): void {
    this.send({ say: "press", press, ...(column === undefined ? {} : { column }) });
  }

  /** Goes to a line, from 0. */
  goTo(line: number): void {
    this.send({ say: "line", line });
  }

  /** The same place in the text. */
  async openAsText(): Promise<void> {
    const { at, services } = this;
    const place =
      at === undefined
        ? null
        : await services.ask(gridPlaceRequest, { ...this.about(at.face), cell: at.cell });
    const uri = place == null ? this.document.uri : services.client.protocol2CodeConverter.asUri(place.uri);
    const column = this.panel.viewColumn;
    await vscode.window.showTextDocument(uri, {
      preview: false,
      ...(column === undefined ? {} : { viewColumn: column }),
      ...(place == null ? {} : { selection: rangeOf(place.range) }),
    });
  }

  private get uri(): string {
    return this.services.client.code2ProtocolConverter.asUri(this.document.uri);
  }

  private about(face: Face): GridAbout {
    // A revision that the server is not told of goes with the question.
    const text = isLog(this.document) ? {} : { text: this.document.getText() };
    return { uri: this.uri, face, ...text };
  }

  private stale(): void {
    if (!this.panel.visible) return;
    const { document } = this;
    this.send({ say: "stale", version: document.version, notice: noticeOf(document, this.isReadOnly) });
  }

  private hear(raw: unknown): void {
    const heard = toHostShape.safeParse(raw);
    if (!heard.success) {
      this.services.log.warn("the grid said what nobody understands");
      return;
    }
    const message = heard.data;
    switch (message.say) {
      case "ready": {
        const { document, line } = this;
        // A page that comes again knows where it stood.
        this.line = undefined;
        const file = vscode.workspace.asRelativePath(document.uri, false);
        this.send({
          say: "hello",
          uri: this.uri,
          file,
          isReadOnly: this.isReadOnly,
          notice: noticeOf(document, this.isReadOnly),
          layouts: { ...this.layouts.all() },
          line: line ?? null,
        });
        return;
      }
      case "layout":
        this.layouts.keep(message.key, message.layout);
        return;
      case "at":
        this.at = message.cell === null ? undefined : { face: message.face, cell: message.cell };
        return;
      case "text":
        void this.openAsText();
        return;
      case "ask":
        void this.answer(message.ask, message.question);
        return;
      case "cancel":
        this.waiting.get(message.ask)?.cancel();
    }
  }

  private async answer(ask: number, question: Question): Promise<void> {
    try {
      const answer = await this.answerTo(ask, question);
      if (answer == null)
        this.send({
          say: "failed",
          ask,
          why:
            answer === null
              ? vscode.l10n.t("The server does not know this file. It has to end in .tank and be saved once.")
              : vscode.l10n.t("The server did not answer; its log says more."),
        });
      else this.send({ say: "answer", ask, answer });
    } catch (error) {
      this.services.log.error(`the grid: ${error}`);
      this.send({ say: "failed", ask, why: vscode.l10n.t("This failed; the log says more.") });
    }
  }

  private async answerTo(ask: number, question: Question): Promise<unknown> {
    const { services } = this;
    switch (question.is) {
      case "rows": {
        const { face, query, track, line } = question;
        return services.ask(gridRequest, {
          ...this.about(face),
          query,
          ...(track === undefined ? {} : { track }),
          ...(line === undefined ? {} : { place: { line, character: 0 } }),
        });
      }
      case "change": {
        if (this.isReadOnly) return { is: "refused", message: vscode.l10n.t("This file cannot be written.") };
        const { face, change } = question;
        const waiting = this.progress.begin((share) => this.send({ say: "progress", ask, share }));
        this.waiting.set(ask, waiting);
        const written = this.writing
          .then(() => writeChange(services, this.about(face), change, waiting))
          .finally(() => {
            this.waiting.delete(ask);
            waiting.end();
          });
        this.writing = written.catch(() => {});
        return written;
      }
      case "copy":
        return services.ask(gridCopyRequest, { ...this.about(question.face), over: question.over });
      case "summary":
        return services.ask(gridSummaryRequest, { ...this.about(question.face), over: question.over });
      case "chart":
        return services.ask(gridChartRequest, { ...this.about(question.face), over: question.over });
      case "find": {
        const { face, view, text, isCaseSensitive } = question;
        return services.ask(gridFindRequest, { ...this.about(face), view, text, isCaseSensitive });
      }
      case "complete": {
        const { face, column, typed, caret, row, fresh } = question;
        const of = row === undefined ? { fresh: fresh ?? {} } : { row };
        return services.ask(gridCompletionRequest, { ...this.about(face), column, typed, caret, of });
      }
      case "choices": {
        const { uri, text } = this.about({ is: "entries" });
        return services.ask(gridChoicesRequest, { uri, ...(text === undefined ? {} : { text }) });
      }
      case "fixes":
        return this.fixes.of(this.about(question.face), question.cell);
      case "fix":
        return this.fixes.make(question.number);
    }
  }

  private send(message: ToGrid): void {
    void this.panel.webview.postMessage(message);
  }
}
