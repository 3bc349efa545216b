import type { WhyCard } from "./cards.ts";
import type { Location } from "./view.ts";

/** What is shown of feeding: what tanks got, what their animals need, what is on hand, what grows. Plain JSON as in `cards.ts`. */

export interface FeedingCard {
  /** The day it is true for, and the first day of what is shown. */
  readonly day: number;
  readonly from: number;
  readonly days: number;
  /** The kinds of food that were fed or are needed: the columns of the matrix. Foods that state no kind go by `other`. */
  readonly kinds: readonly string[];
  readonly tanks: readonly FeedTankCard[];
  readonly pantry: readonly PantryCard[];
  readonly cultures: readonly CultureCard[];
}

/** A tank that has animals, or was fed. */
export interface FeedTankCard {
  readonly name: string;
  readonly title: string;
  readonly at: Location | null;
  /** `8 praecox, 20 cherry`; empty for none by the book. */
  readonly animals: string;
  /** What it was fed, in order of time; a day without food by a word of its own. */
  readonly meals: readonly MealCard[];
  readonly last: { readonly time: number; readonly text: string; readonly at: Location | null } | null;
  /** Hours from the last food to the end of the day; null where there was none in the last months. */
  readonly hours: number | null;
  readonly needs: readonly NeedCard[];
  readonly ration: RationCard | null;
}

export interface MealCard {
  readonly day: number;
  /** `none` for a day of fasting. */
  readonly food: string;
  /** The items of one entry share its number. */
  readonly entry: number;
  /** `frozen`, `other`; empty for none. */
  readonly kind: string;
  /** `cyclops 2 cubes`. */
  readonly text: string;
  readonly at: Location | null;
}

export interface NeedCard extends NeedState {
  readonly why: WhyCard;
}

export interface NeedState {
  readonly food: string;
  /** `frozen at least 3 in 7 days`. */
  readonly text: string;
  readonly times: number;
  /** `young`: the animals are not there for as long as it counts. */
  readonly is: "met" | "due" | "late" | "over" | "young";
  readonly species: readonly string[];
}

export interface RationCard {
  readonly gramsADay: number | null;
  readonly biomassG: number | null;
  /** Of the biomass, a day. */
  readonly share: number | null;
  readonly text: string;
  /** Nitrogen of the ammonia that becomes of it, mg a day. */
  readonly ammoniaMgN: number | null;
  readonly unknown: readonly string[];
  readonly why: WhyCard;
}

export interface PantryCard {
  readonly name: string;
  readonly title: string;
  /** Of a food its kind, else `remedy`. */
  readonly kind: string;
  readonly unit: string;
  readonly onHand: number | null;
  /** `120 g`, or why it is not known. */
  readonly onHandText: string;
  readonly useADay: number | null;
  readonly daysLeft: number | null;
  readonly daysLeftLow: number | null;
  readonly daysLeftHigh: number | null;
  /** `10 days (8 to 11)`; empty where nobody can say. */
  readonly lastsText: string;
  readonly runsOut: number | null;
  readonly expires: number | null;
  readonly openedUntil: number | null;
  /** `expired`, `open too long`, `runs out`; empty where all is well. */
  readonly remark: string;
  readonly lastUsed: number | null;
  readonly at: Location | null;
  readonly why: WhyCard;
}

export interface CultureCard {
  readonly food: string;
  /** Where it was begun: a tank, the room. */
  readonly of: string;
  readonly started: number;
  readonly at: Location | null;
  readonly is: "growing" | "ready" | "overdue" | "missed" | "harvested" | "running";
  /** `ready 2 March 2026 04:00 to 12:00`; empty where nobody states it. */
  readonly text: string;
  readonly readyFrom: number | null;
  readonly readyUntil: number | null;
  readonly harvests: number;
  readonly lastHarvest: number | null;
  /** Of what goes on: whether another of it is going. */
  readonly hasBackUp: boolean;
  /** A hatch beside the published ranges, each figure in words. */
  readonly hatch: readonly { readonly text: string; readonly isWithin: boolean }[];
  readonly hatchSource: string;
  readonly why: WhyCard;
}
