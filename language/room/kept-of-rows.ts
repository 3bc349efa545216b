import type { Ledger } from "./ledger.ts";
import type { LogRow } from "./rare-rows.ts";

/**
 * What was computed of rows from what stands before them in one ledger: kept as long as the ledger is not derived again from a day at or
 * before theirs. An edit of today leaves what is known of ten years.
 */
export class KeptOfRows<T> {
  private readonly byLedger = new WeakMap<Ledger, { revision: number; values: Map<string, Kept<T>> }>();
  private readonly serials = new WeakMap<LogRow["block"], number>();
  private lastSerial = 0;

  /** @param key tells apart what is computed of one row */
  get(ledger: Ledger, { day, block, id }: LogRow, key: number, make: () => T): T {
    let known = this.byLedger.get(ledger);
    if (known === undefined) {
      known = { revision: ledger.revision, values: new Map() };
      this.byLedger.set(ledger, known);
    } else if (known.revision !== ledger.revision) {
      const from = Math.min(...ledger.resetDays.slice(known.revision));
      known.revision = ledger.revision;
      for (const [name, kept] of known.values) if (kept.day >= from) known.values.delete(name);
    }
    const name = `${this.serialOf(block)} ${id} ${key}`;
    const kept = known.values.get(name);
    if (kept !== undefined) return kept.value;
    const value = make();
    known.values.set(name, { day, value });
    return value;
  }

  private serialOf(block: LogRow["block"]): number {
    const known = this.serials.get(block);
    if (known !== undefined) return known;
    this.serials.set(block, ++this.lastSerial);
    return this.lastSerial;
  }
}

interface Kept<T> {
  readonly day: number;
  readonly value: T;
}
