import { FileChangeType, type FileEvent, type WorkDoneProgressServerReporter } from "vscode-languageserver";
import { filesRequest, readRequest } from "./protocol.ts";
import type { Session } from "./session.ts";

/** So many files are asked for at once: between two askings other messages have their turn. */
const batch = 16;

/** Brings the files of the workspace in by asking the client, at first and whenever one may be another. One thing after the other. */
export class Loader {
  private readonly session: Session;
  private queue: Promise<void> = Promise.resolve();

  constructor(session: Session) {
    this.session = session;
  }

  /** Reads all files and forgets those that are gone; those that are open stay what they are. */
  loadAll(): Promise<void> {
    return this.next("reading the logbooks", async () => {
      const { workspace } = this.session;
      if (this.session.client.options.givesFiles !== true) return;
      const uris = await this.session.ask(filesRequest, null);
      const listed = new Set(uris);
      const gone = [...workspace.files.values()].filter(({ uri, isStored }) => isStored && !listed.has(uri));
      workspace.store(gone.map(({ uri }) => [uri, null] as const));
      await this.read(uris, await this.progress(uris.length));
    });
  }

  /** Takes in what the client's watcher saw. */
  filesChanged(events: readonly FileEvent[]): Promise<void> {
    const deleted = new Set(
      events.filter(({ type }) => type === FileChangeType.Deleted).map(({ uri }) => uri),
    );
    const others = new Set(events.map(({ uri }) => uri).filter((uri) => !deleted.has(uri)));
    return this.next("reading changed files", async () => {
      if (deleted.size > 0) this.session.workspace.store([...deleted].map((uri) => [uri, null] as const));
      await this.read([...others]);
    });
  }

  /** A document was closed: what is stored counts again, which may not be what was in the editor. */
  closed(uri: string): Promise<void> {
    return this.next("reading a closed file", () => this.read([uri]));
  }

  private async read(uris: readonly string[], progress?: WorkDoneProgressServerReporter): Promise<void> {
    if (this.session.client.options.givesFiles !== true) return;
    try {
      for (let at = 0; at < uris.length; at += batch) {
        if (progress?.token.isCancellationRequested) {
          this.session.connection.console.warn(
            `reading was cancelled: ${at} of ${uris.length} files are read`,
          );
          return;
        }
        const some = uris.slice(at, at + batch);
        const texts = await this.session.ask(readRequest, { uris: some });
        this.session.workspace.store(some.map((uri, index) => [uri, texts[index] ?? null] as const));
        const done = Math.min(at + batch, uris.length);
        progress?.report(Math.round((100 * done) / uris.length), `${done} of ${uris.length} files`);
      }
    } finally {
      progress?.done();
    }
  }

  /** Shows progress where there is much to read. */
  private async progress(files: number): Promise<WorkDoneProgressServerReporter | undefined> {
    if (files <= batch || !this.session.client.showsProgress) return undefined;
    const progress = await this.session.connection.window.createWorkDoneProgress();
    progress.begin("Reading the logbooks", 0, undefined, true);
    return progress;
  }

  private next(what: string, work: () => Promise<void>): Promise<void> {
    this.queue = this.queue.then(work).catch((error) => this.session.complain(what, error));
    return this.queue;
  }
}
