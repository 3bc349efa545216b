import { type Decimal, readNumber, type Written } from "./number.ts";

/** A figure as people write it who read a scale: one, about one, or a range. A log holds all three of a reading, a change, a portion and a count. */
export interface Figure extends Omit<Written, "censor"> {
  readonly censor: Written["censor"] | "~";
  /** Of a range the upper end; undefined where it is one figure. */
  readonly high: Written | undefined;
}

const about = /^(?:~|≈|ca?\.|circa|about|approx\.?|around|etwa|ungefähr|rund)\s*(?=\d)/i;
const range = /^(.*?\d.*?)\s*(?:\.{2,3}|…|[-–—]|(?<=\s)(?:to|bis)(?=\s))\s*(\d.*)$/is;

/** The figure in a cell; undefined if there is none. */
export function readFigure(cell: string, decimal: Decimal): Figure | undefined {
  const number = readNumber(cell, decimal);
  if (number !== undefined) return { ...number, high: undefined };
  const said = about.exec(cell)?.[0];
  if (said !== undefined) {
    const figure = readNumber(cell.slice(said.length), decimal);
    return figure === undefined || figure.censor !== ""
      ? undefined
      : { ...figure, censor: "~", high: undefined };
  }
  const ends = range.exec(cell);
  if (ends === null) return undefined;
  const [low, high] = [readNumber(ends[1]!.trim(), decimal), readNumber(ends[2]!, decimal)];
  if (low === undefined || high === undefined || low.censor !== "" || high.censor !== "") return undefined;
  // `10 mg/L - 20 mg/L`: the unit stands at both ends, or behind the second.
  if (low.mark !== "" && low.mark !== high.mark) return undefined;
  return { ...low, mark: high.mark, high };
}

/** Why a range is none; empty if it is one. */
export function rangeFlaw(cell: string, { value, high }: Figure): string {
  return high === undefined || high.value > value
    ? ""
    : `“${cell.slice(0, 40)}” is no range: write its lower end first, or one figure`;
}

/** `<5`, `~15`, `10..20`, as a log says it. @param high empty where it is one figure */
export const figureText = ({
  censor,
  text,
  high,
}: Pick<Figure, "censor" | "text"> & { readonly high: string }): string =>
  `${censor}${text}${high === "" ? "" : `..${high}`}`;
