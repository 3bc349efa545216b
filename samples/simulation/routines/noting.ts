import { minuteOf, SUNDAY, weekdayOf } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { deckNames } from "../notes/notes.ts";
import { RACK_WATER } from "../tanks.ts";
import { presence } from "./keeper.ts";

/** One or two sentences on most days about what was seen. */
export function noting(cellar: Cellar, day: number): void {
  if (presence(day) !== "home") return;
  const random = cellar.random("noting");
  if (cellar.planned >= 20) return;
  const number = random.pick(weekdayOf(day) === SUNDAY ? [0, 1] : [0, 1, 1, 1, 2, 2]);
  for (const target of random.shuffled(weighted).slice(0, number)) {
    if (target !== "room" && target !== RACK_WATER && cellar.stock.speciesIn(target).length === 0) continue;
    const text = cellar.prose.next(target, day);
    if (text === undefined) continue;
    const minute = random.pick(["07:35", "10:20", "14:45", "19:20", "20:30"]);
    cellar.planEntry(minuteOf(minute) + random.whole(0, 40), target, "note", text, random.chance(0.25));
  }
}

/** The room and the show tanks have more to say than the rest. */
const weighted: readonly string[] = deckNames.flatMap((name) => {
  const times =
    name === "room" ? 6 : ["dam", "ford", "sill"].includes(name) ? 3 : /^b|rack|q1/.test(name) ? 2 : 1;
  return Array<string>(times).fill(name);
});
