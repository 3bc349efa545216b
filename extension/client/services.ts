import type * as vscode from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import type { NotificationName, RequestName } from "../../language/server/protocol.ts";
import type { RunGit } from "./run-git.ts";

/** What the parts of the extension are given. */
export interface Services {
  readonly context: vscode.ExtensionContext;
  readonly client: BaseLanguageClient;
  readonly log: vscode.LogOutputChannel;
  /** Fires some time after a change: what was asked of the server may be otherwise now. */
  readonly onChanged: vscode.Event<void>;
  /** Asks the server, once it is up. A failure is told in the log and gives undefined. */
  ask<Params, Result>(
    name: RequestName<Params, Result>,
    params: Params,
    token?: vscode.CancellationToken,
  ): Promise<Result | undefined>;
  /** The `git` command, where the extension runs beside one. */
  readonly runGit?: RunGit;
  tell<Params>(name: NotificationName<Params>, params: Params): void;
}

/** A part of the extension: puts its commands, views and listeners up, and gives what takes them down. */
export type Part = (services: Services) => vscode.Disposable;
