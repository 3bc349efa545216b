/** Where the cursor stands and what is selected: by rows and shown columns, from 0. Row -1 is the heads. */
export interface Place {
  readonly row: number;
  readonly col: number;
}

export interface Box {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

export class Cursor {
  row = 0;
  col = 0;
  /** The other corner of the selection. */
  anchorRow = 0;
  anchorCol = 0;

  /** @param extends the anchor stays */
  moveTo({ row, col }: Place, isExtending = false): void {
    this.row = row;
    this.col = col;
    if (isExtending && row >= 0) {
      this.anchorRow = Math.max(0, this.anchorRow);
      return;
    }
    this.anchorRow = row;
    this.anchorCol = col;
  }

  select(from: Place, to: Place): void {
    this.anchorRow = from.row;
    this.anchorCol = from.col;
    this.row = to.row;
    this.col = to.col;
  }

  /** Rows and columns that are there. */
  keepWithin(rows: number, cols: number): void {
    const fit = (value: number, most: number): number => Math.max(0, Math.min(value, most - 1));
    if (this.row >= 0) this.row = fit(this.row, rows);
    if (this.anchorRow >= 0) this.anchorRow = fit(this.anchorRow, rows);
    this.col = fit(this.col, cols);
    this.anchorCol = fit(this.anchorCol, cols);
  }

  shift(rows: number): void {
    if (this.row >= 0) this.row += rows;
    if (this.anchorRow >= 0) this.anchorRow += rows;
  }

  get box(): Box {
    return {
      top: Math.min(this.row, this.anchorRow),
      bottom: Math.max(this.row, this.anchorRow),
      left: Math.min(this.col, this.anchorCol),
      right: Math.max(this.col, this.anchorCol),
    };
  }

  get isOne(): boolean {
    return this.row === this.anchorRow && this.col === this.anchorCol;
  }

  has(row: number, col: number): boolean {
    const { top, bottom, left, right } = this.box;
    return row >= top && row <= bottom && col >= left && col <= right;
  }
}
