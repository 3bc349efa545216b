import { spokenDay } from "../book/dates.ts";
import { Kind } from "../book/entries/registry.ts";
import { nameOf } from "../book/interner.ts";
import type { NeedForm } from "../book/need-form.ts";
import type { Species, Tank } from "../book/stations.ts";
import { grazedDays, type Meal, mealsOf, timesFed } from "./feeding.ts";
import type { Logbook } from "./logbook.ts";
import { residentsOf } from "./residents.ts";
import { isBefore, type RowMoment } from "./supply-rows.ts";
import { type Why, whyEntry, whyStated } from "./why.ts";

/** How what a tank was fed satisfies the species in it. */

/** `due` on the day on which there are too few, `late` from the next; `young` while they are not there for as long as the need counts. */
export type NeedIs = "met" | "due" | "late" | "over" | "young";

/** A need of a tank: species that state it in the same words share it. */
export interface Need {
  readonly tank: Tank;
  readonly species: readonly Species[];
  readonly form: NeedForm;
  readonly is: NeedIs;
  /** Times in the days up to the day. */
  readonly times: number;
  /** The entries that count, and days of grazing. */
  readonly meals: readonly Meal[];
  readonly grazed: number;
  /** The first day that counts, and the day it is true for. */
  readonly from: number;
  readonly day: number;
}

/**
 * The needs of the species that live in a tank at the end of a day. Entries of later days do not count.
 * @param upTo an entry of the day after which nothing counts
 */
export function needsOn(logbook: Logbook, tank: Tank, day: number, upTo?: RowMoment): Need[] {
  const { book } = logbook;
  const ledger = logbook.ledgerOf(tank);
  const longest = Math.max(
    0,
    ...[...book.species.values()].flatMap(({ needs }) => needs.map(({ periodDays }) => periodDays)),
  );
  if (longest === 0) return [];
  const residents = residentsOf(ledger, tank, day + 1, day - longest);
  const groups = new Map<string, { species: Species[]; form: NeedForm; since: number }>();
  for (const { species: name, since } of residents) {
    const species = book.species.get(name);
    for (const form of species?.needs ?? []) {
      const key = `${form.food} ${form.when} ${form.times} ${form.periodDays}`;
      const known = groups.get(key);
      if (known === undefined) groups.set(key, { species: [species!], form, since });
      else {
        known.species.push(species!);
        // What is owed is owed to the species that is there for longest.
        known.since = Math.min(known.since, since);
      }
    }
  }
  if (groups.size === 0) return [];
  const meals = mealsOf(logbook, tank, day - longest, day).filter(
    (meal) => upTo === undefined || !isBefore(upTo, meal),
  );
  return [...groups.values()].map(({ species, form, since }) => {
    const isOf = (meal: Meal): boolean => isFoodOf(form, meal);
    const counted = timesFed(meals, isOf);
    const grazing = form.food === "grazing" ? grazedDays(logbook, tank, day - form.periodDays, day) : [];
    const from = day - form.periodDays + 1;
    const within = (first: number, last: number): number =>
      counted.filter((meal) => meal.day >= first && meal.day <= last).length +
      grazing.filter((each) => each >= first && each <= last).length;
    const times = within(from, day);
    return {
      tank,
      species,
      form,
      is: stateOf(form, times, within(from - 1, day - 1), since, from),
      times,
      meals: counted.filter((meal) => meal.day >= from),
      grazed: grazing.filter((each) => each >= from).length,
      from,
      day,
    };
  });
}

function stateOf(form: NeedForm, times: number, before: number, since: number, from: number): NeedIs {
  if (form.when === "at most") return times > form.times ? "over" : "met";
  if (times >= form.times) return "met";
  if (since > from) return "young";
  return before < form.times && since < from ? "late" : "due";
}

/** Whether a food is what a need names: the food itself, or one of that kind. */
export function isFoodOf({ food }: Pick<NeedForm, "food">, meal: Pick<Meal, "food" | "kindOfFood">): boolean {
  return meal.food === food || meal.kindOfFood === food;
}

/** Whether a duty of the tank asks for the same foods: then the duty is what is told of. */
export function isDutyToo({ tank, form }: Need, logbook: Logbook): boolean {
  const { foods } = logbook.book;
  const wanted = [
    form.food,
    ...[...foods.values()].filter(({ kind }) => kind === form.food).map(({ name }) => name),
  ];
  return tank.duties.some(
    (duty) =>
      duty.kind === Kind.feed &&
      duty.form.when === form.when &&
      duty.subjects !== undefined &&
      wanted.every((food) => duty.subjects!.has(nameOf(food))),
  );
}

/** `frozen at least 3 in 7 days`. */
export function needText({ food, when, times, periodDays }: NeedForm): string {
  const often =
    times === 0 ? "never" : `${when} ${times} in ${periodDays === 1 ? "a day" : `${periodDays} days`}`;
  return `${food} ${often}`;
}

/** Why a need is met or not: the entries that count, and what is stated. */
export function whyNeed({ tank, species, form, times, meals, grazed, from, day }: Need): Why {
  return {
    what: `${form.food} in ${tank.name}`,
    value: `${times}, ${form.when} ${form.times}`,
    formula: `entries from ${spokenDay(from, day)} to ${spokenDay(day)}${grazed > 0 ? ", and days on which a grazed surface was left" : ""}`,
    from: [
      ...meals.map(whyEntry),
      ...(grazed > 0
        ? [{ what: "days with a surface left for grazing", value: String(grazed), from: [] }]
        : []),
      ...species.flatMap(({ needs, place }) => {
        const own = needs.find((each) => each.food === form.food && each.when === form.when);
        return own === undefined ? [] : [whyStated({ block: place.block, start: own.start, end: own.end })];
      }),
    ],
  };
}
