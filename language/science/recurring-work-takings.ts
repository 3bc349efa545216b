/**
 * What columns of a linear program take, row by row, one column behind the other in one array: in arrays of their own a great many
 * small ones would cost more than what is reckoned with them.
 */
export class Takings {
  rows = new Int32Array(8192);
  takes = new Float64Array(8192);
  private end = 0;

  /** @param taken by row @returns where the column begins and ends */
  add(rows: readonly number[], taken: Float64Array): { readonly from: number; readonly to: number } {
    const from = this.end;
    const to = from + rows.length;
    if (to > this.rows.length) {
      const [known, parts] = [this.rows, this.takes];
      this.rows = new Int32Array(2 * to);
      this.takes = new Float64Array(2 * to);
      this.rows.set(known);
      this.takes.set(parts);
    }
    for (let at = 0; at < rows.length; at++) {
      this.rows[from + at] = rows[at]!;
      this.takes[from + at] = taken[rows[at]!]!;
    }
    this.end = to;
    return { from, to };
  }
}
