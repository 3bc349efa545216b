import * as vscode from "vscode";
import * as z from "zod/mini";
import { statusRequest } from "../../language/server/protocol.ts";
import { BoardLines } from "./board-lines.ts";
import { type Board, BoardPage, type BoardPlace } from "./board-page.ts";
import { logEditor, logUri } from "./places.ts";
import type { Part, Services } from "./services.ts";
import { pageOptions } from "./webview-page.ts";

/** The board of the day: a view in the side bar, and the same as an editor. */

export const boardView = "standpipe.board";
/** Writes lines into today, as the board does. */
const linesCommand = "standpipe.board.lines";
const linesShape = z.object({
  lines: z.array(z.string()),
  /** A file of the logbook that is meant; without it the one that the keeper is at. */
  uri: z.optional(z.string()),
});
const panelType = "standpipe.board";
const backContext = "standpipe.board.canTakeBack";
const marksContext = "standpipe.board.marked";

export const board: Part = (services) => {
  const lines = new BoardLines(services);
  const pages = new Set<BoardPage>();
  let used: BoardPage | undefined;
  const shared: Board = {
    services,
    lines,
    used(page, marks) {
      used = page;
      setContext(marksContext, marks > 0);
    },
  };
  const open = (place: BoardPlace, onGone: vscode.Event<void>): BoardPage => {
    const page = new BoardPage(shared, place);
    pages.add(page);
    used ??= page;
    onGone(() => {
      page.dispose();
      pages.delete(page);
      if (used !== page) return;
      used = [...pages][0];
      setContext(marksContext, false);
    });
    return page;
  };
  let panel: vscode.WebviewPanel | undefined;
  const take = (made: vscode.WebviewPanel): void => {
    panel = made;
    const extension = services.context.extensionUri;
    made.iconPath = {
      light: vscode.Uri.joinPath(extension, "media", "file-light.svg"),
      dark: vscode.Uri.joinPath(extension, "media", "file-dark.svg"),
    };
    const page = open(
      {
        is: "editor",
        webview: made.webview,
        get visible() {
          return made.visible;
        },
      },
      made.onDidDispose,
    );
    made.onDidChangeViewState(() => made.visible && page.ask());
    made.onDidDispose(() => {
      if (panel === made) panel = undefined;
    });
  };
  let view: vscode.WebviewView | undefined;
  const count = badgeOf(services, () => view);
  const provider: vscode.WebviewViewProvider = {
    resolveWebviewView(resolved) {
      view = resolved;
      const page = open(
        {
          is: "side",
          webview: resolved.webview,
          get visible() {
            return resolved.visible;
          },
        },
        resolved.onDidDispose,
      );
      resolved.onDidChangeVisibility(() => resolved.visible && page.ask());
      resolved.onDidDispose(() => {
        view = undefined;
      });
      void count.update();
    },
  };
  setContext(backContext, false);
  setContext(marksContext, false);
  return vscode.Disposable.from(
    lines,
    count,
    vscode.window.registerWebviewViewProvider(boardView, provider),
    vscode.window.registerWebviewPanelSerializer(panelType, {
      async deserializeWebviewPanel(restored) {
        take(restored);
      },
    }),
    lines.onChanged(() => setContext(backContext, lines.back > 0)),
    vscode.commands.registerCommand("standpipe.board.open", () => {
      if (panel === undefined) take(makePanel(services));
      else panel.reveal();
    }),
    vscode.commands.registerCommand("standpipe.board.log", () => used?.press("log")),
    vscode.commands.registerCommand("standpipe.board.takeBack", async () => {
      const taken = await lines.takeBack();
      used?.tookBack(taken);
      return taken;
    }),
    // Not in the palette: for keys that a keeper binds to lines that are written every day.
    vscode.commands.registerCommand(linesCommand, async (asked: unknown) => {
      const known = linesShape.safeParse(asked);
      if (!known.success) throw new Error(`${linesCommand} takes { "lines": ["dam feed cyclops 2 cubes"] }`);
      const uri = known.data.uri ?? (await logUri(services));
      if (uri === undefined) return undefined;
      const written = known.data.lines.map((line) => ({ key: line, line }));
      const logged = await lines.log(uri, written);
      if (logged.is === "refused") {
        const reasons = logged.reasons.map(({ key, message }) => `${key}: ${message}`);
        void vscode.window.showWarningMessage([logged.why, ...reasons].filter(Boolean).join("\n"));
      }
      return logged;
    }),
    new vscode.Disposable(() => {
      panel?.dispose();
      setContext(backContext, undefined);
      setContext(marksContext, undefined);
    }),
  );
};

function setContext(name: string, value: boolean | undefined): void {
  void vscode.commands.executeCommand("setContext", name, value);
}

function makePanel({ context }: Services): vscode.WebviewPanel {
  return vscode.window.createWebviewPanel(
    panelType,
    vscode.l10n.t("Board"),
    { viewColumn: vscode.ViewColumn.Active },
    { ...pageOptions(context.extensionUri), enableFindWidget: true },
  );
}

/** The number of what is due or late at the view's title, unless a setting asks for quiet. */
function badgeOf(
  { ask, client, onChanged }: Services,
  view: () => vscode.WebviewView | undefined,
): vscode.Disposable & { update(): Promise<void> } {
  let shown = 0;
  let asked: vscode.CancellationTokenSource | undefined;
  const show = (due: number, late: number): void => {
    const at = view();
    const value = due + late;
    if (at === undefined || (value === shown && value === (at.badge?.value ?? 0))) return;
    shown = value;
    const tooltip =
      late > 0 ? vscode.l10n.t("{0} due, {1} late", value, late) : vscode.l10n.t("{0} due", value);
    at.badge = value === 0 ? undefined : { value, tooltip };
  };
  const update = async (): Promise<void> => {
    asked?.cancel();
    if (view() === undefined) return;
    const isWanted = vscode.workspace.getConfiguration("standpipe").get("board.badge", true);
    const file = logEditor()?.document.uri;
    if (!isWanted) return show(0, 0);
    if (file === undefined) return;
    asked = new vscode.CancellationTokenSource();
    const { token } = asked;
    const status = await ask(statusRequest, { uri: client.code2ProtocolConverter.asUri(file) }, token);
    if (token.isCancellationRequested) return;
    show(status?.due ?? 0, status?.late ?? 0);
  };
  const listeners = vscode.Disposable.from(
    onChanged(update),
    vscode.window.onDidChangeActiveTextEditor(update),
    vscode.workspace.onDidChangeConfiguration(
      (event) => event.affectsConfiguration("standpipe.board.badge") && update(),
    ),
  );
  return {
    update,
    dispose() {
      asked?.cancel();
      listeners.dispose();
    },
  };
}
