import { noUnit } from "../quantity/unit-codes.ts";
import { UNITS } from "../quantity/units.ts";
import type { Binder } from "./binder.ts";
import { type Defined, property as propertyOf, statedBy } from "./defined.ts";
import type { DutyForm } from "./duty-form.ts";
import { type Checkable, checked, cleaned, isDoneOn, looked, replaced, workNumber } from "./duty-words.ts";
import { Kind } from "./entries/registry.ts";
import { serviceWorks } from "./entries/service.ts";
import { nameOf } from "./interner.ts";
import { findParameter } from "./parameters.ts";
import type { Item } from "./reading.ts";
import type { Duty, Gear, Station } from "./stations.ts";

/** A definition that states duties, and the stations each of them is for. */
export interface DutySource {
  readonly defined: Defined;
  readonly stationsFor: (form: DutyForm) => readonly Station[];
}

/** What the words of a duty may name. */
export type DutyWords = Checkable;

/**
 * Gives each duty to the stations it is for; a narrower duty of the same act takes the place of a wider one.
 * @param sources the widest first
 */
export function bindDuties(binder: Binder, sources: readonly DutySource[], words: DutyWords): void {
  for (const { defined, stationsFor } of sources) {
    for (const { duty: form } of defined.definition.properties) {
      if (form === undefined) continue;
      checkWorks(binder, defined, form, words);
      const acts = (form.items.length === 0 ? [{}] : form.items).map((item) => ({
        subject: subjectOf(item),
        work: item.work?.code ?? 0,
        least: leastOf(binder, defined, item),
      }));
      for (const station of stationsFor(form)) addDuties(station, defined, form, acts, words);
    }
  }
}

/** Reports work that a gear of its kind does not have. */
function checkWorks(
  binder: Binder,
  { block, definition }: Defined,
  { items }: DutyForm,
  { gears }: DutyWords,
): void {
  for (const item of items) {
    const { work } = item;
    if (work === undefined) continue;
    const name = subjectOf(item) || definition.name;
    const sort = gears.find((gear) => gear.name === name)?.sort ?? name;
    if (isDoneOn(work.code, sort)) continue;
    const mends = serviceWorks
      .filter((each) => isDoneOn(workNumber(each), sort))
      .map((text) => ({ title: `Write “${text}”`, text }));
    const message = `a ${sort} is not ${work.text}: ${mends.map(({ text }) => text).join(", ")} can be asked for`;
    binder.report(block, "duty/work", work, message, mends);
  }
}

type Least = Pick<Duty, "least" | "amountIsVolume">;

/** One duty for each thing the act names: `test KH, GH` is two. */
function addDuties(
  station: Station,
  defined: Defined,
  form: DutyForm,
  acts: readonly { readonly subject: string; readonly work: number; readonly least: Least }[],
  words: DutyWords,
): void {
  const by = statedBy(defined);
  for (const { subject, work, least } of acts) {
    const duty: Duty = {
      id: -1,
      station,
      form,
      place: { block: defined.block, start: form.start, end: form.end },
      by,
      act: form.items.length > 1 && subject !== "" ? `${form.act.split(" ")[0]} ${subject}` : form.act,
      kind: form.kind,
      ...namedBy(words, station, form.kind, subject),
      looks: looksOf(words, station, form.kind, subject, work),
      work,
      isLife: false,
      ...least,
    };
    const left = station.duties.filter((each) => each.by === by || !isSameAct(each, duty));
    station.duties.splice(0, station.duties.length, ...left, duty);
  }
}

function isSameAct(a: Duty, b: Duty): boolean {
  if (a.kind !== b.kind || a.form.when !== b.form.when || a.work !== b.work) return false;
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

/** What a duty names, with all that does it. */
function namedBy(
  words: DutyWords,
  station: Station,
  kind: number,
  word: string,
): Pick<Duty, "subjects" | "parts"> {
  if (word === "") return { subjects: undefined, parts: undefined };
  if (kind === Kind.test) return { subjects: new Set([findParameter(word)?.id ?? -1]), parts: undefined };
  if (kind === Kind.clean) return cleaned(station, word);
  if (kind === Kind.check) return looked(words, station, word);
  const names = new Set([nameOf(word)]);
  if (kind === Kind.feed)
    for (const food of words.foods.values()) if (food.kind === word) names.add(nameOf(food.name));
  if (kind === Kind.service) {
    for (const gear of words.gears) {
      if (gear.sort === word && gear.on === station.name) names.add(nameOf(gear.name));
    }
  }
  return { subjects: names, parts: undefined };
}

/** A look at a gear does its duty to be checked, be it written as one or as a service. */
function looksOf(
  words: DutyWords,
  station: Station,
  kind: number,
  word: string,
  work: number,
): Duty["looks"] {
  if (kind !== Kind.check && (kind !== Kind.service || work !== checked)) return undefined;
  const thing = word === "" && station.kind === "gear" ? station.name : word;
  return thing === "" ? undefined : looked(words, station, thing).subjects;
}

/** The duty that follows from how long a gear lasts, unless it states itself when it is replaced. */
export function addLife(binder: Binder, gear: Gear, defined: Defined): void {
  const property = propertyOf(defined.definition, "lasts");
  if (property === undefined || !(gear.lastsDays > 0)) return;
  const { start, end } = property;
  const own = gear.duties.find(({ kind, work }) => kind === Kind.service && work === replaced);
  if (own !== undefined) {
    const words = own.place.block.text.slice(own.place.start, own.place.end).replace(/\s+/g, " ");
    const message = `“${words}” says already when it is replaced: this does not count`;
    binder.report(
      defined.block,
      "duty/lasts",
      property,
      message,
      [],
      [{ place: own.place, message: "stated here" }],
    );
    return;
  }
  const place = { block: defined.block, start, end };
  if (Number.isNaN(gear.from)) {
    const message = `from when? state its first day in use: from 2026-03-01. Until then it is counted from the first “service ${gear.name} replaced”`;
    binder.report(defined.block, "duty/lasts", property, message);
  }
  const form: DutyForm = {
    when: "every",
    times: 1,
    periodDays: gear.lastsDays,
    kind: Kind.service,
    items: [],
    start,
    end,
    act: "service replaced",
  };
  gear.duties.push({
    id: -1,
    station: gear,
    form,
    place,
    by: statedBy(defined),
    act: form.act,
    kind: Kind.service,
    subjects: undefined,
    parts: undefined,
    looks: undefined,
    work: replaced,
    isLife: true,
    least: 0,
    amountIsVolume: false,
  });
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
