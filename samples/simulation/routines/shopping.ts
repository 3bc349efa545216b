import { dayOf, minuteOf, SATURDAY, SUNDAY, weekdayOf } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { packs } from "../pantry.ts";
import { presence } from "./keeper.ts";

/** Food is bought on Saturdays when a bag runs low, and what is left is weighed now and then. */

const LOW_SHARE = 0.25;
/** No larvae could be had since then: the bag is nearly empty on the last day. */
const NO_LARVAE_FROM = dayOf("2026-02-10");

export function shopping(cellar: Cellar, day: number): void {
  if (presence(day) !== "home") return;
  const random = cellar.random("shopping");
  if (weekdayOf(day) === SATURDAY) {
    for (const [food, { gram, price }] of Object.entries(packs)) {
      const isHad = food !== "larvae" || day < NO_LARVAE_FROM;
      if (!isHad || cellar.provisions.of(food) > LOW_SHARE * gram) continue;
      cellar.provisions.buy(food);
      cellar.planEntry(minuteOf("14:00"), "room", `buy ${food} ${gram} g price ${price} EUR`);
    }
  }
  const foods = Object.keys(packs);
  const week = Math.floor(day / 7);
  if (weekdayOf(day) === SUNDAY && week % 2 === 0)
    weigh(cellar, foods[(week / 2) % foods.length]!, random.noise());
}

/** To ten grams, of tins to the gram. */
function weigh(cellar: Cellar, food: string, noise: number): void {
  cellar.plan(minuteOf("14:20"), () => {
    const gram = cellar.provisions.of(food) * (1 + 0.02 * noise);
    const step = packs[food]!.gram > 200 ? 10 : 1;
    const written = Math.round(gram / step) * step;
    return written <= 0 ? [] : [{ target: "room", words: `left ${food} ${written} g` }];
  });
}
