import type { Block } from "../book/source.ts";
import type { Station } from "../book/stations.ts";
import type { End, Link, Pause } from "./exposure.ts";

/** A row of the log as a contact: what went from where to where, or what ended it. */

/** How something went; `rankOf` has them in order. */
export type ContactKind = "animals" | "water" | "barrel" | "things" | "tool";

/** The closest first: animals, water, what is carried over, tools. A choice of this tool. */
export const rankOf: Readonly<Record<ContactKind, number>> = {
  animals: 0,
  water: 1,
  barrel: 1,
  things: 2,
  tool: 3,
};
/** Of tanks that share their water. */
export const sharedRank = rankOf.water;

/** Where in the log. */
export interface At {
  readonly day: number;
  /** In days. */
  readonly time: number;
  readonly block: Block;
  /** The number by which the row is referred to. */
  readonly row: number;
}

export interface Contact extends Link, At {
  readonly kind: ContactKind;
  /** What went: a species, a thing, a tool, a barrel. */
  readonly what: string;
  /** The stations that the line names; undefined for what is outside, and for tools. */
  readonly fromStation: Station | undefined;
  readonly toStation: Station | undefined;
}

export interface Cut extends End, At {
  readonly how: "disinfected" | "emptied";
  /** What the line is about; undefined for a tool. */
  readonly station: Station | undefined;
}

/** A line at which a search may begin: sick animals, a sample, a result. */
export interface Mark extends Pause, At {
  readonly kind: number;
  readonly stations: readonly Station[];
}

export type LogStep = Contact | Cut | Mark;
