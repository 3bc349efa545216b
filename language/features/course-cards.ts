import type { CoursePoint } from "./population-cards.ts";
import type { Location } from "./view.ts";

/** What is shown of a course of treatment: plain JSON, null where a figure is not known. Times and days as in `cards.ts`. */

/** The courses and baths of a tank, or of a case. */
export interface CoursesCard {
  /** The tank, system or case they are of. */
  readonly of: string;
  readonly day: number;
  /** In the order they began. */
  readonly courses: readonly CourseCard[];
  readonly baths: readonly BathCard[];
  /** The usual caution; never empty. */
  readonly caution: string;
}

export interface CourseCard {
  readonly remedy: string;
  readonly title: string;
  /** Of all its concentrations. */
  readonly unit: string;
  /** The water it is given in. */
  readonly water: string;
  /** Empty where none is named and none was open. */
  readonly case: string;
  readonly state: "running" | "complete" | "cut";
  /** Doses in all, as stated; null for a remedy that has no repeat. */
  readonly times: number | null;
  /** `2 of 3 doses given, the next is due on 8 March`. */
  readonly stateText: string;
  readonly begin: number;
  /** The day its last interval is over, of a running one as planned. */
  readonly end: number;
  readonly target: { readonly low: number; readonly high: number; readonly text: string } | null;
  readonly ceiling: number | null;
  readonly ceilingText: string;
  /** Given, then still to come. */
  readonly doses: readonly CourseDoseCard[];
  /** What is in the water, up to the day; a jump is two points of one time. */
  readonly course: readonly CoursePoint[];
  /** And from then on as planned. */
  readonly ahead: readonly CoursePoint[];
  /** New water in this time, as fractions. */
  readonly changes: readonly {
    readonly time: number;
    readonly fraction: number;
    readonly isPlanned: boolean;
  }[];
  readonly parts: readonly CoursePartCard[];
  /** `change 50 % by 22 March; 20 % done`. Empty where none is owed after it. */
  readonly changeAfterText: string;
  readonly isChangeAfterDone: boolean;
  /** Not to leave before; null where nothing is stated. */
  readonly withdrawalEnd: number | null;
  readonly figures: CourseFigures;
  /** How much to add after a change of so much, to hold the target. */
  readonly topUps: readonly { readonly fraction: number; readonly text: string }[];
  readonly published: PublishedCard | null;
  /** The definition of the remedy. */
  readonly at: Location;
}

export interface CourseDoseCard {
  /** Which of its course. */
  readonly number: number;
  /** When it was given, or is due. */
  readonly time: number;
  readonly isPlanned: boolean;
  /** In the water just after it; null if it cannot be computed. */
  readonly after: number | null;
  /** As it was written, or what is to be given: `25 mg`. */
  readonly amount: string;
  /** `2 mg/L, of it 0.5 mg/L from this dose`. */
  readonly text: string;
  /** New water owed before it, as a fraction; 0 if none. */
  readonly changeOwed: number;
  /** Its entry; null for one that is to come. */
  readonly at: Location | null;
}

export interface CoursePartCard {
  readonly part: string;
  readonly is: "out" | "in" | "back early" | "back";
  /** `carbon out since 1 March`. */
  readonly text: string;
  readonly at: Location | null;
}

/** What follows from the curve up to the day. */
export interface CourseFigures {
  /** In unit times hours; null if a dose cannot be computed. */
  readonly exposure: number | null;
  readonly exposureText: string;
  readonly insideDays: number | null;
  /** `6.5 of 7 days within 1.5..2.5 mg/L`. Empty without a target. */
  readonly insideText: string;
  readonly highest: number | null;
  readonly highestText: string;
  readonly aboveDays: number | null;
  /** `never above the ceiling`, `above the ceiling from 3 March to 4 March, 1.2 days`. Empty without a ceiling. */
  readonly aboveText: string;
}

/** What is published of the active substance: orientation, never a default. */
export interface PublishedCard {
  readonly substance: string;
  readonly ranges: readonly { readonly text: string; readonly source: string }[];
  readonly notes: readonly { readonly text: string; readonly source: string }[];
  readonly cautions: readonly { readonly text: string; readonly source: string }[];
  readonly caution: string;
}

export interface BathCard {
  readonly time: number;
  readonly tank: string;
  readonly remedy: string;
  readonly species: string;
  readonly animals: number | null;
  readonly lot: string;
  readonly case: string;
  /** In the vessel; null if it cannot be computed. */
  readonly concentration: number | null;
  readonly unit: string;
  /** `15 g/L for 10 min`, or why it cannot be computed. */
  readonly text: string;
  /** `10..30 g/L for 1..10 min`; empty where nothing is stated. */
  readonly stated: string;
  readonly withdrawalEnd: number | null;
  readonly at: Location | null;
}
