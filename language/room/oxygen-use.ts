import { parameterOf } from "../book/parameters.ts";
import type { Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { oxygenSaturationMgL, standardPressurePa } from "../science/oxygen.ts";
import { restingOxygenMgPerH } from "../science/respiration.ts";
import { isOutside, type Outside, outside } from "../science/result.ts";
import { biomass } from "./biomass.ts";
import type { Ledger } from "./ledger.ts";
import { type Why, whyEntry } from "./why.ts";

/** What the fish of a tank take from its water in an hour, beside what the water holds when it is full of air. */
export interface OxygenUse {
  /** At rest; a fish that swims, eats or is afraid uses more. */
  readonly mgPerH: number;
  readonly heldMg: number;
  /** How long what the water holds would last if nothing came in from the air. */
  readonly hours: number;
  readonly temperatureC: number;
  readonly fish: number;
  /** Species that are left out, with the reason. */
  readonly without: readonly { readonly species: string; readonly reason: string }[];
  readonly why: Why;
}

const paPerAtm = 101325;

/** Just before a time; a reason where it cannot be told. */
export function oxygenUse(ledger: Ledger, tank: Tank, time: number): OxygenUse | Outside {
  const readings = ledger.readings[parameterOf("temperature").id];
  const last = (readings?.from(time) ?? 0) - 1;
  if (readings === undefined || last < 0) return outside("its temperature was never read");
  if (Number.isNaN(tank.volumeL)) return outside("its volume is not stated");
  const temperatureC = (readings.first[last]! + readings.second[last]!) / 2;
  const { altitudeM, species: stated } = ledger.book;
  const pressure = standardPressurePa(Number.isNaN(altitudeM) ? 0 : altitudeM);
  if (isOutside(pressure)) return pressure;
  const full = oxygenSaturationMgL(temperatureC, 0, pressure / paPerAtm);
  if (isOutside(full)) return full;
  const mass = biomass(ledger, tank, time);
  const without: { species: string; reason: string }[] = [];
  const from: Why[] = [];
  let mgPerH = 0;
  let fish = 0;
  for (const { species, animals, each } of mass.masses) {
    if (stated.get(species)?.kind !== "fish") {
      without.push({ species, reason: "the formula is of fish" });
      continue;
    }
    const rate = Number.isNaN(each.grams)
      ? outside("what one weighs is not known")
      : restingOxygenMgPerH(each.grams, temperatureC);
    if (isOutside(rate)) {
      without.push({ species, reason: rate.outside });
      continue;
    }
    mgPerH += rate * animals;
    fish += animals;
    from.push({
      what: `${formatNumber(animals, 6)} ${species} at rest`,
      value: `${formatNumber(rate * animals)} mg/h`,
      formula: `${formatNumber(animals, 6)} x ${formatNumber(rate)} mg/h for ${formatNumber(each.grams)} g`,
      from: [each.why],
    });
  }
  if (fish === 0) return outside("no fish whose weight is known is in it");
  const heldMg = full * tank.volumeL;
  const reading = { block: readings.block[last]!, row: readings.row[last]! };
  return {
    mgPerH,
    heldMg,
    hours: heldMg / mgPerH,
    temperatureC,
    fish,
    without,
    why: {
      what: `oxygen that the fish in ${tank.name} use at rest`,
      value: `${formatNumber(mgPerH)} mg/h; ${formatNumber(heldMg)} mg in ${formatNumber(tank.volumeL)} L at ${formatNumber(temperatureC)} C`,
      formula:
        "ln R = 15.7 - 5020/T for 50 g, in mmol/h, times (mass/50 g)^0.79; held: oxygen at saturation x volume",
      source:
        "Clarke & Johnston 1999, J. Anim. Ecol. 68:893-905; Benson & Krause 1984, Limnol. Oceanogr. 29:620-632",
      from: [whyEntry(reading), ...from],
    },
  };
}
