import type {
  CancellationToken,
  DocumentDiagnosticReport,
  WorkspaceDiagnosticParams,
  WorkspaceDiagnosticReport,
} from "vscode-languageserver";
import type { Group } from "../group.ts";
import { nothingFound, type Report, Reports } from "../reports.ts";
import { cancelled, type Session } from "../session.ts";

/** Findings, fetched by a client that can, else sent to it: never both. */

/** A change is followed by others: what waits for one waits until it has been quiet for so long. */
const quietMs = 300;

export const diagnostics: Group = {
  capabilities: ({ pullsDiagnostics }) =>
    pullsDiagnostics
      ? {
          diagnosticProvider: {
            identifier: "standpipe",
            interFileDependencies: true,
            workspaceDiagnostics: true,
          },
        }
      : {},
  serve(session) {
    const reports = new Reports(session);
    if (session.client.pullsDiagnostics) answerPulls(session, reports);
    else push(session, reports);
  },
};

function answerPulls(session: Session, reports: Reports): void {
  const { languages } = session.connection;
  const nothing: DocumentDiagnosticReport = { kind: "full", items: [] };
  languages.diagnostics.on(
    session.handler("findings of a file", nothing, ({ textDocument, previousResultId }) => {
      const report = reports.of(textDocument.uri);
      if (report === undefined) return nothing;
      if (report.id === previousResultId) return { kind: "unchanged", resultId: report.id };
      return { kind: "full", resultId: report.id, items: [...report.items] };
    }),
  );
  languages.diagnostics.onWorkspace(
    session.handler<WorkspaceDiagnosticParams, WorkspaceDiagnosticReport>(
      "findings of all files",
      { items: [] },
      async (params, token, progress) => {
        // Who takes results as they come may be kept waiting until there is something new.
        const mayWait = progress !== undefined;
        for (;;) {
          const { generation } = session.workspace;
          const all = await reports.all(token);
          if (token.isCancellationRequested) throw cancelled();
          if (all !== undefined) {
            const items = differing(all, params.previousResultIds);
            if (items.length > 0 || !mayWait) return { items };
          }
          await quietAfterChange(session, generation, token);
          if (token.isCancellationRequested) throw cancelled();
        }
      },
    ),
  );
}

/** What is new to a client: reports that have another name now, and empty ones for files that are gone. */
function differing(
  all: readonly Report[],
  previous: WorkspaceDiagnosticParams["previousResultIds"],
): WorkspaceDiagnosticReport["items"] {
  const known = new Map(previous.map(({ uri, value }) => [uri, value]));
  const items: WorkspaceDiagnosticReport["items"] = [];
  for (const { uri, version, id, items: found } of all) {
    if (known.get(uri) !== id) items.push({ uri, version, kind: "full", resultId: id, items: [...found] });
    known.delete(uri);
  }
  for (const [uri, id] of known) {
    if (id !== nothingFound)
      items.push({ uri, version: null, kind: "full", resultId: nothingFound, items: [] });
  }
  return items;
}

/** Resolves once something is other than at `generation` and then nothing has changed for a while, or all is cancelled. */
function quietAfterChange(session: Session, generation: number, token: CancellationToken): Promise<void> {
  return new Promise((resolve) => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const end = () => {
      clearTimeout(timer);
      unhear();
      unheed.dispose();
      resolve();
    };
    const wait = () => {
      clearTimeout(timer);
      timer = setTimeout(end, quietMs);
    };
    const unhear = session.workspace.onChange(wait);
    const unheed = token.onCancellationRequested(end);
    if (session.workspace.generation !== generation) wait();
  });
}

/** Sends what differs from what was sent, after each change. */
function push(session: Session, reports: Reports): void {
  const sent = new Map<string, string>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const send = session.handler("findings", undefined, async () => {
    const all = await reports.all();
    if (all === undefined) return;
    const current = new Set(all.map(({ uri }) => uri));
    for (const { uri, version, id, items } of all) {
      if (id === (sent.get(uri) ?? nothingFound)) continue;
      sent.set(uri, id);
      await session.connection.sendDiagnostics({
        uri,
        diagnostics: [...items],
        ...(version === null ? {} : { version }),
      });
    }
    for (const uri of [...sent.keys()].filter((each) => !current.has(each))) {
      sent.delete(uri);
      await session.connection.sendDiagnostics({ uri, diagnostics: [] });
    }
  });
  session.workspace.onChange(() => {
    clearTimeout(timer);
    timer = setTimeout(() => session.attempt("findings", async () => void (await send({}, never))), quietMs);
  });
}

const never: CancellationToken = {
  isCancellationRequested: false,
  onCancellationRequested: () => ({ dispose() {} }),
};
