import type { Asking } from "./asking.ts";
import type { Head } from "./heads.ts";
import type { Mapping } from "./mapping.ts";
import { Refused } from "./refused.ts";
import type { Survey } from "./survey.ts";

/** A tank or system that a log knows. */
export interface KnownPlace {
  readonly name: string;
  readonly title: string;
}

const tankHead =
  /^(?:tanks?|aquarium|aquaria|becken|vessel|pond|station ?(?:code|id|name|number|nr\.?)?|lake ?(?:id|name)?|site(?:[ _](?:name|id|code))?|location|channel|system)$/i;
const mostTanks = 60;

/** The column that says which tank a row is of; -1 if none does. */
export function tankColumn({ layout, columns, rows }: Survey): number {
  return layout.heads.findIndex((head, at) => {
    const { filled, distinct, isDistinctFull } = columns[at]!;
    if (!tankHead.test(head.trim()) || filled < rows * 0.5 || isDistinctFull) return false;
    return distinct.size > 0;
  });
}

export type TankOf = Mapping["tank"];

/** Which tank the rows are of. Undefined while that is open. @param heads of the columns that are readings, by their place */
export function proposeTank(
  survey: Survey,
  heads: ReadonlyMap<number, Head>,
  places: readonly KnownPlace[],
  fileName: string,
  asking: Asking,
): { readonly tank: TankOf | undefined; readonly byColumn: ReadonlyMap<number, string | undefined> } {
  if (places.length === 0) throw new Refused("this log has no tanks yet: a reading needs one");
  const names = places.map(({ name }) => name);
  const named = placesInHeads(heads, places);
  if (named.size > 0 && named.size === heads.size) return { tank: { by: "columns" }, byColumn: named };
  // Where some heads name a tank, the others are of that of the table.
  const byColumn = new Map<number, string | undefined>(named);
  const single = asking.given("tank");
  if (single !== undefined) {
    const known = names.find((name) => name === single);
    if (known === undefined) throw new Refused(`tank=${single}: this log has ${names.join(", ")}`);
    return { tank: { name: known }, byColumn };
  }
  const at = tankColumn(survey);
  if (at >= 0) {
    const values = [...survey.columns[at]!.distinct.keys()];
    if (values.length > mostTanks)
      throw new Refused(`“${survey.layout.heads[at]}” names ${values.length} places; a log has tanks`);
    const means: Record<string, string> = {};
    let isOpen = false;
    for (const value of values) {
      const known = places.find(
        ({ name, title }) => name === value || name.toLowerCase() === value.toLowerCase() || title === value,
      );
      const answer =
        asking.given(`tank:${value}`) === undefined && known !== undefined
          ? known.name
          : asking.ask({
              id: `tank:${value}`,
              asks: `which tank is “${value}”?`,
              choices: [...names, "ignore"],
              hint: "",
            });
      if (answer === undefined) isOpen = true;
      else means[value] = answer;
    }
    return {
      tank: isOpen ? undefined : { column: { at: at + 1, head: survey.layout.heads[at]! }, names: means },
      byColumn,
    };
  }
  const perColumn = numberedTanks(heads);
  if (perColumn !== undefined) {
    for (const [column, value] of perColumn) {
      const known = names.find((name) => name === value);
      byColumn.set(
        column,
        known ??
          asking.ask({
            id: `tank:${value}`,
            asks: `which tank are the columns with “${value}” of?`,
            choices: [...names, "ignore"],
            hint: "",
          }),
      );
    }
    return { tank: { by: "columns" }, byColumn };
  }
  const inName = places.filter(({ name }) =>
    new RegExp(`(?<![\\p{L}\\d])${escaped(name)}(?![\\p{L}\\d])`, "u").test(fileName),
  );
  const answer = asking.ask({
    id: "tank",
    asks: "which tank is the table of?",
    choices: names,
    hint: inName.length === 1 ? `the file's name has “${inName[0]!.name}” in it` : "",
  });
  return { tank: answer === undefined ? undefined : { name: answer }, byColumn };
}

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

/** `dam pH`, `pH r4`: the tank that a head names. */
export function placeInHead(head: string, places: readonly KnownPlace[]): string | undefined {
  const words = head.split(/[\s/:.()[\]]+/);
  return places.find(({ name, title }) => words.includes(name) || (title !== "" && head.includes(title)))
    ?.name;
}

function placesInHeads(heads: ReadonlyMap<number, Head>, places: readonly KnownPlace[]): Map<number, string> {
  const named = new Map<number, string>();
  for (const [at, { text }] of heads) {
    const place = placeInHead(text, places);
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
  const found = places.find(({ name }) => head.split(/[\s/:.()[\]]+/).includes(name));
  return found === undefined
    ? head
    : head
        .replace(new RegExp(`(?<![\\p{L}\\d])${escaped(found.name)}(?![\\p{L}\\d])`, "u"), " ")
        .replace(/^[\s:./]+|[\s:./]+$/g, "")
        .replace(/\s+/g, " ");
}
