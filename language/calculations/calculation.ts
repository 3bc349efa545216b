import type { Reading } from "../science/censored.ts";
import type { Figure, Outside } from "../science/result.ts";

/**
 * A calculation as a keeper asks for it: values with units in, figures with units out. It declares what it takes, where its formula
 * holds and what it rests on; the terminal, the editor and the manual are made of the declaration. One file each, listed in
 * `registry.ts`.
 */
export interface Calculation<I extends Inputs = Inputs> {
  /** What it is called in the terminal: lower case, with hyphens. */
  readonly name: string;
  readonly title: string;
  readonly group: Group;
  /** Which question it answers, in a sentence or two. */
  readonly answers: string;
  readonly inputs: I;
  /** Formulas as they are written, one each. */
  readonly formula: readonly string[];
  /** Where it holds; outside it there is no figure. */
  readonly range: string;
  /** Author, year, title or journal; common practice says that it is that. */
  readonly sources: readonly string[];
  /** Where the work can hurt animals or people. */
  readonly caution?: string;
  /** Worked examples, run as tests. */
  readonly examples: readonly Example[];
  /** Figures from plain numbers in the units of the inputs; a reason where the formula does not hold at all. */
  compute(given: Given<I>): readonly Result[] | Outside;
  /** What of it may be written into a log, an entry without its target: `change 35 %`. */
  entry?(given: Given<I>, results: readonly Result[]): string | undefined;
}

export const groups = [
  "ammonia",
  "gases",
  "hardness and salts",
  "changes",
  "doses",
  "vessels",
  "animals",
  "statistics",
] as const;
export type Group = (typeof groups)[number];

/** One figure that follows. */
export interface Result {
  readonly name: string;
  readonly title: string;
  /** The symbol of a unit; empty for a plain number or for words. */
  readonly unit: string;
  readonly value: Figure | string;
  /** Significant digits where three are not right. */
  readonly digits?: number;
}

export interface Example {
  /** As it is typed in the terminal. */
  readonly given: string;
  /** Some of its results by name, as they are shown. */
  readonly gives: Readonly<Record<string, string>>;
  /** Where the example is published, or the arithmetic. */
  readonly from: string;
}

interface Asked {
  readonly title: string;
  /** What is taken where nothing is given, as it would be typed. */
  readonly otherwise?: string;
  /** May be left out; nothing is taken for it. */
  readonly optional?: boolean;
  /** What of a tank in a log it may be filled from. */
  readonly from?: Prefill;
}

/**
 * `reading pH`: the latest test; `source nitrate`: what the first water holds; `volume`: the net volume; `change`: the usual one;
 * `altitude`: of the room.
 */
export type Prefill = `reading ${string}` | `source ${string}` | "volume" | "change" | "altitude";

export interface QuantityInput extends Asked {
  readonly is: "quantity";
  /** Its symbol: what the calculation reckons in, and what a number without a unit means. */
  readonly unit: string;
  /** Bounds in that unit of what can be at all; the formula's own range is narrower. */
  readonly low: number;
  readonly high: number;
  /** The lower bound itself cannot be. */
  readonly isAbove?: boolean;
  /** A count: there are no halves. */
  readonly isWhole?: boolean;
  /** One figure and no range, as a result goes both ways with it and the ends of a range would not bound it. */
  readonly isSingle?: boolean;
  /** Another unit that is read as if it were this one, one for one. */
  readonly alike?: string;
}

export interface ChoiceInput<Word extends string = string> extends Asked {
  readonly is: "choice";
  readonly choices: readonly Word[];
}

/** Several numbers, parted by commas. */
export interface SeriesInput extends Asked {
  readonly is: "series";
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  /** How many there have to be. */
  readonly least: number;
  /** Readings: `<5`, `>100` and `15..25` may stand among the figures. */
  readonly isCensored?: boolean;
}

/** Words that the calculation reads by itself; it answers a text that does not read with a reason. */
export interface WordsInput extends Asked {
  readonly is: "words";
  /** How it is written. */
  readonly form: string;
}

export type Input = QuantityInput | ChoiceInput | SeriesInput | WordsInput;
export type Inputs = Readonly<Record<string, Input>>;

/** What an input is to the calculation; undefined where it may be left out and was. */
export type Given<I extends Inputs> = {
  readonly [Name in keyof I]: I[Name] extends { readonly optional: true }
    ? Value<I[Name]> | undefined
    : Value<I[Name]>;
};

type Value<One extends Input> = One extends QuantityInput
  ? number
  : One extends SeriesInput
    ? One extends { readonly isCensored: true }
      ? readonly Reading[]
      : readonly number[]
    : One extends ChoiceInput<infer Word>
      ? Word
      : string;

type More<Keys extends keyof QuantityInput> = Partial<Pick<QuantityInput, Keys>>;

type Details = "otherwise" | "optional" | "from" | "isAbove" | "isWhole" | "isSingle" | "alike";

/** A figure with a unit. */
export function quantity<const M extends More<Details>>(
  title: string,
  unit: string,
  within: readonly [low: number, high: number],
  more?: M,
): QuantityInput & M {
  return { is: "quantity", title, unit, low: within[0], high: within[1], ...more } as QuantityInput & M;
}

export function choice<
  const Word extends string,
  const M extends Partial<Pick<Asked, "otherwise" | "optional">>,
>(title: string, choices: readonly Word[], more?: M): ChoiceInput<Word> & M {
  return { is: "choice", title, choices, ...more } as ChoiceInput<Word> & M;
}

export function series<const M extends Partial<Pick<SeriesInput, "otherwise" | "optional" | "isCensored">>>(
  title: string,
  unit: string,
  within: readonly [low: number, high: number],
  least: number,
  more?: M,
): SeriesInput & M {
  return { is: "series", title, unit, low: within[0], high: within[1], least, ...more } as SeriesInput & M;
}

export function words<const M extends Partial<Pick<Asked, "otherwise" | "optional">>>(
  title: string,
  form: string,
  more?: M,
): WordsInput & M {
  return { is: "words", title, form, ...more } as WordsInput & M;
}

export function result(
  name: string,
  title: string,
  unit: string,
  value: Figure | string,
  digits?: number,
): Result {
  return { name, title, unit, value, ...(digits === undefined ? {} : { digits }) };
}

/** Declares a calculation; the types of what it is given follow from its inputs. */
export function calculation<const I extends Inputs>(declared: Calculation<I>): Calculation {
  // Whoever evaluates it reads each input by its own declaration, so what is given is of its type.
  return declared as unknown as Calculation;
}
