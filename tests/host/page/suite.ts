/**
 * What the tests beside a browser are written with: they see the editor as its user does, webviews included. A test
 * file imports `test` from here; each test opens the windows it wants on a room of its own.
 */

import { Suite } from "../suite/runner.ts";
import type { Command, EditorWindow, WindowOptions } from "../window.ts";

export interface Fixture {
  /** A window with the extension on a fresh copy of the test room; closed after the test. `commands`: what it may run. */
  open(options?: Partial<WindowOptions>, commands?: readonly Command[]): Promise<EditorWindow>;
  /** The same in an editor of its own, to which no folder is trusted. */
  openUntrusted(options?: Partial<WindowOptions>, commands?: readonly Command[]): Promise<EditorWindow>;
  /** The same in an editor of its own, in which the extension runs in a web worker. */
  openInWeb(options?: Partial<WindowOptions>, commands?: readonly Command[]): Promise<EditorWindow>;
}

export const suite = new Suite<Fixture>();
export const test = suite.test;
