import type { Lot, Place } from "../book/stations.ts";
import { inbreedingBounds, type Kin } from "../science/pedigree-groups.ts";
import { type Path, pathsOf } from "../science/pedigree-paths.ts";
import { isOutside } from "../science/result.ts";
import { type BroodEntry, broodEntries, type Parentage, type ParentNamed } from "./brood-rows.ts";
import { type Brood, broodsUntil } from "./broods.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Logbook } from "./logbook.ts";

/** Who descends from whom: the lots of a logbook as a pedigree. */

export interface Kindred {
  readonly name: string;
  /** Empty where nothing says so. */
  readonly species: string;
  readonly definition: Lot | undefined;
  readonly brood: Brood | undefined;
  /** What the entries name; else what the definition states. */
  readonly parents: Parentage;
  /** Several animals: a parent that is one of them is nobody in particular. */
  readonly isGroup: boolean;
  /** The day from which it is known to live: born, hatched, or came; NaN where nothing says so. */
  readonly livesFrom: number;
  /** Whether it is `livesFrom` by a birth, and not by an arrival of animals that were older. */
  readonly isBorn: boolean;
}

export interface Lineage {
  readonly kindred: ReadonlyMap<string, Kindred>;
  /** Names of lots that would be their own ancestors, each ring once. */
  readonly rings: readonly (readonly string[])[];
}

/** The pedigree by all that is written up to the end of a day. */
export function lineageUntil(logbook: Logbook, day: number): Lineage {
  return keptFor(logbook, `lineage ${day}`, () => {
    const { lots } = logbook.book;
    const broods = broodsUntil(logbook, day);
    const byLot = new Map<string, Brood>();
    for (const brood of broods) if (brood.lot !== "" && !byLot.has(brood.lot)) byLot.set(brood.lot, brood);
    const names = new Set([...lots.keys(), ...byLot.keys()]);
    for (const { parents } of broods) for (const name of namesIn(parents)) names.add(name);
    for (const { father, mother } of lots.values())
      for (const name of [father, mother]) if (name !== "") names.add(name);
    const arrivals = arrivalsOf(broods, logbook, day);
    const kindred = new Map<string, Kindred>();
    for (const name of names)
      kindred.set(name, kindredOf(name, lots.get(name), byLot.get(name), arrivals.get(name)));
    return { kindred, rings: ringsIn(kindred) };
  });
}

const namesIn = ({ father, mother }: Parentage): string[] =>
  [father, mother].flatMap((parent) => parent?.name ?? []);

/** Batches that came from elsewhere, by their names. */
function arrivalsOf(
  broods: readonly Brood[],
  logbook: Logbook,
  day: number,
): ReadonlyMap<string, readonly BroodEntry[]> {
  const isBrood = new Set(broods.map(({ lot }) => lot));
  const arrivals = new Map<string, BroodEntry[]>();
  for (const entry of broodEntries(logbook, day)) {
    if (entry.is !== "arrive" || isBrood.has(entry.lot)) continue;
    arrivals.set(entry.lot, [...(arrivals.get(entry.lot) ?? []), entry]);
  }
  return arrivals;
}

function kindredOf(
  name: string,
  definition: Lot | undefined,
  brood: Brood | undefined,
  arrivals: readonly BroodEntry[] = [],
): Kindred {
  const named = brood?.parents ?? { father: undefined, mother: undefined };
  const stated = statedParents(definition);
  const animals = arrivals.reduce((sum, { count }) => sum + count, 0);
  const born = definition?.born ?? Number.NaN;
  const hatched = brood?.tally.hatchedOn ?? Number.NaN;
  const isBorn = !Number.isNaN(born) || !Number.isNaN(hatched) || brood !== undefined;
  return {
    name,
    species: definition?.species || brood?.species || arrivals[0]?.species || "",
    definition,
    brood,
    parents: { father: named.father ?? stated.father, mother: named.mother ?? stated.mother },
    // An animal whose sex is stated is one; of a name without a number that is assumed.
    isGroup: definition?.sex === undefined && (brood !== undefined || animals > 1),
    livesFrom: !Number.isNaN(born)
      ? born
      : !Number.isNaN(hatched)
        ? hatched
        : (brood?.tally.spawned ?? arrivals[0]?.day ?? Number.NaN),
    isBorn,
  };
}

/** The parents that a definition of a lot states. */
export function statedParents(lot: Lot | undefined): Parentage {
  const parent = (role: "father" | "mother"): ParentNamed | undefined => {
    const name = lot?.[role] ?? "";
    return lot === undefined || name === "" ? undefined : { name, place: placeOfParent(lot, role) };
  };
  return { father: parent("father"), mother: parent("mother") };
}

/** Where a definition names a parent. */
function placeOfParent({ place }: Lot, role: "father" | "mother"): Place {
  const { block } = place;
  const property = block.definition?.properties.find(({ word }) => word === role);
  const value = property?.filled.items[0]?.[role];
  return value === undefined ? place : { block, start: value.start, end: value.end };
}

/** Rings of descent, each as the names on it. */
function ringsIn(kindred: ReadonlyMap<string, Kindred>): string[][] {
  const rings: string[][] = [];
  const done = new Set<string>();
  for (const begin of kindred.keys()) {
    const chain: string[] = [];
    const open: { readonly name: string; readonly depth: number }[] = [{ name: begin, depth: 0 }];
    for (let next = open.pop(); next !== undefined; next = open.pop()) {
      const { name, depth } = next;
      // What stands deeper in the chain belongs to another branch, and is done.
      for (const left of chain.splice(depth)) done.add(left);
      const at = chain.indexOf(name);
      if (at >= 0) rings.push(chain.slice(at));
      else if (!done.has(name)) {
        chain.push(name);
        const parents = kindred.get(name)?.parents;
        if (parents !== undefined)
          for (const parent of namesIn(parents)) open.push({ name: parent, depth: depth + 1 });
      }
    }
    for (const left of chain) done.add(left);
  }
  return rings;
}

/** The inbreeding of the young of two lots. */
export interface Inbred {
  readonly low: number;
  readonly high: number;
  /** The chains through common ancestors, by names; undefined where parents are of groups, or there are too many. */
  readonly paths:
    | readonly (Omit<Path, "through" | "ancestor"> & {
        readonly through: readonly string[];
        readonly ancestor: string;
      })[]
    | undefined;
  /** Lots of several animals among the ancestors. */
  readonly groups: readonly string[];
  /** Ancestors of whom no parent is known: taken as unrelated. */
  readonly founders: readonly string[];
}

/** Undefined where no parent, or one alone, is known: of such young nothing can be told; and where the pedigree goes round. */
export function inbredOf(lineage: Lineage, { father, mother }: Parentage): Inbred | undefined {
  if (father === undefined || mother === undefined) return undefined;
  const names = ancestors(lineage, [father.name, mother.name]);
  if (names === undefined) return undefined;
  const at = new Map(names.map((name, index) => [name, index]));
  const placeOf = (parent: ParentNamed | undefined): number | undefined =>
    parent === undefined ? undefined : at.get(parent.name);
  const kin: Kin[] = names.map((name) => {
    const { parents, isGroup } = lineage.kindred.get(name)!;
    return { isGroup, father: placeOf(parents.father), mother: placeOf(parents.mother) };
  });
  kin.push({ isGroup: true, father: at.get(father.name), mother: at.get(mother.name) });
  const bounds = inbreedingBounds(kin);
  if (isOutside(bounds)) return undefined;
  const groups = names.filter((name) => lineage.kindred.get(name)?.isGroup === true);
  const paths = groups.length > 0 ? undefined : pathsOf(kin, kin.length - 1);
  return {
    ...bounds.at(-1)!,
    paths:
      paths === undefined || isOutside(paths)
        ? undefined
        : paths.map(({ through, ancestor, adds }) => ({
            through: through.map((each) => names[each]!),
            ancestor: names[ancestor]!,
            adds,
          })),
    groups,
    founders: names.filter((name) => namesIn(lineage.kindred.get(name)!.parents).length === 0),
  };
}

/** Lots with all their ancestors; undefined where one would be its own. */
export function ancestors({ kindred, rings }: Lineage, names: readonly string[]): string[] | undefined {
  const ringed = new Set(rings.flat());
  const found = new Set<string>();
  const open = [...names];
  for (let name = open.pop(); name !== undefined; name = open.pop()) {
    if (found.has(name)) continue;
    if (ringed.has(name)) return undefined;
    found.add(name);
    const parents = kindred.get(name)?.parents;
    if (parents !== undefined) open.push(...namesIn(parents));
  }
  return [...found];
}
