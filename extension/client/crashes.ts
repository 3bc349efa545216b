import * as vscode from "vscode";
import { CloseAction, type CloseHandlerResult, ErrorAction, type ErrorHandler } from "vscode-languageclient";

const mostCrashes = 4;
const withinMs = 3 * 60_000;

/** Starts a server again that has ended by itself; one that keeps ending is left, with one notice that can start it again. */
export function handleCrashes(log: vscode.LogOutputChannel): ErrorHandler {
  let crashes: number[] = [];
  return {
    error: (_error, _message, count) => ({
      action: (count ?? 0) <= 3 ? ErrorAction.Continue : ErrorAction.Shutdown,
      handled: true,
    }),
    closed: (): CloseHandlerResult => {
      const now = Date.now();
      crashes = [...crashes.filter((at) => now - at < withinMs), now];
      if (crashes.length <= mostCrashes) {
        log.warn(`the server ended by itself and is started again (${crashes.length} of ${mostCrashes})`);
        return { action: CloseAction.Restart, handled: true };
      }
      crashes = [];
      void notice(
        vscode.l10n.t("The server of Standpipe has ended several times in a row and was not started again."),
      );
      return { action: CloseAction.DoNotRestart, handled: true };
    },
  };
}

/** One notice, with what can be done about it. */
export async function notice(words: string): Promise<void> {
  const restart = vscode.l10n.t("Restart Server");
  const show = vscode.l10n.t("Show Log");
  const chosen = await vscode.window.showErrorMessage(words, restart, show);
  if (chosen === restart) await vscode.commands.executeCommand("standpipe.server.restart");
  if (chosen === show) await vscode.commands.executeCommand("standpipe.log.show");
}
