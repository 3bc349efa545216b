import type { Dimension } from "../quantity/dimension.ts";

/**
 * What an entry or a property takes, declared: the same declaration reads a line, completes it, explains it and colours it.
 */

/** What a name in a slot may stand for. `any` is an open vocabulary. */
export type Namespace =
  | "tank"
  | "system"
  | "group"
  | "water"
  | "species"
  | "food"
  | "remedy"
  | "gear"
  | "case"
  | "lot"
  | "order"
  | "parameter"
  | "any";

/** How a number may be said: as one figure, or also as a range, or also as a bound. About so much (`~30`) is one figure. */
export type Shape = "one" | "range" | "bound";

/** What may fill a slot. */
export type Filling =
  /** A number with a unit of one of these dimensions. `noun` names it in messages; a range is allowed if no shape is said. */
  | {
      readonly is: "quantity";
      readonly of: readonly Dimension[];
      readonly noun: string;
      readonly shape?: Shape;
      /** Units to offer where one is missing, if not one of each dimension. Where only one dimension is asked for, one is then needed. */
      readonly offers?: readonly string[];
      /** From where to where a number without a unit goes. */
      readonly within?: readonly [low: number, high: number];
    }
  /** What the parameter named before it is measured in: any reading, a range at most, or a limit (a range or a bound). */
  | { readonly is: "reading"; readonly shape?: "range" | "limit" }
  /** A whole number of animals: `14`, `~20`, `3.5.20`, `12..14`. */
  | { readonly is: "count"; readonly noun?: string }
  /** A name that is defined somewhere, or one of `also`. */
  | {
      readonly is: "name";
      readonly of: readonly Namespace[];
      readonly also?: readonly string[];
      readonly noun?: string;
    }
  /** One of a few words. */
  | { readonly is: "choice"; readonly words: readonly string[] }
  /** Words of an open vocabulary, parted by commas; `known` are offered. */
  | { readonly is: "words"; readonly known: readonly string[]; readonly noun: string }
  /** A text in quotes, or a single word, which may be a name of `of`. */
  | { readonly is: "text"; readonly noun: string; readonly of?: Namespace }
  /** `-> q1`. */
  | { readonly is: "destination" }
  | { readonly is: "date" }
  | { readonly is: "lengths" };

/** Where a slot's value goes in the columns of facts; a slot without one is read from its line when it is looked at. */
export type Column = "subject" | "object" | "lot" | "tool" | "amount" | "second" | "choice";

export interface Slot {
  readonly name: string;
  readonly doc: string;
  readonly filling: Filling;
  /** Words that introduce the slot: `from`, `case`. Without one the slot is filled by what fits it. */
  readonly lead?: string;
  /** What to say is missing, with an example; absent for a slot that may stay empty. */
  readonly required?: string;
  /** The slot that has to be filled further ahead on the line: the further words of a list that a lead opens. */
  readonly behind?: string;
  /** Belongs to each item of a list and not to the whole line. */
  readonly each?: boolean;
  readonly column?: Column;
}

export interface Signature {
  readonly word: string;
  readonly slots: readonly Slot[];
  /** Items parted by commas, each with its own filling of the slots that say `each`. */
  readonly list?: boolean;
}

export const quantity = (noun: string, ...of: Dimension[]): Filling => ({ is: "quantity", of, noun });
/** A number whose unit is always written; these are offered. */
export const offering = (filling: Filling, ...offers: string[]): Filling =>
  filling.is === "quantity" ? { ...filling, offers } : filling;
/** A number that goes from one figure to another. */
export const within = (low: number, high: number, filling: Filling): Filling =>
  filling.is === "quantity" ? { ...filling, within: [low, high] } : filling;
/** A number that can only be computed with as one figure. */
export const oneQuantity = (noun: string, ...of: Dimension[]): Filling => ({
  is: "quantity",
  of,
  noun,
  shape: "one",
});
/** A number that may be a bound: `school >= 8`. */
export const boundQuantity = (noun: string, ...of: Dimension[]): Filling => ({
  is: "quantity",
  of,
  noun,
  shape: "bound",
});
export const count = (noun?: string): Filling => ({ is: "count", ...(noun === undefined ? {} : { noun }) });
export const name = (...of: Namespace[]): Filling => ({ is: "name", of });
export const nameOrWord = (noun: string, of: Namespace, ...also: string[]): Filling => ({
  is: "name",
  of: [of, "any"],
  also,
  noun,
});
export const choice = (...words: string[]): Filling => ({ is: "choice", words });
export const words = (noun: string, ...known: string[]): Filling => ({ is: "words", known, noun });
export const text = (noun: string, of?: Namespace): Filling => ({
  is: "text",
  noun,
  ...(of === undefined ? {} : { of }),
});
