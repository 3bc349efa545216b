import type { Location } from "./view.ts";
import type { WhyCard } from "./why-card.ts";

/** Orders, what is free to go, bags, and what arrived dead, as plain JSON: null where a figure is not known. Days as in `cards.ts`. */

export interface ReasonCard {
  readonly is: string;
  /** The first day on which it is no longer against; null where nobody can say. */
  readonly until: number | null;
  readonly text: string;
  readonly why: WhyCard;
}

/** What a tank holds of a species, and how many of them nobody else waits for. */
export interface FreeCard {
  readonly tank: string;
  readonly species: string;
  readonly animals: number;
  readonly free: number;
  /** Of the species, to orders that are open; in all tanks together. */
  readonly promised: number;
  /** The first day on which nothing speaks against it; null where nobody can say. */
  readonly from: number | null;
  readonly fromText: string;
  readonly reasons: readonly ReasonCard[];
  /** Of the animals that a lot names by its entries, how many there are. */
  readonly lots: readonly { readonly lot: string; readonly animals: number }[];
  readonly at: Location | null;
}

export interface OrderCard {
  readonly name: string;
  readonly title: string;
  readonly buyer: string;
  readonly due: number | null;
  /** Whole days past due. */
  readonly late: number | null;
  readonly carrier: string;
  readonly route: string;
  readonly missing: number;
  /** The first day on which all that is missing can go; null where nobody can say, or nothing is missing. */
  readonly from: number | null;
  /** `4 praecox missing, from 4 April`. */
  readonly text: string;
  readonly lines: readonly OrderLineCard[];
  readonly at: Location;
  readonly why: WhyCard;
}

export interface OrderLineCard {
  readonly species: string;
  readonly wanted: number;
  readonly gone: number;
  readonly missing: number;
  readonly short: number;
  readonly from: number | null;
  readonly text: string;
  readonly sources: readonly {
    readonly tank: string;
    /** Left there by the orders before it. */
    readonly animals: number;
    readonly from: number | null;
    readonly text: string;
  }[];
}

export interface TollCard {
  readonly by: string;
  readonly name: string;
  readonly consignments: number;
  readonly animals: number;
  readonly dead: number;
  /** Of 1, with the interval of Wilson (95 %). */
  readonly best: number;
  readonly low: number;
  readonly high: number;
  readonly text: string;
  /** Lost in the seven days after, of those that came alive; null where nobody knows. */
  readonly after: {
    readonly alive: number;
    readonly lost: number;
    readonly best: number;
    readonly low: number;
    readonly high: number;
    readonly text: string;
  } | null;
}

export interface OrdersCard {
  readonly is: "orders";
  readonly day: number;
  /** Those that wait for something, the first due first. */
  readonly open: readonly OrderCard[];
  readonly filled: readonly OrderCard[];
  readonly free: readonly FreeCard[];
  readonly sent: readonly TollCard[];
  /** Shipments with an order of which no buyer has reported. */
  readonly unreported: number;
  readonly received: readonly TollCard[];
}
