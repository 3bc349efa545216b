import { minuteOf } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { estimate } from "./counting.ts";
import { presence } from "./keeper.ts";

/** Young that come by themselves: shrimp, ramshorns and livebearers. The keeper writes about so many. */

interface Line {
  readonly tank: string;
  readonly species: string;
  readonly everyDays: number;
  readonly young: readonly [least: number, most: number];
  /** Above this many there is no room for more. */
  readonly room: number;
}

const lines: readonly Line[] = [
  { tank: "r1", species: "cherry", everyDays: 12, young: [18, 32], room: 140 },
  { tank: "r2", species: "cherry", everyDays: 14, young: [16, 28], room: 120 },
  { tank: "r3", species: "sky", everyDays: 15, young: [14, 24], room: 95 },
  { tank: "sill", species: "cherry", everyDays: 34, young: [8, 16], room: 90 },
  { tank: "r4", species: "ramshorn", everyDays: 24, young: [12, 24], room: 90 },
  { tank: "r5", species: "wingei", everyDays: 13, young: [7, 13], room: 65 },
  { tank: "r6", species: "wingei", everyDays: 17, young: [6, 11], room: 55 },
  { tank: "r7", species: "formosa", everyDays: 13, young: [5, 10], room: 60 },
];

const remarks = [
  "all over the moss",
  "between the plants",
  "behind the sponge",
  "under the leaf",
  "seen at the lamp",
  "two sizes",
];

export function births(cellar: Cellar, day: number): void {
  const random = cellar.random("births");
  for (const { tank, species, everyDays, young, room } of lines) {
    const isTime = random.chance(1 / everyDays);
    const animals = random.whole(...young);
    if (!isTime || presence(day) !== "home" || cellar.stock.there(tank, species) + animals > room) continue;
    const written = animals < 10 ? animals : estimate(animals * (1 + 0.06 * random.noise()));
    const text = cellar.prose.remark(random, 0.35, remarks);
    cellar.plan(minuteOf("09:20") + random.whole(0, 30), () => {
      cellar.stock.enter(tank, species, animals, "born", written);
      return [{ target: tank, words: `hatch ${species} ${animals < 10 ? "" : "~"}${written}`, text }];
    });
  }
}
