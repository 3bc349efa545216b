import type { Ledger } from "./ledger.ts";

/** What was computed from a ledger as it stands, kept until it is derived again. */

interface Kept {
  readonly revision: number;
  readonly values: Map<string, unknown>;
}

const byLedger = new WeakMap<Ledger, Kept>();
const byAnimals = new WeakMap<Ledger, Kept>();

/** @param key what is computed, from the ledger alone */
export function kept<T>(ledger: Ledger, key: string, make: () => T): T {
  return keptIn(byLedger, ledger, ledger.revision, key, make);
}

/** What was computed from its animals and the definitions alone, kept until its animals are others. Places of entries are not to be in it. */
export function keptOfAnimals<T>(ledger: Ledger, key: string, make: () => T): T {
  return keptIn(byAnimals, ledger, ledger.animalsRevision, key, make);
}

function keptIn<T>(
  kept: WeakMap<Ledger, Kept>,
  ledger: Ledger,
  revision: number,
  key: string,
  make: () => T,
): T {
  let known = kept.get(ledger);
  if (known === undefined || known.revision !== revision) {
    known = { revision, values: new Map() };
    kept.set(ledger, known);
  }
  if (!known.values.has(key)) known.values.set(key, make());
  return known.values.get(key) as T;
}
