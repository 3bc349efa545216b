import { parameterOf } from "../../book/parameters.ts";
import { freeAmmonia } from "../../calculations/ammonia/free-ammonia.ts";
import type { Calculation } from "../../calculations/calculation.ts";
import { figureNamed, type RoundFigure, roundFigure, whyRound } from "../../room/round.ts";
import type { Why } from "../../room/why.ts";
import { threshold } from "../../science/thresholds.ts";
import type { Read } from "./read.ts";
import type { LineFigure } from "./row.ts";

/** What the readings of one round say together, at the end of its line. */

/** A figure that a round gives, with the reading whose line shows it. */
interface Shown {
  readonly calculation: Calculation;
  readonly at: string;
  /** The figure of the calculation that is told, and which `why` explains. */
  readonly figure: string;
  say(round: RoundFigure): string;
}

const shown: readonly Shown[] = [
  {
    calculation: freeAmmonia,
    at: "ammonia",
    figure: "free",
    say(round) {
      const stress = threshold("NH3_stress")!;
      const free = figureNamed(round, "free")!;
      const isStress = free.low >= stress.value;
      return `free ammonia ${free.text}${isStress ? `, stress from ${stress.value}` : ""}`;
    },
  },
];

/** The figures of a line of tests; undefined where its readings say nothing together. */
export function roundText(reads: readonly Read[]): Pick<LineFigure, "label" | "why"> | undefined {
  const found = shown.flatMap((each) => {
    const read = reads.find(({ parameter }) => parameter === parameterOf(each.at));
    const round = read && roundFigure(read.ledger, each.calculation, read.parameter, read.index);
    if (round === undefined || figureNamed(round, each.figure) === undefined) return [];
    return [{ label: each.say(round), why: (): Why => whyRound(round, each.figure) }];
  });
  const [first, ...others] = found;
  if (first === undefined) return undefined;
  return {
    label: found.map(({ label }) => label).join(" · "),
    why: () =>
      others.length === 0
        ? first.why()
        : { what: "the round together", value: "", from: found.map(({ why }) => why()) },
  };
}
