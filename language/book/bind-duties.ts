import { noUnit } from "../quantity/unit-codes.ts";
import { UNITS } from "../quantity/units.ts";
import type { Binder } from "./binder.ts";
import { type Defined, statedBy } from "./defined.ts";
import type { DutyForm } from "./duty-form.ts";
import { Kind } from "./entries/registry.ts";
import { nameOf } from "./interner.ts";
import { findParameter } from "./parameters.ts";
import type { Item } from "./reading.ts";
import type { Duty, Food, Gear, Station } from "./stations.ts";

/** A definition that states duties, and the stations each of them is for. */
export interface DutySource {
  readonly defined: Defined;
  readonly stationsFor: (form: DutyForm) => readonly Station[];
}

/** What the words of a duty may name. */
export interface DutyWords {
  readonly foods: ReadonlyMap<string, Food>;
  readonly gears: readonly Gear[];
}

/**
 * Gives each duty to the stations it is for; a narrower duty of the same act takes the place of a wider one.
 * @param sources the widest first
 */
export function bindDuties(binder: Binder, sources: readonly DutySource[], words: DutyWords): void {
  for (const { defined, stationsFor } of sources) {
    for (const { duty: form } of defined.definition.properties) {
      if (form === undefined) continue;
      const acts = (form.items.length === 0 ? [{}] : form.items).map((item) => ({
        subject: subjectOf(item),
        least: leastOf(binder, defined, item),
      }));
      for (const station of stationsFor(form)) addDuties(station, defined, form, acts, words);
    }
  }
}

type Least = Pick<Duty, "least" | "amountIsVolume">;

/** One duty for each thing the act names: `test KH, GH` is two. */
function addDuties(
  station: Station,
  defined: Defined,
  form: DutyForm,
  acts: readonly { readonly subject: string; readonly least: Least }[],
  words: DutyWords,
): void {
  const by = statedBy(defined);
  for (const { subject, least } of acts) {
    const duty: Duty = {
      id: -1,
      station,
      form,
      place: { block: defined.block, start: form.start, end: form.end },
      by,
      act: form.items.length > 1 && subject !== "" ? `${form.act.split(" ")[0]} ${subject}` : form.act,
      kind: form.kind,
      subjects: subject === "" ? undefined : subjectsOf(words, station, form.kind, subject),
      ...least,
    };
    const left = station.duties.filter((each) => each.by === by || !isSameAct(each, duty));
    station.duties.splice(0, station.duties.length, ...left, duty);
  }
}

function isSameAct(a: Duty, b: Duty): boolean {
  if (a.kind !== b.kind || a.form.when !== b.form.when) return false;
  if (a.subjects === undefined || b.subjects === undefined) return a.subjects === b.subjects;
  return a.subjects.size === b.subjects.size && [...a.subjects].every((subject) => b.subjects!.has(subject));
}

/** The first slot of the item that holds a word. */
function subjectOf(item: Item): string {
  for (const slot of ["parameter", "food", "part", "gear", "thing", "remedy", "species", "plant", "sort"]) {
    const value = item[slot];
    if (value !== undefined) return value.text;
  }
  return "";
}

function subjectsOf(words: DutyWords, station: Station, kind: number, word: string): ReadonlySet<number> {
  if (kind === Kind.test) return new Set([findParameter(word)?.id ?? -1]);
  const names = new Set([nameOf(word)]);
  if (kind === Kind.feed)
    for (const food of words.foods.values()) if (food.kind === word) names.add(nameOf(food.name));
  if (kind === Kind.clean && word !== "all") names.add(nameOf("all"));
  if (kind === Kind.service) {
    for (const gear of words.gears) {
      if (gear.sort === word && gear.on === station.name) names.add(nameOf(gear.name));
    }
  }
  return names;
}

/** The least amount that counts, of a change or a top-up; of a range its lower end. */
function leastOf(binder: Binder, defined: Defined, item: Item): Least {
  const amount = item.amount ?? item.volume;
  const nothing = { least: 0, amountIsVolume: false };
  if (amount === undefined || amount.unit === noUnit) return nothing;
  // A spelling that may mean several units can be a volume here, and nothing else that is compared.
  const dimension = UNITS[amount.unit]?.dimension ?? "volume";
  if (dimension !== "fraction" && dimension !== "volume") return nothing;
  const least = binder.number(defined, amount, dimension);
  return Number.isNaN(least) ? nothing : { least, amountIsVolume: dimension === "volume" };
}
