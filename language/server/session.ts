import {
  type CancellationToken,
  type Connection,
  LSPErrorCodes,
  ResponseError,
  type ResultProgressReporter,
  type TextDocumentIdentifier,
} from "vscode-languageserver";
import type { TextDocument } from "vscode-languageserver-textdocument";
import type { View } from "../features/view.ts";
import type { Client } from "./client.ts";
import type { NotificationName, RequestName } from "./protocol.ts";
import { defaultSettings, type Settings } from "./settings.ts";
import { Workspace } from "./workspace.ts";

/** A file as a handler sees it. */
export interface Looked {
  readonly uri: string;
  readonly view: View;
  readonly document: TextDocument;
}

type Answer<Params, Result> = (
  params: Params,
  token: CancellationToken,
  progress?: ResultProgressReporter<never>,
) => Result | Promise<Result>;

/** What all handlers share: the connection, what the client can, the files, the settings. */
export class Session {
  readonly connection: Connection;
  readonly workspace = new Workspace();
  client: Client;
  settings: Settings = defaultSettings;
  private loaded: Promise<void>;
  private setLoaded: () => void = () => {};

  constructor(connection: Connection, client: Client) {
    this.connection = connection;
    this.client = client;
    this.loaded = new Promise((resolve) => {
      this.setLoaded = resolve;
    });
  }

  /** The files are there: answers that waited are given. */
  openUp(): void {
    this.setLoaded();
  }

  whenLoaded(): Promise<void> {
    return this.loaded;
  }

  look(uri: string): Looked | undefined {
    const view = this.workspace.view(uri);
    const document = this.workspace.document(uri);
    return view === undefined || document === undefined ? undefined : { uri, view, document };
  }

  /**
   * Makes a handler of an answer. Waits until the files are there; gives nothing to who has cancelled or whose document is another by then;
   * a failure is told in the log and answered with `nothing`, and never crosses the wire.
   */
  handler<Params, Result>(what: string, nothing: Result, answer: Answer<Params, Result>) {
    return async (
      params: Params,
      token: CancellationToken,
      _work?: unknown,
      progress?: ResultProgressReporter<never>,
    ): Promise<Result | ResponseError<never>> => {
      const uri = documentOf(params);
      const version = uri === undefined ? undefined : this.workspace.files.get(uri)?.version;
      await this.loaded;
      if (token.isCancellationRequested) return cancelled();
      if (uri !== undefined && version !== this.workspace.files.get(uri)?.version) return outdated();
      try {
        return await answer(params, token, progress);
      } catch (error) {
        if (error instanceof ResponseError) return error as ResponseError<never>;
        this.complain(what, error);
        return nothing;
      }
    };
  }

  /** A handler of what concerns one file; `nothing` where the file is not known. */
  fileHandler<Params extends { readonly textDocument: TextDocumentIdentifier }, Result>(
    what: string,
    nothing: Result,
    answer: (file: Looked, params: Params, token: CancellationToken) => Result | Promise<Result>,
  ) {
    return this.handler<Params, Result>(what, nothing, (params, token) => {
      const file = this.look(params.textDocument.uri);
      return file === undefined ? nothing : answer(file, params, token);
    });
  }

  /** A handler that adds to what it is given; what it cannot add to it gives back. */
  resolver<Item>(what: string, resolve: (item: Item) => Item) {
    return async (item: Item): Promise<Item> => {
      await this.loaded;
      try {
        return resolve(item);
      } catch (error) {
        this.complain(what, error);
        return item;
      }
    };
  }

  /** Runs what answers nobody; a failure is told in the log. */
  attempt(what: string, work: () => void | Promise<void>): void {
    try {
      Promise.resolve(work()).catch((error) => this.complain(what, error));
    } catch (error) {
      this.complain(what, error);
    }
  }

  ask<Params, Result>(name: RequestName<Params, Result>, params: Params): Promise<Result> {
    return this.connection.sendRequest<Result>(name.method, params);
  }

  tell<Params>(name: NotificationName<Params>, params: Params): void {
    this.attempt(name.method, () => this.connection.sendNotification(name.method, params));
  }

  complain(what: string, error: unknown): void {
    const words = error instanceof Error ? (error.stack ?? error.message) : String(error);
    this.connection.console.error(`${what}: ${words}`);
  }
}

export function cancelled(): ResponseError<never> {
  return new ResponseError(LSPErrorCodes.RequestCancelled, "cancelled");
}

export function outdated(): ResponseError<never> {
  return new ResponseError(LSPErrorCodes.ContentModified, "the document was changed in the meantime");
}

function documentOf(params: unknown): string | undefined {
  const { textDocument } = (params ?? {}) as { textDocument?: TextDocumentIdentifier };
  return textDocument?.uri;
}
