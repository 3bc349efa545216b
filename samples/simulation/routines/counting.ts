import { dayOf, minuteOf, SATURDAY, SUNDAY, weekdayOf } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { speciesOf } from "../species.ts";
import { tanks } from "../tanks.ts";
import type { Item } from "../writing.ts";
import { presence } from "./keeper.ts";

/** The animals are looked at and counted while they eat: fish to the last one, shrimp and livebearers about. */

const EXACT_EVERY_DAYS = 24;
const ABOUT_EVERY_DAYS = 30;
/** An estimate further than this from the log is explained by a line before it is written. */
const CREDIBLE = 0.12;

/** The last count of b2, which does not add up, is written by a story; nobody counts there afterwards. */
const COUNTED_BY_A_STORY = { tank: "b2", after: "2026-03-10" } as const;
/** Not counted one by one: in transit, or too small to be. */
const UNCOUNTED_TANKS = new Set(["r12", "b6", "h1"]);

export function counting(cellar: Cellar, day: number): void {
  if (presence(day) !== "home" || weekdayOf(day) === SUNDAY) return;
  if (isStockTaking(day)) stockTaking(cellar, day);
  let counted = cellar.planned >= 19 ? 2 : 0;
  const random = cellar.random("counting");
  for (const { name: tank } of tanks) {
    if (counted >= 2 || UNCOUNTED_TANKS.has(tank) || isCountedByAStory(tank, day)) continue;
    const species = cellar.stock.speciesIn(tank);
    const exact = species.filter((name) => !speciesOf(name).uncounted && name !== "horn");
    const about = species.filter((name) => speciesOf(name).uncounted);
    const every = exact.length > 0 ? EXACT_EVERY_DAYS : ABOUT_EVERY_DAYS;
    if (species.length === 0 || cellar.daysSince(`count/${tank}`, day) < every || random.chance(0.4))
      continue;
    cellar.lastDone.set(`count/${tank}`, day);
    counted += 1;
    const minute = minuteOf("08:20") + random.whole(0, 45);
    if (exact.length > 0) cellar.plan(minute, () => countExactly(cellar, tank, exact));
    if (about.length > 0)
      cellar.plan(minute + 5, () => about.flatMap((name) => countAbout(cellar, tank, name)));
  }
}

/** True where the book of a tank is left as a story needs it. */
export function isCountedByAStory(tank: string, day: number): boolean {
  const { tank: left, after } = COUNTED_BY_A_STORY;
  return tank === left && day >= dayOf(after);
}

/** One line with the fish of a tank; some hide, and then it says of how many. */
function countExactly(cellar: Cellar, tank: string, species: readonly string[]): Item[] {
  const random = cellar.random("counting/eye");
  const parts = species
    .filter((name) => cellar.stock.there(tank, name) > 0)
    .map((name) => {
      const animals = cellar.stock.there(tank, name);
      const hidden = animals > 8 && random.chance(0.12) ? random.whole(1, 2) : 0;
      return hidden > 0 ? `${name} ${animals - hidden} of ${animals}` : `${name} ${sexed(tank, animals)}`;
    });
  if (parts.length === 0) return [];
  const text = cellar.prose.remark(random, 0.12, [
    "all eating",
    "twice, same figure",
    "at feeding",
    "all whole",
  ]);
  return [{ target: tank, words: `count ${parts.join(", ")}`, text }];
}

/** Males in a hundred where the keeper can tell them, and those who are too young for it. The rest are females. */
const sexes: Readonly<Record<string, { readonly male: number; readonly young: number }>> = {
  b1: { male: 38, young: 0 },
  b2: { male: 40, young: 0 },
  b3: { male: 43, young: 0 },
  b4: { male: 33, young: 0 },
  b5: { male: 43, young: 0 },
  b7: { male: 12, young: 70 },
};

/** `3.5.0` in the breeders' tanks, `3.5.20` in the grow-out, a number elsewhere. */
function sexed(tank: string, animals: number): string {
  const share = sexes[tank];
  if (share === undefined || animals < 6) return String(animals);
  const males = Math.round((share.male * animals) / 100);
  const young = Math.round((share.young * animals) / 100);
  return `${males}.${animals - males - young}.${young}`;
}

/** An estimate, and before it what explains it when the log is far off. */
function countAbout(cellar: Cellar, tank: string, species: string): Item[] {
  const { stock } = cellar;
  const random = cellar.random("counting/estimate");
  const there = stock.there(tank, species);
  if (there === 0) return [];
  const counted = estimate(there * (1 + 0.02 * random.noise()));
  const lines: Item[] = [];
  const difference = counted - stock.booked(tank, species);
  if (Math.abs(difference) > CREDIBLE * counted) {
    stock.correctBook(tank, species, difference);
    lines.push(
      difference > 0
        ? {
            target: tank,
            words: `hatch ${species} ${difference}`,
            text: cellar.prose.remark(random, 0.4, [
              "nobody saw them come",
              "young ones",
              "more than written",
            ]),
          }
        : {
            target: tank,
            words: `lose ${species} ${-difference} missing`,
            text: cellar.prose.remark(random, 0.4, [
              "not seen any more",
              "fewer than written",
              "by the count",
            ]),
          },
    );
  }
  stock.recount(tank, species, counted);
  return [...lines, { target: tank, words: `count ${species} ~${counted}` }];
}

/** Rounded as one rounds when one guesses: to fives below a hundred, to tens above. */
export function estimate(animals: number): number {
  const step = animals < 20 ? 1 : animals < 100 ? 5 : 10;
  return Math.max(1, Math.round(animals / step) * step);
}

/** On the first Saturday of a month the show tanks are counted as a sheet, snails too. */
function isStockTaking(day: number): boolean {
  return weekdayOf(day) === SATURDAY && new Date(day * 86_400_000).getUTCDate() <= 7;
}

function stockTaking(cellar: Cellar, day: number): void {
  const show = ["dam", "ford", "sill"];
  for (const tank of show) cellar.lastDone.set(`count/${tank}`, day);
  cellar.plan(minuteOf("10:15"), () => {
    const heads = ["boesemani", "praecox", "maccullochi", "gertrudae", "horn"];
    const rows = show.map((tank) => ({
      target: tank,
      cells: heads.map((name) => {
        const animals = cellar.stock.there(tank, name);
        return animals === 0 ? "-" : `${animals}`;
      }),
    }));
    return [{ heads, rows }];
  });
}
