import { dayOf, FRIDAY, minuteOf, THURSDAY, weekdayOf } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { waters } from "../pantry.ts";
import type { Stream } from "../random.ts";
import { RACK_WATER } from "../tanks.ts";
import { isLastStretch, presence } from "./keeper.ts";

/** Top-ups, filters and pumps, lamps, plants and algae. */

export function upkeep(cellar: Cellar, day: number): void {
  if (presence(day) !== "home") return;
  topUps(cellar, day);
  for (const one of services) serviceGear(cellar, one, day);
  plants(cellar, day);
}

/** What evaporated goes back as osmosis water, where it shows. */
function topUps(cellar: Cellar, day: number): void {
  const random = cellar.random("upkeep/top-up");
  const weekday = weekdayOf(day);
  if (cellar.daysSince("rack-change", day) === 2 && random.chance(0.75))
    topUp(cellar, RACK_WATER, random.whole(0, 30));
  if (weekday === THURSDAY && random.chance(0.8)) topUp(cellar, "dam", random.whole(0, 30));
  if ((weekday === FRIDAY || weekday === 0) && random.chance(0.8)) topUp(cellar, "ford", random.whole(0, 30));
}

function topUp(cellar: Cellar, target: string, after: number): void {
  cellar.plan(minuteOf("12:30") + after, (now) => {
    const inL = cellar.bodyOf(target).topUp(now, waters.ro);
    return inL < 1 ? [] : [{ target, words: `top-up ${inL} L from ro` }];
  });
}

interface Service {
  readonly gear: string;
  readonly target: string;
  readonly everyDays: number;
  readonly first: string;
  readonly work: string;
  /** Not done any more from this date on. */
  readonly until?: string;
}

/** The canister of the dam was cleaned for the last time on 12 February: it is overdue on the last day. */
export const LAST_CANISTER_SERVICE = "2026-02-12";

const services: readonly Service[] = [
  {
    gear: "canister",
    target: "dam",
    everyDays: 28,
    first: "2025-04-10",
    work: "rinsed",
    until: LAST_CANISTER_SERVICE,
  },
  { gear: "ford-filter", target: "ford", everyDays: 42, first: "2025-04-16", work: "rinsed" },
  { gear: "mat", target: "sill", everyDays: 84, first: "2025-05-09", work: "rinsed" },
  { gear: "q1-sponge", target: "q1", everyDays: 42, first: "2025-05-08", work: "rinsed" },
  { gear: "sock", target: RACK_WATER, everyDays: 7, first: "2025-04-05", work: "replaced" },
  { gear: "return", target: RACK_WATER, everyDays: 56, first: "2025-05-03", work: "checked" },
  { gear: "ph-meter", target: "ph-meter", everyDays: 28, first: "2025-04-06", work: "calibrated" },
];

function serviceGear(
  cellar: Cellar,
  { gear, target, everyDays, first, work, until }: Service,
  day: number,
): void {
  if (day < dayOf(first) || (until !== undefined && day > dayOf(until))) return;
  const random = cellar.random(`upkeep/${gear}`);
  const isLast = until !== undefined && day === dayOf(until);
  const isJustBefore = until !== undefined && !isLast && day > dayOf(until) - 20;
  const isPutOff = !isLastStretch(day) && everyDays > 7 && random.chance(0.3);
  if (!isLast && (isJustBefore || isPutOff || cellar.daysSince(gear, day) < everyDays)) return;
  cellar.lastDone.set(gear, day);
  const words = target === gear ? `service ${work}` : `service ${gear} ${work}`;
  const remarks = [
    "little in it",
    "full of mulm",
    "flow better",
    "impeller wiped",
    "in tank water",
    "half of it",
  ];
  const text = target === gear ? undefined : cellar.prose.remark(random, 0.3, remarks);
  cellar.planEntry(minuteOf("19:30") + random.whole(0, 25), target, words, text);
}

const garden: readonly ((random: Stream) => string)[] = [
  (random) => `trim ${random.pick(["stems", "moss", "floating"])} ${random.whole(3, 30) * 10} g`,
  (random) => `algae ${random.pick(["green-spot", "film", "thread", "diatoms"])} ${random.whole(0, 3)}`,
  (random) => `plant ${random.pick(["fern", "crypt", "moss", "vallisneria"])} ${random.whole(1, 6)}`,
];
const gardenRemarks = ["photo taken", "half to the compost", "low right corner", "same as last month"];

/** Trimming, planting and algae in the show tanks, a lamp set anew now and then. */
function plants(cellar: Cellar, day: number): void {
  const random = cellar.random("upkeep/plants");
  const minute = minuteOf("19:05") + random.whole(0, 20);
  const work = random.pick([0, 0, 0, 1, 1, 1, 2]);
  if (random.chance(0.2)) {
    const words = garden[work]!(random);
    const text = work === 2 ? undefined : cellar.prose.remark(random, 0.25, gardenRemarks);
    cellar.planEntry(minute, random.pick(["dam", "ford", "sill", "sill"]), words, text);
  }
  const lamp = lamps.get(day);
  if (lamp !== undefined) cellar.planEntry(minute + 30, ...lamp);
}

const lamps: ReadonlyMap<number, readonly [tank: string, words: string, text: string]> = new Map([
  [dayOf("2025-04-02"), ["dam", "light 9 h at 70 %", "as it was"]],
  [dayOf("2025-04-03"), ["ford", "light 8 h at 60 %", "as it was"]],
  [dayOf("2025-04-04"), ["sill", "light 8 h at 50 %", "as it was"]],
  [dayOf("2025-05-20"), ["sill", "light 7 h at 50 %", "sun at the window in the evening"]],
  [dayOf("2025-07-05"), ["dam", "light 8 h at 60 %", "green spots, less and shorter"]],
  [dayOf("2025-09-22"), ["sill", "light 8 h at 60 %", "no sun any more"]],
  [dayOf("2025-11-10"), ["ford", "light 7 h at 60 %", "thread algae on the stairs side"]],
  [dayOf("2026-01-12"), ["dam", "light 8 h at 70 %", "stems thin at the bottom"]],
  [dayOf("2026-03-09"), ["sill", "light 7 h at 50 %", "back to the summer time"]],
]);
