import type { Book } from "../../book/book.ts";
import type { Change } from "./changes.ts";
import type { Caused, Review } from "./review.ts";

/** Changes by what they are of and by day; what follows by what it is about. */

export interface ChangeGroup {
  /** `dam`, `@rack`, `tank dam`. */
  readonly name: string;
  /** Its title, of a group its tanks; empty where there is nothing to say. */
  readonly title: string;
  /** A definition; else what happened there. */
  readonly isDefinition: boolean;
  /** The tanks that are meant. */
  readonly tanks: readonly string[];
  readonly days: readonly ChangeDay[];
}

export interface ChangeDay {
  /** NaN for a definition. */
  readonly day: number;
  /** Indices of changes. */
  readonly changes: readonly number[];
}

/** Definitions first, then the room, systems and tanks in the order in which they are defined, groups behind them. */
export function changeGroups({
  list,
  before,
  after,
}: Pick<Review, "list" | "before" | "after">): ChangeGroup[] {
  const groups = new Map<string, Map<number, number[]>>();
  list.forEach((change, at) => {
    const name = nameOf(change);
    const days = groups.get(name) ?? new Map<number, number[]>();
    groups.set(name, days);
    const day = change.definition === "" ? change.day : Number.NaN;
    const known = days.get(day);
    if (known === undefined) days.set(day, [at]);
    else known.push(at);
  });
  const order = placesOf(after.book, before.book);
  return [...groups]
    .map(([name, days]): ChangeGroup => {
      const isDefinition = list[[...days.values()][0]![0]!]!.definition !== "";
      const tanks = isDefinition ? [] : tanksOf(name, after.book, before.book);
      return {
        name,
        isDefinition,
        tanks,
        title: isDefinition ? "" : titleOf(name, tanks, after.book, before.book),
        days: [...days].sort(([a], [b]) => a - b).map(([day, changes]) => ({ day, changes })),
      };
    })
    .sort((a, b) => Number(b.isDefinition) - Number(a.isDefinition) || rank(order, a) - rank(order, b));
}

const nameOf = ({ definition, station }: Change): string =>
  definition || station || "lines that name nothing";

function placesOf(...books: readonly Book[]): Map<string, number> {
  const order = new Map<string, number>();
  const add = (name: string): void => {
    if (!order.has(name)) order.set(name, order.size);
  };
  for (const book of books) {
    for (const { name } of book.stations) add(name);
    for (const name of book.groups.keys()) add(`@${name}`);
  }
  return order;
}

const rank = (order: ReadonlyMap<string, number>, { name, isDefinition }: ChangeGroup): number =>
  isDefinition ? 0 : (order.get(name) ?? order.size);

/** The tanks of a group, on either side; of a system or tank itself. */
export function tanksOf(name: string, ...books: readonly Book[]): string[] {
  if (!name.startsWith("@")) return [name];
  const found = new Set<string>();
  for (const book of books)
    for (const tank of book.groups.get(name.slice(1))?.tanks ?? []) found.add(tank.name);
  return [...found];
}

function titleOf(name: string, tanks: readonly string[], ...books: readonly Book[]): string {
  if (name.startsWith("@")) return tanks.length === 0 ? "no such group" : tanks.join(", ");
  if (name === "room") return "";
  for (const book of books) {
    const station = book.stations.find((each) => each.name === name);
    if (station !== undefined) return station.title;
  }
  return "";
}

/** What follows for some stations in the same words. */
export interface FollowGroup {
  /** `dam`; of what several have alike all of them. */
  readonly of: readonly string[];
  readonly consequences: readonly Caused[];
}

/** What follows, by station in the order of the log; what is alike in several stands once, with all their names. */
export function followGroups(
  consequences: readonly Caused[],
  { before, after }: Pick<Review, "before" | "after">,
): FollowGroup[] {
  const alike = new Map<string, { of: string[]; each: Caused }>();
  for (const each of consequences) {
    const key = JSON.stringify([each.is, each.tone, each.code, each.text, each.is === "duty" ? "" : each.of]);
    const known = alike.get(key);
    if (known === undefined) alike.set(key, { of: [each.of], each });
    else {
      if (!known.of.includes(each.of)) known.of.push(each.of);
      known.each = { ...known.each, by: known.each.by.with(each.by) };
    }
  }
  const groups = new Map<string, { of: readonly string[]; consequences: Caused[] }>();
  for (const { of, each } of alike.values()) {
    const key = of.join(" ");
    const known = groups.get(key);
    if (known === undefined) groups.set(key, { of, consequences: [each] });
    else known.consequences.push(each);
  }
  const order = placesOf(after.book, before.book);
  const at = (name: string): number => order.get(name) ?? order.size;
  return [...groups.values()].sort((a, b) => at(a.of[0]!) - at(b.of[0]!));
}

/** Entries that are new and no more than that, counted by their kind: what a day's work is. */
export function kindsOf(changes: readonly Change[]): string {
  const counts = new Map<string, number>();
  for (const { word } of changes) counts.set(word, (counts.get(word) ?? 0) + 1);
  return [...counts]
    .sort(([, a], [, b]) => b - a)
    .map(([word, count]) => `${count} ${word}`)
    .join(", ");
}
