import type { Location } from "./view.ts";
import type { WhyCard } from "./why-card.ts";

/** The clocks of quarantine on a day, as plain JSON. Days as in `cards.ts`. */

/** The clock of one water. */
export interface QuarantineCard {
  /** The quarantine tanks of the water, with what lives in them. */
  readonly tanks: readonly string[];
  readonly animals: readonly { readonly species: string; readonly animals: number; readonly text: string }[];
  readonly since: number;
  /** The first day on which it is over; while signs of a case last, the earliest that may be. */
  readonly end: number;
  /** 0 where it is over. */
  readonly daysLeft: number;
  /** `day 12 of 28`. */
  readonly dayText: string;
  /** `until 4 April, 12 days left`, `ends today`. */
  readonly text: string;
  readonly isOver: boolean;
  /** Cases of which signs last. */
  readonly signs: readonly string[];
  /** What put the end off since it began, in order of time. */
  readonly putOff: readonly {
    readonly by: string;
    readonly text: string;
    readonly day: number;
    readonly from: number;
    readonly to: number;
    readonly at: Location | null;
  }[];
  readonly arrivals: readonly QuarantineArrivalCard[];
  readonly why: WhyCard;
  /** Where the first of the tanks is defined. */
  readonly at: Location | null;
}

export interface QuarantineArrivalCard {
  readonly how: "arrive" | "move";
  readonly tank: string;
  readonly from: readonly string[];
  readonly species: string;
  readonly animals: number;
  readonly lot: string;
  readonly day: number;
  /** The first day on which their own clock is over. */
  readonly end: number;
  /** `8 praecox (lot a17), came on 1 March`. */
  readonly text: string;
  readonly at: Location | null;
}
