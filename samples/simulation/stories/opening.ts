import { FIRST_DAY } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import type { Item } from "../writing.ts";
import { line } from "./scene.ts";

/** The animals on the first day, as they were counted: the number as written, where it is more than a number. */
const opening: readonly (readonly [
  tank: string,
  ...animals: (readonly [species: string, number: number, written?: string])[],
])[] = [
  ["dam", ["boesemani", 9], ["praecox", 18], ["horn", 12]],
  ["ford", ["maccullochi", 15], ["horn", 8]],
  ["sill", ["gertrudae", 24], ["cherry", 60, "~60"], ["horn", 4]],
  ["b1", ["praecox", 8, "3.5.0"]],
  ["b2", ["gertrudae", 10, "4.6.0"]],
  ["b3", ["woworae", 14, "6.8.0"]],
  ["b4", ["gardneri", 6, "2.4.0"]],
  ["b5", ["striatum", 7, "3.4.0"]],
  ["b7", ["boesemani", 12], ["praecox", 22]],
  ["r1", ["cherry", 85, "~85"]],
  ["r2", ["cherry", 70, "~70"]],
  ["r3", ["sky", 50, "~50"]],
  ["r4", ["ramshorn", 60, "~60"]],
  ["r5", ["wingei", 40, "~40"]],
  ["r6", ["wingei", 30, "~30"]],
  ["r7", ["formosa", 40, "~40"]],
  ["r8", ["woworae", 14]],
  ["r9", ["praecox", 16]],
  ["r10", ["gardneri", 12]],
  ["r11", ["gertrudae", 16]],
];

/** Puts the animals into the room. @returns the lines of the first count */
export function openingCounts(cellar: Cellar): Item[] {
  const random = cellar.random("opening");
  return opening.map(([tank, ...animals]) => {
    // Not all tanks are due for their next count on the same day.
    cellar.lastDone.set(`count/${tank}`, FIRST_DAY - random.whole(0, 18));
    for (const [species, number] of animals) cellar.stock.enter(tank, species, number, "opening");
    const parts = animals.map(([species, number, written]) => `${species} ${written ?? number}`);
    return line(tank, `count ${parts.join(", ")}`);
  });
}
