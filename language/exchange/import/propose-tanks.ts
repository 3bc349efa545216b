import type { Asking } from "./asking.ts";
import { type Head, parameterNamed } from "./heads.ts";
import type { Mapping } from "./mapping.ts";
import { wordColumns } from "./propose-long.ts";
import { Refused } from "./refused.ts";
import type { Survey } from "./survey.ts";

/** A tank or system that a log knows. */
export interface KnownPlace {
  readonly name: string;
  readonly title: string;
}

const tankHead =
  /^(?:(?:tanks?|aquarium|aquaria|becken|vessel|pond)(?:[ _]?(?:name|id|no\.?|nr\.?|number|#))?|station ?(?:code|id|name|number|nr\.?)?|lake ?(?:id|name)?|site(?:[ _](?:name|id|code))?|location|channel|system)$/i;
const mostTanks = 60;

/** The column that says which tank a row is of; -1 if none does. */
export function tankColumn(survey: Survey, places: readonly KnownPlace[]): number {
  const { layout, columns, rows } = survey;
  const mayBe = (at: number): boolean => {
    const { filled, distinct, isDistinctFull } = columns[at]!;
    return filled >= rows * 0.5 && !isDistinctFull && distinct.size > 0;
  };
  // A name over the rows of its tank is written once.
  const byHead = layout.heads.findIndex(
    (head, at) => tankHead.test(head.trim()) && columns[at]!.filled > 0 && !columns[at]!.isDistinctFull,
  );
  if (byHead >= 0) return byHead;
  const byNames = layout.heads.findIndex((_, at) => {
    const values = [...columns[at]!.distinct.keys()];
    return (
      mayBe(at) &&
      values.filter((value) => placeOf(value, places) !== undefined).length >= values.length * 0.8
    );
  });
  // Before heads that are dates stands what a row is of.
  const isOnly = byNames < 0 && layout.across?.from === 1 && wordColumns(survey).length === 0 && mayBe(0);
  return isOnly ? 0 : byNames;
}

/** The tank that a word means, however it is written: `DAM`, `R 1`, `Tank r2`. Undefined where it may be several. */
function placeOf(value: string, places: readonly KnownPlace[]): KnownPlace | undefined {
  const exact = places.find(({ name, title }) => name === value || (title !== "" && title === value));
  if (exact !== undefined) return exact;
  const plain = plainName(value);
  const all = places.filter(({ name, title }) =>
    [name, title].some((each) => each !== "" && plainName(each) === plain),
  );
  return all.length === 1 ? all[0] : undefined;
}

const plainName = (text: string): string =>
  text
    .toLowerCase()
    .replace(/^(?:tank|aquarium|becken)(?=[\s_-])/, "")
    .replace(/[\s_-]+/g, "");

export type TankOf = Mapping["tank"];

/** The answer of a table whose rows say their tank, and of a column that has none of its own. */
const byRow = "column";
const ofTable = "table";

/** Whether the rows say their tank: the column that does; -1 where all are of one, or heads say it. */
export function columnOfTanks(survey: Survey, places: readonly KnownPlace[], asking: Asking): number {
  const at = tankColumn(survey, places);
  if (at < 0) return -1;
  const answer = asking.decide(
    {
      id: "tank",
      asks: `“${survey.layout.heads[at]}” says of which tank a row is; or are all of one?`,
      choices: [byRow, ...places.map(({ name }) => name)],
      hint: "",
    },
    byRow,
  );
  return answer === byRow ? at : -1;
}

/**
 * Which tank the rows are of. Undefined while that is open.
 * @param heads of the columns that are taken, by their place
 * @param at the column that says it; -1 if none does
 * @param apart columns that are each of a tank of their own
 */
export function proposeTank(
  survey: Survey,
  heads: ReadonlyMap<number, Head>,
  places: readonly KnownPlace[],
  fileName: string,
  at: number,
  apart: ReadonlySet<number>,
  asking: Asking,
): { readonly tank: TankOf | undefined; readonly byColumn: ReadonlyMap<number, string | undefined> } {
  if (places.length === 0) throw new Refused("this log has no tanks yet: a reading needs one");
  const names = places.map(({ name }) => name);
  const { above } = survey.layout;
  const named = placesInHeads(heads, above, places);
  const byColumn = new Map<number, string | undefined>();
  const numbered =
    at < 0 && named.size === 0 && apart.size === 0 && above.length === 0 ? numberedTanks(heads) : undefined;
  for (const [column, value] of numbered ?? [])
    byColumn.set(
      column,
      asking.decide(
        {
          id: `tank:${value}`,
          asks: `which tank are the columns with “${value}” of?`,
          choices: [...names, "ignore"],
          hint: "",
        },
        names.find((name) => name === value),
      ),
    );
  if (numbered !== undefined) return { tank: { by: "columns" }, byColumn };
  // Where some heads name a tank, the others are of that of the table.
  if (at < 0 || named.size > 0)
    for (const column of heads.keys()) {
      const answer = asking.decide(
        {
          id: `tank:#${column + 1}`,
          asks: `which tank is “${[above[column] ?? "", survey.layout.heads[column]].filter(Boolean).join(" ")}” (#${column + 1}) of?`,
          choices: [ofTable, ...names, "ignore"],
          hint: "",
          column: column + 1,
        },
        named.get(column) ?? (apart.has(column) || (above[column] ?? "") !== "" ? undefined : ofTable),
      );
      if (answer !== ofTable) byColumn.set(column, answer);
    }
  if (byColumn.size > 0 && byColumn.size === heads.size) return { tank: { by: "columns" }, byColumn };
  if (at >= 0) return { tank: tanksOfColumn(survey, places, at, asking), byColumn };
  if (asking.decisions.some(({ id }) => id === "tank")) {
    const name = asking.ask({ id: "tank", asks: "", choices: [byRow, ...names], hint: "" });
    return { tank: name === undefined ? undefined : { name }, byColumn };
  }
  const inName = places.filter(({ name }) =>
    new RegExp(`(?<![\\p{L}\\d])${escaped(name)}(?![\\p{L}\\d])`, "u").test(fileName),
  );
  const given = asking.given("tank");
  if (
    given !== undefined &&
    !names.some((name) => name.toLowerCase() === given.toLowerCase()) &&
    !asking.isLenient
  )
    throw new Refused(`tank=${given}: this log has ${names.join(", ")}`);
  const answer = asking.ask({
    id: "tank",
    asks: "which tank is the table of?",
    choices: names,
    hint: inName.length === 1 ? `the file's name has “${inName[0]!.name}” in it` : "",
  });
  return { tank: answer === undefined ? undefined : { name: answer }, byColumn };
}

function tanksOfColumn(
  survey: Survey,
  places: readonly KnownPlace[],
  at: number,
  asking: Asking,
): TankOf | undefined {
  const head = survey.layout.heads[at]!;
  const values = [...survey.columns[at]!.distinct.keys()];
  if (values.length > mostTanks)
    throw new Refused(`“${head}” names ${values.length} places; a log has tanks`);
  const means: Record<string, string> = {};
  let isOpen = false;
  for (const value of values) {
    const answer = asking.decide(
      {
        id: `tank:${value}`,
        asks: `which tank is “${value}”?`,
        choices: [...places.map(({ name }) => name), "ignore"],
        hint: "",
        column: at + 1,
        word: value,
      },
      placeOf(value, places)?.name,
    );
    if (answer === undefined) isOpen = true;
    else means[value] = answer;
  }
  return isOpen ? undefined : { column: { at: at + 1, head }, names: means };
}

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

/** `dam pH`, `pH r4`, `Dam pH`: the tank that a head names. */
export function placeInHead(head: string, places: readonly KnownPlace[]): string | undefined {
  const words = head.split(/[\s/:.()[\]]+/);
  const own = places.find(
    ({ name, title }) => words.includes(name) || (title !== "" && head.includes(title)),
  );
  if (own !== undefined) return own.name;
  const lower = words.map((word) => word.toLowerCase());
  // `PH` is no tank by the name of `ph`.
  const all = places.filter(
    ({ name }) => lower.includes(name.toLowerCase()) && parameterNamed(name) === undefined,
  );
  return all.length === 1 ? all[0]!.name : undefined;
}

function placesInHeads(
  heads: ReadonlyMap<number, Head>,
  above: readonly string[],
  places: readonly KnownPlace[],
): Map<number, string> {
  const named = new Map<number, string>();
  for (const [at, { text }] of heads) {
    const place = placeInHead(`${above[at] ?? ""} ${text}`, places);
    if (place !== undefined) named.set(at, place);
  }
  return named;
}

/** `Temp.1 Ox.1 Temp.2 Ox.2`: sets of columns with a number each. Undefined if there are none. */
function numberedTanks(heads: ReadonlyMap<number, Head>): ReadonlyMap<number, string> | undefined {
  const numbers = [...heads].map(([at, head]) => [at, head.number, head.parameter?.name] as const);
  const repeated = numbers.some(([at, , parameter]) =>
    numbers.some(([other, , same]) => other !== at && same === parameter),
  );
  if (!repeated || numbers.some(([, number]) => number === "")) return undefined;
  return new Map(numbers.map(([at, number]) => [at, number]));
}

/** Words of a head without the name of a tank that stands in it. */
export function withoutPlace(head: string, places: readonly KnownPlace[]): string {
  const place = placeInHead(head, places);
  const word =
    place === undefined
      ? undefined
      : head.split(/[\s/:.()[\]]+/).find((each) => each.toLowerCase() === place.toLowerCase());
  return word === undefined
    ? head
    : head
        .replace(new RegExp(`(?<![\\p{L}\\d])${escaped(word)}(?![\\p{L}\\d])`, "u"), " ")
        .replace(/^[\s:./]+|[\s:./]+$/g, "")
        .replace(/\s+/g, " ");
}
