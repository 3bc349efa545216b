import type { Location } from "./view.ts";
import type { WhyCard } from "./why-card.ts";

/** What a card tells of the animals of a tank over time. */

/** A point of what is drawn over time. */
export interface CoursePoint {
  readonly time: number;
  readonly value: number;
}

/** How many of a species there were in a tank over the last year, and what came and went of late. */
export interface PopulationCard {
  readonly of: string;
  readonly species: string;
  readonly animals: number;
  /** `24`, `~80`. */
  readonly text: string;
  /** In the last 30 days: `arrived 8, born 10`. */
  readonly came: string;
  readonly went: string;
  /** Steps: an entry makes two points of one time. */
  readonly course: readonly CoursePoint[];
  readonly entries: readonly {
    readonly time: number;
    readonly after: number;
    /** The entry in its own words. */
    readonly text: string;
    readonly at: Location | null;
  }[];
  readonly why: WhyCard;
}

/** What the animals weigh and breathe, beside what the tank holds. */
export interface BearingCard {
  readonly of: string;
  /** `105 g, 0.36 g/L; holds 140 g`. */
  readonly text: string;
  readonly oxygen: string;
  readonly why: WhyCard;
  readonly oxygenWhy: WhyCard | null;
}
