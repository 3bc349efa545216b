import type { ExtensionContext } from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import { start, stop } from "./start.ts";

export function activate(context: ExtensionContext): void {
  start(context, (_, options) => {
    // The extension itself always stands on this machine's disk, whatever the workspace stands on.
    const module = context.asAbsolutePath("server-node.cjs");
    return new LanguageClient("standpipe", "Standpipe", { module, transport: TransportKind.ipc }, options);
  });
}

export function deactivate(): Promise<void> {
  return stop();
}
