/** Where a suite runs, and how its outcomes are told apart from the rest of a host's console. */

import type { Outcome } from "./runner.ts";

/**
 * `node`, `web`: from the built folder, in the extension host on Node or in a web worker of a served VS Code;
 * `packed`: the installed package, in the served VS Code's host on Node; `desktop`: a desktop VS Code.
 */
export type Host = "node" | "web" | "packed" | "desktop";

/** Stands before each message on the extension host's console. */
export const MARK = "standpipe host test: ";

export type Message = { readonly begin: { readonly tests: number } } | { readonly outcome: Outcome };
