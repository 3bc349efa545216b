import type { ExtensionContext } from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import { runGit } from "./run-git.ts";
import { type MakeClient, start, stop } from "./start.ts";

export function activate(context: ExtensionContext): void {
  const makeClient: MakeClient = (_, options) => {
    // The extension itself always stands on this machine's disk, whatever the workspace stands on.
    const module = context.asAbsolutePath("server-node.cjs");
    return new LanguageClient("standpipe", "Standpipe", { module, transport: TransportKind.ipc }, options);
  };
  start(context, makeClient, runGit);
}

export function deactivate(): Promise<void> {
  return stop();
}
