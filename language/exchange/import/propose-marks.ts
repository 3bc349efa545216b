import type { Asking } from "./asking.ts";
import { unitSaid } from "./import-units.ts";
import type { Mapping } from "./mapping.ts";
import type { ColumnEvidence } from "./survey.ts";

/** Marks beside readings, in a column of their own or stuck to the number: what each means is known or asked. */

export type FlagMeaning = NonNullable<Mapping["flags"]>[string];
const meanings: readonly FlagMeaning[] = ["take", "below", "above", "leave-out"];

/** How a mark is named: of `<1> [SDO] (CCU)` the number, else all of it. */
export const flagKey = (cell: string): string => /^<-?\d+>/.exec(cell)?.[0] ?? cell;

/** Codes of the US estuarine reserves' monitoring programme (recalled): a number in angle brackets, its comments behind it. */
const known: Readonly<Record<string, readonly [FlagMeaning, string]>> = {
  "<-5>": ["above", "outside the high range of the sensor"],
  "<-4>": ["below", "below the range of the sensor or the detection limit"],
  "<-3>": ["leave-out", "rejected in quality control"],
  "<-2>": ["leave-out", "missing"],
  "<-1>": ["leave-out", "not collected"],
  "<0>": ["take", "passed"],
  "<2>": ["take", "open"],
  "<3>": ["take", "calculated"],
  "<4>": ["take", "older than the programme's control"],
  "<5>": ["take", "corrected"],
};

/** The column of marks that goes with a column of readings; -1 if none does. */
export function flagColumn(heads: readonly string[], at: number): number {
  const whole = heads[at]!.toLowerCase();
  if (whole === "") return -1;
  // With its unit or without: `Ammonia flag` goes with `Ammonia (mg/L)`.
  const names = [whole, whole.replace(/\s*[([].*$|,.*$/, "")];
  const forms = names.flatMap((name) => [
    `f_${name}`,
    ...["f", "flag", "qual", "qualifier", "qc"].flatMap((word) => [`${name}_${word}`, `${name} ${word}`]),
    ...["flag", "qualifier", "qc"].flatMap((word) => [`${word}_${name}`, `${word} ${name}`]),
  ]);
  return heads.findIndex((head, index) => index !== at && forms.includes(head.toLowerCase()));
}

/** A column of `<` and `>` beside a reading. */
export function isSignColumn(evidence: ColumnEvidence, head: string): boolean {
  const cells = [...evidence.distinct.keys()];
  if (cells.length === 0) return /greater|less than|[<>]/i.test(head);
  return cells.every((cell) => /^(?:[<>]=?|[≤≥=])$/.test(cell));
}

/** A unit behind a number is that of its column, or the row is rejected; one letter may be a mark as well. */
const isUnitMark = (mark: string, isUsual: boolean): boolean =>
  unitSaid(mark) !== undefined && (isUsual || mark.length > 1);

/** What the marks of some columns mean, as far as it is known. */
export function proposeFlags(
  flags: readonly ColumnEvidence[],
  readings: readonly ColumnEvidence[],
  asking: Asking,
): NonNullable<Mapping["flags"]> {
  const found = new Map<string, string>();
  for (const { distinct } of flags)
    for (const cell of distinct.keys()) if (!found.has(flagKey(cell))) found.set(flagKey(cell), cell);
  for (const { marks, numbers } of readings)
    for (const [mark, count] of marks)
      if (!isUnitMark(mark, count >= numbers * 0.9)) found.set(flagKey(mark), mark);
  const means: Record<string, FlagMeaning> = {};
  for (const [key, cell] of [...found].sort()) {
    const own = known[key];
    const answer = asking.decide(
      {
        id: `flag:${key}`,
        asks: `what does the mark “${cell}” beside a reading mean?`,
        choices: meanings,
        hint: key === "<1>" ? "suspect, in that programme" : "",
      },
      own?.[0],
    );
    if (own !== undefined && answer === own[0])
      asking.because(`flag ${key}`, `${own[1]}: ${inWords[own[0]]}`);
    if (answer !== undefined) means[key] = answer as FlagMeaning;
  }
  return means;
}

const inWords: Readonly<Record<FlagMeaning, string>> = {
  take: "taken",
  below: "taken as below the figure",
  above: "taken as above the figure",
  "leave-out": "left out",
};
