import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";

/** What was computed from all ledgers of a logbook together, kept until one of them is derived again. */

interface Kept {
  readonly ledgers: readonly Ledger[];
  readonly revisions: readonly number[];
  readonly values: Map<string, unknown>;
}

const byLogbook = new WeakMap<Logbook, Kept>();

/** @param key what is computed, with all that it depends on beside the log and its definitions */
export function keptFor<T>(logbook: Logbook, key: string, make: () => T): T {
  const { ledgers } = logbook;
  let known = byLogbook.get(logbook);
  if (known === undefined || !isStill(known, ledgers)) {
    known = {
      ledgers: [...ledgers],
      revisions: ledgers.map(({ revision }) => revision),
      values: new Map(),
    };
    byLogbook.set(logbook, known);
  }
  if (!known.values.has(key)) known.values.set(key, make());
  return known.values.get(key) as T;
}

/** Ledgers are made anew with the book; an entry that changes has its ledger derived again. */
function isStill({ ledgers, revisions }: Kept, now: readonly Ledger[]): boolean {
  return (
    now.length === ledgers.length &&
    now.every((ledger, at) => ledger === ledgers[at] && ledger.revision === revisions[at])
  );
}
