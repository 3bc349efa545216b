/**
 * Molar masses from the standard atomic weights of CIAAW 2021 (Prohaska et al. 2022, Pure Appl. Chem.
 * 94:573-600), abridged where the weight varies in nature. A web table of 1995 circulates with corrupted
 * digits; it is not used.
 */
import { type Figure, isOutside, type Outside, outside } from "./result.ts";

export const ATOMIC_WEIGHT: Readonly<Record<string, number>> = {
  H: 1.008,
  C: 12.011,
  N: 14.007,
  O: 15.999,
  Na: 22.98976928,
  Mg: 24.305,
  P: 30.973761998,
  S: 32.06,
  Cl: 35.45,
  K: 39.0983,
  Ca: 40.078,
  Cu: 63.546,
  // Trace elements, recalled and not re-read.
  B: 10.81,
  F: 18.998403162,
  Si: 28.085,
  Mn: 54.938043,
  Fe: 55.845,
  Zn: 65.38,
  Mo: 95.95,
  I: 126.90447,
};

/** How many of each atom a formula holds. */
export type Atoms = ReadonlyMap<string, number>;

/**
 * The atoms of a formula with brackets and water of crystallisation: `CaCO3`, `Ca(HCO3)2`, `MgSO4.7H2O`.
 * @returns a reason for an element not in the table or a formula that does not read
 */
export function atoms(formula: string): Atoms | Outside {
  const all = new Map<string, number>();
  for (const part of formula.split(/[.·*]/)) {
    const [, times = "", rest = ""] = /^(\d*)(.*)$/.exec(part) ?? [];
    const found = group(rest);
    if (found === undefined) return outside(`${formula} does not read as a formula of known elements`);
    add(all, found, times === "" ? 1 : Number(times));
  }
  return all;
}

/** Molar mass in g/mol; a reason as `atoms` gives one. */
export function molarMass(formula: string): Figure {
  const all = atoms(formula);
  if (isOutside(all)) return all;
  let sum = 0;
  for (const [element, count] of all) sum += ATOMIC_WEIGHT[element]! * count;
  return sum;
}

function add(all: Map<string, number>, more: Atoms, times: number): void {
  for (const [element, count] of more) all.set(element, (all.get(element) ?? 0) + count * times);
}

/** One formula without a dot: elements and brackets, each with its count. */
function group(text: string): Atoms | undefined {
  if (text === "") return undefined;
  const open: Map<string, number>[] = [new Map()];
  const piece = /([A-Z][a-z]?)(\d*)|(\()|\)(\d*)/y;
  while (piece.lastIndex < text.length) {
    const match = piece.exec(text);
    if (match === null) return undefined;
    const [, element, count, bracket, closed] = match;
    if (bracket !== undefined) open.push(new Map());
    else if (element === undefined) {
      const inner = open.pop()!;
      const outer = open.at(-1);
      if (outer === undefined) return undefined;
      add(outer, inner, Number(closed || 1));
    } else {
      if (ATOMIC_WEIGHT[element] === undefined) return undefined;
      add(open.at(-1)!, new Map([[element, 1]]), Number(count || 1));
    }
  }
  return open.length === 1 ? open[0] : undefined;
}
