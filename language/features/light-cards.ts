import type { CoursePoint } from "./population-cards.ts";
import type { Location } from "./view.ts";

/** What a card tells of the light, the algae and the plants of a tank. */
export interface LightCard {
  /** `8 h at 60 %`; empty where no entry says. */
  readonly text: string;
  readonly since: number | null;
  readonly at: Location | null;
  /** How much light a day over the last year, in steps; in the unit of `unit`. */
  readonly course: readonly CoursePoint[];
  /** `h`, or `h at full power` where each setting says its share of it. */
  readonly unit: string;
  readonly settings: readonly LightSettingCard[];
  /** Of the last year. */
  readonly algae: readonly AlgaeCard[];
  readonly trims: readonly TrimCard[];
  /** Changes of the last year that can be told, the latest first. */
  readonly changes: readonly LightChangeCard[];
}

export interface LightSettingCard {
  readonly time: number;
  readonly value: number | null;
  readonly text: string;
  readonly isLamp: boolean;
  readonly at: Location | null;
}

export interface AlgaeCard {
  readonly sort: string;
  /** `thread algae`. */
  readonly title: string;
  /** `%` of a share, empty of a rating from 0 to 4. */
  readonly unit: string;
  readonly most: number;
  readonly ratings: readonly {
    readonly time: number;
    readonly low: number;
    readonly high: number;
    readonly text: string;
    readonly at: Location | null;
  }[];
}

export interface TrimCard {
  readonly time: number;
  /** Null where the entry has no mass. */
  readonly grams: number | null;
  readonly plant: string;
  /** What grew a week since the trimming before; empty where that cannot be told. */
  readonly growthText: string;
  /** `200 g stems`, `moss, not weighed`. */
  readonly text: string;
  readonly at: Location | null;
}

/** The days before a change held against those after it. */
export interface LightChangeCard {
  readonly tank: string;
  readonly day: number;
  /** `light from 9 h at 70 % to 8 h at 60 %`; of another entry its own words. */
  readonly text: string;
  /** `24 % less light a day`; empty where it cannot be told. */
  readonly moreText: string;
  /** How many days are compared on each side, and why no more; or why none are. */
  readonly daysText: string;
  readonly days: number;
  /** Whether the days after are all over; while they are not, the figures may change yet. */
  readonly isClosed: boolean;
  readonly compared: readonly ComparedCard[];
  /** What else happened meanwhile, a line each. */
  readonly meanwhile: readonly string[];
  readonly sisters: readonly SisterCard[];
  /** What such a comparison cannot tell; empty where nothing is compared. */
  readonly remark: string;
  readonly at: Location | null;
}

export interface ComparedCard {
  readonly what: string;
  /** What a change of light is made for: algae, growth, nitrate and phosphate. The rest says what else became different. */
  readonly isMain: boolean;
  readonly unit: string;
  readonly before: SideCard;
  readonly after: SideCard;
  /** After is higher by; null where readings are too few, or censored so that an end is open. */
  readonly shift: { readonly low: number | null; readonly high: number | null } | null;
  readonly low: number | null;
  readonly high: number | null;
  /** Of the interval from low to high, in per cent. */
  readonly confidence: number | null;
  /** `-2 (96 % interval -2 to -1)`; why there is none. */
  readonly text: string;
  /** Whether the interval, with the confidence asked for, leaves one side only. */
  readonly isSure: boolean;
  /** Of algae the chance that a rating after is above one before; empty for the rest. */
  readonly chanceText: string;
}

export interface SideCard {
  readonly count: number;
  /** Of the readings; the ends are the same but for censored readings. */
  readonly low: number | null;
  readonly high: number | null;
  readonly text: string;
}

export interface SisterCard {
  readonly tank: string;
  readonly compared: readonly ComparedCard[];
}
