import type { Block } from "../book/source.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Logbook } from "./logbook.ts";

/** What was made, and the blocks of which lines were read for it beside their facts. */
export interface MadeOfLines<T> {
  readonly value: T;
  readonly blocks: Iterable<Block>;
}

interface Cell<T> {
  made: { readonly value: T; readonly read: readonly (readonly [Block, number])[] } | undefined;
}

/**
 * What was computed from all ledgers together and from words that are in no column of facts: kept until a ledger is derived again, or one
 * of the blocks whose lines were read is edited.
 */
export function keptWithLines<T>(logbook: Logbook, key: string, make: () => MadeOfLines<T>): T {
  const cell = keptFor<Cell<T>>(logbook, key, () => ({ made: undefined }));
  const isStill = cell.made?.read.every(([block, revision]) => block.revision === revision) === true;
  if (!isStill) {
    const { value, blocks } = make();
    cell.made = { value, read: [...new Set(blocks)].map((block) => [block, block.revision] as const) };
  }
  return cell.made!.value;
}
