import { formatNumber } from "../quantity/format.ts";
import { didYouMean, nearest } from "../quantity/nearest.ts";
import type { Reading } from "../science/censored.ts";
import { isOutside, type Outside } from "../science/result.ts";
import type { Calculation, Given, Input, Inputs, Result } from "./calculation.ts";
import { type Known, type Read, type RoomDeclares, readInput, wanted } from "./read.ts";

/** What a calculation answers to the texts it is given. Undefined texts are inputs left out. */
export type Texts = Readonly<Record<string, string | undefined>>;

export interface Answer {
  /** In the order they are declared; those that were left out and need not be given are missing. */
  readonly inputs: readonly Taken[];
  /** What is wrong with what was given. With any of them there are no figures. */
  readonly problems: readonly Problem[];
  readonly figures: readonly Answered[];
  /** Why there are no figures at all, though what was given reads. */
  readonly outside?: string;
  /** What of it may be written into a log, an entry without its target. */
  readonly entry?: string;
}

/** An input as it was understood. */
export interface Taken {
  readonly name: string;
  readonly title: string;
  /** `0.5 mg/L N`; of words the words. */
  readonly text: string;
  /** Nothing was given, and this was taken for it. */
  readonly isAssumed: boolean;
}

export interface Problem {
  /** The input that it is about; a name that there is not, where one was given that there is not. */
  readonly input: string;
  readonly message: string;
}

/** A figure by what is known of what it was made of. */
export interface Answered {
  readonly name: string;
  readonly title: string;
  readonly unit: string;
  /** From what was read; undefined where only a range was given. */
  readonly best: number | undefined;
  /** The ends of what it may be; the same twice for one figure. NaN where it is words or there is none. */
  readonly low: number;
  readonly high: number;
  /** Why there is no figure. */
  readonly outside?: string;
  /** As it is shown: `0.053 mg/L NH3`, `0.03..0.09 mg/L NH3`, words. */
  readonly text: string;
}

/** @param declared what a room says of its units; a plain calculation has no room */
export function evaluate(calculation: Calculation, texts: Texts, declared: RoomDeclares = {}): Answer {
  const problems = unknownNames(calculation, texts);
  const taken: Taken[] = [];
  const reads = new Map<string, Read>();
  for (const [name, input] of Object.entries(calculation.inputs)) {
    const text = texts[name] ?? input.otherwise;
    if (text === undefined) {
      if (input.optional !== true) problems.push({ input: name, message: missing(name, input) });
      continue;
    }
    const read = readInput(name, input, text, declared);
    if ("problem" in read) {
      problems.push({ input: name, message: read.problem });
      continue;
    }
    reads.set(name, read);
    taken.push({
      name,
      title: input.title,
      text: takenText(input, read),
      isAssumed: texts[name] === undefined,
    });
  }
  if (problems.length > 0) return { inputs: taken, problems, figures: [] };
  return { inputs: taken, problems, ...reckon(calculation, reads) };
}

/** Works a calculation out from what was read, each input by its name. */
export function reckon(
  calculation: Calculation,
  reads: ReadonlyMap<string, Read>,
): Pick<Answer, "figures" | "outside" | "entry"> {
  const sets = samples(reads).map((given) => calculation.compute(given as Given<Inputs>));
  const [middle] = sets;
  const refused = sets.find(isOutside);
  if (refused !== undefined || middle === undefined)
    return { figures: [], outside: (refused as Outside).outside };
  const results = sets as readonly (readonly Result[])[];
  const isExact = [...reads.values()].every((read) => read.is !== "quantity" || read.best !== undefined);
  const figures = results[0]!.map((first) => answered(first, results, isExact));
  const entry = calculation.entry?.(samples(reads)[0] as Given<Inputs>, results[0]!);
  return { figures, ...(entry === undefined ? {} : { entry }) };
}

function missing(name: string, input: Input): string {
  const title = input.title === name ? "" : ` (${input.title})`;
  return `${name} is missing${title}: ${wanted(name, input)}`;
}

function unknownNames({ name: of, inputs }: Calculation, texts: Texts): Problem[] {
  const names = Object.keys(inputs);
  return Object.keys(texts)
    .filter((name) => texts[name] !== undefined && !names.includes(name))
    .map((input) => {
      const begun = input.length > 1 ? names.filter((name) => name.startsWith(input)) : [];
      const near = begun.length > 0 ? begun : nearest(input, names);
      const hint = near.length > 0 ? didYouMean(near) : `; it takes ${names.join(", ")}`;
      return { input, message: `${of} takes no “${input}”${hint}` };
    });
}

/**
 * What the calculation is computed for: first what was read, or the middle of a range, then every combination of the ends and
 * middles. A calculation goes one way between the end and the middle of each input (its tests hold it to that), so that the least and
 * the greatest of these are the ends of the result.
 */
function samples(reads: ReadonlyMap<string, Read>): Record<string, unknown>[] {
  let sets: Record<string, unknown>[] = [{}];
  for (const [name, read] of reads) {
    const values = read.is === "quantity" ? stops(read) : [read.is === "word" ? read.word : read.values];
    sets = values.flatMap((value) => sets.map((set) => ({ ...set, [name]: value })));
  }
  return sets;
}

function stops({ low, high, best, isWhole }: Known): number[] {
  if (low === high) return [low];
  const middle = best ?? (high === Number.POSITIVE_INFINITY ? low : (low + high) / 2);
  return [...new Set([isWhole === true ? Math.round(middle) : middle, low, high])];
}

function answered(first: Result, sets: readonly (readonly Result[])[], isExact: boolean): Answered {
  const { name, title, unit, digits } = first;
  const values = sets.flatMap((set) => set.filter((each) => each.name === name).map(({ value }) => value));
  const shape = { name, title, unit };
  const reason = values.find(isOutside);
  const nothing = { best: undefined, low: Number.NaN, high: Number.NaN };
  if (reason !== undefined) return { ...shape, ...nothing, outside: reason.outside, text: reason.outside };
  const said = values.filter((value) => typeof value === "string");
  if (said.length > 0) return { ...shape, ...nothing, text: [...new Set(said)].join(", or ") };
  const numbers = values as number[];
  if (numbers.some(Number.isNaN)) {
    const outside = "an input without an upper end leaves it open";
    return { ...shape, ...nothing, outside, text: outside };
  }
  const [low, high] = [Math.min(...numbers), Math.max(...numbers)];
  const best = isExact ? numbers[0] : undefined;
  return { ...shape, best, low, high, text: figureText({ best, low, high }, unit, digits) };
}

type Ends = Pick<Answered, "best" | "low" | "high">;

function figureText({ best, low, high }: Ends, unit: string, digits = 3): string {
  const number = (value: number): string => formatNumber(value, digits);
  const symbol = unit === "" || unit === "pH" ? "" : ` ${unit}`;
  const endless = Number.POSITIVE_INFINITY;
  if (low === endless) return unit === "d" ? "never" : `∞${symbol}`;
  if (number(low) === number(high)) return `${number(best ?? low)}${symbol}`;
  if (high === endless) {
    if (best === endless && unit === "d") return `never, or from ${number(low)}${symbol}`;
    return best === undefined || best === endless
      ? `>${number(low)}${symbol}`
      : `${number(best)}${symbol} (${number(low)} or more)`;
  }
  if (best === undefined && low === 0) return `<${number(high)}${symbol}`;
  const span = `${number(low)}..${number(high)}`;
  return best === undefined ? `${span}${symbol}` : `${number(best)}${symbol} (${span})`;
}

/** What was read for an input, as it is shown. */
export function takenText(input: Input, read: Read): string {
  if (read.is === "word") return read.word;
  const unit = input.is === "quantity" || input.is === "series" ? input.unit : "";
  const symbol = unit === "" || unit === "pH" ? "" : ` ${unit}`;
  const number = (value: number): string => formatNumber(value, 6);
  if (read.is === "series") return `${read.values.map(number).join(", ")}${symbol}`;
  if (read.is === "readings") return `${read.values.map(readingText).join(", ")}${symbol}`;
  return figureText(read, unit, 6);
}

function readingText({ low, high, is }: Reading): string {
  const number = (value: number): string => formatNumber(value, 6);
  switch (is) {
    case "figure":
      return number(low);
    case "below":
      return `<${number(high)}`;
    case "above":
      return `>${number(low)}`;
    default:
      return high === Number.POSITIVE_INFINITY ? `>=${number(low)}` : `${number(low)}..${number(high)}`;
  }
}
