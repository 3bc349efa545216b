/** Inbreeding by paths through common ancestors: the way by which a breeder sees where it comes from. */
import { oldestFirst, type Parents, parentsOf } from "./pedigree.ts";
import { isOutside, type Outside, outside } from "./result.ts";

/** A chain from the father to a common ancestor and from there to the mother. */
export interface Path {
  /** Places in the pedigree: the father first, the mother last. */
  readonly through: readonly number[];
  readonly ancestor: number;
  /** What it adds: (1/2)^n (1 + F of the ancestor), n the animals in the chain. */
  readonly adds: number;
}

/** So many paths are followed; a pedigree with more is answered by the table. */
const mostPaths = 20_000;
const tooMany = outside(`more than ${mostPaths} paths`);

/**
 * All paths that make an animal inbred: Wright 1922, Am. Nat. 56:330-338. F = sum of (1/2)^n (1 + F of the common ancestor) over every
 * chain that passes no animal twice.
 */
export function pathsOf(pedigree: readonly Parents[], animal: number): readonly Path[] | Outside {
  const order = oldestFirst(pedigree);
  if (isOutside(order)) return order;
  const known = new Map<number, readonly Path[]>();
  let count = 0;
  const paths = (of: number): readonly Path[] | Outside => {
    const before = known.get(of);
    if (before !== undefined) return before;
    const { father, mother } = pedigree[of] ?? {};
    const found: Path[] = [];
    if (father !== undefined && mother !== undefined) {
      const toFather = chainsByEnd(pedigree, father);
      const toMother = chainsByEnd(pedigree, mother);
      if (toFather === undefined || toMother === undefined) return tooMany;
      for (const [ancestor, up] of toFather)
        for (const one of up)
          for (const other of toMother.get(ancestor) ?? []) {
            const isTwice = one.some((each) => each !== ancestor && other.includes(each));
            if (isTwice) continue;
            if (++count > mostPaths) return tooMany;
            const own = paths(ancestor);
            if (isOutside(own)) return own;
            const through = [...one, ...other.slice(0, -1).reverse()];
            const adds = 0.5 ** through.length * (1 + sumOf(own));
            found.push({ through, ancestor, adds });
          }
    }
    known.set(of, found);
    return found;
  };
  return paths(animal);
}

/** The inbreeding coefficient that some paths make together. */
export const sumOf = (paths: readonly Path[]): number => paths.reduce((sum, { adds }) => sum + adds, 0);

/** Every chain from an animal up to each of its ancestors, itself among them, by the ancestor at its end; undefined if they are too many. */
function chainsByEnd(pedigree: readonly Parents[], from: number): Map<number, number[][]> | undefined {
  const byEnd = new Map<number, number[][]>();
  const open: number[][] = [[from]];
  let count = 0;
  for (let chain = open.pop(); chain !== undefined; chain = open.pop()) {
    if (++count > mostPaths) return undefined;
    const end = chain.at(-1)!;
    const known = byEnd.get(end);
    if (known === undefined) byEnd.set(end, [chain]);
    else known.push(chain);
    for (const parent of parentsOf(pedigree[end]!)) open.push([...chain, parent]);
  }
  return byEnd;
}
