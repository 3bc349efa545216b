import type { ReasonCard } from "./shipping-cards.ts";
import type { WhyCard } from "./why-card.ts";

/** The packing of an order, as plain JSON. */
export interface PackingCard {
  readonly is: "packing";
  readonly day: number;
  readonly order: string;
  readonly buyer: string;
  readonly due: number | null;
  readonly carrier: string;
  readonly route: string;
  /** The bag and its bounds, as they were stated or are taken. */
  readonly bag: {
    readonly waterL: number;
    readonly gasL: number;
    readonly gas: "oxygen" | "air";
    readonly hours: number;
    readonly temperatureC: number;
    /** Times the resting rate. */
    readonly activity: number;
    readonly leastOxygenMgL: number;
    /** Null for no bound. */
    readonly mostTotalMgLN: number | null;
    readonly mostFreeMgLN: number | null;
    readonly mostCo2MgL: number | null;
    readonly mostLoadGPerL: number | null;
    /** What was not stated and is taken, in words. */
    readonly taken: readonly string[];
  };
  readonly parts: readonly PackingPartCard[];
  /** What is there and may not go on the day. */
  readonly held: readonly {
    readonly species: string;
    readonly tank: string;
    readonly animals: number;
    readonly reasons: readonly ReasonCard[];
  }[];
  readonly lacking: readonly { readonly species: string; readonly animals: number }[];
  readonly labels: readonly LabelCard[];
  readonly published: readonly { readonly what: string; readonly text: string; readonly source: string }[];
  readonly caution: string;
}

export interface PackingPartCard {
  readonly species: string;
  readonly title: string;
  readonly tank: string;
  readonly lot: string;
  readonly animals: number;
  /** What one weighs, and what says so. */
  readonly weightG: number | null;
  readonly weightText: string;
  /** The most to a bag by the bounds; null with the reason in `mostText`. */
  readonly most: number | null;
  readonly mostText: string;
  /** Animals in each bag; empty where nobody can say how many go into one. */
  readonly bags: readonly number[];
  /** Of the fullest bag at the end of the journey. */
  readonly arrival: ArrivalCard | null;
  readonly reasons: readonly ReasonCard[];
  readonly fedText: string;
  readonly isShipped: boolean;
  readonly why: WhyCard;
}

export interface ArrivalCard {
  readonly loadGPerL: number | null;
  readonly oxygenMgL: number;
  /** Until the oxygen has come down to its least. */
  readonly hours: number | null;
  readonly totalMgLN: number;
  readonly freeMgLN: number | null;
  readonly co2MgL: number | null;
  readonly pH: number | null;
  /** Free ammonia of the same water once it has given off its CO2 to the air. */
  readonly airedFreeMgLN: number | null;
  readonly airedPH: number | null;
  /** What could not be held against its bound, and why. */
  readonly unheld: readonly string[];
}

export interface LabelCard {
  readonly species: string;
  readonly title: string;
  readonly animals: number;
  readonly lot: string;
  readonly bag: number;
  readonly of: number;
  readonly order: string;
  readonly buyer: string;
  readonly packed: number;
  readonly fedText: string;
  readonly waterText: string;
}
