import * as vscode from "vscode";
import { type LogLines, type LogLinesParams, logLinesRequest } from "../../language/server/protocol.ts";
import { rangeOf } from "./places.ts";
import type { Services } from "./services.ts";

/** Lines from the board into today, and out again: one step for the editor's undo each. */

/** A line and the task that it does, by its key. */
export interface TaskLine {
  readonly key: string;
  readonly line: string;
}

export type Logged =
  | { readonly is: "logged"; readonly lines: readonly string[] }
  | {
      readonly is: "refused";
      readonly reasons: readonly { readonly key: string; readonly message: string }[];
      /** Of all of them; empty where each has its own. */
      readonly why: string;
    };

export interface TakenBack {
  readonly keys: readonly string[];
  readonly lines: readonly string[];
  /** Changed since, or gone: they are left as they are. */
  readonly left: readonly string[];
}

interface Logging {
  readonly uri: string;
  readonly keys: readonly string[];
  readonly lines: readonly string[];
  /** The day was begun for it. */
  readonly begun: string | undefined;
}

/** How many loggings can be taken back at most. */
const mostBack = 100;
/** The log may change between an answer and its edit: it is asked again, so often. */
const mostTries = 4;
/** So long is waited for the server to hear of a new file, and so often. */
const newFileMs = 150;
const mostWaits = 40;

type Edits = Exclude<LogLines, { readonly refused: unknown }>;

/** The loggings of this window, one after the other. */
export class BoardLines implements vscode.Disposable {
  private readonly services: Services;
  private readonly done: Logging[] = [];
  private readonly changed = new vscode.EventEmitter<void>();
  /** Fires when something was logged or taken back. */
  readonly onChanged = this.changed.event;
  private queue: Promise<unknown> = Promise.resolve();
  /** How many loggings and takings back there were. */
  edition = 0;

  constructor(services: Services) {
    this.services = services;
  }

  dispose(): void {
    this.changed.dispose();
  }

  /** How many loggings can be taken back. */
  get back(): number {
    return this.done.length;
  }

  log(uri: string, tasks: readonly TaskLine[]): Promise<Logged> {
    return this.inTurn(async () => {
      const answer = await this.write({ uri, lines: tasks.map(({ line }) => line) });
      if (typeof answer === "string") return { is: "refused", reasons: [], why: answer };
      if ("refused" in answer) {
        const reasons = answer.refused.flatMap(({ line, message }) => {
          const task = tasks[line];
          return task === undefined ? [] : [{ key: task.key, message }];
        });
        return { is: "refused", reasons, why: "" };
      }
      const { written, begun } = answer;
      this.done.push({ uri, keys: tasks.map(({ key }) => key), lines: written, begun });
      if (this.done.length > mostBack) this.done.shift();
      this.tell();
      return { is: "logged", lines: answer.written };
    });
  }

  /** Takes the last logging back; undefined if there is none. Of its lines those that were changed since are left. */
  takeBack(): Promise<TakenBack | string | undefined> {
    return this.inTurn(async () => {
      const last = this.done.at(-1);
      if (last === undefined) return undefined;
      let lines = last.lines;
      const left: string[] = [];
      const back = {
        uri: last.uri,
        takeBack: true,
        ...(last.begun === undefined ? {} : { begun: last.begun }),
      };
      let answer = await this.write({ ...back, lines });
      if (typeof answer !== "string" && "refused" in answer) {
        const isRefused = new Set(answer.refused.map(({ line }) => line));
        left.push(...lines.filter((_, at) => isRefused.has(at)));
        lines = lines.filter((_, at) => !isRefused.has(at));
        answer = lines.length === 0 ? answer : await this.write({ ...back, lines });
      }
      if (typeof answer === "string") return answer;
      if ("refused" in answer) {
        left.push(...lines);
        lines = [];
      }
      this.done.splice(this.done.indexOf(last), 1);
      this.tell();
      return { keys: last.keys, lines, left };
    });
  }

  private tell(): void {
    this.edition++;
    this.changed.fire();
  }

  /** One after the other: each is asked of a log that has the one before. */
  private inTurn<Result>(work: () => Promise<Result>): Promise<Result> {
    const next = this.queue.then(work);
    this.queue = next.catch((error) => this.services.log.warn(`the board: ${error}`));
    return next;
  }

  /** Asks for the edits and makes them; a string is why that failed. */
  private async write(params: LogLinesParams): Promise<LogLines | string> {
    let waits = 0;
    for (let tries = 0; tries < mostTries; tries++) {
      const versions = new Map(
        vscode.workspace.textDocuments.map((document) => [document.uri.toString(), document.version]),
      );
      const answer = await this.services.ask(logLinesRequest, params);
      if (answer === undefined) return vscode.l10n.t("The server did not answer; its log says more.");
      if (answer === null) return vscode.l10n.t("The logbook is not there any more.");
      if ("refused" in answer) return answer;
      const file = this.services.client.protocol2CodeConverter.asUri(answer.uri);
      if (answer.isNew && (await isThere(file))) {
        // The file that was just made: the server is told of it a little later, and would begin it once more.
        await new Promise((resolve) => setTimeout(resolve, newFileMs));
        if (++waits < mostWaits) tries--;
        continue;
      }
      const document = documentOf(file);
      if (document !== undefined && document.version !== versions.get(file.toString())) continue;
      return (await apply(file, answer)) ? answer : vscode.l10n.t("The log could not be changed.");
    }
    return vscode.l10n.t("The log is being changed elsewhere; try again.");
  }
}

async function isThere(file: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(file);
    return true;
  } catch {
    return false;
  }
}

const documentOf = (file: vscode.Uri): vscode.TextDocument | undefined =>
  vscode.workspace.textDocuments.find(({ uri }) => uri.toString() === file.toString());

/** One step for undo. A file that had nothing unsaved is saved: a tick that is lost is worse. */
async function apply(file: vscode.Uri, { isNew, edits }: Edits): Promise<boolean> {
  const change = new vscode.WorkspaceEdit();
  if (isNew) change.createFile(file, { ignoreIfExists: true });
  for (const { range, newText } of edits) change.replace(file, rangeOf(range), newText);
  const wasUnsaved = documentOf(file)?.isDirty === true;
  if (!(await vscode.workspace.applyEdit(change))) return false;
  if (wasUnsaved || file.scheme === "untitled") return true;
  const document = await vscode.workspace.openTextDocument(file);
  if (document.isDirty) await document.save();
  return true;
}
