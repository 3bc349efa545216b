import type { Severity } from "../checks/finding.ts";
import type { BroodCard } from "./brood-cards.ts";
import type { CaseCard, CaseItemCard } from "./case-cards.ts";
import type { BathCard, CourseCard } from "./course-cards.ts";
import type { FeedMatrixCard } from "./feed-matrix-card.ts";
import type { LightCard } from "./light-cards.ts";
import type { BearingCard, CoursePoint, PopulationCard } from "./population-cards.ts";
import type { QuarantineCard } from "./quarantine-cards.ts";
import type { FreeCard } from "./shipping-cards.ts";
import type { Location } from "./view.ts";
import type { WhyCard } from "./why-card.ts";

export type { WhyCard } from "./why-card.ts";

/**
 * What is shown of a tank and of a day at a glance: by the preview, the hover, the terminal and `--json`. Plain JSON, so that it goes
 * over a wire as it is: null where a figure is not known, never NaN or Infinity.
 *
 * Days are whole numbers of days since 1970-01-01 and times the same with the time of day as a fraction (`book/dates.ts`). Figures of
 * water are numbers in the room's unit for the parameter; what ends in `text` is the same in words, with its unit.
 */
export type Card = TankCard | DayCard | CaseCard;

/** A tank or a system: its water, what is in it, what it owes. Of tanks on one system the water is the system's. */
export interface TankCard {
  readonly is: "tank";
  readonly name: string;
  readonly title: string;
  /** The day it is true for. */
  readonly day: number;
  /** Its definition. */
  readonly at: Location | null;
  readonly role: string;
  /** Where it stands. */
  readonly place: string;
  readonly note: string;
  readonly volumeL: number | null;
  /** `290 L: inside 140 x 50 cm, filled 46 cm, less 32 L`. */
  readonly volumeText: string;
  /** The water it shares, or is; null for water of its own. */
  readonly system: SystemCard | null;
  /** Every parameter that is tested or limited, limited ones first. */
  readonly water: readonly WaterCard[];
  /** What the readings of its latest rounds say together. */
  readonly rounds: readonly RoundCard[];
  /** Water that came in during the last year, in order of time. */
  readonly changes: readonly ChangeCard[];
  readonly remedies: readonly RemedyCard[];
  /** Baths and dips of its animals of late: nothing of them is in its water. */
  readonly baths: readonly BathCard[];
  /** Two weeks of feedings; null where there are none, and nothing is needed. */
  readonly feeding: FeedMatrixCard | null;
  readonly residents: readonly ResidentCard[];
  /** The clock of its water; null for a tank that is none of quarantine, or where none runs. */
  readonly quarantine: QuarantineCard | null;
  /** The light over a tank, its algae and plants; null for a system, and where nothing says anything of them. */
  readonly light: LightCard | null;
  /** Its animals over the last year, by species. */
  readonly populations: readonly PopulationCard[];
  /** What its animals weigh and breathe; of a system one a tank. */
  readonly bearing: readonly BearingCard[];
  /** How many of them may go, and what is against it. */
  readonly free: readonly FreeCard[];
  /** Open cases of which sick are in its water, the latest first. */
  readonly cases: readonly CaseItemCard[];
  /** Open broods of which eggs or young are here. */
  readonly broods: readonly BroodCard[];
  /** Its own and its system's and gear's, the latest first. */
  readonly duties: readonly DutyCard[];
  /** About it, the gravest and then the latest first. */
  readonly findings: readonly FindingCard[];
}

export interface SystemCard {
  readonly name: string;
  readonly title: string;
  readonly volumeL: number | null;
  readonly tanks: readonly string[];
  readonly at: Location | null;
}

/** A figure and the interval it is known to lie in. */
export interface SpanCard {
  readonly best: number;
  readonly low: number | null;
  readonly high: number | null;
  readonly text: string;
}

export interface WaterCard {
  readonly parameter: string;
  /** `Total ammonia`. */
  readonly title: string;
  /** Empty for pH. */
  readonly unit: string;
  readonly limit: LimitCard | null;
  /** Those of the last year, in order of time. */
  readonly readings: readonly ReadingCard[];
  /** Today, by all readings of the window and what came since. */
  readonly level: SpanCard | null;
  /** Per day, with the changes taken out. */
  readonly production: SpanCard | null;
  /** Why there is no production to tell; empty if there is, or where none can be. */
  readonly productionUnknown: string;
  /** The course that readings, changes and production make together, up to today; a change makes two points of one time. */
  readonly course: readonly CoursePoint[];
  /** Where it goes from today if water is changed as stated. */
  readonly ahead: readonly AheadPoint[];
  /** When it meets its limit; null where it does not, or nobody can say. */
  readonly crossing: CrossingCard | null;
  /** The regular change that is stated, with what it comes to in the long run. */
  readonly regular: {
    readonly everyDays: number;
    readonly fraction: number;
    readonly text: string;
    /** The level before each change in the end. */
    readonly steady: number | null;
    readonly steadyText: string;
    readonly at: Location;
  } | null;
  /** The change each time that would hold the limit: `30.8 % every 7 days`. Empty where none is needed or known. */
  readonly holdingText: string;
  /** The one change that brings today's level back within the limit. Empty where it is within. */
  readonly changeBackText: string;
  readonly why: WhyCard | null;
}

/** A figure that follows from several readings of one round. */
export interface RoundCard {
  /** `free ammonia`. */
  readonly what: string;
  /** The figure with its unit; where the formula does not hold the reason. */
  readonly text: string;
  readonly isKnown: boolean;
  /** A threshold, or another way to reckon it; may be empty. */
  readonly beside: string;
  /** The name of the calculation, for its page. */
  readonly calculation: string;
  readonly caution: string;
  readonly time: number;
  readonly at: Location | null;
  readonly why: WhyCard;
}

export interface LimitCard {
  /** Null where there is no bound. */
  readonly low: number | null;
  readonly high: number | null;
  readonly text: string;
  /** `tank dam`. */
  readonly by: string;
  readonly at: Location;
}

export interface ReadingCard {
  readonly time: number;
  /** What it may be: equal ends for a plain reading; `<5` is 0 to 5, `>100` is 100 to null. */
  readonly low: number;
  readonly high: number | null;
  readonly text: string;
  readonly isOutside: boolean;
  /** Where it was taken: the tank or the system. */
  readonly of: string;
  readonly at: Location;
}

export interface AheadPoint {
  readonly time: number;
  readonly best: number;
  readonly low: number;
  readonly high: number;
}

export interface CrossingCard {
  /** Null for never. */
  readonly day: number | null;
  readonly earliest: number | null;
  readonly latest: number | null;
  /** `about 7 April (31 March to 14 April)`. */
  readonly text: string;
}

export interface ChangeCard {
  readonly time: number;
  /** New water after it, of all of the water; 0 for a top-up. */
  readonly fraction: number;
  readonly litres: number;
  readonly text: string;
  readonly at: Location;
}

export interface RemedyCard {
  readonly name: string;
  readonly title: string;
  readonly unit: string;
  readonly target: { readonly low: number; readonly high: number; readonly text: string } | null;
  readonly ceiling: number | null;
  readonly ceilingText: string;
  /** What is in the water today, by dilution and half-life. */
  readonly now: number | null;
  readonly nowText: string;
  readonly course: readonly CoursePoint[];
  readonly doses: readonly {
    readonly time: number;
    /** In the water just after it; null if it cannot be computed. */
    readonly after: number | null;
    readonly text: string;
    readonly at: Location;
  }[];
  /** The next dose of a running course. */
  readonly next: {
    readonly day: number;
    readonly number: number;
    readonly of: number;
    /** New water owed before it, as a fraction; 0 if none. */
    readonly changeOwed: number;
    readonly text: string;
  } | null;
  /** Its latest course, with what is still to come. */
  readonly plan: CourseCard | null;
  /** The usual caution; never empty. */
  readonly caution: string;
  readonly at: Location;
}

export interface ResidentCard {
  readonly species: string;
  readonly title: string;
  readonly kind: string;
  /** The tank they are in. */
  readonly of: string;
  readonly animals: number;
  readonly isAbout: boolean;
  /** `24`, `~80`. */
  readonly text: string;
  /** When they were last counted. */
  readonly counted: number | null;
  readonly at: Location | null;
}

export interface DutyCard {
  /** `change 25..45 %`. */
  readonly act: string;
  /** `every 7 d`, `at least 3 per 7 d`. */
  readonly when: string;
  /** What owes it: the tank, its system or gear. */
  readonly of: string;
  readonly periodDays: number;
  readonly last: number | null;
  /** Null where nothing is owed. */
  readonly due: number | null;
  /** Whole days past due; 0 on the day, below 0 before it. Null where nothing is owed. */
  readonly late: number | null;
  /** Times done within the period, and how many are stated: for `at least` and `at most`. */
  readonly times: number;
  readonly timesStated: number;
  readonly form: "every" | "at least" | "at most";
  /** `2 days late`, `today`, `in 3 days`. */
  readonly text: string;
  /** The absence it fell into, what was done and is less than it asks for; absent where there is nothing to say. */
  readonly note?: string;
  /** Where it is stated. */
  readonly at: Location;
  /** The entry that did it last. */
  readonly lastAt: Location | null;
}

export interface FindingCard {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  /** The day of the entry it is about; null in a definition. */
  readonly day: number | null;
  readonly at: Location;
}

/** A day: what was done, by tank, and what was due. */
export interface DayCard {
  readonly is: "day";
  readonly day: number;
  /** The texts beside its dates. */
  readonly titles: readonly string[];
  readonly isToday: boolean;
  /** Its block; the first if there are several. */
  readonly at: Location;
  readonly entries: number;
  /** New water, top-ups apart. */
  readonly litres: number;
  readonly topUpL: number;
  readonly tanks: readonly DayTankCard[];
  /** Due or late on that day and not done by its end. */
  readonly due: readonly DutyCard[];
  /** The feedings of all tanks in the two weeks up to it. */
  readonly feeding: FeedMatrixCard | null;
  readonly findings: readonly FindingCard[];
  /** The days with entries before and after. */
  readonly before: { readonly day: number; readonly at: Location } | null;
  readonly after: { readonly day: number; readonly at: Location } | null;
}

/** What was done at one target of a day, in the order of the lines. */
export interface DayTankCard {
  /** `dam`, `@rack`, `room`. */
  readonly name: string;
  readonly title: string;
  readonly at: Location | null;
  readonly isTank: boolean;
  readonly litres: number;
  readonly entries: readonly {
    readonly kind: string;
    /** The line without its target, with single spaces. */
    readonly text: string;
    /** The time it counts at: `08:40`; empty if none was written. */
    readonly clock: string;
    readonly at: Location;
  }[];
}
