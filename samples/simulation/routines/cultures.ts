import { dayOf, MONDAY, minuteOf, SATURDAY, SUNDAY, THURSDAY, TUESDAY, weekdayOf } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { presence } from "./keeper.ts";

/**
 * Live food: brine shrimp set up in a cone in the morning and harvested a day later, about every other day; worms on oats, split
 * once a week. How much and how warm is common practice, no source.
 */

/** The days on which somebody gets live food, and about what they eat of it together, mL. */
const eatenML: ReadonlyMap<number, number> = new Map([
  [TUESDAY, 80],
  [THURSDAY, 90],
  [SATURDAY, 50],
  [SUNDAY, 50],
]);

/** The worms were split for the last time on this day: the tub is overdue on the last day. */
export const LAST_SPLIT = dayOf("2026-03-16");

export function cultures(cellar: Cellar, day: number): void {
  if (presence(day) !== "home") return;
  const random = cellar.random("cultures");
  const wanted = eatenML.get(weekdayOf(day));
  if (cellar.lastDone.get("cone") === day - 1 && wanted !== undefined) {
    cellar.lastDone.set("harvest", day);
    const harvestedML = Math.round((wanted * random.between(0.9, 1.4)) / 10) * 10;
    const text = cellar.prose.remark(random, 0.08, ["good hatch", "half of it shells", "slow, cold night"]);
    cellar.planEntry(
      minuteOf("07:02") + random.whole(0, 6),
      "cones",
      `harvest nauplii ${harvestedML} mL`,
      text,
      true,
    );
  }
  if (eatenML.has(weekdayOf(day + 1)) && presence(day + 1) === "home" && random.chance(0.7)) {
    cellar.lastDone.set("cone", day);
    const gram = random.pick(["1.5", "2", "2", "2.5"]);
    const words = `start nauplii ${gram} g salt 25 g/L at 27 C`;
    cellar.planEntry(minuteOf("07:08") + random.whole(0, 4), "cones", words, undefined, true);
  }
  const isSplit = weekdayOf(day) === MONDAY || cellar.daysSince("worms", day) > 7;
  if (isSplit && day <= LAST_SPLIT) {
    cellar.lastDone.set("worms", day);
    cellar.planEntry(minuteOf("15:10"), "worm-tub", "start microworm");
  }
}

/** True where a cone was harvested this morning. */
export function isHarvested(cellar: Cellar, day: number): boolean {
  return cellar.lastDone.get("harvest") === day;
}
