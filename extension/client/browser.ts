import { type ExtensionContext, Uri } from "vscode";
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from "vscode-languageclient/browser";
import { start, stop } from "./start.ts";
import { startWorker } from "./worker.ts";

export function activate(context: ExtensionContext): void {
  start(context, ({ extensionUri }, options, log) => {
    const script = Uri.joinPath(extensionUri, "server-browser.js");
    // The editor's own stand-in for a worker is none by its class, which is what the client would look at.
    const connect = async () => {
      const worker = await startWorker(script, log);
      return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
    };
    return new LanguageClient("standpipe", "Standpipe", connect, options);
  });
}

export function deactivate(): Promise<void> {
  return stop();
}
