/**
 * What a formula answers: a figure, or the reason why it gives none. A formula outside the range it was
 * fitted to never gives a number, so that no figure in the log is an extrapolation nobody published.
 */
export interface Outside {
  /** Why there is no figure, as a clause a keeper can read: "pH 4.1 is below the table's 6.5". */
  readonly outside: string;
}

export type Figure = number | Outside;

export function outside(reason: string): Outside {
  return { outside: reason };
}

export function isOutside(answer: unknown): answer is Outside {
  return typeof answer === "object" && answer !== null && "outside" in answer;
}

/** The reason why a value lies outside [low, high], or undefined when it lies inside. NaN lies outside. */
export function beyond(
  name: string,
  value: number,
  low: number,
  high: number,
  unit = "",
): Outside | undefined {
  if (value >= low && value <= high) return undefined;
  const said = unit === "" ? "" : ` ${unit}`;
  return outside(`${name} ${sixDigits(value, low, high)}${said} is not within ${low} to ${high}${said}`);
}

/** A converted figure runs to sixteen digits; six tell it, unless they would put it on a bound. */
function sixDigits(value: number, low: number, high: number): number {
  const short = Number(value.toPrecision(6));
  return short >= low && short <= high ? value : short;
}

/** Applies a function to a figure; a reason passes through. */
export function map(figure: Figure, change: (value: number) => number): Figure {
  return typeof figure === "number" ? change(figure) : figure;
}
