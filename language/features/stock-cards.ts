import type { WhyCard } from "./cards.ts";
import type { TollCard } from "./shipping-cards.ts";
import type { Location } from "./view.ts";

/** What is shown of the stock of a room over a period. Plain JSON: null where a figure is not known. */
export interface StockCard {
  readonly is: "stock";
  /** Whole days, both included. */
  readonly from: number;
  readonly to: number;
  readonly by: StockBy;
  readonly lines: readonly StockLine[];
  /** All lines together: moves within the room are in it twice, as what came in and as what went out. */
  readonly total: StockLine;
  readonly dead: readonly TollCard[];
  readonly lots: readonly LotCard[];
  readonly tanks: readonly StockingCard[];
  readonly measured: readonly MeasuredCard[];
}

export const stockBy = ["tank", "species", "lot", "supplier"] as const;
export type StockBy = (typeof stockBy)[number];

/** Opening + arrived + born + moved in + found - lost - moved out - sold - shipped - unaccounted = closing. */
export interface StockLine {
  readonly tank: string;
  readonly species: string;
  readonly lot: string;
  readonly supplier: string;
  readonly opening: number;
  readonly arrived: number;
  readonly born: number;
  readonly movedIn: number;
  /** More than the book knew, by a count or by leaving. */
  readonly found: number;
  readonly lost: {
    readonly found: number;
    readonly missing: number;
    readonly jumped: number;
    readonly culled: number;
    readonly euthanised: number;
    /** Without a word how. */
    readonly lost: number;
  };
  readonly movedOut: number;
  readonly sold: number;
  readonly shipped: number;
  readonly unaccounted: number;
  readonly closing: number;
  readonly isAbout: boolean;
  readonly animalDays: number;
  readonly mortality: MortalityCard;
  /** Of one species in one tank, why so many are there. */
  readonly why: WhyCard | null;
}

export interface MortalityCard {
  /** Found dead, jumped, euthanised, or lost without a word. */
  readonly deaths: number;
  /** Deaths over the animals at the beginning and all that came in. */
  readonly ofAll: number | null;
  /** Deaths over the mean number there. */
  readonly ofMean: number | null;
  /** Deaths in 1000 animal-days, with the exact 95 % interval. */
  readonly perThousand: { readonly best: number; readonly low: number; readonly high: number } | null;
  /** Against as many days before; null where there is nothing to compare. */
  readonly against: {
    readonly deaths: number;
    readonly animalDays: number;
    /** Null with none before: then it is without bound. */
    readonly ratio: number | null;
    readonly low: number;
    readonly high: number | null;
    readonly p: number;
  } | null;
}

/** A lot that has animals, or had some within the period. */
export interface LotCard {
  readonly lot: string;
  readonly title: string;
  readonly species: string;
  readonly supplier: string;
  readonly born: number | null;
  readonly ageDays: number | null;
  readonly homes: readonly { readonly tank: string; readonly animals: number }[];
  /** Null where it is not known, with the reason. */
  readonly life: {
    readonly since: number;
    readonly animals: number;
    readonly deaths: number;
    readonly left: number;
    readonly still: number;
    readonly medianDays: number | null;
    readonly table: readonly {
      readonly days: number;
      readonly survival: number;
      readonly low: number | null;
      readonly high: number | null;
      readonly atRisk: number;
    }[];
  } | null;
  readonly unknown: string;
  readonly at: Location | null;
}

/** What the animals of a tank weigh and breathe at the end of the period, beside what it bears. */
export interface StockingCard {
  readonly tank: string;
  readonly grams: number | null;
  readonly gramsPerLitre: number | null;
  /** Of which nobody knows the weight. */
  readonly unweighed: readonly string[];
  /** As it is stated; empty where it is not. */
  readonly holdsText: string;
  readonly oxygen: {
    readonly mgPerH: number;
    readonly heldMg: number;
    readonly hours: number;
    readonly without: readonly string[];
    readonly why: WhyCard;
  } | null;
  /** Why there is no figure of oxygen. */
  readonly oxygenUnknown: string;
  readonly why: WhyCard;
}

/** Males and females, and what was measured, of a species in a tank. */
export interface MeasuredCard {
  readonly tank: string;
  readonly species: string;
  readonly sexes: {
    readonly males: number;
    readonly females: number;
    readonly unsexed: number;
    readonly share: { readonly best: number; readonly low: number; readonly high: number } | null;
    readonly day: number;
    readonly at: Location | null;
  } | null;
  readonly trends: readonly {
    readonly what: "score" | "length" | "weight";
    readonly unit: string;
    readonly latest: number;
    readonly day: number;
    readonly measurements: number;
    /** Over 30 days, with its interval; null where it is not known. */
    readonly perMonth: {
      readonly best: number;
      readonly low: number | null;
      readonly high: number | null;
    } | null;
    readonly unknown: string;
    readonly at: Location | null;
  }[];
}
