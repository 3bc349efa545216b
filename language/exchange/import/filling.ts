import Papa from "papaparse";
import { cellsOf } from "./cells.ts";
import type { ColumnAt } from "./mapping.ts";

/** Cells that are written once and left empty below, as a date over the tanks of its day. An empty row ends it: what stands below that may be a total. */
export class Filling {
  private readonly places: readonly number[];
  private readonly above = new Map<number, string>();
  private filled: readonly number[] = [];

  constructor(columns: readonly ColumnAt[]) {
    this.places = columns.map(({ at }) => at - 1);
  }

  end(): void {
    this.above.clear();
    this.filled = [];
  }

  /** Puts into empty cells what stands above. */
  fill(cells: string[]): void {
    const filled: number[] = [];
    for (const at of this.places) {
      const cell = cells[at] ?? "";
      const above = this.above.get(at);
      if (cell !== "") this.above.set(at, cell);
      else if (above !== undefined) {
        cells[at] = above;
        filled.push(at);
      }
    }
    this.filled = filled;
  }

  /** The row that was filled last, with what it was filled by. */
  alone(raw: string, delimiter: string): string {
    if (this.filled.length === 0 || delimiter === "fixed") return raw;
    const cells = [...cellsOf(raw, delimiter).cells];
    for (const at of this.filled) cells[at] = this.above.get(at)!;
    return Papa.unparse([cells], { delimiter });
  }
}
