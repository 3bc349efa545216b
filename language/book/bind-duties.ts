import { UNITS } from "../quantity/units.ts";
import type { Book, Defined } from "./book.ts";
import type { DutyForm } from "./duty-form.ts";
import { Kind } from "./entries/registry.ts";
import { nameOf } from "./interner.ts";
import { findParameter } from "./parameters.ts";
import type { Item } from "./reading.ts";
import type { Duty, Gear, Station } from "./stations.ts";

/**
 * Giving each duty to the stations it is for. A duty of a group is a duty of each of its tanks, one of the room that needs a tank a
 * duty of every tank; a narrower duty of the same act takes the place of a wider one.
 */
export function bindDuties(
  book: Book,
  systems: readonly Defined[],
  groups: readonly Defined[],
  tanks: readonly Defined[],
  gears: readonly Defined[],
  rooms: readonly Defined[],
): void {
  const give = (
    sources: readonly Defined[],
    stationsOf: (defined: Defined, form: DutyForm) => readonly Station[],
  ): void => {
    for (const defined of sources) {
      for (const property of defined.definition.properties) {
        const form = property.duty;
        if (form === undefined) continue;
        for (const station of stationsOf(defined, form)) addDuties(book, station, defined, form);
      }
    }
  };
  const named = ({ definition }: Defined): Station[] => {
    const station = book.station(nameOf(definition.name));
    return station?.definition === definition ? [station] : [];
  };
  give(rooms, (_, form) =>
    form.kind === Kind.service || form.kind === Kind.note ? [book.stations[0]!] : book.tanks,
  );
  give(systems, named);
  give(groups, ({ definition }) => book.groups.get(definition.name)?.tanks ?? []);
  give(tanks, named);
  give(gears, named);
  for (const station of book.stations) {
    for (const duty of station.duties) (duty as { id: number }).id = book.duties.push(duty) - 1;
  }
}

/** One duty for each thing the act names: `test KH, GH` is two. */
function addDuties(book: Book, station: Station, { block, definition }: Defined, form: DutyForm): void {
  const by = definition.word === "room" ? "room" : `${definition.word} ${definition.name}`;
  for (const item of form.items.length === 0 ? [{}] : form.items) {
    const subject = subjectOf(item);
    const duty: Duty = {
      id: -1,
      station,
      form,
      place: { block, start: form.start, end: form.end },
      by,
      act: form.items.length > 1 && subject !== "" ? `${form.act.split(" ")[0]} ${subject}` : form.act,
      kind: form.kind,
      subjects: subject === "" ? undefined : subjectsOf(book, station, form.kind, subject),
      ...amountOf(book, item),
    };
    const wider = station.duties.findIndex((each) => each.by !== by && isSameAct(each, duty));
    if (wider >= 0) station.duties.splice(wider, 1, duty);
    else station.duties.push(duty);
  }
}

function isSameAct(a: Duty, b: Duty): boolean {
  if (a.kind !== b.kind || a.form.when !== b.form.when) return false;
  if (a.subjects === undefined || b.subjects === undefined) return a.subjects === b.subjects;
  return a.subjects.size === b.subjects.size && [...a.subjects].every((subject) => b.subjects!.has(subject));
}

/** The first slot of the item that holds a word. */
function subjectOf(item: Item): string {
  for (const slot of ["parameter", "food", "part", "gear", "remedy", "species", "plant", "sort"]) {
    const value = item[slot];
    if (value !== undefined) return value.text;
  }
  return "";
}

function subjectsOf(book: Book, station: Station, kind: number, word: string): ReadonlySet<number> {
  if (kind === Kind.test) return new Set([findParameter(word)?.id ?? -1]);
  const names = new Set([nameOf(word)]);
  if (kind === Kind.feed)
    for (const food of book.foods.values()) if (food.kind === word) names.add(nameOf(food.name));
  if (kind === Kind.clean && word !== "all") names.add(nameOf("all"));
  if (kind === Kind.service) {
    for (const gear of book.gears as readonly Gear[]) {
      if (gear.sort === word && gear.on === station.name) names.add(nameOf(gear.name));
    }
  }
  return names;
}

function amountOf(book: Book, item: Item): { least: number; amountIsVolume: boolean } {
  const { amount } = item;
  if (amount === undefined) return { least: 0, amountIsVolume: false };
  const dimension = UNITS[amount.unit]?.dimension;
  if (dimension === "fraction")
    return { least: book.units.canonical(amount.value, amount.unit, "fraction"), amountIsVolume: false };
  if (dimension === "volume")
    return { least: book.units.canonical(amount.value, amount.unit, "volume"), amountIsVolume: true };
  return { least: 0, amountIsVolume: false };
}
