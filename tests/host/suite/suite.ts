/**
 * What the tests inside the extension host are written with. A test file imports `test` and what it needs from here
 * and from `vscode`; nothing from Node, since the same suite runs in a web worker.
 */

import * as vscode from "vscode";
import type { Host } from "./host.ts";
import { Suite } from "./runner.ts";

/** Set when the suite is bundled for one host. */
declare const HOST: Host;
export const host = HOST;

export const suite = new Suite();
export const test = suite.test;

export const EXTENSION_ID = "standpipe.standpipe";

/** Fails unless both are the same when written as JSON. */
export function equal(actual: unknown, expected: unknown, what = "value"): void {
  const [a, e] = [JSON.stringify(actual, null, 1), JSON.stringify(expected, null, 1)];
  if (a !== e) throw new Error(`${what}: expected ${e}, got ${a}`);
}

export function ok(condition: unknown, what: string): asserts condition {
  if (!condition) throw new Error(what);
}

/** A file of the test room, which is a copy made for this run and may be edited. */
export function roomFile(name: string): vscode.Uri {
  const folder = vscode.workspace.workspaceFolders?.[0];
  ok(folder, "no folder is open");
  return vscode.Uri.joinPath(folder.uri, name);
}

/** The extension, once it is active. */
export async function activeExtension(): Promise<vscode.Extension<unknown>> {
  const extension = vscode.extensions.getExtension(EXTENSION_ID);
  ok(extension, `${EXTENSION_ID} is not installed`);
  if (!extension.isActive) await extension.activate();
  return extension;
}

/**
 * What `read` gives once it gives something: tried now and after each `event`. The runner's limit ends the wait.
 */
export async function when<T>(
  event: (listener: () => void) => vscode.Disposable,
  read: () => T | undefined | PromiseLike<T | undefined>,
): Promise<T> {
  return new Promise<T>((resolve, reject) => {
    const attempt = async () => {
      const value = await read();
      if (value === undefined) return;
      subscription.dispose();
      resolve(value);
    };
    const subscription = event(() => void attempt().catch(reject));
    attempt().catch(reject);
  });
}

/** The diagnostics of a file once `enough` is content with them. */
export function diagnostics(
  uri: vscode.Uri,
  enough: (found: readonly vscode.Diagnostic[]) => boolean,
): Promise<readonly vscode.Diagnostic[]> {
  return when(vscode.languages.onDidChangeDiagnostics, () => {
    const found = vscode.languages.getDiagnostics(uri);
    return enough(found) ? found : undefined;
  });
}
