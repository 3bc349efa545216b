import type { Ledger } from "../room/ledger.ts";
import { whyRound } from "../room/round.ts";
import { rowLocation, whyCard } from "./card-parts.ts";
import type { RoundCard } from "./cards.ts";
import { latestRound, toldOfRounds } from "./rounds.ts";

/** What the latest rounds of a tank say together, up to the end of a day: of each calculation the last that could be reckoned. */
export function roundCards(ledger: Ledger, day: number): RoundCard[] {
  return toldOfRounds.flatMap((told) => {
    const latest = latestRound(ledger, told, day);
    const figure = latest?.round.figures.find(({ name }) => name === told.figure);
    if (latest === undefined || figure === undefined) return [];
    const { round, series, index } = latest;
    const isKnown = figure.outside === undefined;
    return [
      {
        what: figure.title,
        text: figure.text,
        isKnown,
        beside: isKnown ? told.beside(round) : "",
        calculation: told.calculation.name,
        caution: told.calculation.caution ?? "",
        time: series.time[index]!,
        at: rowLocation(series.block[index]!, series.row[index]!),
        why: whyCard(whyRound(round, told.figure)),
      },
    ];
  });
}
