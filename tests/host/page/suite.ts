/**
 * What the tests beside a browser are written with: they see the editor as its user does, webviews included. A test
 * file imports `test` from here; each test opens the windows it wants on a room of its own.
 */

import { Suite } from "../suite/runner.ts";
import type { Command, EditorWindow, WindowOptions } from "../window.ts";

export interface Fixture {
  /** A window on a fresh copy of the test room with the extension in it; `commands` are those it may be asked for. */
  open(options?: Partial<WindowOptions>, commands?: readonly Command[]): Promise<EditorWindow>;
}

export const suite = new Suite<Fixture>();
export const test = suite.test;
