import { figureNamed, roundFigure, whyRound } from "../../room/round.ts";
import type { Why } from "../../room/why.ts";
import { toldOfRounds } from "../rounds.ts";
import { inShort } from "./in-short.ts";
import type { Read } from "./read.ts";
import type { LineFigure } from "./row.ts";

/** What the readings of one round say together, at the end of its line; undefined where they say nothing. */
export function roundText(reads: readonly Read[]): Pick<LineFigure, "label" | "why"> | undefined {
  const found = toldOfRounds.flatMap((each) => {
    const read = reads.find(({ parameter }) => parameter === each.at);
    const round = read && roundFigure(read.ledger, each.calculation, read.parameter, read.index);
    if (round === undefined || figureNamed(round, each.figure) === undefined) return [];
    const label = each.say(round);
    return label === "" ? [] : [{ label, why: (): Why => whyRound(round, each.figure) }];
  });
  const [first, ...others] = found;
  if (first === undefined) return undefined;
  return {
    label: inShort(found.map(({ label }) => label).join(" · ")),
    why: () =>
      others.length === 0
        ? first.why()
        : { what: "the round together", value: "", from: found.map(({ why }) => why()) },
  };
}
