import type { LightChangeCard } from "./light-cards.ts";
import type { StockCard } from "./stock-cards.ts";
import type { Location } from "./view.ts";

/** What is told of a week, a month or any days of a room. Plain JSON: days as whole numbers, null where a figure is not known. */
export interface PeriodCard {
  readonly is: "period";
  readonly from: number;
  readonly to: number;
  /** The day as of which it is told. */
  readonly day: number;
  readonly log: LogCard;
  readonly work: WorkCard;
  readonly water: WaterUsedCard;
  /** The animals by species, with losses against as many days before. */
  readonly stock: StockCard;
  readonly tests: readonly ExceededCard[];
  readonly trends: TurnsCard;
  readonly cases: CasesCard;
  readonly remedies: readonly RemedyUsedCard[];
  readonly broods: readonly BroodSumCard[];
  readonly orders: readonly OrderSentCard[];
  readonly spending: SpendingCard;
  readonly gear: readonly GearCard[];
  /** Changes of light whose days after were all over in this time. */
  readonly lights: readonly LightChangeCard[];
  readonly notes: readonly NoteCard[];
  /** One a day. */
  readonly daily: readonly DailyCard[];
}

export interface LogCard {
  /** Of the period; one that lists several things is one. */
  readonly entries: number;
  readonly days: number;
  /** The first day of the whole log; null where it has none up to the day. */
  readonly begins: number | null;
  /** What that means for the figures; empty where the log covers the period and as many days before. */
  readonly text: string;
}

export interface WorkCard {
  readonly acts: readonly WorkSumCard[];
  readonly places: readonly WorkSumCard[];
  readonly total: WorkSumCard;
  /** Each that was late, is open, or was done too rarely or too often. */
  readonly missed: readonly MissedCard[];
}

export interface WorkSumCard {
  /** A kind of work, or where it is done; empty for all. */
  readonly name: string;
  readonly done: number;
  readonly inTime: number;
  readonly late: number;
  /** Mean days of those that were late; null where none was. */
  readonly lateDays: number | null;
  readonly open: number;
  /** Duties of a number of times that were short, or over, on some day. */
  readonly off: number;
}

export interface MissedCard {
  readonly place: string;
  readonly act: string;
  /** `every 7 days`. */
  readonly when: string;
  /** Days late of each that was done late. */
  readonly late: readonly { readonly due: number; readonly done: number; readonly days: number }[];
  readonly open: { readonly due: number; readonly late: number } | null;
  readonly daysOff: number;
  readonly text: string;
  readonly at: Location | null;
}

export interface WaterUsedCard {
  readonly places: readonly WaterPlaceCard[];
  readonly sources: readonly WaterSourceCard[];
  readonly litres: number;
  /** Of as many days before. */
  readonly before: number;
  /** Changes of which nobody knows the litres. */
  readonly unknown: number;
}

export interface WaterPlaceCard {
  readonly place: string;
  readonly batch: number;
  readonly flow: number;
  readonly topUp: number;
  readonly litres: number;
  readonly times: number;
  readonly before: number;
}

export interface WaterSourceCard {
  readonly source: string;
  readonly batch: number;
  readonly flow: number;
  readonly topUp: number;
  readonly litres: number;
  readonly before: number;
}

export interface ExceededCard {
  readonly place: string;
  readonly parameter: string;
  readonly is: "above" | "below";
  readonly day: number;
  readonly reading: string;
  readonly limit: string;
  /** What was done until the next test of the same. */
  readonly done: string;
  /** The next test: `10 mg/L on 5 March, within`; empty where there was none yet. */
  readonly next: string;
  readonly isWithinNext: boolean | null;
  readonly at: Location | null;
}

export interface TurnsCard {
  readonly turned: readonly TurnedCard[];
  readonly compared: number;
  readonly tested: number;
}

export interface TurnedCard {
  readonly place: string;
  readonly parameter: string;
  readonly is: "rises" | "falls" | "level" | "faster" | "slower";
  /** Per day, in the unit of the room. */
  readonly unit: string;
  readonly now: RateCard;
  readonly before: RateCard;
  readonly isProduction: boolean;
  readonly text: string;
}

export interface RateCard {
  readonly best: number;
  readonly low: number;
  readonly high: number;
}

export interface CasesCard {
  readonly opened: readonly CaseLineCard[];
  readonly closed: readonly CaseLineCard[];
  readonly open: readonly CaseLineCard[];
}

export interface CaseLineCard {
  /** Empty for signs without a case. */
  readonly name: string;
  readonly places: readonly string[];
  readonly since: number;
  readonly closed: number | null;
  /** How it ended; empty where it is not said. */
  readonly outcome: string;
  readonly text: string;
}

export interface RemedyUsedCard {
  readonly remedy: string;
  readonly doses: number;
  /** Of those that say or follow how much, by unit. */
  readonly amounts: readonly { readonly amount: number; readonly unit: string }[];
  /** Doses of which nobody knows how much. */
  readonly unknown: number;
  readonly baths: number;
}

export interface BroodSumCard {
  readonly species: string;
  readonly spawnings: number;
  /** Null where a spawning is not counted. */
  readonly laid: number | null;
  readonly hatched: number | null;
  readonly swimming: number | null;
  /** So many broods hatched, or swam, in the period. */
  readonly hatches: number;
  readonly swims: number;
  readonly isAbout: boolean;
}

export interface OrderSentCard {
  /** Empty for what went without an order. */
  readonly order: string;
  readonly how: "sell" | "ship";
  readonly day: number;
  readonly animals: number;
  readonly text: string;
  /** As the buyer has reported up to the day; null where nobody has. */
  readonly dead: number | null;
}

export interface SpendingCard {
  readonly sums: readonly {
    readonly currency: string;
    readonly is: "food" | "remedy" | "other";
    readonly amount: number;
    readonly purchases: number;
  }[];
  readonly unpriced: readonly { readonly name: string; readonly day: number; readonly at: Location | null }[];
}

export interface GearCard {
  readonly gear: string;
  readonly times: number;
  /** `rinsed 2, replaced 1`; what is not said is `serviced`. */
  readonly text: string;
  /** Days on which it was repaired: the one word by which a log says that it failed. */
  readonly repaired: readonly number[];
}

export interface NoteCard {
  readonly day: number;
  readonly place: string;
  readonly text: string;
  readonly at: Location | null;
}

export interface DailyCard {
  readonly day: number;
  readonly litres: number;
  readonly done: number;
  /** Duties that were late at its end. */
  readonly late: number;
  readonly died: number;
}
