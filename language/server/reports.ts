import type { CancellationToken, Diagnostic } from "vscode-languageserver";
import type { Session } from "./session.ts";
import { diagnosticOf } from "./to-lsp.ts";

/** What is found in one file, and a name for it: the same findings have the same name. */
export interface Report {
  readonly uri: string;
  readonly version: number | null;
  readonly id: string;
  readonly items: readonly Diagnostic[];
}

/** After so many milliseconds of work other messages have their turn. */
const sliceMs = 8;

/** Makes the reports of files; one that cannot have changed is not made again. */
export class Reports {
  private readonly session: Session;
  private readonly kept = new Map<string, { readonly generation: number; readonly report: Report }>();

  constructor(session: Session) {
    this.session = session;
  }

  /** Undefined for a file that is not known. */
  of(uri: string): Report | undefined {
    const { workspace } = this.session;
    const { generation } = workspace;
    const kept = this.kept.get(uri);
    if (kept?.generation === generation) return kept.report;
    const looked = this.session.look(uri);
    if (looked === undefined) {
      this.kept.delete(uri);
      return undefined;
    }
    const { view, document } = looked;
    const items = view.checked
      .findingsIn(view.source, view.worldDay)
      .map((finding) => diagnosticOf(this.session, document, finding));
    const version = workspace.files.get(uri)?.version ?? null;
    const report = { uri, version, id: nameOf(items), items };
    this.kept.set(uri, { generation, report });
    return report;
  }

  /** All reports, in slices; undefined if something changed or was cancelled on the way. */
  async all(token?: CancellationToken): Promise<Report[] | undefined> {
    const { workspace } = this.session;
    const { generation } = workspace;
    const reports: Report[] = [];
    let begun = performance.now();
    for (const uri of [...workspace.files.keys()].sort()) {
      if (performance.now() - begun > sliceMs) {
        await turn();
        begun = performance.now();
        if (token?.isCancellationRequested || workspace.generation !== generation) return undefined;
      }
      const report = this.of(uri);
      if (report !== undefined) reports.push(report);
    }
    for (const uri of this.kept.keys()) if (!workspace.files.has(uri)) this.kept.delete(uri);
    return reports;
  }
}

/** The name of a report without findings. */
export const nothingFound = nameOf([]);

/** A name that follows from the findings alone (FNV-1a by Fowler, Noll and Vo, on two halves). */
function nameOf(items: readonly Diagnostic[]): string {
  const text = JSON.stringify(items);
  let a = 0x811c9dc5;
  let b = 0x811c9dc5 ^ text.length;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    a = Math.imul(a ^ code, 0x01000193);
    b = Math.imul(b ^ (code + at), 0x01000193);
  }
  return (a >>> 0).toString(36) + (b >>> 0).toString(36);
}

/** Lets messages in that have come in the meantime. */
export function turn(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 0));
}
