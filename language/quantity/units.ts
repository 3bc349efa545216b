/**
 * Looking units up. `findUnit` is the hot path: one Map lookup by exact spelling. Ambiguous spellings are not
 * in that Map; `ambiguous.ts` settles them by what the room declares.
 */

import { AMBIGUOUS } from "./ambiguous.ts";
import type { Dimension } from "./dimension.ts";
import { UNITS, type Unit } from "./unit-table.ts";

export { AMBIGUOUS, type Declared, settle } from "./ambiguous.ts";
export type { Basis, Unit } from "./unit-table.ts";
export { differenceUnit, UNITS } from "./unit-table.ts";

const bySpelling = new Map<string, Unit>();
for (const unit of UNITS) for (const spelling of unit.spellings) bySpelling.set(spelling, unit);

/** The unit with exactly this spelling (words joined by one space), or undefined: unknown or ambiguous. */
export function findUnit(text: string): Unit | undefined {
  return bySpelling.get(text);
}

/** The unit with this id. Throws a RangeError for an id that no unit has. */
export function unitById(id: number): Unit {
  const unit = UNITS[id];
  if (unit === undefined) throw new RangeError(`no unit has the id ${id}`);
  return unit;
}

/** The unit with this symbol; throws a RangeError when there is none. For code that names a unit it knows. */
export function unitOf(symbol: string): Unit {
  const unit = bySpelling.get(symbol);
  if (unit === undefined) throw new RangeError(`no unit is spelled ${symbol}`);
  return unit;
}

/** Whether the text is a unit's whole spelling, ambiguous ones included. */
export function isUnitWord(text: string): boolean {
  return bySpelling.has(text) || AMBIGUOUS.has(text);
}

/**
 * What may follow, one word at a time, for units of several words. The key is the text so far: `US` is
 * followed by `gal` or `fl`, `US fl` by `oz`. Join greedily while the next word is in the set, each with one
 * space.
 */
export const unitSecondWords: ReadonlyMap<string, ReadonlySet<string>> = followers();

function followers(): Map<string, Set<string>> {
  const map = new Map<string, Set<string>>();
  for (const spelling of [...bySpelling.keys(), ...AMBIGUOUS.keys()]) {
    const words = spelling.split(" ");
    for (let i = 1; i < words.length; i++) {
      const soFar = words.slice(0, i).join(" ");
      const next = map.get(soFar) ?? new Set<string>();
      map.set(soFar, next.add(words[i]!));
    }
  }
  return map;
}

/** How many of the words from `start` make the longest unit spelling; 0 when none do. */
export function unitWordCount(words: readonly string[], start = 0): number {
  let text = words[start];
  if (text === undefined) return 0;
  let best = isUnitWord(text) ? 1 : 0;
  for (let i = start + 1; i < words.length; i++) {
    const word = words[i]!;
    if (!unitSecondWords.get(text)?.has(word)) break;
    text += ` ${word}`;
    if (isUnitWord(text)) best = i - start + 1;
  }
  return best;
}

const loose = looseSpellings();

function looseSpellings(): Map<string, Unit | undefined> {
  const map = new Map<string, Unit | undefined>();
  for (const unit of UNITS) {
    for (const spelling of unit.spellings) {
      const key = loosen(spelling);
      // Two units that differ in case only (none today) would make the loose spelling say nothing.
      map.set(key, map.has(key) && map.get(key) !== unit ? undefined : unit);
    }
  }
  return map;
}

function loosen(text: string): string {
  return text
    .toLowerCase()
    .replace(/[µμ]/g, "u")
    .replace(/[²]/g, "2")
    .replace(/[³]/g, "3")
    .replace(/[\s._]/g, "");
}

/** The unit meant by a spelling with the wrong case, spaces, dots or plural; undefined when unclear. */
export function looseUnit(text: string): Unit | undefined {
  const key = loosen(text);
  return loose.get(key) ?? (key.length > 2 && key.endsWith("s") ? loose.get(key.slice(0, -1)) : undefined);
}

/** Units whose spelling is near the text, nearest first, at most three, for "did you mean". */
export function nearestUnits(text: string, dimension?: Dimension): Unit[] {
  const wanted = loosen(text);
  const found: { unit: Unit; distance: number }[] = [];
  for (const unit of UNITS) {
    if (dimension !== undefined && unit.dimension !== dimension) continue;
    let distance = Infinity;
    for (const spelling of unit.spellings) {
      distance = Math.min(distance, editDistance(wanted, loosen(spelling)));
    }
    if (distance <= Math.max(1, Math.floor(wanted.length / 3))) found.push({ unit, distance });
  }
  found.sort((a, b) => a.distance - b.distance || a.unit.id - b.unit.id);
  return found.slice(0, 3).map((each) => each.unit);
}

/** Optimal string alignment distance: insert, delete, replace, swap neighbours (Damerau 1964). */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = above[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      let least = Math.min(replaced, above[j]! + 1, row[j - 1]! + 1);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        least = Math.min(least, before[j - 2]! + 1);
      }
      row.push(least);
    }
    before = above;
    above = row;
  }
  return above[b.length]!;
}
