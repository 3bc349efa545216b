/**
 * Least squares whose solution has no negative figure: for amounts that can be added and not taken out. The
 * active-set algorithm NNLS of Lawson & Hanson 1974, Solving Least Squares Problems, chapter 23 (recalled; its
 * published program, SciPy's copy of nnls.f, was seen). Small dense problems: a few rows and columns.
 *
 * Columns are scaled to unit length first, which changes no optimum and makes one tolerance fit all. Where
 * several solutions are equally near, as with two hydrates of one salt, the one that is met first is given:
 * no more columns than rows are ever in use, and a column that adds nothing new is not.
 */
import { type Outside, outside } from "./result.ts";

export interface NonNegativeFit {
  /** x of min |Ax - b|, x >= 0. */
  readonly solution: number[];
  /** b - Ax. */
  readonly residual: number[];
  /** Euclidean length of the residual. */
  readonly residualNorm: number;
}

/** How near to 0 a unit column's part is nothing new, and a gradient is flat beside the target's length. */
const FLAT = 1e-11;

/**
 * Minimises |Ax - b| over x >= 0.
 * @param rows A, a row an equation, all of one length
 * @param target b, a figure a row
 */
export function nonNegativeLeastSquares(
  rows: readonly (readonly number[])[],
  target: readonly number[],
): NonNegativeFit | Outside {
  const width = rows[0]?.length ?? 0;
  if (rows.length !== target.length) return outside("there are not as many targets as rows");
  if (rows.some((row) => row.length !== width)) return outside("the rows are not of one length");
  if (![...rows.flat(), ...target].every(Number.isFinite)) return outside("a figure is not a finite number");

  const lengths = Array.from({ length: width }, (_, j) => norm(rows.map((row) => row[j]!)));
  const columns = lengths.map((length, j) => rows.map((row) => (length === 0 ? 0 : row[j]! / length)));
  const scaled = activeSet(columns, target);
  if (scaled === undefined) return outside("the least squares did not settle");
  const residual = remainder(columns, target, scaled);
  const solution = scaled.map((x, j) => (x === 0 ? 0 : x / lengths[j]!));
  return { solution, residual, residualNorm: norm(residual) };
}

function activeSet(columns: readonly (readonly number[])[], target: readonly number[]): number[] | undefined {
  const solution = columns.map(() => 0);
  const flat = FLAT * norm(target);
  let inUse: number[] = [];
  // It ends after finitely many steps; the bound is the published program's, against endless rounding.
  for (let step = 0; step <= 3 * columns.length + 3; step++) {
    const residual = remainder(columns, target, solution);
    const steepest = columns
      .map((column, j) => ({ j, slope: dot(column, residual) }))
      .filter(({ j, slope }) => slope > flat && !inUse.includes(j))
      .sort((a, b) => b.slope - a.slope);
    let trial: number[] | undefined;
    for (const { j } of steepest) {
      const found = leastSquares(
        [...inUse, j].map((k) => columns[k]!),
        target,
      );
      // A column that repeats those in use, or comes out backwards by rounding, would make the steps circle.
      if (found === undefined || !(found.at(-1)! > 0)) continue;
      inUse = [...inUse, j];
      trial = found;
      break;
    }
    if (trial === undefined) return solution;
    while (trial.some((x) => !(x > 0))) {
      inUse = stepBack(solution, trial, inUse);
      trial = leastSquares(
        inUse.map((k) => columns[k]!),
        target,
      );
      if (trial === undefined) return undefined;
    }
    for (const [i, j] of inUse.entries()) solution[j] = trial[i]!;
  }
  return undefined;
}

/** Goes from the solution towards a trial until the first figure is 0, and takes that out of use. */
function stepBack(solution: number[], trial: readonly number[], inUse: readonly number[]): number[] {
  let share = 1;
  let first = -1;
  for (const [i, j] of inUse.entries()) {
    const x = solution[j]!;
    const reach = x / (x - trial[i]!);
    if (!(trial[i]! > 0) && (first < 0 || reach < share)) [share, first] = [reach, j];
  }
  for (const [i, j] of inUse.entries()) solution[j] = solution[j]! + share * (trial[i]! - solution[j]!);
  solution[first] = 0;
  const left = inUse.filter((j) => solution[j]! > 0);
  for (const j of inUse) if (!left.includes(j)) solution[j] = 0;
  return left;
}

/**
 * Unconstrained least squares by Gram-Schmidt done twice (Giraud, Langou & Rozloznik 2005, Comput. Math. Appl.
 * 50:1069-1075, recalled); undefined when a unit column lies in the span of those before it.
 */
function leastSquares(
  columns: readonly (readonly number[])[],
  target: readonly number[],
): number[] | undefined {
  const basis: number[][] = [];
  const upper: number[][] = [];
  for (const column of columns) {
    const rest = [...column];
    const parts = basis.map(() => 0);
    for (let pass = 0; pass < 2; pass++) {
      for (const [i, unit] of basis.entries()) {
        const part = dot(unit, rest);
        parts[i]! += part;
        for (const [k, value] of unit.entries()) rest[k]! -= part * value;
      }
    }
    const length = norm(rest);
    if (length <= FLAT) return undefined;
    basis.push(rest.map((value) => value / length));
    upper.push([...parts, length]);
  }
  const solution = basis.map((unit) => dot(unit, target));
  for (let j = solution.length - 1; j >= 0; j--) {
    solution[j]! /= upper[j]![j]!;
    for (let i = 0; i < j; i++) solution[i]! -= upper[j]![i]! * solution[j]!;
  }
  return solution;
}

function remainder(
  columns: readonly (readonly number[])[],
  target: readonly number[],
  solution: readonly number[],
): number[] {
  return target.map((b, i) => columns.reduce((left, column, j) => left - column[i]! * solution[j]!, b));
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * b[i]!, 0);
}

function norm(values: readonly number[]): number {
  return Math.hypot(...values);
}
