import { breedingNotes } from "./breeding.ts";
import { rackNotes } from "./rack.ts";
import { roomNotes } from "./room.ts";
import { showNotes } from "./show.ts";

/** A sentence for a tank and the time of the year in which it may be written. */
export interface Seasonal {
  readonly text: string;
  /** Months of the year, 1 to 12. */
  readonly months?: readonly number[];
  /** First and last date, ISO. */
  readonly from?: string;
  readonly until?: string;
}

export type Cards = Readonly<Record<string, readonly (string | Seasonal)[]>>;

const decks: Cards = { ...showNotes, ...breedingNotes, ...rackNotes, ...roomNotes };

export function seasonal(cards: string): Seasonal[] {
  return (decks[cards] ?? []).map((card) => (typeof card === "string" ? { text: card } : card));
}

/** The names under which there are notes: tanks, the rack's water, the room. */
export const deckNames: readonly string[] = Object.keys(decks);
