import { clockOf, spokenDay } from "../book/dates.ts";
import { foodKinds } from "../book/definitions/food.ts";
import type { Station, Tank } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import type { Logbook } from "../room/logbook.ts";
import { needsOn } from "../room/needs.ts";
import type { FeedMatrixCard, FeedRowCard } from "./feed-matrix-card.ts";
import { missingText } from "./feed-report.ts";
import { lastCard, mealCards, needState, rationCard } from "./feeding-card.ts";
import type { MealCard, NeedState } from "./feeding-cards.ts";

/** Feedings of two weeks by day, for the preview. */

const shownDays = 14;

/** Of a tank by kind of food, of a system by tank; null where nothing was fed and nothing is needed. */
export function stationFeeding(
  { logbook, book }: CheckedLogbook,
  station: Station,
  day: number,
): FeedMatrixCard | null {
  if (station.kind !== "tank") return byTank(logbook, book.bodies[station.body]?.tanks ?? [], day);
  const tank = station as Tank;
  const { meals, needs } = fedOf(logbook, tank, day);
  const foods = new Set([...meals.map(({ kind }) => kind), ...needs.map(({ food }) => food)]);
  const order = [...foodKinds, "other", ""] as readonly string[];
  const rank = (food: string): number => (order.includes(food) ? order.indexOf(food) : order.length);
  const rows = [...foods]
    .sort((a, b) => rank(a) - rank(b))
    .map((food): FeedRowCard => {
      const own = meals.filter((meal) => meal.kind === food || meal.food === food);
      const row = rowOf(
        food === "" ? "none" : food,
        own,
        needs.filter((need) => need.food === food),
      );
      // The head of the row says what food it is.
      return { ...row, need: row.need.replaceAll(`${food} `, ""), isTank: false };
    });
  return rows.length === 0 ? null : { ...matrix(rows, "kind", day), ...endOf(logbook, tank, day) };
}

/** Of all tanks that had something, on a day. */
export function dayFeeding({ logbook, book }: CheckedLogbook, day: number): FeedMatrixCard | null {
  return byTank(logbook, book.tanks, day);
}

interface FedOf {
  readonly tank: Tank;
  readonly meals: readonly MealCard[];
  readonly needs: readonly NeedState[];
}

function fedOf(logbook: Logbook, tank: Tank, day: number): FedOf {
  return {
    tank,
    meals: mealCards(logbook, tank, day - shownDays + 1, day),
    needs: needsOn(logbook, tank, day).map(needState),
  };
}

function byTank(logbook: Logbook, tanks: readonly Tank[], day: number): FeedMatrixCard | null {
  const rows = tanks
    .map((tank) => fedOf(logbook, tank, day))
    .filter(({ meals, needs }) => meals.length > 0 || needs.some(isOut))
    .map(
      ({ tank, meals, needs }): FeedRowCard => ({
        ...rowOf(tank.name, meals, needs.filter(isOut)),
        isTank: true,
      }),
    );
  return rows.length === 0 ? null : matrix(rows, "tank", day);
}

const isOut = ({ is }: NeedState): boolean => is === "due" || is === "late" || is === "over";

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
  needs: readonly NeedState[],
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
        times: new Set(fed.map(({ entry }) => entry)).size,
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

function endOf(logbook: Logbook, tank: Tank, day: number): Partial<FeedMatrixCard> {
  const ration = rationCard(logbook, tank, day, shownDays);
  const rationText = ration === null || ration.gramsADay === null ? "" : ration.text;
  const last = lastCard(logbook, tank, day);
  if (last === null) return { rationText };
  const when = Math.floor(last.time) === day ? "today" : spokenDay(last.time, day);
  const clock = last.time === Math.floor(last.time) ? "" : ` ${clockOf(last.time)}`;
  return { lastText: `${when}${clock} ${last.text}`, lastAt: last.at, rationText };
}
