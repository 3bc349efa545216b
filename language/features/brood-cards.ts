import type { Location } from "./view.ts";
import type { WhyCard } from "./why-card.ts";

/** What is shown of broods: plain JSON, null where a figure is not known. Days are as in `cards.ts`. */

export interface BroodCard {
  /** `p7`; of a brood without a name `praecox in b1, 2026-03-01`. */
  readonly name: string;
  /** Empty for a brood without a name. */
  readonly lot: string;
  readonly title: string;
  readonly species: string;
  readonly state: "eggs" | "hatched" | "swimming" | "gone" | "lost";
  /** There is something to wait for, or to rear. */
  readonly isOpen: boolean;
  /** `eggs in b6 since 17 March`, `32 in b7`. */
  readonly stateText: string;
  /** The tank in which the eggs or the first young are. */
  readonly of: string;
  /** Animals by tank. */
  readonly where: readonly { readonly tank: string; readonly count: number; readonly text: string }[];
  /** Of an entry without a lot: how many spawnings it may belong to. */
  readonly among: number;
  /** In order of time; what is not written is left out. */
  readonly stages: readonly BroodStageCard[];
  readonly shares: readonly BroodShareCard[];
  /** What is to come next; null where nothing is, or nothing tells. */
  readonly expected: BroodExpectedCard | null;
  /** What it took: from laid to hatched, from hatched to swimming. */
  readonly took: readonly {
    readonly stage: "hatch" | "swim";
    readonly days: number;
    readonly degreeDays: number | null;
    readonly meanC: number | null;
    readonly text: string;
  }[];
  readonly father: string;
  readonly mother: string;
  readonly line: string;
  readonly generation: string;
  readonly inbreeding: {
    /** Fractions. */
    readonly low: number;
    readonly high: number;
    readonly text: string;
    readonly why: WhyCard;
  } | null;
  /** Its first entry. */
  readonly at: Location | null;
}

export interface BroodStageCard {
  readonly stage: "laid" | "alive" | "hatched" | "swimming" | "living";
  /** Of `living` the day it is true for. */
  readonly day: number;
  readonly count: number | null;
  readonly isAbout: boolean;
  readonly text: string;
  readonly at: Location | null;
}

export interface BroodShareCard {
  /** `hatched of laid`. */
  readonly what: string;
  readonly count: number;
  readonly outOf: number;
  readonly isAbout: boolean;
  /** Null where more were counted than there can have been. */
  readonly share: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly text: string;
  readonly why: WhyCard;
}

export interface BroodExpectedCard {
  readonly stage: "hatch" | "swim";
  readonly by: "own broods" | "stated" | "days alone";
  /** Null where it is not in sight. */
  readonly earliest: number | null;
  readonly likely: number | null;
  readonly latest: number | null;
  /** `about 8 March (6 to 10 March)`. */
  readonly text: string;
  /** `due` within the window, `late` past it. */
  readonly is: "ahead" | "due" | "late";
  /** Null for days alone. */
  readonly degreeDays: { readonly low: number; readonly high: number; readonly soFar: number | null } | null;
  readonly why: WhyCard;
}

/** What a pair, or a tank, has given. */
export interface PairCard {
  readonly name: string;
  readonly species: string;
  readonly father: string;
  readonly mother: string;
  readonly spawnings: number;
  readonly interval: {
    readonly median: number;
    readonly least: number;
    readonly most: number;
    readonly text: string;
  } | null;
  /** Medians of single spawnings. */
  readonly eggs: number | null;
  readonly young: number | null;
  readonly eggsText: string;
  readonly youngText: string;
  readonly eggsAMonth: number | null;
  readonly youngAMonth: number | null;
  readonly shares: readonly Omit<BroodShareCard, "why">[];
  /** Of the young of both; null where a parent is not named. */
  readonly inbreeding: string | null;
  readonly at: Location | null;
}

/** The pair of a species that gave most, held against the others. */
export interface ComparedCard {
  readonly species: string;
  readonly best: string;
  readonly other: string;
  readonly of: "young" | "eggs";
  readonly p: number | null;
  readonly isApart: boolean;
  /** `m1 × f1 gave more young at a spawning than m2 × f2 (p 0.008)`. */
  readonly text: string;
}

/** All broods of a logbook, as of a day. */
export interface BroodsCard {
  readonly day: number;
  /** The open ones first, the soonest to come before the later; then the others, the latest first. */
  readonly broods: readonly BroodCard[];
  readonly pairs: readonly PairCard[];
  readonly compared: readonly ComparedCard[];
}

/** A lot with its whole course, its ancestors and its young. */
export interface LotCard {
  readonly name: string;
  readonly title: string;
  readonly species: string;
  /** Empty where it is not stated. */
  readonly sex: string;
  readonly line: string;
  readonly generation: string;
  readonly born: number | null;
  /** Null for a lot that is no brood of this room. */
  readonly brood: BroodCard | null;
  readonly entries: readonly {
    readonly day: number;
    readonly text: string;
    readonly at: Location | null;
  }[];
  readonly ancestors: readonly AncestorCard[];
  readonly inbreeding: BroodCard["inbreeding"];
  /** Broods of which it is a parent. */
  readonly young: readonly { readonly name: string; readonly text: string; readonly at: Location | null }[];
}

export interface AncestorCard {
  readonly name: string;
  /** `father`, `father's mother`. */
  readonly as: string;
  /** Generations back, from 1. */
  readonly back: number;
  readonly title: string;
  readonly species: string;
  readonly line: string;
  readonly generation: string;
  /** Several animals, one of which it is. */
  readonly isGroup: boolean;
  /** Empty where its parents are not known. */
  readonly inbreedingText: string;
  readonly at: Location | null;
}
