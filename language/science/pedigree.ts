/** Relationship and inbreeding of animals whose parents are known. */
import { type Outside, outside } from "./result.ts";

/** An animal of a pedigree: its parents by their places in it; undefined for a parent that is not known. */
export interface Parents {
  readonly father?: number | undefined;
  readonly mother?: number | undefined;
}

/**
 * Additive relationships by the tabular method: Emik & Terrill 1949, J. Hered. 40:51-55 (recalled), as given by Henderson 1976,
 * Biometrics 32:69-83. Of two animals it is half the sum of the older with the parents of the younger; of an animal with itself 1 and half
 * the relationship of its parents. Parents that are not known are taken as unrelated to all others and not inbred.
 * @returns rows and columns in the order given, or a reason where an animal would be its own ancestor
 */
export function relationships(pedigree: readonly Parents[]): readonly (readonly number[])[] | Outside {
  const order = oldestFirst(pedigree);
  if (!Array.isArray(order)) return order as Outside;
  const table = pedigree.map(() => new Array<number>(pedigree.length).fill(0));
  const between = (one: number | undefined, other: number | undefined): number =>
    one === undefined || other === undefined ? 0 : table[one]![other]!;
  order.forEach((animal, at) => {
    const { father, mother } = pedigree[animal]!;
    for (const older of order.slice(0, at)) {
      const half = (between(father, older) + between(mother, older)) / 2;
      table[animal]![older] = half;
      table[older]![animal] = half;
    }
    table[animal]![animal] = 1 + between(father, mother) / 2;
  });
  return table;
}

/** The inbreeding coefficient of each animal: what its relationship with itself has above 1. */
export function inbreeding(pedigree: readonly Parents[]): readonly number[] | Outside {
  const table = relationships(pedigree);
  return Array.isArray(table) ? table.map((row: readonly number[], at) => row[at]! - 1) : (table as Outside);
}

/** Animals with every parent before its young; a reason where there is no such order, or a parent is not in the pedigree. */
export function oldestFirst(pedigree: readonly Parents[]): readonly number[] | Outside {
  const order: number[] = [];
  const state = new Uint8Array(pedigree.length);
  for (let begin = 0; begin < pedigree.length; begin++) {
    // By hand and not by calls, so that a long line of generations needs no deep stack.
    const open = [begin];
    while (open.length > 0) {
      const animal = open.at(-1)!;
      if (state[animal] === 2) {
        open.pop();
        continue;
      }
      const parents = parentsOf(pedigree[animal]!);
      const wrong = parents.find((parent) => pedigree[parent] === undefined);
      if (wrong !== undefined) return outside(`parent ${wrong} is not in the pedigree`);
      if (state[animal] === 0) {
        state[animal] = 1;
        const waiting = parents.filter((parent) => state[parent] !== 2);
        if (waiting.some((parent) => state[parent] === 1))
          return outside("an animal would be its own ancestor");
        open.push(...waiting);
        continue;
      }
      state[animal] = 2;
      order.push(animal);
      open.pop();
    }
  }
  return order;
}

export const parentsOf = ({ father, mother }: Parents): number[] =>
  [father, mother].filter((parent) => parent !== undefined);
