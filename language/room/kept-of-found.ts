import type { Block } from "../book/source.ts";
import type { MadeOfLines } from "./kept-with-lines.ts";
import type { Logbook } from "./logbook.ts";

/**
 * What was computed of rows that finders found, and of words of their lines: kept while the finders find the same and none of the lines is
 * edited. An edit of other rows, which most are, leaves it.
 */
interface Kept {
  readonly of: readonly unknown[];
  readonly value: unknown;
  readonly read: readonly (readonly [Block, number])[];
}

const byLogbook = new WeakMap<Logbook, Map<string, Kept>>();

/** @param of what it is made of: lists of finders that are asked for all days, the book, what is kept itself */
export function keptOfFound<T>(
  logbook: Logbook,
  key: string,
  of: readonly unknown[],
  make: () => MadeOfLines<T>,
): T {
  let values = byLogbook.get(logbook);
  if (values === undefined) {
    values = new Map();
    byLogbook.set(logbook, values);
  }
  const known = values.get(key);
  if (
    known !== undefined &&
    known.of.length === of.length &&
    known.of.every((each, at) => each === of[at]) &&
    known.read.every(([block, revision]) => block.revision === revision)
  )
    return known.value as T;
  const { value, blocks } = make();
  values.set(key, {
    of,
    value,
    read: [...new Set(blocks)].map((block) => [block, block.revision] as const),
  });
  return value;
}
