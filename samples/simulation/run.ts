import { FIRST_DAY, isoOf, LAST_DAY, minuteOf, monthOf } from "./calendar.ts";
import { Cellar } from "./cellar.ts";
import { type Definition, definitionFile } from "./definition.ts";
import { lotDefinitions } from "./lineage.ts";
import { foodDefinitions, gearDefinitions, remedyDefinitions, waterDefinitions } from "./pantry.ts";
import { births } from "./routines/births.ts";
import { chemistry } from "./routines/chemistry.ts";
import { cleaning } from "./routines/cleaning.ts";
import { counting } from "./routines/counting.ts";
import { cultures } from "./routines/cultures.ts";
import { feeding } from "./routines/feeding.ts";
import { titleOf } from "./routines/keeper.ts";
import { losses } from "./routines/losses.ts";
import { noting } from "./routines/noting.ts";
import { shopping } from "./routines/shopping.ts";
import { spawning } from "./routines/spawning.ts";
import { testing } from "./routines/testing.ts";
import { trading } from "./routines/trading.ts";
import { upkeep } from "./routines/upkeep.ts";
import { allSpecies } from "./species.ts";
import { FIRST_YOUNG_IN_B7 } from "./stories/broods.ts";
import { openingCounts } from "./stories/opening.ts";
import { fastingDays } from "./stories/sponge.ts";
import { announce, stories } from "./stories/stories.ts";
import { ALTITUDE_M, tankDefinitions } from "./tanks.ts";
import { dayBlock, entriesIn } from "./writing.ts";

export interface Simulated {
  /** The files of the logbook by name. */
  readonly files: ReadonlyMap<string, string>;
  readonly entries: number;
  /** Entries of each day that has a block, by date. */
  readonly entriesOfDay: ReadonlyMap<string, number>;
  /** The room as it is on the evening of the last day, with all that happened to its waters and animals. */
  readonly cellar: Cellar;
}

/** What a day is made of. A routine plans; the day is then worked off by the clock. */
const routines = [
  chemistry,
  cultures,
  feeding,
  cleaning,
  upkeep,
  testing,
  stories,
  losses,
  births,
  spawning,
  counting,
  trading,
  shopping,
  noting,
] as const;

/** Twelve months of the room. Pure: the same files every time. */
export function simulateCellar(): Simulated {
  const cellar = new Cellar();
  for (const fast of fastingDays) cellar.fasting.add(fast);
  for (const species of ["praecox", "boesemani"]) cellar.lastDone.set(`b7/${species}`, FIRST_YOUNG_IN_B7);
  announce(cellar);
  const counted = openingCounts(cellar);
  cellar.plan(minuteOf("06:30"), () => counted, true);
  const months = new Map<string, string[]>();
  const entriesOfDay = new Map<string, number>();
  for (let day = FIRST_DAY; day <= LAST_DAY; day++) {
    for (const routine of routines) routine(cellar, day);
    const items = cellar.work(day);
    if (items.length === 0) continue;
    const entries = items.reduce((sum, item) => sum + entriesIn(item), 0);
    entriesOfDay.set(isoOf(day), entries);
    const month = months.get(monthOf(day)) ?? [];
    months.set(monthOf(day), [...month, dayBlock(day, titleOf(day), items)]);
  }
  const files = new Map<string, string>(definitionFiles(cellar));
  for (const [month, blocks] of months) files.set(`${month}.tank`, `${blocks.join("\n\n")}\n`);
  const entries = [...entriesOfDay.values()].reduce((sum, number) => sum + number, 0);
  return { files, entries, entriesOfDay, cellar };
}

const room: Definition = {
  word: "room",
  name: "",
  title: "Cellar",
  properties: [
    ["units", "temperature C, volume L, hardness dGH, alkalinity dKH, gallon US, ppm mg/L, ammonia mg/L N"],
    ["capacity", "7 tanks, 420 L, 180 min"],
    ["quarantine", "28 d"],
    ["clear", "14 d"],
    ["trace", "30 d"],
    ["fasting", "24..48 h"],
    ["takes", "change 12 min, clean 15 min, test 4 min"],
    ["flow", "drain 600 L/h, fill 400 L/h"],
    ["away", 'from 2026-04-11 until 2026-04-13 "with the family"'],
    ["steps", "ammonia 0.1 mg/L, nitrite 0.1 mg/L, nitrate 5 mg/L, pH 0.1, KH 0.5 dKH, oxygen 0.2 mg/L"],
    ["altitude", `${ALTITUDE_M} m`],
    ["every", "31 d check remedies, kits"],
    ["as-of", "last-entry"],
    ["limits", "temperature 16..28 C, nitrate <= 50 mg/L, nitrite <= 0.5 mg/L, ammonia <= 0.5 mg/L N"],
  ],
};

function definitionFiles({ orders }: Cellar): [string, string][] {
  return [
    [
      "room.tank",
      definitionFile("An invented room. No such cellar, keeper or buyer exists.", [
        room,
        ...waterDefinitions,
      ]),
    ],
    [
      "tanks.tank",
      definitionFile(
        "Three tanks to look at, nine to breed and rear in, a rack of twelve on one sump.",
        tankDefinitions,
      ),
    ],
    [
      "species.tank",
      definitionFile(
        "The animals, and what they need.",
        allSpecies.map((each) => each.definition),
      ),
    ],
    ["foods.tank", definitionFile("What is in the freezer, the tins and the cones.", foodDefinitions)],
    [
      "remedies.tank",
      definitionFile(
        "As the labels say. For other animals and other waters ask a veterinarian.",
        remedyDefinitions,
      ),
    ],
    ["lots.tank", definitionFile("Lots, pairs and lines; what entries do not say of them.", lotDefinitions)],
    ["orders.tank", definitionFile("Orders by letter. No such buyer exists.", orders.definitions())],
    ["gear.tank", definitionFile("What has to be serviced.", gearDefinitions)],
  ];
}
