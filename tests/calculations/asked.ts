import { type Answer, type Answered, evaluate } from "../../language/calculations/evaluate.ts";
import { calculationOf } from "../../language/calculations/registry.ts";
import { Inputs } from "../published/inputs.ts";
import { convertedBetween, measureOf } from "../published/measure.ts";
import type { Row } from "../published/published.ts";

/** Published rows asked of the public calculations, in words with units, as a keeper would type them. */

export function answerOf(name: string, texts: Readonly<Record<string, string>>): Answer {
  const calculation = calculationOf(name);
  if (calculation === undefined) throw new Error(`there is no calculation ${name}`);
  return evaluate(calculation, texts);
}

/** One figure of a calculation; a test that gets a reason instead fails with it. */
export function asked(name: string, texts: Readonly<Record<string, string>>, figure: string): Answered {
  const { problems, outside, figures } = answerOf(name, texts);
  const found = figures.find((each) => each.name === figure);
  const reason = problems[0]?.message ?? outside ?? found?.outside;
  if (reason !== undefined) throw new Error(`${name}: ${reason}`);
  if (found?.best === undefined) throw new Error(`${name} gives no ${figure}`);
  return found;
}

/** How a published quantity is asked. */
export interface Asking {
  readonly calculation: string;
  readonly texts: Readonly<Record<string, string>>;
  readonly figure: string;
}

export type Askings = Readonly<Record<string, (given: Inputs, row: Row) => Asking>>;

/** No exponent, and all digits that a row has. */
export const plain = (value: number): string => value.toFixed(12);

/** What a calculation answers to a row, in the unit of the row. */
export function answerTo(row: Row, askings: Askings): number {
  const asking = askings[row.quantity];
  if (asking === undefined) throw new Error(`nothing asks ${row.quantity}`);
  const { calculation, texts, figure } = asking(new Inputs(row.inputs, row.unit), row);
  const { best, unit } = asked(calculation, texts, figure);
  const [from, to] = [measureOf(unit), measureOf(row.unit)];
  // A plain number, and what has no unit elsewhere (PSU, a ratio), is compared as it stands.
  if (from === undefined || to === undefined || unit === "") return best!;
  const said = convertedBetween(best!, from, to);
  if (said !== undefined) return said;
  // A row says mg/L of what the calculation counts: mg N/L of total ammonia, hardness as CaCO3.
  if (to.dimension === "concentration" && to.factor === 1) return best!;
  throw new Error(`${unit} does not convert to ${row.unit}`);
}

/** The least and greatest that a row allows. */
export function allowed({ expected, tolerance }: Row): readonly [number, number] {
  const value = Number(expected);
  const apart = Number(tolerance) + 1e-9 * Math.abs(value);
  return [value - apart, value + apart];
}
