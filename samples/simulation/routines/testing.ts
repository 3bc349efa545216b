import { oxygenSaturationMgL, standardPressurePa } from "../../../language/science/oxygen.ts";
import { isOutside } from "../../../language/science/result.ts";
import {
  dayOf,
  FRIDAY,
  MINUTES_A_DAY,
  MONDAY,
  minuteOf,
  SATURDAY,
  SUNDAY,
  WEDNESDAY,
  weekdayOf,
} from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import * as kit from "../kit.ts";
import { waterC } from "../seasons.ts";
import { ALTITUDE_M, RACK_WATER } from "../tanks.ts";
import { NITRITE_PER_N } from "../water.ts";
import type { Item, SheetRow } from "../writing.ts";
import { presence } from "./keeper.ts";

/** Rounds of tests as sheets on Sundays and most Wednesdays, a single test in between. */

export type Parameter = "temperature" | "pH" | "nitrate" | "KH" | "GH" | "ammonia" | "nitrite" | "oxygen";

/** From here on the keeper sees nitrate climb in the ford and reads it nearly every day. */
const FORD_IS_WATCHED = dayOf("2026-02-27");

/** Carbon dioxide that is usual in a water, mg/L; with the alkalinity it makes the pH. */
const carbonDioxideMgL: Readonly<Record<string, number>> = {
  sill: 6,
  b2: 6.5,
  b5: 9,
  b7: 2.5,
  [RACK_WATER]: 3,
};
const USUAL_CO2_MGL = 4.5;

export function testing(cellar: Cellar, day: number): void {
  if (presence(day) !== "home") return;
  const weekday = weekdayOf(day);
  const week = Math.floor(day / 7);
  const random = cellar.random("testing");
  if (weekday === SUNDAY) {
    const odd = week % 2 === 0 ? ["b1", "b3", "b5"] : ["b2", "b4", "b6"];
    const withHardness = week % 4 < 2;
    const heads: Parameter[] = [
      "temperature",
      "pH",
      "nitrate",
      "KH",
      ...(withHardness ? (["GH"] as const) : []),
    ];
    // The show tanks, the grow-out and the rack have their hardness read in one of the two weeks only.
    const once = week % 4 === 0;
    sheet(
      cellar,
      minuteOf("15:30"),
      heads,
      ["dam", "ford", "sill", ...odd, "b7", ...occupied(cellar, "q1"), RACK_WATER],
      (tank, head) => (head === "GH" && !odd.includes(tank) && !once ? "-" : undefined),
    );
  } else if (weekday === WEDNESDAY && random.chance(0.9)) {
    const rows = ["dam", "ford", "b7", ...occupied(cellar, "q1"), ...occupied(cellar, "h1"), RACK_WATER];
    // The oxygen set is dear: every fourth week, where many fish are.
    const heads: Parameter[] = ["temperature", "pH", "nitrate", "ammonia"];
    const few = ["ford", "b7", RACK_WATER];
    sheet(cellar, minuteOf("15:40"), week % 4 === 1 ? [...heads, "oxygen"] : heads, rows, (tank, head) =>
      head === "oxygen" && !few.includes(tank) ? "-" : undefined,
    );
  } else if (day >= FORD_IS_WATCHED && [MONDAY, FRIDAY, SATURDAY].includes(weekday)) {
    cellar.plan(minuteOf("14:30") + random.whole(0, 40), (now) => [
      testLine(cellar, "ford", ["nitrate"], now),
    ]);
  } else if (random.chance(0.42)) {
    singleTest(cellar);
  }
}

function occupied(cellar: Cellar, tank: string): string[] {
  return cellar.stock.speciesIn(tank).length > 0 ? [tank] : [];
}

function singleTest(cellar: Cellar): void {
  const random = cellar.random("testing/single");
  const target = random.pick([
    "dam",
    "ford",
    "sill",
    "b1",
    "b2",
    "b3",
    "b4",
    "b5",
    "b6",
    "b7",
    "r2",
    "r5",
    "r9",
  ]);
  const choices: Parameter[][] = [
    ["temperature"],
    ["nitrate"],
    ["pH", "KH"],
    ["temperature", "pH"],
    ["ammonia", "nitrite"],
  ];
  const parameters = random.pick(choices);
  cellar.plan(minuteOf("13:10") + random.whole(0, 90), (now) => [testLine(cellar, target, parameters, now)]);
}

/** A test written as one line. */
export function testLine(
  cellar: Cellar,
  target: string,
  parameters: readonly Parameter[],
  now: number,
): Item {
  const readings = parameters.map((parameter) => `${parameter} ${reading(cellar, target, parameter, now)}`);
  return { target, words: `test ${readings.join(", ")}` };
}

function sheet(
  cellar: Cellar,
  minute: number,
  heads: readonly Parameter[],
  targets: readonly string[],
  instead: (tank: string, head: Parameter) => string | undefined,
): void {
  const random = cellar.random("testing/sheet");
  cellar.plan(
    minute + random.whole(0, 40),
    (now) => {
      const rows = targets.map((target): SheetRow => {
        const skipped = random.chance(0.02) ? random.pick(heads) : undefined;
        const cells = heads.map(
          (head) =>
            instead(target, head) ??
            (head === skipped && head === "temperature" ? "-" : reading(cellar, target, head, now)),
        );
        return { target, cells, text: cellar.prose.remark(random, 0.02, remarks) };
      });
      return [{ heads, rows }];
    },
    false,
    targets.length,
  );
}

const remarks = ["read twice", "before the change", "drops nearly empty", "lamp poor, daylight tomorrow"];

/** One value as the keeper reads it. */
export function reading(cellar: Cellar, target: string, parameter: Parameter, now: number): string {
  const body = cellar.bodyOf(target);
  const random = cellar.random(`kit/${body.name}`);
  const { volumeL, ammoniaMgN, nitriteMgN, alkalinityDkhL, hardnessDghL } = body.at(now);
  switch (parameter) {
    case "temperature":
      return kit.temperature(waterC(body.name, now), random);
    case "pH":
      return kit.pH(truePH(body.name, alkalinityDkhL / volumeL, now), random);
    case "KH":
      return kit.degrees(alkalinityDkhL / volumeL, random);
    case "GH":
      return kit.degrees(hardnessDghL / volumeL, random);
    case "nitrate":
      return kit.nitrate(body.nitrateMgL(now), random);
    case "ammonia":
      return kit.ammonia(ammoniaMgN / volumeL, random);
    case "oxygen":
      return kit.oxygen(oxygenMgL(body.name, waterC(body.name, now)), random);
    case "nitrite":
      return kit.nitrite((nitriteMgN * NITRITE_PER_N) / volumeL, random);
  }
}

/** Oxygen: a share of what such water holds in the cellar, less where many fish are. Invented. */
const PA_PER_ATM = 101325;
const oxygenShare: Readonly<Record<string, number>> = { ford: 0.8, b7: 0.78, h1: 0.88 };

function oxygenMgL(water: string, celsius: number): number {
  const pa = standardPressurePa(ALTITUDE_M);
  const full = isOutside(pa) ? pa : oxygenSaturationMgL(celsius, 0, pa / PA_PER_ATM);
  if (isOutside(full)) throw new RangeError(`${celsius} C: no oxygen can be told`);
  return (oxygenShare[water] ?? 0.88) * full;
}

/**
 * pH from alkalinity and carbon dioxide: CO2 = 3 KH 10^(7 - pH), the keepers' rule of the carbonate equilibrium
 * (common practice; it leaves out humic acids, which is why b5 has a figure of its own).
 */
function truePH(water: string, alkalinityDkh: number, now: number): number {
  const slow = Math.sin(
    (now / MINUTES_A_DAY - dayOf("2025-04-01")) / 19 + water.length * 7 + water.charCodeAt(1),
  );
  const co2 = (carbonDioxideMgL[water] ?? USUAL_CO2_MGL) * (1 + 0.15 * slow);
  return 7 + Math.log10((3 * Math.max(0.2, alkalinityDkh)) / co2);
}
