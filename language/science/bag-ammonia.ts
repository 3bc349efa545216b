/**
 * The most free ammonia that a closed bag comes to on the way. The total only rises, but carbon dioxide binds
 * it: as the gas is used up the pH falls faster than the total rises, and the free part turns back, until the
 * gas is gone and it rises again. What the fish have gone through is the highest of it, not what is there at
 * the end.
 */
import { type Bag, type BagState, bagAfter } from "./bag.ts";
import { negative } from "./given.ts";
import { rootByHalving } from "./halving.ts";
import { type Figure, isOutside, outside } from "./result.ts";

/** Free ammonia as N at its highest, of water that was packed without ammonia. */
export function mostFreeMgLN(bag: Bag, hours: number): Figure {
  if (bag.totalMgLN !== 0) return outside("the water packed already holds ammonia");
  const refused = negative("time", hours, "h");
  if (refused !== undefined) return refused;
  const last = freeAt(bag, hours);
  if (isOutside(last)) return last;
  // As long as there is gas it rises and then falls, so that of two thirds the higher is nearer to the highest.
  let [from, to] = [0, rootByHalving(0, hours, (hour) => (gasL(bag, hour) > 0 ? -1 : 1))];
  for (let step = 0; step < 100; step++) {
    const third = (to - from) / 3;
    if ((freeAt(bag, from + third) as number) < (freeAt(bag, to - third) as number)) from += third;
    else to -= third;
  }
  return Math.max(last, freeAt(bag, (from + to) / 2) as number);
}

const gasL = (bag: Bag, hours: number): number => (bagAfter(bag, hours) as BagState).gasL;

function freeAt(bag: Bag, hours: number): Figure {
  const state = bagAfter(bag, hours);
  return isOutside(state) ? state : state.freeMgLN;
}
