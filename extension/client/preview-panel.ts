import * as vscode from "vscode";
import {
  type CardOfParams,
  cardOfRequest,
  cardRequest,
  type FilePlace,
} from "../../language/server/protocol.ts";
import {
  type Memory,
  type Subject,
  type ToHost,
  type ToPreview,
  toHostShape,
} from "../views/preview/messages.ts";
import type { Card } from "../views/preview/shown.ts";
import { pickTank } from "./pick-tank.ts";
import { filesIn, logEditor, revealBeside } from "./places.ts";
import type { Services } from "./services.ts";
import { pageOptions, webviewPage } from "./webview-page.ts";

export const panelType = "standpipe.preview";

/** The cursor rests so long before the preview follows it. */
const restMs = 120;

/** One panel: what it is about, asked of the server, and sent to its page. */
export class PreviewPanel {
  readonly panel: vscode.WebviewPanel;
  private readonly services: Services;
  private subject: Subject | undefined;
  private pinned: boolean;
  private card: Card | undefined;
  /** Files that the card leads to: the page can ask for no other. */
  private files: ReadonlySet<string> = new Set();
  /** Where the preview itself led the cursor: that is no reason to show something else. */
  private led: Subject | undefined;
  private asked: vscode.CancellationTokenSource | undefined;
  private resting: ReturnType<typeof setTimeout> | undefined;

  constructor(services: Services, panel: vscode.WebviewPanel, memory: Memory) {
    this.services = services;
    this.panel = panel;
    this.pinned = memory.isPinned;
    this.subject = memory.subject;
    if (!this.pinned) this.subject = this.cursor() ?? this.subject;
    const extension = services.context.extensionUri;
    panel.iconPath = {
      light: vscode.Uri.joinPath(extension, "media", "file-light.svg"),
      dark: vscode.Uri.joinPath(extension, "media", "file-dark.svg"),
    };
    const listeners = [
      panel.webview.onDidReceiveMessage((message) => this.hear(message)),
      panel.onDidChangeViewState(() => this.panel.visible && this.ask()),
      services.onChanged(() => this.ask()),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => this.follow(textEditor)),
      vscode.window.onDidChangeActiveTextEditor((editor) => this.follow(editor)),
    ];
    panel.onDidDispose(() => {
      clearTimeout(this.resting);
      this.asked?.cancel();
      for (const each of listeners) each.dispose();
    });
    panel.webview.options = pageOptions(extension);
    panel.webview.html = webviewPage(panel.webview, extension, "preview", "Preview");
  }

  isAbout(uri: string, name: string): boolean {
    return this.subject?.uri === uri && this.card?.is === "case" && this.card.name === name;
  }

  get isPinned(): boolean {
    return this.pinned;
  }

  /** Stays with what is shown, or follows the cursor again. */
  pin(isPinned = !this.pinned): void {
    const { card, subject } = this;
    if (isPinned && card !== undefined && subject !== undefined) this.subject = byName(subject.uri, card);
    this.pinned = isPinned;
    if (!isPinned) this.subject = this.cursor() ?? this.subject;
    this.ask();
  }

  /** Another tank, chosen from a list; it stays. */
  async pick(): Promise<void> {
    const uri = this.subject?.uri;
    if (uri === undefined) return;
    const chosen = await pickTank(this.services, uri, {
      shown: this.card?.is === "tank" ? this.card.name : "",
      mark: vscode.l10n.t("shown now"),
      title: vscode.l10n.t("Preview"),
      placeHolder: vscode.l10n.t("A tank or system to stay with"),
    });
    if (chosen === undefined) return;
    this.pinned = true;
    this.show({ uri, tank: chosen });
    this.panel.reveal(undefined, false);
  }

  /** A case, chosen elsewhere; it stays. */
  stayWith(subject: Subject): void {
    this.pinned = true;
    this.show(subject);
  }

  private show(subject: Subject): void {
    this.subject = subject;
    this.ask();
  }

  private follow(editor: vscode.TextEditor | undefined): void {
    if (this.pinned || editor?.document.languageId !== "standpipe") return;
    clearTimeout(this.resting);
    this.resting = setTimeout(() => {
      const at = this.cursor(editor);
      if (this.pinned || at === undefined || isSameLine(at, this.led)) return;
      this.led = undefined;
      this.show(at);
    }, restMs);
  }

  private cursor(editor = logEditor()): Subject | undefined {
    if (editor?.document.languageId !== "standpipe") return undefined;
    const { line, character } = editor.selection.active;
    return {
      uri: this.services.client.code2ProtocolConverter.asUri(editor.document.uri),
      cursor: { line, character },
    };
  }

  /** Asks the server for the card, and sends it. A later question makes an earlier one void. */
  private async ask(): Promise<void> {
    this.asked?.cancel();
    const { subject } = this;
    if (!this.panel.visible) return;
    if (subject === undefined) return this.send({ say: "nothing", isPinned: this.pinned });
    const asked = new vscode.CancellationTokenSource();
    this.asked = asked;
    const card = await this.fetch(subject, asked.token);
    if (asked.token.isCancellationRequested) return;
    if (card === undefined)
      return this.send({
        say: "failed",
        why: vscode.l10n.t("The server did not answer; its log says more."),
      });
    if (card === null) return this.send({ say: "nothing", isPinned: this.pinned });
    this.card = card;
    this.files = filesIn(card);
    this.panel.title = titleOf(card);
    this.send({ say: "card", card, subject, isPinned: this.pinned });
  }

  private fetch(subject: Subject, token: vscode.CancellationToken): Promise<Card | null | undefined> {
    const { uri, cursor, tank, day, case: name, episode } = subject;
    if (cursor !== undefined) return this.services.ask(cardRequest, { uri, position: cursor }, token);
    const params: CardOfParams = {
      uri,
      ...(tank === undefined ? {} : { tank }),
      ...(day === undefined ? {} : { day }),
      ...(name === undefined ? {} : { case: name }),
      ...(episode === undefined ? {} : { episode }),
    };
    return this.services.ask(cardOfRequest, params, token);
  }

  private hear(raw: unknown): void {
    const heard = toHostShape.safeParse(raw);
    if (!heard.success) {
      this.services.log.warn("the preview said what nobody understands");
      return;
    }
    this.answer(heard.data);
  }

  private answer(message: ToHost): void {
    const uri = this.subject?.uri;
    switch (message.say) {
      case "ready":
      case "again":
        void this.ask();
        return;
      case "reveal":
        void this.reveal(message.at);
        return;
      case "pick":
        void this.pick();
        return;
      case "pin":
        this.pin(message.isPinned);
        return;
      case "tank":
        if (uri !== undefined) this.show({ uri, tank: message.name });
        return;
      case "day":
        if (uri !== undefined) this.show({ uri, day: message.day });
        return;
      case "case":
        if (uri !== undefined) this.show({ uri, case: message.name, episode: message.episode });
    }
  }

  /** Leads to a line of the log; not, at the page's word, to any other file. */
  private async reveal(place: FilePlace): Promise<void> {
    if (!this.files.has(place.uri)) return;
    this.led = { uri: place.uri, cursor: place.range.end };
    await revealBeside(this.services, place);
  }

  private send(message: ToPreview): void {
    void this.panel.webview.postMessage(message);
  }
}

function titleOf(card: Card): string {
  return card.is === "day"
    ? vscode.l10n.t("Preview {0}", new Date(card.day * 86_400_000).toISOString().slice(0, 10))
    : vscode.l10n.t("Preview {0}", card.name);
}

function isSameLine(a: Subject, b: Subject | undefined): boolean {
  return a.uri === b?.uri && a.cursor?.line === b.cursor?.line;
}

/** What a card is about, by name: a line may move, a tank keeps its name. */
function byName(uri: string, card: Card): Subject {
  switch (card.is) {
    case "tank":
      return { uri, tank: card.name };
    case "case":
      return { uri, case: card.name, episode: card.episode };
    case "day":
      return { uri, day: card.day };
  }
}
