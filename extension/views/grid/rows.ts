import type { Asking } from "./asking.ts";
import { type Face, type GridPage, type GridView, type PageRow, pageShape } from "./messages.ts";

/** Rows beyond what is seen that are asked for with it, and how near the end of them more is asked for. */
const beyond = 90;
const near = 40;
/** Who waits so long is told for what. */
const patienceMs = 300;

export interface RowsOwner {
  readonly face: Face;
  readonly view: GridView;
  /** The row whose place is to be followed; undefined where none is. */
  readonly followed: string | undefined;
  /** The line to begin at, once. */
  takeLine(): number | undefined;
  /** The row at the cursor, which may be another when the answer comes. */
  readonly cursorRow: number;
  /** @param moved by how many rows the followed one was moved since it was asked for */
  came(page: GridPage, moved: number): void;
  failed(error: unknown): void;
  /** An answer takes long: all rows are gone through. */
  slow(): void;
}

/** A window of rows around those that are seen. One question at a time; what is stale stays until the answer is there. */
export class Rows {
  total = 0;
  private from = 0;
  private rows: readonly PageRow[] = [];
  /** What the rows are of, and what they should be of. */
  private got = -1;
  private wanted = 0;
  private isAsking = false;
  private again: (() => void) | undefined;
  private readonly asking: Asking;
  private readonly owner: RowsOwner;

  constructor(asking: Asking, owner: RowsOwner) {
    this.asking = asking;
    this.owner = owner;
  }

  at(index: number): PageRow | undefined {
    return this.rows[index - this.from];
  }

  indexOf(id: string): number {
    const at = this.rows.findIndex((row) => row.id === id);
    return at < 0 ? -1 : this.from + at;
  }

  /** The text is another. */
  stale(): void {
    this.wanted++;
  }

  /** Another face, sort or filter: what is here is of no use. */
  clear(): void {
    this.wanted++;
    this.rows = [];
    this.total = 0;
    this.from = 0;
  }

  get isFresh(): boolean {
    return this.got === this.wanted;
  }

  has(first: number, last: number): boolean {
    return first >= this.from && last < this.from + this.rows.length;
  }

  /** Asks for what is missing around rows that are seen. */
  need(first: number, last: number, then: () => void): void {
    const least = Math.max(0, first - near);
    const most = Math.min(this.total - 1, last + near);
    if (this.got === this.wanted && (this.total === 0 || this.has(least, most))) return;
    if (this.isAsking) {
      this.again = then;
      return;
    }
    void this.ask(Math.max(0, first - beyond), last - first + 1 + 2 * beyond, then);
  }

  private async ask(from: number, count: number, then: () => void): Promise<void> {
    this.isAsking = true;
    const edition = this.wanted;
    const { face, view, followed } = this.owner;
    const { cursorRow } = this.owner;
    const line = this.owner.takeLine();
    const slow = setTimeout(() => this.owner.slow(), patienceMs);
    try {
      const page = await this.asking.ask(
        {
          is: "rows",
          face,
          query: { ...view, from, count: Math.min(count, 1000) },
          ...(followed === undefined ? {} : { track: followed }),
          ...(line === undefined ? {} : { line }),
        },
        pageShape,
      );
      clearTimeout(slow);
      this.isAsking = false;
      // A face that was left meanwhile.
      if (face !== this.owner.face) return then();
      this.got = edition;
      this.total = page.total;
      this.from = page.from;
      this.rows = page.rows;
      const isFollowed = followed !== undefined && cursorRow >= 0 && page.trackedAt >= 0;
      this.owner.came(page, isFollowed ? page.trackedAt - cursorRow : 0);
      then();
    } catch (error) {
      clearTimeout(slow);
      this.isAsking = false;
      this.got = edition;
      this.rows = [];
      this.total = 0;
      this.owner.failed(error);
      then();
    }
    const { again } = this;
    this.again = undefined;
    again?.();
  }

  /** Where a row is; -1 where it is gone or not shown. */
  async placeOf(row: string): Promise<number> {
    const { face, view } = this.owner;
    const query = { ...view, columns: [], from: 0, count: 0 };
    return (await this.asking.ask({ is: "rows", face, query, track: row }, pageShape)).trackedAt;
  }

  /** Rows of one column far away, for keys that leap. */
  async fetch(from: number, count: number, columns: readonly string[]): Promise<readonly PageRow[]> {
    const { face, view } = this.owner;
    const query = { ...view, columns: [...columns], from, count };
    return (await this.asking.ask({ is: "rows", face, query }, pageShape)).rows;
  }
}
