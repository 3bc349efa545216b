import { stationLocation } from "../../../features/card-parts.ts";
import { formatNumber } from "../../../quantity/format.ts";
import { stockAt } from "../../../room/stock-book.ts";
import { arrow, type Follows, type Standing } from "../consequence.ts";

interface StockStanding extends Standing {
  readonly species: string;
  readonly animals: number;
  readonly text: string;
}

/** Animals by the book. */
export const stock: Follows<StockStanding> = {
  is: "stock",
  reach: "station",

  standing({ logbook }, day) {
    return new Map(
      stockAt(logbook, day).map(({ tank, species, animals, isAbout }) => [
        JSON.stringify([tank.name, species]),
        {
          of: tank.name,
          at: stationLocation(tank),
          terms: [species],
          species,
          animals,
          text: `${isAbout ? "~" : ""}${formatNumber(animals, 6)}`,
        },
      ]),
    );
  },

  told(before, after) {
    const { species } = (after ?? before)!;
    const [was, now] = [before?.text ?? "0", after?.text ?? "0"];
    if (was === now) return [];
    return [{ text: `${species} by the book: ${arrow(was, now)}`, before: was, after: now, from: [] }];
  },
};
