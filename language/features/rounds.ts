import { type Parameter, parameterOf } from "../book/parameters.ts";
import { freeAmmonia } from "../calculations/ammonia/free-ammonia.ts";
import type { Calculation } from "../calculations/calculation.ts";
import { copperCriterion } from "../calculations/salts/copper-criterion.ts";
import { figureNamed, type RoundFigure } from "../room/round.ts";
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
    calculation: copperCriterion,
    at: parameterOf("copper"),
    figure: "acute-dissolved",
    say: () => "",
    beside: (round) => `chronic ${ofFigure(round, "chronic-dissolved")}`,
  },
];
