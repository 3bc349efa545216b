import { spokenDay } from "../../book/dates.ts";
import { Kind } from "../../book/entries/registry.ts";
import { nameOf } from "../../book/interner.ts";
import type { Tank } from "../../book/stations.ts";
import { days } from "../../checks/words.ts";
import { type DueDuty, dutiesOn } from "../../room/due.ts";
import { fastsOf, type Meal, mealsOf } from "../../room/feeding.ts";
import { isFoodOf, needsOn } from "../../room/needs.ts";
import { stationLocation } from "../card-parts.ts";
import { byUse, wordsOfRow } from "../recent.ts";
import type { View } from "../view.ts";
import type { BoardTask } from "./board-card.ts";
import { plainWay } from "./ways.ts";

/** Tanks that were not fed yet today, each with what it usually gets. */

/** What was fed in these days is what is usual. A choice of this tool. */
const usualDays = 28;
/** So many of the last times tell how it is written. */
const lastTimes = 4;
/** So many ways are offered. */
const mostWays = 6;

/** Foods that are fed together. */
interface Meals {
  /** As they are written most often. */
  readonly words: string;
  readonly meals: readonly Meal[];
  /** Days on which they were fed, in order. */
  readonly fedDays: readonly number[];
}

/** @param isUnfed tanks that are kept without food today, with why */
export function feedTasks(
  view: View,
  tanks: readonly Tank[],
  isUnfed: ReadonlyMap<string, string>,
  day: number,
): BoardTask[] {
  const { logbook } = view.checked;
  return tanks.flatMap((tank): BoardTask[] => {
    const meals = mealsOf(logbook, tank, day - usualDays, day);
    const isDone = meals.some((meal) => meal.day === day) || fastsOf(logbook, tank, day, day).length > 0;
    if (meals.length === 0 || isDone) return [];
    const usual = usualMeals(meals);
    const owed = owedFoods(view, tank, day);
    const fasting = isUnfed.get(tank.name);
    const ways = inTurn(usual, owed, day)
      .slice(0, mostWays)
      .map(({ words }) => plainWay(`feed ${words}`));
    const last = usual.reduce((a, b) => (b.fedDays.at(-1)! > a.fedDays.at(-1)! ? b : a));
    const lastDay = last.fedDays.at(-1)!;
    return [
      {
        key: `${tank.name} feeding`,
        target: tank.name,
        kind: "feed",
        ways: fasting === undefined ? ways : [plainWay('feed none "fasting"'), ...ways],
        late: Math.max(0, ...owed.map(({ late }) => late)),
        when: [...new Set(owed.flatMap(({ text }) => text || []))].join(", "),
        last: `${last.words} ${day - lastDay === 1 ? "yesterday" : `on ${spokenDay(lastDay, day)}`}`,
        why: fasting ?? "",
        litres: "",
        caution: "",
        place: stationLocation(tank),
      },
    ];
  });
}

/** A food or kind of food that is owed to a tank, or of which it had enough: by the needs of its animals, and by its duties. */
interface Owed {
  readonly is: "owed" | "enough";
  readonly isOf: (meal: Meal) => boolean;
  readonly late: number;
  /** `frozen 1 of 3 in 7 days`; empty for what is not owed. */
  readonly text: string;
}

function owedFoods({ checked }: View, tank: Tank, day: number): Owed[] {
  const { logbook } = checked;
  const needs = needsOn(logbook, tank, day).flatMap(({ form, is, times }): Owed[] => {
    const isOf = (meal: Meal): boolean => isFoodOf(form, meal);
    if (form.when === "at most")
      return times >= form.times ? [{ is: "enough", isOf, late: 0, text: "" }] : [];
    if (is !== "due" && is !== "late") return [];
    const text = `${form.food} ${times} of ${form.times} in ${days(form.periodDays)}`;
    return [{ is: "owed", isOf, late: is === "late" ? 1 : 0, text }];
  });
  const duties = dutiesOn(logbook.ledgerOf(tank), [tank], day).filter(({ duty }) => duty.kind === Kind.feed);
  return [...needs, ...duties.flatMap(owedByDuty)];
}

function owedByDuty({ duty, late, times }: DueDuty): Owed[] {
  const { form, act, subjects } = duty;
  const isOf = ({ food }: Meal): boolean => subjects === undefined || subjects.has(nameOf(food));
  const counted = `${times} of ${form.times} in ${days(form.periodDays)}`;
  if (form.when === "at most") return times >= form.times ? [{ is: "enough", isOf, late: 0, text: "" }] : [];
  if (!(late >= 0)) return [];
  const text = `${act.replace(/^feed\s*/, "")} ${form.when === "every" ? "" : counted}`.trim();
  return [{ is: "owed", isOf, late: form.when === "every" ? late : Math.min(1, late), text }];
}

function usualMeals(meals: readonly Meal[]): Meals[] {
  const entries = new Map<string, Meal[]>();
  for (const meal of meals) {
    const key = `${meal.block.file.path}:${meal.block.start}:${meal.entry}`;
    const known = entries.get(key);
    if (known === undefined) entries.set(key, [meal]);
    else known.push(meal);
  }
  const found = new Map<string, { readonly entries: (readonly Meal[])[]; readonly fedDays: number[] }>();
  for (const items of entries.values()) {
    const [first] = items as [Meal];
    const foods = items.map(({ food }) => food).join(", ");
    const known = found.get(foods);
    if (known === undefined) {
      found.set(foods, { entries: [items], fedDays: [first.day] });
      continue;
    }
    known.entries.push(items);
    if (known.fedDays.at(-1) !== first.day) known.fedDays.push(first.day);
  }
  return [...found.values()].flatMap(({ entries: lines, fedDays }) => {
    const [words] = byUse(lines.slice(-lastTimes).reverse().map(wordsOf).filter(Boolean));
    return words === undefined ? [] : [{ words, meals: lines[0]!, fedDays }];
  });
}

const wordsOf = ([first]: readonly Meal[]): string => wordsOfRow(first!.block, first!.id)?.arguments ?? "";

/**
 * In whose turn it is: what answers something that is owed first, what would be too much last; then by how long ago it was fed, measured by
 * how often it is. A choice of this tool.
 */
function inTurn(usual: readonly Meals[], owed: readonly Owed[], day: number): Meals[] {
  const has = (is: Owed["is"], { meals }: Meals): boolean =>
    owed.some((each) => each.is === is && meals.some(each.isOf));
  const rank = (each: Meals): number => (has("enough", each) ? 2 : has("owed", each) ? 0 : 1);
  const turn = ({ fedDays }: Meals): number => (day - fedDays.at(-1)!) * fedDays.length;
  return [...usual].sort(
    (a, b) => rank(a) - rank(b) || turn(b) - turn(a) || b.fedDays.length - a.fedDays.length,
  );
}
