import type { Ledger } from "../room/ledger.ts";
import { roundFigure, whyRound } from "../room/round.ts";
import { rowLocation, whyCard } from "./card-parts.ts";
import type { RoundCard } from "./cards.ts";
import { toldOfRounds } from "./rounds.ts";

/** What the latest rounds of a tank say together, up to the end of a day: of each calculation the last that could be reckoned. */
export function roundCards(ledger: Ledger, day: number): RoundCard[] {
  return toldOfRounds.flatMap((told) => {
    const series = ledger.readings[told.at.id];
    const last = (series?.from(day + 1) ?? 0) - 1;
    if (series === undefined || last < 0) return [];
    // Of a round that lacks something nothing follows: the one before it may have had all.
    for (let index = last; index >= Math.max(0, last - roundsBack); index--) {
      const round = roundFigure(ledger, told.calculation, told.at, index);
      const figure = round?.figures.find(({ name }) => name === told.figure);
      if (round === undefined || figure === undefined) continue;
      return [
        {
          what: figure.title,
          text: figure.text,
          isKnown: figure.outside === undefined,
          beside: figure.outside === undefined ? told.beside(round) : "",
          calculation: told.calculation.name,
          caution: told.calculation.caution ?? "",
          time: series.time[index]!,
          at: rowLocation(series.block[index]!, series.row[index]!),
          why: whyCard(whyRound(round, told.figure)),
        },
      ];
    }
    return [];
  });
}

const roundsBack = 4;
