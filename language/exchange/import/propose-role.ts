import { type Parameter, parameterNames } from "../../book/parameters.ts";
import type { Asking } from "./asking.ts";
import { readFigure } from "./figure.ts";
import { type Head, parameterNamed } from "./heads.ts";
import type { KnownNames } from "./known-log.ts";
import { type Decimal, isMissing } from "./number.ts";
import { foodsIn } from "./read-other.ts";
import type { Survey } from "./survey.ts";

/** What a column is: a reading of a parameter, another entry, or nothing for a log. */
export type ColumnRole =
  | { readonly is: "test"; readonly parameter: Parameter }
  | { readonly is: "note" | "change" | "feed" | "count" | "lose" | "ignore" | "open" };

/** The name that questions about a column have: its head, or its number where that says no more. */
export function aboutOf({ layout: { heads } }: Survey, at: number): string {
  const head = heads[at]!;
  return head !== "" && heads.indexOf(head) === heads.lastIndexOf(head) ? head : `#${at + 1}`;
}

export function roleOf(
  survey: Survey,
  head: Head,
  at: number,
  decimal: Decimal,
  known: KnownNames,
  asking: Asking,
  isLong = false,
): ColumnRole {
  const { filled } = survey.columns[at]!;
  if (filled === 0) return { is: "ignore" };
  const isNumeric = numericShare(survey, at, decimal) >= 0.5;
  const about = aboutOf(survey, at);
  const others = [
    ...(isNumeric ? ["change"] : []),
    ...(known.foods.length > 0 ? ["feed"] : []),
    ...(isNumeric && known.species.length > 0 ? ["count", "lose"] : []),
    "note",
    "ignore",
  ];
  // Where a row is one reading, all else of it is about that reading, unless it is said otherwise.
  const guess = isLong
    ? "ignore"
    : isNumeric && head.not === "" && head.parameter !== undefined
      ? head.parameter.name
      : otherGuess(survey, at, isNumeric, known);
  const answer = asking.decide(
    {
      id: `parameter:${about}`,
      asks: `what is “${survey.layout.heads[at] || about}”?`,
      choices: [...(isNumeric ? parameterNames : []), ...others],
      hint: "",
      column: at + 1,
      isTypedToo: false,
    },
    guess,
    `parameter:#${at + 1}`,
    (text) => parameterNamed(text) !== undefined,
  );
  const parameter = parameterNamed(answer ?? "");
  return parameter === undefined ? { is: (answer ?? "ignore") as "ignore" } : { is: "test", parameter };
}

const isOther = (word: string): word is "change" | "feed" | "count" | "lose" =>
  ["change", "feed", "count", "lose"].includes(word);

/**
 * Of a table without a head that a log has a word for: columns of numbers whose heads have such a word, or a tank, among others (`pH left`). What they are is
 * asked, and each is of a tank of its own.
 * @param roles takes what is answered
 * @param apart takes the columns
 */
export function askOfHeads(
  survey: Survey,
  heads: readonly Head[],
  roles: Map<number, ColumnRole>,
  apart: Set<number>,
  places: readonly { readonly name: string; readonly title: string }[],
  asking: Asking,
): void {
  for (const at of roles.keys()) {
    const { numbers, filled } = survey.columns[at]!;
    const head = survey.layout.heads[at]!;
    if (heads[at]!.not !== "" || filled === 0 || numbers < filled * 0.5) continue;
    const words = head.split(/[\s_/:.()[\]-]+/);
    // Of short names those that are no words: `DO` is a reading, “do” is not.
    const named = words
      .filter((word) => word.length > 2 || /^(?:pH|[GK]H|DO|EC|O2)$/.test(word))
      .map((word) => parameterNamed(word)?.name)
      .find((name) => name !== undefined);
    if (named === undefined && !places.some(({ name, title }) => words.includes(name) || head === title))
      continue;
    apart.add(at);
    const answer = asking.reopen(
      `parameter:${aboutOf(survey, at)}`,
      named === undefined ? `what is measured in “${head}”?` : `is “${head}” ${named}?`,
    );
    const parameter = parameterNamed(answer ?? "");
    if (answer === undefined) roles.set(at, { is: "open" });
    else if (parameter !== undefined) roles.set(at, { is: "test", parameter });
    else if (isOther(answer)) roles.set(at, { is: answer });
  }
}

/** Of a table whose heads are dates: what the figures below them are, where nothing says it. */
export function askOfFigures(
  survey: Survey,
  at: number,
  roles: Map<number, ColumnRole>,
  asking: Asking,
): void {
  if (roles.get(at)?.is !== "ignore" || survey.columns[at]!.filled === 0) return;
  const answer = asking.reopen(`parameter:${aboutOf(survey, at)}`, "what are the figures below the dates?");
  const parameter = parameterNamed(answer ?? "");
  if (answer === undefined) roles.set(at, { is: "open" });
  else if (parameter !== undefined) roles.set(at, { is: "test", parameter });
  else if (isOther(answer)) roles.set(at, { is: answer });
}

export function numericShare({ columns }: Survey, at: number, decimal: Decimal): number {
  const cells = [...columns[at]!.distinct.keys()];
  return cells.length === 0
    ? 0
    : cells.filter((cell) => readFigure(cell, decimal) !== undefined).length / cells.length;
}

const heads = {
  note: /^(?:notes?|comments?|remarks?|observations?|bemerkung(?:en)?|notiz(?:en)?|kommentar|beobachtung(?:en)?)$/i,
  change: /^(?:water ?change|wasserwechsel|wc|change)\b/i,
  lose: /^(?:dead|deaths?|died|loss(?:es)?|lost|mortalit(?:y|ies)|verluste?|tote?|gestorben)(?![\p{L}])|(?<![\p{L}])(?:dead|deaths?|died|loss(?:es)?|lost|verluste?|tote?)$/iu,
  count:
    /^(?:counts?|counted|anzahl|bestand|head ?count|number of (?:fish|animals|shrimps?)|animals|fish count)(?![\p{L}])|(?<![\p{L}])counts?$/iu,
  feed: /^(?:fed|feed(?:ing)?s?|foods?|futter|fütterung|gefüttert)(?![\p{L}])/iu,
  species: /^(?:species|fish|animals?|art|tier(?:e|art)?|livestock|fische?)$/i,
  amount: /^(?:amount|portions?|quantity|qty|menge)(?![\p{L}])/iu,
};

function otherGuess(survey: Survey, at: number, isNumeric: boolean, known: KnownNames): string {
  const head = survey.layout.heads[at]!.trim();
  if (heads.note.test(head)) return "note";
  if (!isNumeric) {
    const isFood = heads.feed.test(head) && foodColumn(survey, known) === at && amountColumn(survey) < 0;
    return isFood ? "feed" : "ignore";
  }
  if (heads.change.test(head) && survey.columns[at]!.numbers >= survey.columns[at]!.filled * 0.8)
    return "change";
  if (known.species.length > 0) {
    if (heads.lose.test(head)) return "lose";
    const isOfSpecies = speciesColumn(survey, known) >= 0 && /^(?:number|no\.?|n|qty)$/i.test(head);
    if (heads.count.test(head) || isOfSpecies || nameIn(head, known.species, true) !== undefined)
      return "count";
  }
  if (known.foods.length === 0) return "ignore";
  const isAmount = heads.amount.test(head) && foodColumn(survey, known) >= 0 && amountColumn(survey) === at;
  return isAmount || nameIn(head, known.foods, true) !== undefined || heads.feed.test(head)
    ? "feed"
    : "ignore";
}

interface Named {
  readonly name: string;
  readonly title: string;
}

/** The food or species that a text names. @param isAll it names nothing else but a unit, a count or a loss */
export function nameIn(text: string, of: readonly Named[], isAll = false): string | undefined {
  const plain = text
    .toLowerCase()
    .replace(/\([^)]*\)|\[[^\]]*\]/g, " ")
    .replace(/\s+/g, " ")
    .trim();
  const all = of.filter(({ name, title }) =>
    [name, title].some((each) => {
      const word = each.toLowerCase();
      return (
        word !== "" &&
        (isAll
          ? plain === word
          : ` ${plain.replace(/[:/,.-]/g, " ")} `.includes(` ${word} `) ||
            (plain.includes(word) && word.length > 4))
      );
    }),
  );
  return all.length === 1 ? all[0]!.name : undefined;
}

/** The column of names of species; -1 if there is none. */
export function speciesColumn(survey: Survey, { species }: KnownNames): number {
  return columnOfNames(survey, heads.species, species, (cell) => [cell]);
}

/** The column of names of foods; -1 if there is none. */
export function foodColumn(survey: Survey, { foods }: KnownNames): number {
  return columnOfNames(survey, heads.feed, foods, foodsIn);
}

/** The column that says how much was fed; -1 if there is none. */
export const amountColumn = ({ layout, columns }: Survey): number =>
  layout.heads.findIndex(
    (head, at) =>
      heads.amount.test(head.trim()) && columns[at]!.numbers >= Math.max(1, columns[at]!.filled * 0.8),
  );

function columnOfNames(
  { layout, columns }: Survey,
  form: RegExp,
  of: readonly Named[],
  parts: (cell: string) => readonly string[],
): number {
  if (of.length === 0) return -1;
  const isText = (at: number): boolean => {
    const { filled, numbers, distinct, isDistinctFull } = columns[at]!;
    return filled > 0 && numbers < filled / 2 && !isDistinctFull && distinct.size > 0;
  };
  const byHead = layout.heads.findIndex((head, at) => form.test(head.trim()) && isText(at));
  if (byHead >= 0) return byHead;
  return layout.heads.findIndex((_, at) => {
    const values = [...columns[at]!.distinct.keys()].filter((cell) => !isMissing(cell)).flatMap(parts);
    return (
      isText(at) &&
      values.filter((value) => nameIn(value, of, true) !== undefined).length >= values.length * 0.8
    );
  });
}
