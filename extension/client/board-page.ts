import * as vscode from "vscode";
import { boardRequest } from "../../language/server/protocol.ts";
import { type ToBoard, type ToHost, toHostShape } from "../views/board/messages.ts";
import type { Card } from "../views/board/shown.ts";
import type { BoardLines, TakenBack } from "./board-lines.ts";
import { write } from "./commands/write-day.ts";
import { filesIn, logEditor, revealBeside } from "./places.ts";
import { caseCommand, tankCommand } from "./preview.ts";
import type { Services } from "./services.ts";
import { pageOptions, webviewPage } from "./webview-page.ts";

/** What a page of the board is given. */
export interface Board {
  readonly services: Services;
  readonly lines: BoardLines;
  /** A page was used: commands are about it. */
  used(page: BoardPage, marks: number): void;
}

/** Where a page stands: the view in the side bar, or an editor. */
export interface BoardPlace {
  readonly webview: vscode.Webview;
  readonly visible: boolean;
  readonly is: "side" | "editor";
}

/** One page of the board, in the side bar or as an editor: its card, asked of the server, and what it asks for. */
export class BoardPage implements vscode.Disposable {
  private readonly board: Board;
  private readonly place: BoardPlace;
  /** A file of the logbook that is shown. */
  private uri: string | undefined;
  private marks = 0;
  /** Files that the card leads to: the page can ask for no other. */
  private files: ReadonlySet<string> = new Set();
  private asked: vscode.CancellationTokenSource | undefined;
  private readonly listeners: readonly vscode.Disposable[];

  constructor(board: Board, place: BoardPlace) {
    this.board = board;
    this.place = place;
    const { webview } = place;
    const extension = board.services.context.extensionUri;
    this.listeners = [
      webview.onDidReceiveMessage((message) => this.hear(message)),
      board.services.onChanged(() => this.ask()),
      board.lines.onChanged(() => this.ask()),
      vscode.window.onDidChangeActiveTextEditor((editor) => this.follow(editor)),
    ];
    webview.options = pageOptions(extension);
    webview.html = webviewPage(webview, extension, "board", "Board", place.is);
  }

  dispose(): void {
    this.asked?.cancel();
    for (const each of this.listeners) each.dispose();
  }

  press(pressed: "log" | "takeBack"): void {
    this.send({ say: "press", pressed });
  }

  /** Another log came to the front: its logbook may be another. */
  private follow(editor: vscode.TextEditor | undefined): void {
    if (editor?.document.languageId !== "standpipe") return;
    const uri = this.board.services.client.code2ProtocolConverter.asUri(editor.document.uri);
    if (uri === this.uri) return;
    this.uri = uri;
    void this.ask();
  }

  private async findLog(): Promise<string | undefined> {
    const file =
      logEditor()?.document.uri ?? (await vscode.workspace.findFiles("**/*.tank", undefined, 1))[0];
    return file === undefined ? undefined : this.board.services.client.code2ProtocolConverter.asUri(file);
  }

  /** Asks the server for the card, and sends it. A later question makes an earlier one void. */
  async ask(): Promise<void> {
    this.asked?.cancel();
    if (!this.place.visible) return;
    const asked = new vscode.CancellationTokenSource();
    this.asked = asked;
    const { services, lines } = this.board;
    const { edition } = lines;
    this.uri ??= await this.findLog();
    if (asked.token.isCancellationRequested) return;
    const { uri } = this;
    if (uri === undefined) return this.send({ say: "nothing" });
    const card = await services.ask(boardRequest, { uri }, asked.token);
    if (asked.token.isCancellationRequested) return;
    if (card === undefined)
      return this.send({
        say: "failed",
        why: vscode.l10n.t("The server did not answer; its log says more."),
      });
    if (card === null) {
      this.uri = undefined;
      return this.send({ say: "nothing" });
    }
    this.files = filesIn(card);
    this.send({ say: "card", card: card as Card, uri, edition, back: lines.back });
  }

  private hear(raw: unknown): void {
    const heard = toHostShape.safeParse(raw);
    if (!heard.success) {
      this.board.services.log.warn("the board said what nobody understands");
      return;
    }
    void this.answer(heard.data);
  }

  private async answer(message: ToHost): Promise<void> {
    const { services, lines } = this.board;
    const { uri } = this;
    switch (message.say) {
      case "ready":
        // The log at hand goes before the one of last time.
        this.uri = logEditor() === undefined ? (message.uri ?? uri) : await this.findLog();
        await this.ask();
        return;
      case "again":
        await this.ask();
        return;
      case "marked":
        this.marks = message.marks;
        this.board.used(this, this.marks);
        return;
      case "log": {
        const { ask } = message;
        const logged =
          uri === undefined
            ? { is: "refused" as const, reasons: [], why: vscode.l10n.t("There is no logbook here.") }
            : await lines.log(uri, message.lines);
        this.board.used(this, this.marks);
        if (logged.is === "refused")
          this.send({ say: "refused", ask, reasons: [...logged.reasons], why: logged.why });
        else
          this.send({
            say: "logged",
            ask,
            lines: [...logged.lines],
            edition: lines.edition,
            back: lines.back,
          });
        return;
      }
      case "takeBack":
        this.tookBack(await lines.takeBack());
        return;
      case "edit":
        await write(services, "entry", snippetOf(message.pieces), uri);
        return;
      case "write":
        await write(services, message.what, undefined, uri);
        return;
      case "reveal":
        if (this.files.has(message.at.uri)) await revealBeside(services, message.at);
        return;
      case "show": {
        const { about } = message;
        if (uri === undefined) return;
        if ("tank" in about) await vscode.commands.executeCommand(tankCommand, uri, about.tank);
        else await vscode.commands.executeCommand(caseCommand, uri, about.case, about.episode);
        return;
      }
      case "leave":
        if (this.place.is === "side")
          await vscode.commands.executeCommand("workbench.action.focusActiveEditorGroup");
        return;
      case "new":
        await vscode.commands.executeCommand("standpipe.logbook.new");
    }
  }

  tookBack(taken: TakenBack | string | undefined): void {
    if (taken === undefined) return;
    if (typeof taken === "string") this.send({ say: "refused", ask: 0, reasons: [], why: taken });
    else
      this.send({
        say: "takenBack",
        keys: [...taken.keys],
        lines: [...taken.lines],
        left: [...taken.left],
        back: this.board.lines.back,
      });
  }

  private send(message: ToBoard): void {
    void this.place.webview.postMessage(message);
  }
}

/** A line with a place to fill in between each two of its pieces. */
function snippetOf(pieces: readonly string[]): string {
  const snippet = new vscode.SnippetString();
  pieces.forEach((piece, at) => {
    if (at > 0) snippet.appendTabstop(at);
    snippet.appendText(piece);
  });
  return snippet.value;
}
