import { dayOf, minuteOf, weekdayOf } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { type WaterName, waters } from "../pantry.ts";
import { RACK_WATER } from "../tanks.ts";
import { isLastStretch, presence } from "./keeper.ts";

/**
 * The rotation: one person cleans five or six tanks thoroughly a day, two of them with a change of their own, a shelf
 * of four in the rack. A change is 30 to 40 % (common practice, no source).
 */

/** The tanks of each day from Monday to Sunday. */
const rotation: readonly (readonly string[])[] = [
  ["dam", "b1"],
  ["b2", "b3", "b7"],
  ["ford", "b4"],
  ["b5", "q1"],
  ["sill", "b6"],
  ["b7", "h1"],
  [],
];
const MOST_IN_A_DAY = 3;

interface Habit {
  /** How the change is written, in turn. */
  readonly changes: readonly string[];
  readonly source: WaterName;
  readonly parts: readonly string[];
}

const plain = ["bottom", "glass, bottom", "bottom, sponge", "glass", "front-glass, bottom"];
const habits: Readonly<Record<string, Habit>> = {
  dam: {
    changes: ["35 %", "120 L flow from tap at 24 C", "33 %", "100 L"],
    source: "tap",
    parts: ["front-glass", "front-glass, gravel", "front-glass, pipes", "front-glass, gravel, lid"],
  },
  ford: {
    changes: ["30 %", "30 %", "60 L"],
    source: "tap",
    parts: ["front-glass, gravel", "front-glass", "front-glass, lid"],
  },
  sill: {
    changes: ["30 % from soft", "35 % from soft", "30 % from soft"],
    source: "soft",
    parts: ["front-glass", "front-glass, lid"],
  },
  b1: { changes: ["35 %", "20 L", "30 %", "40 %"], source: "tap", parts: plain },
  b2: { changes: ["30 % from soft", "12 L from soft"], source: "soft", parts: ["front-glass", "bottom"] },
  b3: { changes: ["35 %", "30 %", "15 L"], source: "tap", parts: plain },
  b4: { changes: ["35 %", "30 %", "40 %"], source: "tap", parts: ["glass, bottom", "bottom", "glass"] },
  b5: {
    changes: ["30 % from soft", "30 % from soft", "8 L from soft"],
    source: "soft",
    parts: ["front-glass", "lid"],
  },
  b6: { changes: ["30 %", "25 %", "30 %"], source: "tap", parts: ["bottom", "front-glass, bottom"] },
  b7: { changes: ["40 %", "35 %", "40 %"], source: "tap", parts: ["bottom", "glass, bottom", "bottom, lid"] },
  q1: { changes: ["30 %", "35 %", "40 %"], source: "tap", parts: ["bottom", "glass, bottom"] },
  h1: { changes: ["40 %", "50 %"], source: "tap", parts: ["bottom"] },
};

/** Changes that were not done, and are still owed on the last day. */
export const LEFT_UNDONE: Readonly<Record<string, string>> = { b4: "2026-03-25", b6: "2026-03-27" };

const remarks = [
  "mulm under the wood",
  "cup of mulm",
  "hose slipped, mopped",
  "lime on the lid",
  "new hose end",
  "water cold",
  "quick one",
];

export function cleaning(cellar: Cellar, day: number): void {
  const owed = owedToday(cellar, day);
  if (presence(day) !== "home") {
    cellar.owed = owed;
    return;
  }
  const random = cellar.random("cleaning");
  const putOff = isLastStretch(day) ? [] : owed.filter(() => random.chance(0.05));
  const today = owed.filter((tank) => !putOff.includes(tank)).slice(0, MOST_IN_A_DAY);
  cellar.owed = owed.filter((tank) => !today.includes(tank));
  for (const [index, tank] of today.entries())
    service(cellar, tank, day, minuteOf("17:50") + 35 * index + random.whole(0, 15));
  shelf(cellar, day);
  rackChange(cellar, day);
}

function owedToday(cellar: Cellar, day: number): string[] {
  const due = rotation[weekdayOf(day)]!.filter((tank) => !isLeft(tank, day));
  const wanted = due.filter(
    (tank) => tank !== "h1" || cellar.stock.speciesIn("h1").length > 0 || isMonthly(day),
  );
  const isJustDone = (tank: string) => cellar.daysSince(`change/${tank}`, day) < (tank === "b7" ? 3 : 4);
  return [...new Set([...cellar.owed, ...wanted])].filter(
    (tank) => !cellar.handled.has(`${day}/${tank}`) && !isJustDone(tank),
  );
}

/** The hospital is kept running when it is empty, with other water once in four weeks. */
function isMonthly(day: number): boolean {
  return Math.floor(day / 7) % 4 === 0;
}

function isLeft(tank: string, day: number): boolean {
  const from = LEFT_UNDONE[tank];
  return from !== undefined && day >= dayOf(from);
}

/** A tank's own clean: the water, then what was wiped. */
function service(cellar: Cellar, tank: string, day: number, minute: number): void {
  const habit = habits[tank]!;
  cellar.lastDone.set(`change/${tank}`, day);
  const random = cellar.random(`cleaning/${tank}`);
  const words = random.pick(habit.changes);
  const isShow = tank === "dam" || tank === "ford" || tank === "sill";
  const isCleaned = isShow || random.chance(0.8);
  cellar.plan(minute, (now) => {
    change(cellar, tank, words, habit.source, now);
    const text = cellar.prose.remark(random, 0.05, remarks);
    const cleaned = { target: tank, words: `clean ${random.pick(habit.parts)}` };
    return [{ target: tank, words: `change ${words}`, text }, ...(isCleaned ? [cleaned] : [])];
  });
}

/** Does to the water what the words of a change say. */
export function change(cellar: Cellar, target: string, words: string, source: WaterName, now: number): void {
  const body = cellar.bodyOf(target);
  const number = Number.parseFloat(words);
  const litres = words.includes("%") ? (number / 100) * body.netL : number;
  if (words.includes("flow")) body.flow(now, litres, waters[source]);
  else body.batch(now, litres, waters[source]);
}

const shelves = ["top", "middle", "bottom"] as const;

/** One shelf of the rack a day, so that each is cleaned every three days. */
function shelf(cellar: Cellar, day: number): void {
  const random = cellar.random("cleaning/rack");
  const oldest = [...shelves].sort((a, b) => cellar.daysSince(b, day) - cellar.daysSince(a, day))[0]!;
  cellar.lastDone.set(oldest, day);
  const parts =
    oldest === "top"
      ? ["front-glass", "front-glass, bottom", "bottom"]
      : ["glass, bottom", "bottom", "glass", "bottom, lid"];
  cellar.planEntry(minuteOf("16:40") + random.whole(0, 20), `@${oldest}`, `clean ${random.pick(parts)}`);
}

/** The rack's water every three days, in one go through the sump; a little late when there is no time. */
function rackChange(cellar: Cellar, day: number): void {
  const random = cellar.random("cleaning/rack-water");
  const since = cellar.daysSince("rack-change", day);
  if (since < 3 || (!isLastStretch(day) && since === 3 && random.chance(0.1))) return;
  cellar.lastDone.set("rack-change", day);
  const words = random.pick([
    "110 L flow from tap at 23 C",
    "120 L flow from tap at 23 C",
    "110 L flow",
    "30 %",
  ]);
  cellar.plan(minuteOf("17:05") + random.whole(0, 15), (now) => {
    change(cellar, RACK_WATER, words, "tap", now);
    return [{ target: RACK_WATER, words: `change ${words}` }];
  });
}
