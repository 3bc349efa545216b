import { isoOf } from "../book/dates.ts";
import type { CaseItemCard } from "../features/case-cards.ts";
import type { Location } from "../features/view.ts";
import type { CaseItemReport } from "./schema/cases.ts";
import type { Place } from "./schema/parts.ts";

/** A case in a list, in the form of `--json`. @param at places of the logbook's files */
export function caseItemOf(
  card: CaseItemCard,
  at: (location: Location | null) => Place | null,
): CaseItemReport {
  const { name, episode, outcome, state, text, affected, ever, isLeast, atRisk, dead } = card;
  return {
    ...{ name, episode, outcome, state, text, affected, ever, isLeast, atRisk, dead },
    since: isoOf(card.since),
    closed: card.closed === null ? null : isoOf(card.closed),
    species: [...card.species],
    tanks: card.tanks.map((tank) => ({ ...tank, from: isoOf(tank.from), at: at(tank.at) })),
    at: at(card.at),
  };
}
