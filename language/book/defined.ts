import { dayOf } from "./dates.ts";
import type { Definition, Property } from "./definition.ts";
import type { Item, Value } from "./reading.ts";
import type { Block } from "./source.ts";
import type { Place } from "./stations.ts";

/** A definition in its block, and what it says, property by property. */
export interface Defined {
  readonly block: Block;
  readonly definition: Definition;
}

/** Where a definition's name stands. */
export function nameplace({ block, definition }: Defined): Place {
  return { block, start: definition.nameStart, end: definition.nameEnd };
}

/** The first property with this word. */
export function property(definition: Definition | undefined, word: string): Property | undefined {
  return definition?.properties.find((each) => each.word === word);
}

/** The filled slots of the first property with this word. */
export function one(definition: Definition | undefined, word: string): Item | undefined {
  return property(definition, word)?.filled.items[0];
}

/** The words of a property that is a list of words. */
export function wordsOf(definition: Definition, word: string): readonly string[] {
  return (property(definition, word)?.words ?? []).map((value) => value.text);
}

/** The day a date value names; NaN where it is missing. */
export function dateOf(value: Value | undefined): number {
  return value === undefined ? Number.NaN : dayOf(value.text);
}

/** What states something, for messages: `tank dam`, `room`. */
export function statedBy({ definition }: Defined): string {
  return definition.word === "room" ? "room" : `${definition.word} ${definition.name}`;
}
