import { type ExtensionContext, Uri, workspace } from "vscode";
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from "vscode-languageclient/browser";
import { start, stop } from "./start.ts";
import { startWorker } from "./worker.ts";

export function activate(context: ExtensionContext): void {
  start(context, ({ extensionUri }, options, log) => {
    const script = Uri.joinPath(extensionUri, "server-browser.js");
    // The editor's own stand-in for a worker is none by its class, which is what the client would look at.
    let worker: Worker | undefined;
    const connect = async () => {
      // A server that was stopped does not end by itself here.
      worker?.terminate();
      const read = async () => workspace.fs.readFile(script);
      worker = await startWorker(script.toString(true), read, (words) => log.info(words));
      return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
    };
    return new LanguageClient("standpipe", "Standpipe", connect, options);
  });
}

export function deactivate(): Promise<void> {
  return stop();
}
