import type { BagStated } from "../../features/packing-card.ts";
import { publishedLoadGPerL } from "../../room/published-loads.ts";
import type { Call, Option } from "../command.ts";
import { Trouble } from "../world.ts";

/** The bag and its bounds as options of a call; what is not stated is taken from common practice or what was published, and said. */

interface FigureOption extends Option {
  readonly unit: string;
}

const figure = (name: string, value: string, unit: string, doc: string): FigureOption => ({
  name,
  value,
  unit,
  doc,
});

const water = figure("water", "LITRES", "L", "water in a bag (0.5 L)");
const gas = figure("gas", "LITRES", "L", "gas in a bag (twice the water)");
const hours = figure("hours", "HOURS", "h", "the longest journey, else what the order says");
const warm = figure("warm", "DEGREES", "C", "the warmest on the way, else what the order says");
const each = figure("each", "N", "", "so many to a bag at most, whatever the bounds come to");
const activity = figure("activity", "TIMES", "", "what fish use, times that at rest (3)");
const oxygen = figure("least-oxygen", "MG/L", "mg/L", "not less of it on arrival (5 mg/L)");
const total = figure("most-ammonia", "MG/L", "mg/L", "not more total ammonia as N on arrival (no bound)");
const free = figure("most-free", "MG/L", "mg/L", "not more free ammonia as N on arrival (no bound)");
const co2 = figure("most-co2", "MG/L", "mg/L", "not more CO2 on arrival (no bound)");
const load = figure("most-load", "G/L", "g/L", `not more animals to the water (${publishedLoadGPerL} g/L)`);

export const bagOptions: readonly Option[] = [
  water,
  gas,
  { name: "air", doc: "the gas is air, not oxygen" },
  hours,
  warm,
  each,
  activity,
  oxygen,
  total,
  free,
  co2,
  load,
];

/** What a call states of bags. Throws `Trouble` for a figure that is none. */
export function bagStated(call: Call): BagStated {
  const taken: string[] = [];
  const stated = (option: FigureOption): number => read(call, option);
  const or = (option: FigureOption, otherwise: number, why: string): number => {
    const value = stated(option);
    if (!Number.isNaN(value)) return value;
    taken.push(
      `${option.name.replace("-", " ")} ${otherwise}${option.unit === "" ? "" : ` ${option.unit}`} (${why})`,
    );
    return otherwise;
  };
  const waterL = or(water, 0.5, "no bag is stated");
  const gasL = or(gas, 2 * waterL, "a third water, two thirds oxygen: common practice, no source");
  const bound = (option: FigureOption): number => {
    const value = stated(option);
    return Number.isNaN(value) ? Number.POSITIVE_INFINITY : value;
  };
  const atMost = stated(each);
  if (!Number.isNaN(atMost) && !(Number.isInteger(atMost) && atMost > 0))
    throw new Trouble(`--each takes a whole number of animals, not “${call.value("each")}”`);
  return {
    waterL,
    gasL,
    gas: call.has("air") ? "air" : "oxygen",
    hours: stated(hours),
    temperatureC: stated(warm),
    atMost,
    activity: or(activity, 3, "one to three times: common practice, no source"),
    leastOxygenMgL: or(oxygen, 5, "Bowser & Buttner 1993, NRAC Bulletin 111, for cold-water fish"),
    mostTotalMgLN: bound(total),
    mostFreeMgLN: bound(free),
    mostCo2MgL: bound(co2),
    mostLoadGPerL: or(load, publishedLoadGPerL, "the load published of zebrafish for 24 h"),
    taken,
  };
}

/** A figure of an option, with its own unit or without one; NaN where it is not given. */
function read(call: Call, { name, unit }: FigureOption): number {
  const text = call.value(name);
  if (text === undefined) return Number.NaN;
  const [, digits, written = ""] = /^(\d+(?:\.\d+)?)\s*(\S*)$/.exec(text.trim()) ?? [];
  const value = Number(digits);
  const isFigure = digits !== undefined && Number.isFinite(value) && (name === "warm" || value > 0);
  if (!isFigure || (written !== "" && written.toLowerCase() !== unit.toLowerCase()))
    throw new Trouble(`--${name} takes a figure${unit === "" ? "" : ` in ${unit}`}, not “${text}”`);
  return value;
}
