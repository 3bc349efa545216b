import { foodKinds } from "../book/definitions/food.ts";
import type { Block } from "../book/source.ts";
import type { Tank } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { formatNumber } from "../quantity/format.ts";
import { fastsOf, type Meal, mealsOf } from "../room/feeding.ts";
import { lastFed } from "../room/feeds.ts";
import type { Logbook } from "../room/logbook.ts";
import { type Need, needsOn, needText, whyNeed } from "../room/needs.ts";
import { rationOn } from "../room/ration.ts";
import { residentsOf } from "../room/residents.ts";
import type { SupplyRow } from "../room/supply-rows.ts";
import { placeOfRow } from "../room/why.ts";
import { known, rowLocation, stationLocation, whyCard } from "./card-parts.ts";
import type { FeedingCard, FeedTankCard, MealCard, NeedState, RationCard } from "./feeding-cards.ts";
import { cultureCards, pantryCards } from "./pantry-card.ts";

/** What tanks were fed, and what is missing. */

/** So far back the last food is looked for. */
const lastFedDays = 90;

/** All tanks that have animals or were fed, what is on hand, and the cultures, as of the end of a day. */
export function feedingCard(checked: CheckedLogbook, worldDay: number, days: number): FeedingCard {
  const { logbook, book } = checked;
  const day = logbook.today(worldDay);
  const tanks = book.tanks
    .map((tank) => feedTankCard(logbook, tank, day, days))
    .filter(({ animals, meals }) => animals !== "" || meals.length > 0);
  const needed = tanks.flatMap(({ needs }) => needs.map(({ food }) => kindOf(logbook, food)));
  const fed = tanks.flatMap(({ meals }) => meals.map(({ kind }) => kind));
  return {
    day,
    from: day - days + 1,
    days,
    kinds: inOrder([...fed, ...needed]),
    tanks,
    pantry: pantryCards(logbook, day),
    cultures: cultureCards(logbook, day),
  };
}

const other = "other";

/** The kind of a food, or a kind itself. */
function kindOf({ book }: Logbook, food: string): string {
  return book.foods.get(food)?.kind ?? ((foodKinds as readonly string[]).includes(food) ? food : other);
}

function inOrder(kinds: readonly string[]): string[] {
  const found = new Set(kinds);
  return [...foodKinds, other].filter((kind) => found.has(kind));
}

export function feedTankCard(logbook: Logbook, tank: Tank, day: number, days: number): FeedTankCard {
  const from = day - days + 1;
  const residents = residentsOf(logbook.ledgerOf(tank), tank, day + 1, day);
  const last = lastCard(logbook, tank, day);
  return {
    name: tank.name,
    title: tank.title,
    at: stationLocation(tank),
    animals: residents.map(({ species, animals }) => `${formatNumber(animals, 6)} ${species}`).join(", "),
    meals: mealCards(logbook, tank, from, day),
    last,
    hours: last === null ? null : Math.round((day + 1 - last.time) * 24),
    needs: needsOn(logbook, tank, day).map((need) => ({ ...needState(need), why: whyCard(whyNeed(need)) })),
    ration: rationCard(logbook, tank, day, days),
  };
}

/** Feedings, and days without food, in order of days. */
export function mealCards(logbook: Logbook, tank: Tank, from: number, day: number): MealCard[] {
  let entry = 0;
  const rows = mealsOf(logbook, tank, from, day);
  const meals = rows.map((meal, at) => {
    const before = rows[at - 1];
    if (before?.block !== meal.block || before.entry !== meal.entry) entry++;
    return mealCard(logbook, meal, entry);
  });
  const fasts = fastsOf(logbook, tank, from, day).map((fast) => fastCard(fast, ++entry));
  return [...meals, ...fasts].sort((a, b) => a.day - b.day);
}

export function lastCard(logbook: Logbook, tank: Tank, day: number): FeedTankCard["last"] {
  const last = lastFed(logbook, tank, { time: day + 1 }, lastFedDays);
  if (last === undefined) return null;
  const { time, block, row } = last;
  return { time, text: fedText(block, row), at: rowLocation(block, row) };
}

function mealCard(logbook: Logbook, meal: Meal, entry: number): MealCard {
  return {
    day: meal.day,
    food: meal.food,
    entry,
    kind: kindOf(logbook, meal.food),
    text: fedText(meal.block, meal.id),
    at: rowLocation(meal.block, meal.id),
  };
}

/** `cyclops 2 cubes`: a feeding, or one item of it, without its target and note. Only its own letters are looked at: there are many. */
function fedText(block: Block, id: number): string {
  const place = placeOfRow(block, id);
  if (place === undefined) return "";
  return block.text
    .slice(place.start, place.end)
    .replace(/^.*?\sfeed\s+/, "")
    .replace(/\s*"(?:[^"\\]|\\.)*"$/, "")
    .replace(/\s+/g, " ");
}

const fastCard = ({ day, block, id }: SupplyRow, entry: number): MealCard => ({
  day,
  food: "none",
  entry,
  kind: "",
  text: "fasting",
  at: rowLocation(block, id),
});

export function needState({ form, times, is, species }: Need): NeedState {
  return { food: form.food, text: needText(form), times, is, species: species.map(({ name }) => name) };
}

export function rationCard(logbook: Logbook, tank: Tank, day: number, days: number): RationCard | null {
  const ration = rationOn(logbook, tank, day, days);
  const { gramsADay, biomassG, share, unknown, ammoniaGN } = ration;
  if (Number.isNaN(gramsADay) && unknown.length === 0) return null;
  const figure = Number.isNaN(gramsADay)
    ? "no weight is known"
    : `${unknown.length > 0 ? "at least " : ""}${formatNumber(gramsADay)} g a day`;
  return {
    gramsADay: known(gramsADay),
    biomassG: known(biomassG),
    share: known(share),
    text: Number.isNaN(share)
      ? figure
      : `${figure}, ${formatNumber(share * 100)} % of ${formatNumber(biomassG)} g`,
    ammoniaMgN: known(ammoniaGN * 1000),
    unknown,
    why: whyCard(ration.why()),
  };
}
