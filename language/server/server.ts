import {
  type Connection,
  DidChangeConfigurationNotification,
  type InitializeParams,
  type InitializeResult,
  TextDocumentSyncKind,
} from "vscode-languageserver";
import { dayOf } from "../book/dates.ts";
import { clientOf } from "./client.ts";
import type { Group } from "./group.ts";
import { actions } from "./handlers/actions.ts";
import { completing } from "./handlers/completing.ts";
import { diagnostics } from "./handlers/diagnostics.ts";
import { exporting } from "./handlers/exporting.ts";
import { grid } from "./handlers/grid.ts";
import { hints } from "./handlers/hints.ts";
import { importing } from "./handlers/importing.ts";
import { laboratory } from "./handlers/laboratory.ts";
import { layout } from "./handlers/layout.ts";
import { navigation } from "./handlers/navigation.ts";
import { outline } from "./handlers/outline.ts";
import { ownRequests } from "./handlers/own-requests.ts";
import { reading } from "./handlers/reading.ts";
import { refreshing } from "./handlers/refreshing.ts";
import { renaming } from "./handlers/renaming.ts";
import { reviewing } from "./handlers/reviewing.ts";
import { tokens } from "./handlers/tokens.ts";
import { tracing } from "./handlers/tracing.ts";
import { work } from "./handlers/work.ts";
import { Loader } from "./loader.ts";
import { filesChangedNotification, type Today, todayNotification } from "./protocol.ts";
import { Session } from "./session.ts";
import { settingsFrom } from "./settings.ts";

const groups: readonly Group[] = [
  actions,
  completing,
  diagnostics,
  grid,
  hints,
  laboratory,
  exporting,
  importing,
  layout,
  navigation,
  outline,
  ownRequests,
  reading,
  refreshing,
  renaming,
  reviewing,
  tracing,
  tokens,
  work,
];

/** Serves the logbooks of one client over a connection until it is closed. */
export function serve(connection: Connection): void {
  connection.onInitialize((params: InitializeParams): InitializeResult => {
    const session = new Session(connection, clientOf(params));
    takeToday(session, session.client.options.today);
    serveFiles(session);
    for (const group of groups) group.serve(session);
    return {
      serverInfo: { name: "standpipe" },
      capabilities: {
        positionEncoding: "utf-16",
        textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
        workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
        ...Object.assign({}, ...groups.map((group) => group.capabilities(session.client))),
      },
    };
  });
  connection.listen();
}

/** Documents as they are opened, edited and closed; files as they are stored; settings and the day. */
function serveFiles(session: Session): void {
  const { connection, workspace } = session;
  const loader = new Loader(session);

  connection.onInitialized(() => {
    session.attempt("beginning", async () => {
      await readSettings(session).catch((error) => session.complain("settings", error));
      await loader.loadAll();
      session.openUp();
      await registerForChanges(session, loader);
    });
  });
  connection.onDidOpenTextDocument(({ textDocument: { uri, version, text } }) =>
    session.attempt("opening a file", () => workspace.open(uri, version, text)),
  );
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) =>
    session.attempt("an edit", () => workspace.edit(uri, version, contentChanges)),
  );
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
    session.attempt("closing a file", () => workspace.close(uri));
    if (workspace.files.has(uri)) session.attempt("closing a file", () => loader.closed(uri));
  });
  connection.onDidChangeWatchedFiles(({ changes }) =>
    session.attempt("changed files", () => loader.filesChanged(changes)),
  );
  connection.onDidChangeConfiguration(() => session.attempt("settings", () => readSettings(session)));
  connection.onNotification(filesChangedNotification.method, () =>
    session.attempt("changed files", () => loader.loadAll()),
  );
  connection.onNotification(todayNotification.method, (today: Today) =>
    session.attempt("another day", () => takeToday(session, today)),
  );
}

async function registerForChanges(session: Session, loader: Loader): Promise<void> {
  const { connection, client } = session;
  if (client.registersConfiguration) {
    await connection.client.register(DidChangeConfigurationNotification.type, { section: "standpipe" });
  }
  if (client.tellsFolders) {
    connection.workspace.onDidChangeWorkspaceFolders(() =>
      session.attempt("other folders", () => loader.loadAll()),
    );
  }
}

async function readSettings(session: Session): Promise<void> {
  if (!session.client.tellsConfiguration) return;
  session.settings = settingsFrom(await session.connection.workspace.getConfiguration("standpipe"));
  session.workspace.retell();
}

/** Without a word from the client it is the day of this machine. */
function takeToday(session: Session, today: Today | undefined): void {
  const day = dayOf(today?.day ?? "");
  if (!Number.isNaN(day)) session.workspace.setToday(day, today?.isPinned === true);
  else {
    const now = new Date();
    const local = Date.UTC(now.getFullYear(), now.getMonth(), now.getDate());
    session.workspace.setToday(local / 86_400_000, false);
  }
}
