/**
 * The inputs of a row, `k=v;k=v` with the unit in the key: `V_usgal=55;dose_mg_L=4;percent_active=100`. A
 * calculation asks for a quantity by its stem and the unit it wants; the key may carry any unit of that
 * dimension.
 */
import { convertedBetween, measureOf } from "./measure.ts";

/** A row lacks what its calculation needs: that row is unknown, not wrong. */
export class MissingInput extends Error {}

/** One name, or several that mean the same; the first that is there counts. */
type Names = string | readonly string[];
const listOf = (names: Names): readonly string[] => (typeof names === "string" ? [names] : names);

export class Inputs {
  readonly values: ReadonlyMap<string, string>;
  /** The unit of the expected figure. */
  readonly unit: string;
  readonly #read = new Set<string>();

  constructor(text: string, unit: string) {
    const pairs = text.split(";").filter((pair) => pair.trim() !== "");
    this.values = new Map(
      pairs.map((pair) => {
        const at = pair.indexOf("=");
        if (at < 0) throw new MissingInput(`${pair.trim()} is no input: it has no =`);
        return [pair.slice(0, at).trim(), pair.slice(at + 1).trim()] as const;
      }),
    );
    this.unit = unit;
  }

  /** What was given and not asked for. */
  unused(): string[] {
    return [...this.values.keys()].filter((key) => !this.#read.has(key));
  }

  has(names: Names): boolean {
    return this.#keyOf(names) !== undefined;
  }

  /** Whether a figure of a stem is given in any unit. */
  hasIn(stems: Names, wanted: string): boolean {
    return this.#keyIn(stems, wanted) !== undefined;
  }

  text(names: Names): string {
    const key = this.#keyOf(names);
    if (key === undefined) throw new MissingInput(`no input ${listOf(names).join(" or ")}`);
    return this.#value(key);
  }

  number(names: Names, otherwise?: number): number {
    if (otherwise !== undefined && !this.has(names)) return otherwise;
    return numberOf(this.text(names), listOf(names)[0]!);
  }

  /** A share, given as a fraction or in per cent. */
  share(fractions: Names, percents: Names, otherwise?: number): number {
    if (this.has(fractions)) return this.number(fractions);
    if (this.has(percents)) return this.number(percents) / 100;
    if (otherwise !== undefined) return otherwise;
    throw new MissingInput(`no input ${[...listOf(fractions), ...listOf(percents)].join(" or ")}`);
  }

  /** `1|2|3`, or `1..14`. */
  series(names: Names): number[] {
    const text = this.text(names);
    const range = /^(-?\d+)\s*\.\.\s*(-?\d+)$/.exec(text);
    if (range === null) return text.split("|").map((each) => numberOf(each.trim(), listOf(names)[0]!));
    const [from, to] = [Number(range[1]), Number(range[2])];
    const step = to < from ? -1 : 1;
    return Array.from({ length: Math.abs(to - from) + 1 }, (_, i) => from + i * step);
  }

  /** The figure of `stem_<unit>`, whatever the unit, in the unit wanted. */
  in(stems: Names, wanted: string, otherwise?: number): number {
    const [figure, ...more] = this.seriesIn(stems, wanted, otherwise === undefined ? undefined : [otherwise]);
    if (figure === undefined || more.length > 0)
      throw new MissingInput(`${listOf(stems)[0]} is not one figure`);
    return figure;
  }

  /** The same of several figures. */
  seriesIn(stems: Names, wanted: string, otherwise?: number[]): number[] {
    const found = this.#keyIn(stems, wanted);
    if (found !== undefined) {
      const from = measureOf(found.suffix)!;
      return this.series(found.key).map((value) => convertedBetween(value, from, measureOf(wanted)!)!);
    }
    // A figure in a unit that does not serve is not a figure left out.
    const stray = [...this.values.keys()].find((key) => suffixes(key, stems, true).length > 0);
    if (stray !== undefined && !this.#read.has(stray)) {
      throw new MissingInput(`${stray} is in no unit that converts to ${wanted}`);
    }
    if (otherwise !== undefined) return otherwise;
    throw new MissingInput(`no input ${listOf(stems).join(" or ")} in a unit that converts to ${wanted}`);
  }

  #value(key: string): string {
    this.#read.add(key);
    return this.values.get(key)!;
  }

  /** The key of a name, in its own case before any other. */
  #keyOf(names: Names): string | undefined {
    for (const name of listOf(names)) {
      if (this.values.has(name)) return name;
      const alike = [...this.values.keys()].filter((key) => key.toLowerCase() === name.toLowerCase());
      // `t` beside `T` would be anybody's guess.
      if (alike.length === 1) return alike[0];
    }
    return undefined;
  }

  #keyIn(stems: Names, wanted: string): { key: string; suffix: string } | undefined {
    const to = measureOf(wanted)!;
    for (const looseCase of [false, true]) {
      for (const key of this.values.keys()) {
        for (const suffix of suffixes(key, stems, looseCase)) {
          const from = measureOf(suffix);
          if (from !== undefined && convertedBetween(1, from, to) !== undefined) return { key, suffix };
        }
      }
    }
    return undefined;
  }
}

/** What follows a stem in a key, for each of the stems that it begins with. */
function suffixes(key: string, stems: Names, looseCase: boolean): string[] {
  const folded = (text: string) => (looseCase ? text.toLowerCase() : text);
  return listOf(stems)
    .filter((stem) => folded(key).startsWith(`${folded(stem)}_`))
    .map((stem) => key.slice(stem.length + 1));
}

/** `NaN` is a figure that a calculation must refuse; `many` is none. */
function numberOf(text: string, name: string): number {
  const value = Number(text);
  if (text === "" || (Number.isNaN(value) && text !== "NaN"))
    throw new MissingInput(`${name}=${text} is no number`);
  return value;
}

/** A figure in another unit. */
export function converted(value: number, from: string, to: string): number {
  const [was, will] = [measureOf(from), measureOf(to)];
  const result = was && will && convertedBetween(value, was, will);
  if (result === undefined) throw new MissingInput(`${from} does not convert to ${to}`);
  return result;
}
