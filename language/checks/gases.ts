import { type Parameter, parameterOf } from "../book/parameters.ts";
import { carbonDioxide } from "../calculations/gases/carbon-dioxide.ts";
import { oxygen as oxygenHeld } from "../calculations/gases/oxygen.ts";
import type { Ledger } from "../room/ledger.ts";
import { figureNamed, roundFigure, roundReading, whyRound } from "../room/round.ts";
import { whyEntry } from "../room/why.ts";
import { co2MgL } from "../science/carbonate.ts";
import { MEQ_PER_DEGREE } from "../science/hardness.ts";
import { isOutside } from "../science/result.ts";
import { threshold } from "../science/thresholds.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";
import { readingSpan } from "./words.ts";

/** Gases in the water: carbon dioxide by alkalinity and pH of one round, oxygen as it was read. */

export const gasPages = [
  page({
    code: "water/carbon-dioxide",
    severity: "warning",
    since: "0.2",
    title: "Much carbon dioxide",
    says: "By the alkalinity, pH and temperature of one round there is more carbon dioxide in the water than the 20 mg/L that a clinical text names as the most to aim for. Phosphate, humic and other buffers make the figure read high; below one degree of KH it is not said at all.",
    whatToDo:
      "Look at the fish at the surface in the morning. Aerate a sample for an hour: a pH that rises by more than one unit says that there is much. Then move more water or air; where it is dosed, dose less.",
    raises: `tank dam
  volume 100 L
2026-03-01
  dam test KH 6 dKH, pH 6.6, temperature 25
#                       ^^^ water/carbon-dioxide`,
    fine: `tank dam
  volume 100 L
2026-03-01
  dam test KH 6 dKH, pH 7.2, temperature 25`,
    source:
      "Equilibrium: Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011-1040. 20 mg/L: Clinical Guide to Fish Medicine (Wiley).",
  }),
  page({
    code: "water/oxygen-low",
    severity: "warning",
    since: "0.2",
    title: "Little oxygen",
    says: "The reading is at or below the 3 mg/L at which warm-water fish in farms are under stress. The least of a day comes before the lights go on.",
    whatToDo:
      "Air stone or outflow at the surface at once; feed nothing; look for what rots, and for a stopped pump.",
    raises: `tank dam
  volume 100 L
2026-03-01
  dam test oxygen 2.8 mg/L, temperature 25
#                 ^^^^^^^^ water/oxygen-low`,
    fine: `tank dam
  volume 100 L
2026-03-01
  dam test oxygen 6 mg/L, temperature 25`,
    source: "NRAC Bulletin 111-1993 (Bowser & Buttner). Your animals' own needs come first.",
  }),
] as const;

const pH = parameterOf("pH");
const alkalinity = parameterOf("KH");
const temperature = parameterOf("temperature");
const oxygen = parameterOf("oxygen");
/**
 * With less alkalinity than a drop test tells apart, and the acids of leaves and peat in it, the figure says nothing (common practice,
 * no source).
 */
const leastAlkalinityMeqL = MEQ_PER_DEGREE;
const mostCO2 = threshold("CO2_target_max")!;
const leastOxygen = threshold("DO_stress_warmwater")!;

export function gasFindings(ledger: Ledger): RowFinding[] {
  return [...carbonDioxideFindings(ledger), ...oxygenFindings(ledger)];
}

function carbonDioxideFindings(ledger: Ledger): RowFinding[] {
  const series = ledger.readings[pH.id];
  if (series === undefined) return [];
  const findings: RowFinding[] = [];
  for (let index = 0; index < series.length; index++) {
    if (!mayBeMuch(ledger, index, series.first[index]!)) continue;
    const round = roundFigure(ledger, carbonDioxide, pH, index);
    const co2 = round && figureNamed(round, "co2");
    // Said of what was read, not of the ends that a coarse test leaves open.
    if (round === undefined || co2 === undefined || (co2.best ?? co2.low) < mostCO2.value) continue;
    const rule = figureNamed(round, "rule")?.text ?? "";
    findings.push({
      ...at(ledger, pH, index),
      code: "water/carbon-dioxide",
      message: () =>
        `carbon dioxide ${co2.text} in ${where(ledger, pH, index)} by KH and pH (the common rule says ${rule}); up to ${mostCO2.value} ${mostCO2.unit} is to aim for`,
      why: () => whyRound(round, "co2"),
    });
  }
  return findings;
}

/** A quick look at what most rounds are not. */
function mayBeMuch(ledger: Ledger, index: number, lowPH: number): boolean {
  const hard = roundReading(ledger, pH, index, alkalinity);
  const warm = roundReading(ledger, pH, index, temperature);
  if (hard === undefined || warm === undefined || lowPH >= 8.3 || hard.high < leastAlkalinityMeqL)
    return false;
  const co2 = co2MgL(hard.high, Math.max(lowPH, 4.5), warm.low);
  return isOutside(co2) || co2 >= mostCO2.value * 0.9;
}

function oxygenFindings(ledger: Ledger): RowFinding[] {
  const series = ledger.readings[oxygen.id];
  if (series === undefined) return [];
  const findings: RowFinding[] = [];
  for (let index = 0; index < series.length; index++) {
    const [low, high] = [series.first[index]!, series.second[index]!];
    if (high > leastOxygen.value) continue;
    const round = roundFigure(ledger, oxygenHeld, oxygen, index);
    const share = round && figureNamed(round, "share")?.text;
    findings.push({
      ...at(ledger, oxygen, index),
      code: "water/oxygen-low",
      message: () =>
        `oxygen ${readingSpan(ledger.book, oxygen, low, high)} in ${where(ledger, oxygen, index)}${
          share === undefined ? "" : `, ${share} of what it can hold`
        }; warm-water fish are under stress at ${leastOxygen.value} ${leastOxygen.unit}`,
      why: () =>
        round === undefined
          ? {
              what: "oxygen",
              value: "",
              from: [whyEntry({ block: series.block[index]!, row: series.row[index]! })],
            }
          : whyRound(round, "share"),
    });
  }
  return findings;
}

function where(ledger: Ledger, parameter: Parameter, index: number): string {
  const series = ledger.readings[parameter.id]!;
  return ledger.book.stations[series.tag[index]!]?.name ?? ledger.body?.name ?? "";
}

function at(ledger: Ledger, parameter: Parameter, index: number) {
  const series = ledger.readings[parameter.id]!;
  const station = ledger.book.stations[series.tag[index]!];
  const isLatest = (): boolean => index === (ledger.readings[parameter.id]?.length ?? 0) - 1;
  return {
    block: series.block[index]!,
    row: series.row[index]!,
    slots: ["reading"],
    severity: () => (isLatest() ? ("warning" as const) : ("hint" as const)),
    ...(station === undefined ? {} : { about: station }),
  };
}
