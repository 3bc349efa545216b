import type { CheckedLogbook } from "../checks/check.ts";
import { lastDose } from "../room/past.ts";
import { nextToNone, unknownDays } from "../room/treated.ts";
import type { RemedyCard } from "./cards.ts";
import { remedyCards } from "./remedy-card.ts";

/** A remedy of which something is in a water, or that still keeps its animals from being shipped. */
export interface RemedyNow {
  /** The water: a tank or a system. */
  readonly at: string;
  readonly card: RemedyCard;
  /** The day of the last dose. */
  readonly last: number;
  /** The first day on which they may be shipped, as the keeper states it; undefined where that is over, or none is stated. */
  readonly withdrawalUntil: number | undefined;
}

export function remediesNow({ logbook }: CheckedLogbook, day: number): RemedyNow[] {
  return logbook.ledgers.flatMap((ledger) => {
    const { body, book } = ledger;
    if (body === undefined) return [];
    return remedyCards(logbook, ledger, day).flatMap((card): RemedyNow[] => {
      const remedy = book.remedy(card.name);
      const dose = remedy === undefined ? -1 : lastDose(ledger, remedy, day + 1);
      if (remedy === undefined || dose < 0) return [];
      const last = Math.floor(ledger.doses.time[dose]!);
      const until = last + remedy.withdrawalDays;
      const isThere =
        card.now === null ? day - last < unknownDays : card.now >= nextToNone * (card.target?.low ?? 0);
      if (!isThere && !(until > day)) return [];
      return [{ at: body.name, card, last, withdrawalUntil: until > day ? until : undefined }];
    });
  });
}
