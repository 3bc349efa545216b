import { dayOf, minuteOf } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { presence } from "./keeper.ts";

/** Spawns that are seen and let be: most eggs are eaten, and that is as it should be in so small a room. */

interface Pairs {
  readonly tank: string;
  readonly species: string;
  readonly everyDays: number;
  readonly eggs: readonly [least: number, most: number, step: number];
  readonly sites: readonly string[];
}

const pairs: readonly Pairs[] = [
  {
    tank: "b1",
    species: "praecox",
    everyDays: 14,
    eggs: [20, 90, 10],
    sites: ["mop", "mop", "moss", "sponge"],
  },
  { tank: "b2", species: "gertrudae", everyDays: 22, eggs: [3, 12, 1], sites: ["moss"] },
  { tank: "b3", species: "woworae", everyDays: 18, eggs: [8, 20, 1], sites: ["roots", "mop"] },
  { tank: "b4", species: "gardneri", everyDays: 16, eggs: [6, 24, 2], sites: ["mop", "mop", "sponge"] },
  { tank: "b5", species: "striatum", everyDays: 20, eggs: [3, 12, 1], sites: ["leaves", "moss"] },
  { tank: "dam", species: "praecox", everyDays: 60, eggs: [20, 60, 20], sites: ["moss"] },
];

const remarks = ["left in", "most will be eaten", "clear ones", "half of them white", "morning, two pairs"];

export function spawning(cellar: Cellar, day: number): void {
  const random = cellar.random("spawning");
  for (const { tank, species, everyDays, eggs, sites } of pairs) {
    const isTime = random.chance(1 / everyDays);
    const [least, most, step] = eggs;
    const number = Math.round(random.between(least, most) / step) * step;
    const site = random.pick(sites);
    if (!isTime || presence(day) !== "home" || isSickTank(tank, day)) continue;
    // They need their time between, and the keeper does not look for eggs again so soon.
    if (cellar.daysSince(`spawn/${tank}`, day) < everyDays / 2) continue;
    cellar.lastDone.set(`spawn/${tank}`, day);
    const about = step >= 10 ? "~" : "";
    const text = cellar.prose.remark(random, 0.4, remarks);
    cellar.planEntry(
      minuteOf("09:00") + random.whole(0, 50),
      tank,
      `spawn ${species} ${about}${number} eggs on ${site}`,
      text,
      random.chance(0.5),
    );
  }
}

function isSickTank(tank: string, day: number): boolean {
  return tank === "b3" && day >= dayOf("2025-10-01") && day <= dayOf("2025-11-18");
}
