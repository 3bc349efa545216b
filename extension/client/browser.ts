import { type ExtensionContext, Uri } from "vscode";
import { LanguageClient } from "vscode-languageclient/browser";
import { start, stop } from "./start.ts";
import { startWorker } from "./worker.ts";

export function activate(context: ExtensionContext): void {
  start(context, ({ extensionUri }, options, log) => {
    const script = Uri.joinPath(extensionUri, "server-browser.js");
    return new LanguageClient("standpipe", "Standpipe", () => startWorker(script, log), options);
  });
}

export function deactivate(): Promise<void> {
  return stop();
}
