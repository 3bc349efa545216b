import fc from "fast-check";
import { fcnnlsVector } from "ml-fcnnls";
import { describe, expect, test } from "vitest";
import { type NonNegativeFit, nonNegativeLeastSquares } from "../../language/science/nnls.ts";
import { isOutside } from "../../language/science/result.ts";

const figure = fc.integer({ min: -20, max: 20 });
const problem = fc
  .tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 7 }))
  .chain(([height, width]) =>
    fc.record({
      rows: fc.array(fc.array(figure, { minLength: width, maxLength: width }), {
        minLength: height,
        maxLength: height,
      }),
      target: fc.array(figure, { minLength: height, maxLength: height }),
    }),
  );

function nearest(rows: readonly (readonly number[])[], target: readonly number[]): NonNegativeFit {
  const found = nonNegativeLeastSquares(rows, target);
  if (isOutside(found)) throw new Error(found.outside);
  return found;
}

describe("least squares without negative figures", () => {
  test("stands at the optimum: Karush, Kuhn and Tucker's conditions", () => {
    fc.assert(
      fc.property(problem, ({ rows, target }) => {
        const { solution, residual, residualNorm } = nearest(rows, target);
        expect(Math.hypot(...residual)).toBeCloseTo(residualNorm, 9);
        for (const [i, row] of rows.entries()) {
          const made = row.reduce((sum, a, j) => sum + a * solution[j]!, 0);
          expect(target[i]! - made).toBeCloseTo(residual[i]!, 7);
        }
        for (const [j, x] of solution.entries()) {
          const slope = rows.reduce((sum, row, i) => sum + row[j]! * residual[i]!, 0);
          expect(x).toBeGreaterThanOrEqual(0);
          // No more of any column would come nearer; of a column in use, no less either.
          expect(slope).toBeLessThan(1e-6);
          if (x > 0) expect(Math.abs(slope)).toBeLessThan(1e-6);
        }
        expect(solution.filter((x) => x > 0).length).toBeLessThanOrEqual(rows.length);
      }),
      { numRuns: 1000 },
    );
  });

  test("comes as near as the reference library", () => {
    fc.assert(
      fc.property(problem, ({ rows, target }) => {
        // The reference needs a definite X'X; a row of small figures for each column makes any problem so.
        const width = rows[0]!.length;
        const firm = [...rows, ...rows[0]!.map((_, j) => rows[0]!.map((_, k) => (k === j ? 0.5 : 0)))];
        const goal = [...target, ...Array.from({ length: width }, () => 0)];
        const ours = nearest(firm, goal).solution;
        const theirs = fcnnlsVector(
          firm.map((row) => [...row]),
          goal,
        ).K.to1DArray();
        for (const [j, x] of theirs.entries()) expect(ours[j]).toBeCloseTo(x, 7);
      }),
      { numRuns: 300 },
    );
  });

  test("is the best of all sets of columns, tried one by one", () => {
    fc.assert(
      fc.property(problem, ({ rows, target }) => {
        const { residualNorm } = nearest(rows, target);
        const width = rows[0]!.length;
        for (let set = 0; set < 2 ** width; set++) {
          const chosen = [...Array(width).keys()].filter((j) => set & (1 << j));
          const near = nearestBySet(rows, target, chosen);
          if (near !== undefined) expect(residualNorm).toBeLessThanOrEqual(near + 1e-6);
        }
      }),
      { numRuns: 60 },
    );
  });

  test("the same column twice, or one of nothing, is no trouble", () => {
    expect(nearest([[2, 2, 0]], [6]).solution).toEqual([3, 0, 0]);
    expect(nearest([[1], [1]], [-1, -2]).solution).toEqual([0]);
    expect(nearest([[]], [4])).toEqual({ solution: [], residual: [4], residualNorm: 4 });
  });

  test("gives a reason for what is no problem of least squares", () => {
    expect(isOutside(nonNegativeLeastSquares([[1, 2], [3]], [1, 2]))).toBe(true);
    expect(isOutside(nonNegativeLeastSquares([[1]], [1, 2]))).toBe(true);
    expect(isOutside(nonNegativeLeastSquares([[Number.NaN]], [1]))).toBe(true);
    expect(isOutside(nonNegativeLeastSquares([[1]], [Infinity]))).toBe(true);
  });
});

/** Distance with only these columns, by the normal equations; undefined when not solvable without negatives. */
function nearestBySet(
  rows: readonly (readonly number[])[],
  target: readonly number[],
  chosen: readonly number[],
): number | undefined {
  const size = chosen.length;
  const system = chosen.map((j) => [
    ...chosen.map((k) => rows.reduce((sum, row) => sum + row[j]! * row[k]!, 0)),
    rows.reduce((sum, row, i) => sum + row[j]! * target[i]!, 0),
  ]);
  for (let pivot = 0; pivot < size; pivot++) {
    const best = [...Array(size).keys()]
      .slice(pivot)
      .reduce((a, b) => (Math.abs(system[b]![pivot]!) > Math.abs(system[a]![pivot]!) ? b : a));
    [system[pivot], system[best]] = [system[best]!, system[pivot]!];
    const head = system[pivot]![pivot]!;
    if (Math.abs(head) < 1e-6) return undefined;
    for (let i = 0; i < size; i++) {
      if (i === pivot) continue;
      const times = system[i]![pivot]! / head;
      for (let k = pivot; k <= size; k++) system[i]![k]! -= times * system[pivot]![k]!;
    }
  }
  const solution = system.map((row, i) => row[size]! / row[i]!);
  if (solution.some((x) => x < 0)) return undefined;
  return Math.hypot(
    ...rows.map((row, i) => target[i]! - chosen.reduce((sum, j, at) => sum + row[j]! * solution[at]!, 0)),
  );
}
