import {
  type Diagnostic,
  DiagnosticSeverity,
  type Location as LspLocation,
  type Range,
  type TextEdit,
  type WorkspaceEdit,
} from "vscode-languageserver";
import type { TextDocument } from "vscode-languageserver-textdocument";
import type { Finding, Severity } from "../checks/finding.ts";
import { type Edit, type Location, locationOf, type Span } from "../features/view.ts";
import type { Placed } from "./protocol.ts";
import type { Session } from "./session.ts";

/** From the trade's types, with offsets, to those of the protocol, with lines. */

export function rangeOf(document: TextDocument, { start, end }: Span): Range {
  return { start: document.positionAt(start), end: document.positionAt(end) };
}

/** Undefined for a place in a file that is gone. */
export function lspLocation(session: Session, location: Location): LspLocation | undefined {
  const document = session.workspace.document(location.path);
  return document === undefined ? undefined : { uri: location.path, range: rangeOf(document, location) };
}

export function lspLocations(session: Session, locations: readonly Location[]): LspLocation[] {
  return locations.flatMap((location) => lspLocation(session, location) ?? []);
}

/** A file, opened at a line: editors take the line from the fragment. */
export function addressOf(session: Session, { path, start }: Location): string {
  const line = session.workspace.document(path)?.positionAt(start).line ?? 0;
  return line === 0 ? path : `${path}#L${line + 1}`;
}

/** The same value with every place of the log as the protocol has it. Places in files that are gone are null. */
export function placed<T>(session: Session, value: T): Placed<T> {
  return placedValue(session, value) as Placed<T>;
}

function placedValue(session: Session, value: unknown): unknown {
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return value.map((each) => placedValue(session, each));
  if ("path" in value && "start" in value && "end" in value)
    return lspLocation(session, value as Location) ?? null;
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, placedValue(session, each)]));
}

/** Edits of one text, as they stand in it before any is made. */
export function textEdits(
  document: TextDocument,
  edits: readonly (Span & { readonly text: string })[],
): TextEdit[] {
  return edits.map((edit) => ({ range: rangeOf(document, edit), newText: edit.text }));
}

/**
 * Edits of any files, for the versions they were made for. Where they reach into many files the client may ask before it makes them.
 * @param label what they come to, in words
 */
export function workspaceEdit(session: Session, edits: readonly Edit[], label: string): WorkspaceEdit {
  const byFile = new Map<string, Edit[]>();
  for (const edit of edits) {
    const known = byFile.get(edit.path);
    if (known === undefined) byFile.set(edit.path, [edit]);
    else known.push(edit);
  }
  const isAnnotated = session.client.annotatesChanges && byFile.size > 1;
  const note = isAnnotated ? { annotationId: "all" } : {};
  const documentChanges = [...byFile].flatMap(([uri, some]) => {
    const document = session.workspace.document(uri);
    if (document === undefined) return [];
    const version = session.workspace.files.get(uri)?.version ?? null;
    const changes = textEdits(document, some).map((edit) => ({ ...edit, ...note }));
    return [{ textDocument: { uri, version }, edits: changes }];
  });
  if (!session.client.takesVersions) {
    return {
      changes: Object.fromEntries(
        documentChanges.map(({ textDocument, edits: some }) => [textDocument.uri, some]),
      ),
    };
  }
  if (!isAnnotated) return { documentChanges };
  const description = `${edits.length} places in ${byFile.size} files`;
  return { documentChanges, changeAnnotations: { all: { label, description, needsConfirmation: false } } };
}

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

export function diagnosticOf(session: Session, document: TextDocument, finding: Finding): Diagnostic {
  const { block, code, severity, message, start, end } = finding;
  const { pageAddress } = session.client.options;
  const related = finding.related.flatMap(({ place, message: words }) => {
    const location = lspLocation(session, locationOf(place));
    return location === undefined ? [] : [{ location, message: words }];
  });
  return {
    range: rangeOf(document, { start: block.start + start, end: block.start + end }),
    severity: severities[severity],
    code,
    source: "standpipe",
    message,
    ...(pageAddress === undefined ? {} : { codeDescription: { href: pageAddress.replace("{code}", code) } }),
    ...(related.length === 0 ? {} : { relatedInformation: related }),
  };
}
