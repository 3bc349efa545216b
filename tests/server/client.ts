import { PassThrough } from "node:stream";
import { createConnection } from "vscode-languageserver/node";
import {
  type ClientCapabilities,
  createProtocolConnection,
  type Diagnostic,
  type DocumentDiagnosticReport,
  type InitializeResult,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  type WorkspaceDiagnosticReport,
} from "vscode-languageserver-protocol/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import {
  type ClientOptions,
  filesRequest,
  type NotificationName,
  type RequestName,
  readRequest,
} from "../../language/server/protocol.ts";
import { serve } from "../../language/server/server.ts";
import { filesOf } from "../support/marked.ts";

/** A client of a real server, in one process over streams, with files in memory instead of a disk. */
export class TestClient {
  readonly connection: ProtocolConnection;
  /** What is stored, by URI. */
  readonly stored = new Map<string, string>();
  readonly published = new Map<string, PublishDiagnosticsParams>();
  /** Everything the server asked of the client, by method. */
  readonly asked: string[] = [];
  readonly logged: string[] = [];
  settings: unknown = {};
  private isSlow = false;
  private readonly documents = new Map<string, TextDocument>();

  private constructor() {
    const toServer = new PassThrough();
    const toClient = new PassThrough();
    serve(createConnection(toServer, toClient));
    this.connection = createProtocolConnection(toClient, toServer);
    const answer = <Params>(method: string, give: (params: Params) => unknown) =>
      this.connection.onRequest(method, (params: Params) => {
        this.asked.push(method);
        return give(params);
      });
    answer(filesRequest.method, () => [...this.stored.keys()]);
    answer(readRequest.method, async ({ uris }: { uris: string[] }) => {
      if (this.isSlow) await new Promise((resolve) => setTimeout(resolve, 20));
      return uris.map((uri) => this.stored.get(uri) ?? null);
    });
    answer("workspace/configuration", () => [this.settings]);
    for (const method of ["client/registerCapability", ...refreshes]) answer(method, () => null);
    this.connection.onNotification(
      "textDocument/publishDiagnostics",
      (published: PublishDiagnosticsParams) => {
        this.published.set(published.uri, published);
      },
    );
    this.connection.onNotification("window/logMessage", ({ message }: { message: string }) => {
      this.logged.push(message);
    });
    this.connection.listen();
  }

  /** A client of a workspace of these files: several in one text, parted by lines `--- name.tank ---`. */
  static async start(files: string, how: Partial<ClientStart> = {}): Promise<TestClient> {
    const client = new TestClient();
    for (const [name, text] of filesOf(files)) if (text.trim() !== "") client.stored.set(uriOf(name), text);
    client.settings = how.settings ?? {};
    client.isSlow = how.slow === true;
    how.prepare?.(client);
    const options: ClientOptions = {
      givesFiles: true,
      today: { day: how.today ?? "2026-03-08", isPinned: false },
      ...how.options,
    };
    client.capabilities = await client.connection.sendRequest<InitializeResult>("initialize", {
      processId: null,
      rootUri: null,
      capabilities: how.capabilities ?? pulling,
      initializationOptions: options,
    });
    await client.connection.sendNotification("initialized", {});
    return client;
  }
  capabilities: InitializeResult | undefined;

  async open(name: string, text?: string): Promise<void> {
    const uri = uriOf(name);
    const document = TextDocument.create(uri, "standpipe", 1, text ?? this.stored.get(uri) ?? "");
    this.documents.set(uri, document);
    await this.connection.sendNotification("textDocument/didOpen", {
      textDocument: { uri, languageId: "standpipe", version: 1, text: document.getText() },
    });
  }

  /** Replaces the first place where `before` stands in an open file. */
  async edit(name: string, before: string, after: string): Promise<void> {
    const document = this.documents.get(uriOf(name))!;
    const start = document.getText().indexOf(before);
    if (start < 0) throw new Error(`“${before}” is not in ${name}`);
    await this.replace(name, start, start + before.length, after);
  }

  async replace(name: string, start: number, end: number, text: string): Promise<void> {
    const uri = uriOf(name);
    const document = this.documents.get(uri)!;
    const change = { range: { start: document.positionAt(start), end: document.positionAt(end) }, text };
    const version = document.version + 1;
    TextDocument.update(document, [change], version);
    await this.connection.sendNotification("textDocument/didChange", {
      textDocument: { uri, version },
      contentChanges: [change],
    });
  }

  textOf(name: string): string {
    return this.documents.get(uriOf(name))?.getText() ?? "";
  }

  async close(name: string): Promise<void> {
    this.documents.delete(uriOf(name));
    await this.connection.sendNotification("textDocument/didClose", { textDocument: { uri: uriOf(name) } });
  }

  /** Changes what is stored, as another program would; undefined deletes the file. */
  async store(name: string, text: string | undefined): Promise<void> {
    const uri = uriOf(name);
    const type = text === undefined ? 3 : this.stored.has(uri) ? 2 : 1;
    if (text === undefined) this.stored.delete(uri);
    else this.stored.set(uri, text);
    await this.connection.sendNotification("workspace/didChangeWatchedFiles", { changes: [{ uri, type }] });
  }

  /** A request about a place in a file: `at` is a text in it, the place is its end. */
  async request<Result>(method: string, name: string, at?: string, more: object = {}): Promise<Result> {
    const params = {
      textDocument: { uri: uriOf(name) },
      ...(at === undefined ? {} : { position: this.place(name, at) }),
      ...more,
    };
    return this.connection.sendRequest<Result>(method, params);
  }

  /** The position behind the first place where a text stands. */
  place(name: string, text: string): { line: number; character: number } {
    const document = this.documents.get(uriOf(name))!;
    const start = document.getText().indexOf(text);
    if (start < 0) throw new Error(`“${text}” is not in ${name}`);
    return document.positionAt(start + text.length);
  }

  ask<Params, Result>(name: RequestName<Params, Result>, params: Params): Promise<Result> {
    return this.connection.sendRequest<Result>(name.method, params);
  }

  tell<Params>(name: NotificationName<Params>, params: Params): Promise<void> {
    return this.connection.sendNotification(name.method, params);
  }

  pull(name: string, previousResultId?: string): Promise<DocumentDiagnosticReport> {
    return this.request(
      "textDocument/diagnostic",
      name,
      undefined,
      previousResultId === undefined ? {} : { previousResultId },
    );
  }

  /** The findings of a file, as `code at line:column`. */
  async found(name: string): Promise<string[]> {
    const report = await this.pull(name);
    return report.kind === "full" ? report.items.map(shown) : [];
  }

  pullAll(
    previousResultIds: { uri: string; value: string }[] = [],
    partialResultToken?: string,
  ): Promise<WorkspaceDiagnosticReport> {
    return this.connection.sendRequest("workspace/diagnostic", {
      previousResultIds,
      ...(partialResultToken === undefined ? {} : { partialResultToken }),
    });
  }

  async stop(): Promise<void> {
    await this.connection.sendRequest("shutdown");
    this.connection.dispose();
  }
}

interface ClientStart {
  readonly capabilities: ClientCapabilities;
  readonly options: ClientOptions;
  readonly settings: unknown;
  readonly today: string;
  /** It takes its time to read files. */
  readonly slow: boolean;
  /** Before anything is said. */
  readonly prepare: (client: TestClient) => void;
}

const refreshes = ["diagnostic", "inlayHint", "codeLens", "semanticTokens"].map(
  (what) => `workspace/${what}/refresh`,
);

/** A client that fetches findings. */
export const pulling: ClientCapabilities = {
  textDocument: { diagnostic: {} },
  workspace: { configuration: true, diagnostics: { refreshSupport: true } },
};

export function uriOf(name: string): string {
  return name.includes(":") ? name : `file:///room/${name}`;
}

export function shown({ code, range }: Diagnostic): string {
  return `${code} at ${range.start.line}:${range.start.character}`;
}
