import { dayOf, FRIDAY, MONDAY, minuteOf, weekdayOf } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
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

/** Who is fed by one line, with what from Monday to Sunday, how many cubes, and when. */
interface Table {
  readonly target: string;
  readonly tanks: readonly string[];
  readonly week: readonly (Kind | undefined)[];
  readonly cubes: number;
  readonly clock: string;
}

const row = (letter: string, from: number, until: number) =>
  Array.from({ length: until - from + 1 }, (_, index) => `${letter}${from + index}`);

const F = "frozen";
const none = undefined;
const show: readonly Table[] = [
  { target: "dam", tanks: ["dam"], week: [F, F, F, "dry", F, F, none], cubes: 3, clock: "07:20" },
  { target: "ford", tanks: ["ford"], week: [F, "live", F, "dry", F, F, none], cubes: 2, clock: "07:25" },
  {
    target: "sill",
    tanks: ["sill"],
    week: [F, "fresh", F, "dry", F, "fresh", none],
    cubes: 1,
    clock: "07:30",
  },
];
const rest: readonly Table[] = [
  {
    target: "@breeders",
    tanks: row("b", 1, 5),
    week: [F, "live", F, "dry", F, "live", F],
    cubes: 2,
    clock: "07:40",
  },
  {
    target: "@young",
    tanks: ["b6", "b7"],
    week: [F, "live", F, "live", F, F, "live"],
    cubes: 2,
    clock: "07:50",
  },
  {
    target: "@fish-row",
    tanks: row("r", 5, 11),
    week: [F, "dry", F, "live", F, "fresh", F],
    cubes: 3,
    clock: "08:00",
  },
  {
    target: "@top",
    tanks: row("r", 1, 4),
    week: ["fresh", none, "fresh", none, "dry", "fresh", none],
    cubes: 0,
    clock: "08:05",
  },
  { target: "q1", tanks: ["q1"], week: [F, F, F, "dry", F, F, F], cubes: 1, clock: "20:40" },
  { target: "h1", tanks: ["h1"], week: [F, F, F, F, F, F, F], cubes: 0.5, clock: "20:45" },
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
  cellar.planEntry(minuteOf("07:20") + random.whole(-8, 8), "@show", `feed ${food}`);
}

function feedTable(cellar: Cellar, table: Table, kind: Kind, day: number): void {
  const random = cellar.random(`feeding/${table.target}`);
  const tanks = table.tanks.filter((tank) => !cellar.fasting.has(`${day}/${tank}`));
  // A tank that fasts is left out by feeding the one beside it by name.
  const target = tanks.length < table.tanks.length ? tanks[0]! : table.target;
  const isShrimps = table.target === "@top";
  const [food, portion] =
    isShrimps && kind === "dry" ? ["shrimp-stick", "pellets"] : random.pick(foods[kind]);
  const amounts: Record<Kind, number> = {
    frozen: table.cubes,
    live: portion === "mL" ? random.pick([15, 20, 25]) : 1,
    dry: isShrimps ? random.whole(4, 8) : random.whole(1, 2),
    fresh: isShrimps ? random.whole(2, 4) : 1,
  };
  const text = presence(day) === "home" ? cellar.prose.remark(random, 0.04, remarks) : undefined;
  remember(cellar, tanks, day, kind);
  const minute = minuteOf(table.clock) + random.whole(-8, 8);
  cellar.planEntry(
    minute,
    target,
    `feed ${food} ${amounts[kind]} ${portionWord(portion, amounts[kind])}`,
    text,
  );
}

/** `2 pinches`, `1 pinch`; a part of a cube is one cube too. */
function portionWord(portion: string, amount: number): string {
  if (amount > 1 || portion === "mL") return portion;
  const singular: Record<string, string> = {
    cubes: "cube",
    pinches: "pinch",
    scoops: "scoop",
    slices: "slice",
    leaves: "leaf",
    pellets: "pellet",
  };
  return singular[portion] ?? portion;
}

function remember(cellar: Cellar, tanks: readonly string[], day: number, kind: Kind): void {
  for (const tank of tanks) {
    const meals = cellar.fed.get(tank) ?? [];
    meals.push({ day, kind });
    cellar.fed.set(tank, meals);
  }
}
