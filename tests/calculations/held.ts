import { describe, expect, it } from "vitest";
import { Inputs } from "../published/inputs.ts";
import { type Row, readRows, referenceFiles } from "../published/published.ts";
import { type Asking, allowed, answerTo, asked } from "./asked.ts";

/** An asking whose answer does not convert to the unit of the row but by a factor: hPa without a unit to Pa. */
export interface Scaled extends Asking {
  readonly times?: number;
}
export type ScaledAskings = Readonly<Record<string, (given: Inputs, row: Row) => Scaled>>;

/**
 * Holds the rows of some files against the calculations, and says that none is left out.
 * @param inner quantities that no calculation shows by itself; the functions are held against them elsewhere
 */
export function holdRows(files: RegExp, askings: ScaledAskings, inner: readonly string[]): void {
  const rows = referenceFiles()
    .filter((file) => files.test(file))
    .flatMap(readRows);

  it("every row is asked, or said why not", () => {
    expect(rows.length).toBeGreaterThan(0);
    const names = new Set(rows.map(({ quantity }) => quantity));
    const known = [...Object.keys(askings), ...inner];
    expect([...names].filter((name) => !known.includes(name))).toEqual([]);
    expect(known.filter((name) => !names.has(name))).toEqual([]);
  });

  describe("published", () => {
    it.each(rows.filter(({ quantity }) => quantity in askings).map((row) => [row.id, row] as const))(
      "%s",
      (_, row) => {
        const { calculation, texts, figure, times } = askings[row.quantity]!(
          new Inputs(row.inputs, row.unit),
          row,
        );
        const got =
          times === undefined ? answerTo(row, askings) : asked(calculation, texts, figure).best! * times;
        const [least, most] = allowed(row);
        expect(got).toBeGreaterThanOrEqual(least);
        expect(got).toBeLessThanOrEqual(most);
      },
    );
  });
}
