import { dayOf, MINUTES_A_DAY } from "./calendar.ts";
import { RACK_WATER } from "./tanks.ts";

/** The cellar through the year: cool and steady, warmest in early August, as cellars are (common practice, no source). */

const MEAN_C = 18.4;
const SWING_C = 3.1;
const WARMEST = dayOf("2025-08-05");

export function cellarC(day: number): number {
  return MEAN_C + SWING_C * Math.cos((2 * Math.PI * (day - WARMEST)) / 365.25);
}

/** What the heaters are set to. A tank without one follows the cellar, a little above it: lamp and pump. */
const setC: Readonly<Record<string, number>> = {
  dam: 25,
  ford: 24.6,
  sill: 23.6,
  b1: 25.6,
  b2: 24.8,
  b3: 25,
  b4: 22.6,
  b6: 25.4,
  b7: 25.2,
  q1: 24.6,
  h1: 25.5,
  [RACK_WATER]: 23.6,
};
const FROM_LAMP_AND_PUMP_C = 1.5;

/** Temperature of a water: the heater holds from below only, and the lamps add half a degree by the evening. */
export function waterC(water: string, minute: number): number {
  const day = Math.floor(minute / MINUTES_A_DAY);
  const hour = (minute % MINUTES_A_DAY) / 60;
  const unheated = cellarC(day) + FROM_LAMP_AND_PUMP_C;
  const byDay = 0.25 * Math.cos((2 * Math.PI * (hour - 17)) / 24);
  return Math.max(setC[water] ?? unheated, unheated) + byDay;
}
