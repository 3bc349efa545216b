import { minuteOf } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { ofLot } from "../lots.ts";
import { speciesOf } from "../species.ts";
import { tanks } from "../tanks.ts";
import { isCountedByAStory } from "./counting.ts";
import { presence } from "./keeper.ts";

/** What dies: fish that are found, and shrimp and fry that nobody sees die. */

/** Chance of one animal to die on one day. Round figures of the order of a well kept room; no source. */
const PER_DAY = 1 / 2600;
const UNSEEN_PER_DAY: Readonly<Record<string, number>> = {
  b6: 0.005,
  r1: 0.0015,
  r2: 0.0015,
  r3: 0.0015,
  r4: 0.0015,
  sill: 0.0015,
};
const LIVEBEARER_UNSEEN_PER_DAY = 0.002;

const reasons: Readonly<Record<string, readonly string[]>> = {
  found: [
    "on the bottom, whole",
    "by the filter, old female",
    "fresh, nothing to see on it",
    "thin, old",
    "at the inlet",
    "pale, found at the morning round",
    "behind the mop",
  ],
  missing: ["twice counted", "gone since the last count"],
  jumped: ["dry on the floor", "through the cable gap", "behind the tank"],
  culled: ["bent back"],
};

export function losses(cellar: Cellar, day: number): void {
  const random = cellar.random("losses");
  for (const { name: tank } of tanks) {
    if (tank === "r12" || tank === "h1" || isCountedByAStory(tank, day)) continue;
    for (const species of cellar.stock.speciesIn(tank)) {
      const about = speciesOf(species);
      if ((about.uncounted && tank !== "q1") || tank === "b6") unseen(cellar, tank, species);
      else if (
        species !== "horn" &&
        presence(day) === "home" &&
        random.chance(cellar.stock.there(tank, species) * PER_DAY)
      ) {
        seen(cellar, tank, species);
      }
    }
  }
}

/** One is found and written down. A school is not let down below its least number. */
function seen(cellar: Cellar, tank: string, species: string): void {
  const random = cellar.random("losses/seen");
  const how = random.pick(["found", "found", "found", "found", "jumped", "missing"]);
  const text = cellar.prose.remark(random, 0.8, reasons[how]!);
  cellar.plan(minuteOf("07:05") + random.whole(0, 10), () => {
    if (cellar.stock.there(tank, species) <= Math.max(2, speciesOf(species).school)) return [];
    const [dead] = cellar.stock.leave(tank, species, 1, "diedSeen");
    return [{ target: tank, words: `lose ${species} 1 ${how}${ofLot(species, dead?.lot)}`, text }];
  });
}

function unseen(cellar: Cellar, tank: string, species: string): void {
  const random = cellar.random(`losses/${tank}`);
  const perDay = UNSEEN_PER_DAY[tank] ?? LIVEBEARER_UNSEEN_PER_DAY;
  const there = cellar.stock.there(tank, species);
  let dead = 0;
  for (let animal = 0; animal < there; animal++) if (random.chance(perDay)) dead += 1;
  if (dead > 0 && there - dead >= 6) cellar.stock.leave(tank, species, dead, "diedUnseen");
}
