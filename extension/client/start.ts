import * as vscode from "vscode";
import type { BaseLanguageClient, LanguageClientOptions } from "vscode-languageclient";
import {
  type ClientOptions,
  changedNotification,
  type NotificationName,
  type RequestName,
} from "../../language/server/protocol.ts";
import { board } from "./board.ts";
import { casebook } from "./casebook.ts";
import { cases } from "./commands/cases.ts";
import { duties } from "./commands/duties.ts";
import { exportLog } from "./commands/export-log.ts";
import { findingPages, pageAddress } from "./commands/finding-pages.ts";
import { importTable } from "./commands/import-table.ts";
import { laboratory } from "./commands/laboratory.ts";
import { newLogbook } from "./commands/new-logbook.ts";
import { places } from "./commands/places.ts";
import { why } from "./commands/why.ts";
import { work } from "./commands/work.ts";
import { writeDay } from "./commands/write-day.ts";
import { handleCrashes, notice } from "./crashes.ts";
import { answerForFiles, createWatcher, isLog, watchFolders } from "./files.ts";
import { grid } from "./grid.ts";
import { followTyping, hintsMiddleware } from "./hints.ts";
import { preview } from "./preview.ts";
import { review } from "./review/review.ts";
import type { RunGit } from "./run-git.ts";
import type { Part, Services } from "./services.ts";
import { status } from "./status.ts";
import { followTheDay, today } from "./today.ts";

const parts: readonly Part[] = [
  followTheDay,
  watchFolders,
  followTyping,
  status,
  writeDay,
  duties,
  why,
  work,
  laboratory,
  exportLog,
  importTable,
  findingPages,
  newLogbook,
  places,
  preview,
  board,
  grid,
  casebook,
  cases,
  review,
];

/** Makes the client of one platform: a process or a worker. */
export type MakeClient = (
  context: vscode.ExtensionContext,
  options: LanguageClientOptions,
  log: vscode.LogOutputChannel,
) => BaseLanguageClient;

let running: BaseLanguageClient | undefined;

/** Puts everything up and lets the server start by itself: nothing here waits for it. */
export function start(context: vscode.ExtensionContext, makeClient: MakeClient, runGit?: RunGit): void {
  const log = vscode.window.createOutputChannel("Standpipe", { log: true });
  const watcher = createWatcher();
  const client = makeClient(context, optionsFor(log, watcher), log);
  running = client;
  const changed = new vscode.EventEmitter<void>();
  let setUp = () => {};
  const up = new Promise<void>((resolve) => {
    setUp = resolve;
  });
  const startServer = async () => {
    try {
      await client.start();
      setUp();
    } catch (error) {
      log.error(`the server did not start: ${error}`);
      void notice(vscode.l10n.t("The server of Standpipe did not start."));
    }
  };
  const services: Services = {
    context,
    client,
    log,
    onChanged: changed.event,
    ...(runGit === undefined ? {} : { runGit }),
    async ask<Params, Result>(
      name: RequestName<Params, Result>,
      params: Params,
      token?: vscode.CancellationToken,
    ) {
      try {
        await up;
        // A token that is undefined would be sent as a second parameter.
        return await (token === undefined
          ? client.sendRequest<Result>(name.method, params)
          : client.sendRequest<Result>(name.method, params, token));
      } catch (error) {
        if (!token?.isCancellationRequested) log.warn(`${name.method}: ${error}`);
        return undefined;
      }
    },
    tell<Params>(name: NotificationName<Params>, params: Params) {
      if (!client.isRunning()) return;
      client.sendNotification(name.method, params).catch((error) => log.warn(`${name.method}: ${error}`));
    },
  };
  context.subscriptions.push(
    log,
    watcher,
    changed,
    answerForFiles(client),
    client.onNotification(changedNotification.method, () => changed.fire()),
    vscode.commands.registerCommand("standpipe.log.show", () => log.show()),
    vscode.commands.registerCommand("standpipe.server.restart", async () => {
      if (client.isRunning()) await client.stop();
      await startServer();
    }),
    ...parts.map((part) => part(services)),
    new vscode.Disposable(
      () => void vscode.commands.executeCommand("setContext", "standpipe.active", undefined),
    ),
  );
  void vscode.commands.executeCommand("setContext", "standpipe.active", true);
  void startServer();
}

export async function stop(): Promise<void> {
  if (running?.isRunning()) await running.stop();
  running = undefined;
}

function optionsFor(log: vscode.LogOutputChannel, watcher: vscode.FileSystemWatcher): LanguageClientOptions {
  return {
    documentSelector: [{ language: "standpipe" }],
    outputChannel: log,
    // Made anew at each start: the day may be another by then.
    initializationOptions: (): ClientOptions => ({
      givesFiles: true,
      today: today(),
      pageAddress,
      commands: [
        "standpipe.card.show",
        "standpipe.duties.show",
        "standpipe.places.show",
        "editor.action.triggerSuggest",
      ],
    }),
    synchronize: { fileEvents: watcher },
    errorHandler: handleCrashes(log),
    initializationFailedHandler: () => false,
    diagnosticPullOptions: { onChange: true },
    middleware: {
      ...hintsMiddleware,
      didOpen: (document, next) => (isLog(document) ? next(document) : Promise.resolve()),
      didChange: (event, next) => (isLog(event.document) ? next(event) : Promise.resolve()),
      didClose: (document, next) => (isLog(document) ? next(document) : Promise.resolve()),
    },
  };
}
