import type { Station } from "../book/stations.ts";
import type { CaseEntry } from "./cases.ts";
import type { Logbook } from "./logbook.ts";

/**
 * What was computed of one case from its entries, the words of their lines and the books of its tanks: kept until one of these changes. An
 * edit elsewhere leaves what is known of the cases of ten years.
 */

interface Kept {
  readonly of: readonly unknown[];
  readonly value: unknown;
}

const byLogbook = new WeakMap<Logbook, Map<string, Kept>>();

/** @param key what is computed, and of which case @param stations the tanks it hangs on, beside those of the entries */
export function keptOfCase<T>(
  logbook: Logbook,
  key: string,
  entries: readonly CaseEntry[],
  stations: readonly Station[],
  make: () => T,
): T {
  let values = byLogbook.get(logbook);
  if (values === undefined) {
    values = new Map();
    byLogbook.set(logbook, values);
  }
  const of: unknown[] = [];
  const waters = new Set(stations);
  for (const { block, row, day, stations: own } of entries) {
    of.push(block, block.revision, row, day);
    for (const station of own) waters.add(station);
  }
  for (const station of waters) {
    const ledger = logbook.ledgerOf(station);
    of.push(ledger, ledger.revision);
  }
  const known = values.get(key);
  if (known !== undefined && known.of.length === of.length && known.of.every((each, at) => each === of[at]))
    return known.value as T;
  const value = make();
  values.set(key, { of, value });
  return value;
}
