import { type Parameter, parameterOf } from "../book/parameters.ts";
import { freeAmmonia } from "../calculations/ammonia/free-ammonia.ts";
import type { Calculation } from "../calculations/calculation.ts";
import { carbonDioxide } from "../calculations/gases/carbon-dioxide.ts";
import { oxygen } from "../calculations/gases/oxygen.ts";
import { copperCriterion } from "../calculations/salts/copper-criterion.ts";
import type { Ledger } from "../room/ledger.ts";
import { figureNamed, type RoundFigure, roundFigure } from "../room/round.ts";
import type { Series } from "../room/series.ts";
import { threshold } from "../science/thresholds.ts";

/** Which calculations are told of the readings of a round: at the end of its line, and on the card of its tank. */
export interface Told {
  readonly calculation: Calculation;
  /** The parameter whose reading it is told at. */
  readonly at: Parameter;
  /** The figure that is told, and which `why` explains. */
  readonly figure: string;
  /** In a few words for the end of a line; empty where it is no news there. */
  say(round: RoundFigure): string;
  /** What stands beside it on a card: a threshold, another way to reckon it. */
  beside(round: RoundFigure): string;
}

const stress = threshold("NH3_stress")!;
const mostCO2 = threshold("CO2_target_max")!;

const ofFigure = (round: RoundFigure, name: string): string => figureNamed(round, name)?.text ?? "";

export const toldOfRounds: readonly Told[] = [
  {
    calculation: freeAmmonia,
    at: parameterOf("ammonia"),
    figure: "free",
    say(round) {
      const free = figureNamed(round, "free");
      if (free === undefined) return "";
      return `free ammonia ${free.text}${free.low >= stress.value ? `, stress from ${stress.value}` : ""}`;
    },
    beside(round) {
      const chronic = ofFigure(round, "chronic");
      return [
        `stress from ${stress.value} ${stress.unit}`,
        chronic === "" ? "" : `total may be ${chronic} by the chronic criterion`,
      ]
        .filter((part) => part !== "")
        .join("; ");
    },
  },
  {
    calculation: carbonDioxide,
    at: parameterOf("pH"),
    figure: "co2",
    say(round) {
      const co2 = figureNamed(round, "co2");
      return co2 === undefined || co2.low < mostCO2.value
        ? ""
        : `carbon dioxide ${co2.text}, aim for up to ${mostCO2.value}`;
    },
    beside: (round) =>
      `the common rule says ${ofFigure(round, "rule")}, ${ofFigure(round, "difference")} off; up to ${mostCO2.value} ${mostCO2.unit} is to aim for`,
  },
  {
    calculation: oxygen,
    at: parameterOf("oxygen"),
    figure: "share",
    say: (round) => {
      const share = ofFigure(round, "share");
      return share === "" ? "" : `oxygen ${share} of saturation`;
    },
    beside: (round) => `${ofFigure(round, "saturation")} at saturation`,
  },
  {
    calculation: copperCriterion,
    at: parameterOf("copper"),
    figure: "acute-dissolved",
    say: () => "",
    beside: (round) => `chronic ${ofFigure(round, "chronic-dissolved")}`,
  },
];

/** A round that could be reckoned, with the place of its reading. */
export interface LatestRound {
  readonly round: RoundFigure;
  readonly series: Series;
  readonly index: number;
}

/** Of a round that lacks something nothing follows: one of the few before it may have had all. */
const roundsBack = 4;

/** The last round up to the end of a day from which a calculation could be made; undefined where there is none. */
export function latestRound(ledger: Ledger, { calculation, at }: Told, day: number): LatestRound | undefined {
  const series = ledger.readings[at.id];
  const last = (series?.from(day + 1) ?? 0) - 1;
  if (series === undefined) return undefined;
  for (let index = last; index >= Math.max(0, last - roundsBack); index--) {
    const round = roundFigure(ledger, calculation, at, index);
    if (round !== undefined) return { round, series, index };
  }
  return undefined;
}
