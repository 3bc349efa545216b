import { clockOf, spokenDay } from "../book/dates.ts";
import { foodKinds } from "../book/definitions/food.ts";
import type { Station, Tank } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { missingText } from "./feed-report.ts";
import { feedTankCard } from "./feeding-card.ts";
import type { FeedMatrixCard, FeedRowCard, FeedTankCard, MealCard, NeedCard } from "./feeding-cards.ts";

/** Feedings of two weeks by day, for the preview. */

const shownDays = 14;

/** Of a tank by kind of food, of a system by tank; null where nothing was fed and nothing is needed. */
export function stationFeeding(
  { logbook, book }: CheckedLogbook,
  station: Station,
  day: number,
): FeedMatrixCard | null {
  if (station.kind !== "tank") {
    const tanks = book.bodies[station.body]?.tanks ?? [];
    return byTank(
      tanks.map((tank) => feedTankCard(logbook, tank, day, shownDays)),
      day,
    );
  }
  const card = feedTankCard(logbook, station as Tank, day, shownDays);
  const foods = new Set([...card.meals.map(({ kind }) => kind), ...card.needs.map(({ food }) => food)]);
  const order = [...foodKinds, "other", ""] as readonly string[];
  const rank = (food: string): number => (order.includes(food) ? order.indexOf(food) : order.length);
  const rows = [...foods]
    .sort((a, b) => rank(a) - rank(b))
    .map((food): FeedRowCard => {
      const meals = card.meals.filter((meal) => meal.kind === food || meal.food === food);
      const needs = card.needs.filter((need) => need.food === food);
      const row = rowOf(food === "" ? "none" : food, meals, needs);
      // The head of the row says what food it is.
      return { ...row, need: row.need.replaceAll(`${food} `, ""), isTank: false };
    });
  return rows.length === 0 ? null : { ...matrix(rows, "kind", day), ...endOf(card, day) };
}

/** Of all tanks that had something, on a day. */
export function dayFeeding({ logbook, book }: CheckedLogbook, day: number): FeedMatrixCard | null {
  return byTank(
    book.tanks.map((tank) => feedTankCard(logbook, tank, day, shownDays)),
    day,
  );
}

function byTank(cards: readonly FeedTankCard[], day: number): FeedMatrixCard | null {
  const rows = cards
    .filter(({ meals, needs }) => meals.length > 0 || needs.some(isOut))
    .map(
      (card): FeedRowCard => ({ ...rowOf(card.name, card.meals, card.needs.filter(isOut)), isTank: true }),
    );
  return rows.length === 0 ? null : matrix(rows, "tank", day);
}

const isOut = ({ is }: NeedCard): boolean => is === "due" || is === "late" || is === "over";

function matrix(
  rows: readonly FeedRowCard[],
  rowsAre: FeedMatrixCard["rowsAre"],
  day: number,
): FeedMatrixCard {
  return { day, days: shownDays, rowsAre, rows, lastText: "", lastAt: null, rationText: "" };
}

function rowOf(
  name: string,
  meals: readonly MealCard[],
  needs: readonly NeedCard[],
): Omit<FeedRowCard, "isTank"> {
  const days = new Map<number, MealCard[]>();
  for (const meal of meals) {
    const known = days.get(meal.day);
    if (known === undefined) days.set(meal.day, [meal]);
    else known.push(meal);
  }
  return {
    name,
    cells: [...days].map(([day, all]) => {
      const fed = all.filter(({ food }) => food !== "none");
      return {
        day,
        times: new Set(fed.map(({ at }) => at?.start ?? -1)).size,
        text: all.map(({ text }) => text).join("; "),
        isFast: fed.length === 0,
        at: all[0]!.at,
      };
    }),
    need: needs.map(missingText).join("; "),
    isShort: needs.some(({ is }) => is === "due" || is === "late"),
    isOver: needs.some(({ is }) => is === "over"),
  };
}

function endOf({ last, ration }: FeedTankCard, day: number): Partial<FeedMatrixCard> {
  const isWeighed = ration !== null && ration.gramsADay !== null;
  if (last === null) return isWeighed ? { rationText: ration.text } : {};
  const when = Math.floor(last.time) === day ? "today" : spokenDay(last.time, day);
  const clock = last.time === Math.floor(last.time) ? "" : ` ${clockOf(last.time)}`;
  return {
    lastText: `${when}${clock} ${last.text}`,
    lastAt: last.at,
    rationText: isWeighed ? ration.text : "",
  };
}
