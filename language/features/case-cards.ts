import type { RateName } from "../room/case-rates.ts";
import type { CoursesCard } from "./course-cards.ts";
import type { ExposureCard } from "./exposure-cards.ts";
import type { ExposureGraph } from "./pictures/exposure-graph.ts";
import type { Location } from "./view.ts";
import type { WhyCard } from "./why-card.ts";

/** A case in a list: plain JSON, null where a figure is not known. Days as cards have them (`cards.ts`). */
export interface CaseItemCard {
  readonly name: string;
  /** From 1: a case that was closed and comes back is told as one more. */
  readonly episode: number;
  readonly since: number;
  readonly closed: number | null;
  /** `recovered`; empty where it is open, or nothing was said. */
  readonly outcome: string;
  /** `open, day 12`, `closed 2 November: recovered`. */
  readonly state: string;
  readonly species: readonly string[];
  /** `3 of 14 praecox show signs; 5 affected, 2 dead`. */
  readonly text: string;
  readonly affected: number | null;
  readonly ever: number;
  /** Affected ever is a least. */
  readonly isLeast: boolean;
  readonly atRisk: number | null;
  readonly dead: number;
  /** Where its sick are, in the order in which they came there. */
  readonly tanks: readonly CaseTankCard[];
  /** What its latest entry is written of: where it would be closed. */
  readonly target: string;
  /** The first entry. */
  readonly at: Location | null;
}

/** All that is told of a case. */
export interface CaseCard extends CaseItemCard {
  readonly is: "case";
  /** The day it is true for. */
  readonly day: number;
  readonly episodes: readonly CaseEpisodeCard[];
  readonly places: readonly CasePlaceCard[];
  readonly rates: readonly CaseRateCard[];
  /** Why there is no attack rate; empty where there is one. */
  readonly unknown: string;
  /** Every day from the first signs until it was closed, or today. */
  readonly curve: readonly CaseDayCard[];
  readonly signs: readonly CaseSignCard[];
  readonly courses: CoursesCard;
  readonly samples: readonly CaseSampleCard[];
  readonly results: readonly CaseResultCard[];
  readonly questions: readonly CaseLineCard[];
  /** Null where no sign was written in any water. */
  readonly exposure: ExposureCard | null;
  /** The same as a picture. */
  readonly graph: ExposureGraph | null;
  /** What names it, and what belongs to it, in order of time. */
  readonly entries: readonly CaseLineCard[];
  readonly caution: string;
}

export interface CaseEpisodeCard {
  readonly episode: number;
  readonly since: number;
  readonly closed: number | null;
}

export interface CaseTankCard {
  readonly name: string;
  readonly title: string;
  readonly from: number;
  /** `signs since 1 March`, `sick moved in 3 March`. */
  readonly text: string;
  readonly at: Location | null;
}

/** Animals of one species in one place. */
export interface CasePlaceCard {
  readonly of: string;
  readonly species: string;
  readonly lot: string;
  readonly affected: number;
  readonly present: number | null;
  readonly ever: number;
  readonly atRisk: number | null;
  readonly dead: number;
}

export interface CaseRateCard {
  readonly is: RateName;
  readonly title: string;
  readonly count: number;
  readonly outOf: number;
  /** 0 to 1. */
  readonly best: number;
  readonly low: number;
  readonly high: number;
  readonly isLeast: boolean;
  readonly text: string;
  readonly why: WhyCard;
}

export interface CaseDayCard {
  readonly day: number;
  readonly fresh: number;
  readonly dead: number;
  /** Showing signs of those there, on days on which somebody counted them. */
  readonly affected: number | null;
  readonly present: number | null;
  /** The interval of the share that shows signs, 0 to 1; null where it is not told. */
  readonly low: number | null;
  readonly high: number | null;
  /** `1 March: 2 new, 1 dead; 3 of 13 show signs`. */
  readonly text: string;
}

export interface CaseSignCard {
  /** Empty for what the vocabulary does not know. */
  readonly site: string;
  readonly word: string;
  readonly gloss: string;
  readonly grade: string;
  readonly first: number;
  readonly last: number;
  readonly times: number;
  readonly at: Location | null;
}

export interface CaseSampleCard {
  /** `2 gill of praecox, formalin at 10 %`. */
  readonly text: string;
  readonly day: number;
  readonly container: string;
  readonly laboratory: string;
  /** `not sent`, `sent 4 March`, `received 6 March`. */
  readonly state: string;
  readonly steps: readonly CaseLineCard[];
  readonly caution: string;
  readonly at: Location | null;
}

export interface CaseResultCard {
  readonly day: number;
  /** `positive`, `negative`, `inconclusive`; empty where nothing is said. */
  readonly outcome: string;
  readonly note: string;
  readonly at: Location | null;
}

export interface CaseLineCard {
  readonly day: number;
  readonly clock: string;
  /** The word of its kind. */
  readonly kind: string;
  /** As it is written, without its time. */
  readonly text: string;
  /** `named`: it names the case. `linked`: it belongs to it by its tank and its day. `after`: it names the case after its close. */
  readonly by: "named" | "linked" | "after";
  readonly at: Location | null;
}

/** All cases of a logbook, for the casebook. */
export interface CasebookCard {
  readonly day: number;
  /** The latest first. */
  readonly open: readonly CaseItemCard[];
  readonly closed: readonly CaseItemCard[];
}
