import type { DefinitionWord } from "../syntax/blocks.ts";
import type { Signature, Slot } from "./slots.ts";

/** A property of a definition. */
export interface PropertyKind extends Signature {
  readonly doc: string;
  /** How the words behind the property's word are read; `slots` where nothing is said. */
  readonly form?: "slots" | "every" | "at" | "needs" | "units";
  /** May stand more than once. */
  readonly many?: boolean;
  /** Whole properties as a keeper writes them; each is run as a test. */
  readonly examples: readonly string[];
}

/** What a kind of definition is: one file a kind in `definitions/`, listed in `definitions/registry.ts`. */
export interface DefinitionKind {
  readonly word: DefinitionWord;
  readonly title: string;
  readonly doc: string;
  readonly properties: readonly PropertyKind[];
}

/** A property whose words fill slots. */
export function property(
  word: string,
  doc: string,
  slots: readonly Slot[],
  examples: string[],
  more: Partial<PropertyKind> = {},
): PropertyKind {
  return { word, doc, slots, examples, ...more };
}

/** A property that is one thing. */
export function single(
  word: string,
  doc: string,
  slot: Omit<Slot, "name" | "doc">,
  ...examples: string[]
): PropertyKind {
  return {
    word,
    doc,
    examples,
    slots: [{ name: word, doc, required: `a value: ${examples[0] ?? word}`, ...slot }],
  };
}
