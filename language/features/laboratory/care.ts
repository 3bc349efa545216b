import { spokenDay } from "../../book/dates.ts";
import { entryOf } from "../../book/entry.ts";
import { parameters } from "../../book/parameters.ts";
import type { Tank } from "../../book/stations.ts";
import { percent, readingSpan, readingText } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { fastsOf, mealsOf, timesFed } from "../../room/feeding.ts";
import type { Ledger } from "../../room/ledger.ts";
import { lastCard } from "../feeding-card.ts";
import { type Field, field } from "./field.ts";
import { type SheetScope, waterName, watersOf } from "./scope.ts";
import { within } from "./water.ts";

/** What the animals live from: the water that came in, and what they were fed. */

export const sourcesDays = 90;
export const changesDays = 30;
export const feedingDays = 14;

export interface SheetChange {
  readonly of: string;
  readonly day: number;
  /** `30 %, 14.4 L`. */
  readonly text: string;
  readonly source: string;
  readonly barrel: string;
}

/** A water, or a tank, that was filled from. */
export interface SheetSource {
  readonly name: string;
  readonly title: string;
  readonly times: number;
  readonly litres: number;
  readonly content: Field;
  /** The last tests of a tank that was filled from; a water is not tested in a log. */
  readonly tests: string;
}

/** Changes and top-ups of the last 30 days, the latest first. */
export const sheetChanges = (scope: SheetScope): SheetChange[] =>
  watersOf(scope)
    .flatMap((water) =>
      exchangesOf(scope, water.ledger, changesDays).map(({ day, fraction, litres, source, barrel }) => ({
        of: waterName(water),
        day,
        text: [
          fraction > 0 ? percent(fraction) : "topped up",
          Number.isFinite(litres) ? `${formatNumber(litres)} L` : "",
        ]
          .filter(Boolean)
          .join(", "),
        source,
        barrel,
      })),
    )
    .sort((a, b) => b.day - a.day);

interface Exchange {
  readonly day: number;
  readonly fraction: number;
  readonly litres: number;
  readonly source: string;
  readonly barrel: string;
}

function exchangesOf({ book, day }: SheetScope, { exchanges }: Ledger, back: number): Exchange[] {
  const found: Exchange[] = [];
  const end = exchanges.from(day + 1);
  for (let at = exchanges.from(day + 1 - back); at < end; at++) {
    // A tank that was filled from stands in the line only.
    const item = entryOf(exchanges.block[at]!, exchanges.row[at]!)?.item;
    found.push({
      day: Math.floor(exchanges.time[at]!),
      fraction: exchanges.first[at]!,
      litres: exchanges.second[at]!,
      source: item?.source?.text ?? book.waters[0]?.name ?? "",
      barrel: item?.barrel?.text ?? "",
    });
  }
  return found;
}

/** Every source of the last 90 days, the most used first. */
export function sheetSources(scope: SheetScope): SheetSource[] {
  const used = new Map<string, { times: number; litres: number }>();
  for (const { ledger } of watersOf(scope))
    for (const { source, litres } of exchangesOf(scope, ledger, sourcesDays)) {
      const known = used.get(source) ?? { times: 0, litres: 0 };
      used.set(source, {
        times: known.times + 1,
        litres: known.litres + (Number.isFinite(litres) ? litres : 0),
      });
    }
  return [...used].sort((a, b) => b[1].times - a[1].times).map(([name, sums]) => sourceOf(scope, name, sums));
}

function sourceOf(
  { book, logbook, day }: SheetScope,
  name: string,
  sums: { readonly times: number; readonly litres: number },
): SheetSource {
  const water = book.waters.find((each) => each.name === name);
  const tank = book.tank(name);
  const content = parameters.flatMap((parameter) => {
    const value = water?.content.get(parameter.id);
    return value === undefined ? [] : [`${within(parameter.title)} ${readingText(book, parameter, value)}`];
  });
  return {
    name: name === "" ? "water of no name" : name,
    title: water?.title ?? tank?.title ?? "",
    ...sums,
    content: field(
      "Content stated",
      tank === undefined ? content.join(", ") : "water of a tank",
      name === "" ? "a water, and its “content”" : `“content” of water ${name}`,
    ),
    tests: tank === undefined ? "" : latestTests(logbook.ledgerOf(tank), day),
  };
}

function latestTests({ readings, book }: Ledger, day: number): string {
  return parameters
    .flatMap((parameter) => {
      const series = readings[parameter.id];
      const last = (series?.from(day + 1) ?? 0) - 1;
      if (series === undefined || last < 0) return [];
      const text = readingSpan(book, parameter, series.first[last]!, series.second[last]!);
      return [`${within(parameter.title)} ${text} (${spokenDay(Math.floor(series.time[last]!), day)})`];
    })
    .join(", ");
}

export interface SheetFeeding {
  readonly tank: string;
  readonly last: Field;
  /** `14 feedings in 14 days`; days on which it was written that they get nothing. */
  readonly often: Field;
  readonly foods: readonly {
    readonly food: string;
    readonly title: string;
    readonly kind: string;
    readonly times: number;
    readonly last: number;
  }[];
}

export const sheetFeedings = (scope: SheetScope): SheetFeeding[] =>
  scope.tanks.map((tank) => feedingOf(scope, tank));

function feedingOf({ logbook, book, day }: SheetScope, tank: Tank): SheetFeeding {
  const from = day - feedingDays + 1;
  const meals = mealsOf(logbook, tank, from, day);
  const times = timesFed(meals, () => true).length;
  const fasts = fastsOf(logbook, tank, from, day).length;
  const last = lastCard(logbook, tank, day);
  const foods = [...new Set(meals.map(({ food }) => food))].map((food) => {
    const own = meals.filter((meal) => meal.food === food);
    return {
      food,
      title: book.foods.get(food)?.title ?? "",
      kind: book.foods.get(food)?.kind ?? "",
      times: timesFed(own, () => true).length,
      last: own.at(-1)!.day,
    };
  });
  const entry = `“feed” of ${tank.name}`;
  return {
    tank: tank.name,
    last: field(
      "Last fed",
      last === null ? "" : `${spokenDay(Math.floor(last.time), day)}: ${last.text}`,
      entry,
    ),
    often: field(
      "How often",
      times === 0 && fasts === 0
        ? ""
        : `${times} ${times === 1 ? "feeding" : "feedings"} in ${feedingDays} days${
            fasts === 0 ? "" : `, ${fasts} with the word that they get nothing`
          }`,
      entry,
    ),
    foods: foods.sort((a, b) => b.times - a.times),
  };
}
