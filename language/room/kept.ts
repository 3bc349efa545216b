import type { Ledger } from "./ledger.ts";

/** What was computed from a ledger as it stands, kept until it is derived again. */

interface Kept {
  readonly revision: number;
  readonly values: Map<string, unknown>;
}

const byLedger = new WeakMap<Ledger, Kept>();

/** @param key what is computed, from the ledger alone */
export function kept<T>(ledger: Ledger, key: string, make: () => T): T {
  let known = byLedger.get(ledger);
  if (known === undefined || known.revision !== ledger.revision) {
    known = { revision: ledger.revision, values: new Map() };
    byLedger.set(ledger, known);
  }
  if (!known.values.has(key)) known.values.set(key, make());
  return known.values.get(key) as T;
}
