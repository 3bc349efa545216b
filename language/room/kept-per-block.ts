import type { Facts } from "../book/facts.ts";
import type { Block } from "../book/source.ts";

/** What `make` reads from the facts of a block alone, kept until the block is edited: a look at ten years is a look at its days. */
export function keptPerBlock<T>(make: (facts: Facts) => T): (block: Block) => T {
  const kept = new WeakMap<Block, { readonly facts: Facts; readonly value: T }>();
  return (block) => {
    const { facts } = block;
    const known = kept.get(block);
    if (known?.facts === facts) return known.value;
    const value = make(facts);
    kept.set(block, { facts, value });
    return value;
  };
}
