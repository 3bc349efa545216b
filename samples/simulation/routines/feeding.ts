import { dayOf, FRIDAY, MONDAY, minuteOf, weekdayOf } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { singular } from "../provisions.ts";
import type { Stream } from "../random.ts";
import { isHarvested } from "./cultures.ts";
import { HOLIDAY, presence } from "./keeper.ts";

/**
 * What is fed: frozen food is the rule, live food for the breeders, dry food once or twice a week (common practice).
 * Shrimp get leaves and vegetables. Tanks that are fed alike share a line.
 */

type Kind = "frozen" | "live" | "dry" | "fresh";

/** Foods of a kind, each with the portion it is written in. */
const foods: Readonly<Record<Kind, readonly (readonly [food: string, portion: string])[]>> = {
  frozen: [
    ["cyclops", "cubes"],
    ["daphnia", "cubes"],
    ["larvae", "cubes"],
    ["artemia", "cubes"],
  ],
  live: [
    ["nauplii", "mL"],
    ["microworm", "scoops"],
  ],
  dry: [
    ["flake", "pinches"],
    ["granules", "pinches"],
  ],
  fresh: [
    ["nettle", "leaves"],
    ["courgette", "slices"],
    ["spinach", "leaves"],
  ],
};

/** Who is fed by one line, with what from Monday to Sunday, how much of frozen food a tank gets, and when. */
interface Table {
  readonly target: string;
  readonly tanks: readonly string[];
  readonly week: readonly (Kind | undefined)[];
  readonly frozen: string;
  readonly clock: string;
}

const row = (letter: string, from: number, until: number) =>
  Array.from({ length: until - from + 1 }, (_, index) => `${letter}${from + index}`);

const F = "frozen";
const none = undefined;
const show: readonly Table[] = [
  { target: "dam", tanks: ["dam"], week: [F, F, F, "dry", F, F, none], frozen: "3 cubes", clock: "07:20" },
  {
    target: "ford",
    tanks: ["ford"],
    week: [F, "live", F, "dry", F, F, none],
    frozen: "2 cubes",
    clock: "07:25",
  },
  {
    target: "sill",
    tanks: ["sill"],
    week: [F, "fresh", F, "dry", F, "fresh", none],
    frozen: "3 squirts",
    clock: "07:30",
  },
];
const rest: readonly Table[] = [
  {
    target: "@breeders",
    tanks: row("b", 1, 5),
    week: [F, "live", F, "dry", F, "live", F],
    frozen: "2 squirts",
    clock: "07:40",
  },
  {
    target: "@young",
    tanks: ["b6", "b7"],
    week: [F, "live", F, "live", F, F, "live"],
    frozen: "4 squirts",
    clock: "07:50",
  },
  {
    target: "@fish-row",
    tanks: row("r", 5, 11),
    week: [F, "dry", F, "live", F, "fresh", F],
    frozen: "2 squirts",
    clock: "08:00",
  },
  {
    target: "@top",
    tanks: row("r", 1, 4),
    week: ["fresh", none, "fresh", none, "dry", "fresh", none],
    frozen: "1 squirt",
    clock: "08:05",
  },
  { target: "q1", tanks: ["q1"], week: [F, F, F, "dry", F, F, F], frozen: "3 squirts", clock: "20:40" },
  { target: "h1", tanks: ["h1"], week: [F, F, F, F, F, F, F], frozen: "2 squirts", clock: "20:45" },
];

const remarks = ["all to the front", "eaten in two minutes", "slow today", "a little left", "gone at once"];

export function feeding(cellar: Cellar, day: number): void {
  const kinds = new Map<Table, Kind>();
  for (const table of [...show, ...rest]) {
    const kind = presence(day) === "away" ? neighbourFeeds(table, day) : kindToday(cellar, table, day);
    if (kind !== undefined && !isForgotten(cellar, table, kind, day)) kinds.set(table, kind);
  }
  const together = show.every((table) => kinds.get(table) === F) && isSharedDay(day);
  if (together) feedTogether(cellar, day);
  for (const [table, kind] of kinds) {
    if (!(together && show.includes(table))) feedTable(cellar, table, kind, day);
  }
}

/** The neighbour feeds every other day, from boxes made up beforehand. */
function neighbourFeeds({ target }: Table, day: number): Kind | undefined {
  const since = day - dayOf(HOLIDAY.from);
  if (target === "@top") return since === 2 || since === 5 ? "fresh" : undefined;
  return since % 2 === 1 && target !== "q1" && target !== "h1" ? F : undefined;
}

/** What the table says, put right so that no week has less than three frozen meals. */
function kindToday(cellar: Cellar, { tanks, week }: Table, day: number): Kind | undefined {
  if (tanks.every((tank) => cellar.stock.speciesIn(tank).length === 0)) return undefined;
  if (tanks.every((tank) => cellar.fasting.has(`${day}/${tank}`))) return undefined;
  const frozenIsTheRule = week.filter((kind) => kind === F).length >= 3;
  return frozenIsTheRule && frozenInSixDays(cellar, tanks, day) < 3 ? F : week[weekdayOf(day)];
}

function isForgotten(cellar: Cellar, { tanks }: Table, kind: Kind, day: number): boolean {
  if (presence(day) !== "home" || kind === "fresh") return false;
  return cellar.random("feeding/forgotten").chance(0.02) && frozenInSixDays(cellar, tanks, day) > 3;
}

function frozenInSixDays(cellar: Cellar, tanks: readonly string[], day: number): number {
  const counts = tanks.map((tank) => {
    const meals = cellar.fed.get(tank) ?? [];
    return meals.filter((meal) => meal.kind === F && meal.day >= day - 6).length;
  });
  return Math.min(...counts);
}

/** On Mondays and Fridays, and when the neighbour feeds, the show tanks get the same in one line. */
function isSharedDay(day: number): boolean {
  return [MONDAY, FRIDAY].includes(weekdayOf(day)) || presence(day) === "away";
}

function feedTogether(cellar: Cellar, day: number): void {
  const random = cellar.random("feeding/@show");
  for (const { tanks } of show) remember(cellar, tanks, day, F);
  const [food] = random.pick(foods[F]);
  cellar.provisions.feed(food, "1 cube", show.length);
  cellar.planEntry(minuteOf("07:20") + random.whole(-8, 8), "@show", `feed ${food} 1 cube`);
}

function feedTable(cellar: Cellar, table: Table, kind: Kind, day: number): void {
  const random = cellar.random(`feeding/${table.target}`);
  const tanks = table.tanks.filter((tank) => !cellar.fasting.has(`${day}/${tank}`));
  // A tank that fasts is left out by feeding the one beside it by name.
  const target = tanks.length < table.tanks.length ? tanks[0]! : table.target;
  const isShrimps = table.target === "@top";
  const [food, portion] =
    isShrimps && kind === "dry"
      ? (["shrimp-stick", "pellets"] as const)
      : foodToday(cellar, kind, random, day);
  const numbers: Record<Exclude<Kind, "frozen">, number> = {
    live: portion === "mL" ? (tanks.length > 2 ? random.pick([5, 10]) : random.pick([15, 20, 25])) : 1,
    dry: isShrimps ? random.whole(4, 8) : random.whole(1, 2),
    fresh: isShrimps ? random.whole(2, 4) : 1,
  };
  const amount = kind === F ? table.frozen : `${numbers[kind]} ${portionWord(portion, numbers[kind])}`;
  const text = presence(day) === "home" ? cellar.prose.remark(random, 0.04, remarks) : undefined;
  remember(cellar, tanks, day, kind);
  cellar.provisions.feed(food, amount, target === table.target ? tanks.length : 1);
  const minute = minuteOf(table.clock) + random.whole(-8, 8);
  cellar.planEntry(minute, target, `feed ${food} ${amount}`, text);
}

/** Nauplii where a cone was harvested this morning, worms on other days. */
function foodToday(cellar: Cellar, kind: Kind, random: Stream, day: number): readonly [string, string] {
  if (kind === "live") return isHarvested(cellar, day) ? foods.live[0]! : foods.live[1]!;
  return random.pick(foods[kind]);
}

/** `2 pinches`, `1 pinch`. */
function portionWord(portion: string, amount: number): string {
  return amount > 1 || portion === "mL" ? portion : singular(portion);
}

function remember(cellar: Cellar, tanks: readonly string[], day: number, kind: Kind): void {
  for (const tank of tanks) {
    const meals = cellar.fed.get(tank) ?? [];
    meals.push({ day, kind });
    cellar.fed.set(tank, meals);
  }
}
