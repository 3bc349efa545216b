import { serviceWorks } from "./entries/service.ts";
import { nameOf } from "./interner.ts";
import type { Food, Gear, Remedy, Station, Tank } from "./stations.ts";

/** Which words of an entry do what a duty names: itself, what is broader, and what is a part of it. */

type Work = (typeof serviceWorks)[number];

/**
 * What work on a gear does beside itself. What is replaced is clean, looked at and in order, but a new electrode still has to be calibrated. *Common practice.*
 */
const doneBy: Readonly<Record<Work, readonly Work[]>> = {
  rinsed: ["rinsed", "replaced"],
  replaced: ["replaced"],
  calibrated: ["calibrated"],
  // Who had it in hand has looked at it.
  checked: serviceWorks,
  repaired: ["repaired", "replaced"],
};

/** The number of a work among the choices of `service`; 0 for none. */
export const workNumber = (word: string): number => (serviceWorks as readonly string[]).indexOf(word) + 1;
/** The word of a work; empty for none. */
export const workWord = (number: number): string => serviceWorks[number - 1] ?? "";
const workOf = (number: number): Work | undefined => serviceWorks[number - 1];

/** Whether a service with one work, or with none said, does a duty that asks for another. @param asked 0 for any */
export function doesWork(asked: number, done: number): boolean {
  const work = workOf(asked);
  if (work === undefined) return true;
  const by = workOf(done);
  return by === undefined ? work === "checked" : doneBy[work].includes(by);
}

/** Whether what was calibrated has to be anew after this work. */
export function undoesWork(asked: number, done: number): boolean {
  const by = workOf(done);
  return workOf(asked) === "calibrated" && (by === "replaced" || by === "repaired");
}

/** The words of the works that do one: `rinsed or replaced`. */
export const worksFor = (asked: number): readonly string[] => {
  const work = workOf(asked);
  return work === undefined ? serviceWorks : doneBy[work];
};

/** Kinds of gear on which a work is not done. *Common practice.* */
const notDoneOn: Partial<Readonly<Record<Work, readonly string[]>>> = {
  calibrated: ["filter", "pump", "lamp", "air", "uv", "net", "hose", "bucket"],
  rinsed: ["lamp"],
};

/** Whether a work is done on a kind of gear; of a kind that is not known it may be. */
export function isDoneOn(work: number, sort: string): boolean {
  const word = workOf(work);
  return word === undefined || notDoneOn[word]?.includes(sort) !== true;
}

export const calibrated = workNumber("calibrated");
export const checked = workNumber("checked");
export const replaced = workNumber("replaced");

/** All that something consists of. */
export const everything = "all";
const glasses = ["front-glass", "back-glass", "side-glass"] as const;

/** What a duty names, by the numbers of the words. */
export interface Named {
  /** Any of these does it. */
  readonly subjects: ReadonlySet<number>;
  /** These are its parts: all of them on one day do it. */
  readonly parts: ReadonlySet<number> | undefined;
}

/** What a part to clean is done by. */
export function cleaned(station: Station, part: string): Named {
  const grazed = station.kind === "tank" ? (station as Tank).grazed : [];
  const isGlass = (glasses as readonly string[]).includes(part);
  const parts = part === "glass" ? glasses.filter((each) => !grazed.includes(each)) : [];
  return {
    subjects: numbers(part, everything, ...(isGlass ? ["glass"] : [])),
    parts: parts.length === 0 ? undefined : numbers(...parts),
  };
}

/** What a check may name. */
export interface Checkable {
  readonly gears: readonly Gear[];
  readonly foods: ReadonlyMap<string, Food>;
  readonly remedies: readonly Remedy[];
}

/** What a look at a thing is done by: at itself, at all of its kind, at everything. */
export function looked(words: Checkable, station: Station, thing: string): Named {
  const { gears, foods, remedies } = words;
  const gear = gears.find(({ name }) => name === thing);
  if (gear !== undefined)
    return { subjects: numbers(thing, ...kindWords(gear.sort), everything), parts: undefined };
  if (remedies.some(({ name }) => name === thing))
    return { subjects: numbers(thing, "remedies", everything), parts: undefined };
  if (foods.has(thing)) return { subjects: numbers(thing, "foods", everything), parts: undefined };
  const ofKind =
    thing === "remedies"
      ? remedies.map(({ name }) => name)
      : thing === "foods"
        ? [...foods.keys()]
        : gears
            .filter(({ sort, on }) => kindWords(sort).includes(thing) && isWithin(station, on))
            .map(({ name }) => name);
  const own = ofKind.length > 0 || thing === "foods" ? [thing] : [thing, otherNumber(thing)];
  const kinds = gears.find(({ sort }) => kindWords(sort).includes(thing))?.sort;
  const words_ = kinds === undefined ? own : kindWords(kinds);
  // One that is all there is of its kind is all of it.
  const isEach = ofKind.length === 1 || kinds === thing;
  return {
    subjects: numbers(...words_, everything, ...(isEach ? ofKind : [])),
    parts: ofKind.length > 1 && !isEach ? numbers(...ofKind) : undefined,
  };
}

/** What is on a tank is its own; the room's are all. */
const isWithin = (station: Station, on: string): boolean => station.kind === "room" || on === station.name;

/** A kind of gear in the words of a check: `kit`, `kits`. */
export const kindWords = (sort: string): readonly string[] => (sort === "" ? [] : [sort, `${sort}s`]);

const otherNumber = (word: string): string => (word.endsWith("s") ? word.slice(0, -1) : `${word}s`);

const numbers = (...words: readonly string[]): ReadonlySet<number> => new Set(words.map(nameOf));
