import { Mark } from "../syntax/pieces.ts";
import type { Binder } from "./binder.ts";
import { type Defined, statedBy } from "./defined.ts";
import { parameterOf } from "./parameters.ts";
import type { Item } from "./reading.ts";
import type { Limit } from "./stations.ts";

/** By the number of the parameter. */
export type Limits = ReadonlyMap<number, Limit>;

/** What a definition states as limits; of a parameter that is limited twice the later statement. */
export function limitsIn(binder: Binder, defined: Defined): Limits {
  const limits = new Map<number, Limit>();
  for (const property of defined.definition.properties) {
    if (property.word !== "limits") continue;
    for (const item of property.filled.items) {
      const limit = limitOf(binder, defined, item);
      if (limit !== undefined) limits.set(limit.parameter.id, limit);
    }
  }
  return limits;
}

/** All limits together, the later before the earlier. */
export function narrowest(statements: readonly Limits[]): Limits {
  return new Map(statements.flatMap((each) => [...each]));
}

function limitOf(binder: Binder, defined: Defined, { parameter, bounds }: Item): Limit | undefined {
  if (parameter === undefined || bounds === undefined) return undefined;
  const known = parameterOf(parameter.text);
  const { first, second } = binder.reading(defined, known, bounds);
  if (Number.isNaN(first)) return undefined;
  const place = { block: defined.block, start: parameter.start, end: bounds.end };
  const limit = { parameter: known, place, by: statedBy(defined) };
  const { mark } = bounds;
  if (mark === Mark.range) return { ...limit, low: first, high: second };
  const isCeiling = mark === Mark.atMost || mark === Mark.below;
  return isCeiling
    ? { ...limit, low: Number.NEGATIVE_INFINITY, high: first }
    : { ...limit, low: first, high: Number.POSITIVE_INFINITY };
}
