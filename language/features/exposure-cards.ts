import type { HopKind } from "../checks/exposure-words.ts";
import type { Location } from "./view.ts";

/** What a case, a result or a tank on a day may have reached, and where it may have come from, as plain JSON. Days as in `cards.ts`. */

export interface ExposureCard {
  readonly is: "exposure";
  /** The case; empty for signs without one, and for a tank that was asked for. */
  readonly case: string;
  /** `Case flukes-1`, `Signs of disease in b3`, `b3 on 3 March 2026`. */
  readonly title: string;
  readonly by: "signs" | "result" | "asked";
  /** The days that are looked at, both counted: the last is today, or the day the case was closed. */
  readonly from: number;
  readonly day: number;
  /** Null while the case is open, and for a tank. */
  readonly closed: number | null;
  readonly windowDays: number;
  /** `contacts from 30 days before the first signs on`. */
  readonly windowText: string;
  readonly origins: readonly OriginCard[];
  /** To hold, the first first: signs, then by how close the contact is, the number of links, the day. */
  readonly hold: readonly HeldCard[];
  /** Not reached again for longer than the window, and no sign was written. */
  readonly past: readonly HeldCard[];
  /** Of which the exposure was ended. */
  readonly ended: readonly EndedCard[];
  /** Tools that were not disinfected since. */
  readonly tools: readonly ToolCard[];
  /** All that was reached, in order of time: tanks, tools, buyers. */
  readonly forward: readonly ReachedCard[];
  /** From where it may have come, the latest first. */
  readonly back: readonly ReachedCard[];
  /** What else a consignment or a barrel it may have come from has reached. */
  readonly beside: readonly BesideCard[];
  readonly cuts: readonly CutCard[];
  readonly lanes: readonly LaneCard[];
  readonly arrows: readonly ArrowCard[];
}

export interface OriginCard {
  readonly place: string;
  readonly day: number;
  readonly how: "signs" | "sample" | "result" | "asked";
  readonly text: string;
  readonly at: Location | null;
}

/** A link of a way, or water that is shared on it. */
export interface StepCard {
  readonly time: number;
  readonly kind: HopKind;
  readonly from: string;
  readonly to: string;
  /** `praecox moved from a to b`. */
  readonly text: string;
  readonly at: Location | null;
}

export interface HeldCard {
  readonly tank: string;
  readonly isOrigin: boolean;
  /** `signs`, `sampled`, `asked for`, or how close: `animals`, `water`, `plants, wood, media`, `tools`. */
  readonly kind: string;
  readonly links: number;
  readonly since: number;
  /** The last time anything came into its water from what may have had it. */
  readonly last: number;
  readonly why: string;
  readonly steps: readonly StepCard[];
}

export interface EndedCard {
  readonly tank: string;
  readonly since: number;
  readonly ended: number;
  readonly text: string;
  readonly at: Location | null;
}

export interface ToolCard {
  readonly name: string;
  readonly since: number;
  readonly last: number;
}

export interface ReachedCard {
  readonly name: string;
  readonly is: "tank" | "tool" | "barrel" | "consignment" | "party";
  /** Forward when it was first reached, backward when it was last left. */
  readonly time: number;
  readonly links: number;
  /** It is, or is of the water of, one of the origins. */
  readonly isOrigin: boolean;
  /** `a > net > b`. */
  readonly path: string;
  readonly steps: readonly StepCard[];
}

export interface BesideCard {
  readonly source: string;
  readonly reached: readonly ReachedCard[];
}

export interface CutCard {
  readonly name: string;
  readonly time: number;
  readonly how: "disinfected" | "emptied";
  readonly text: string;
  readonly at: Location | null;
}

export interface LaneCard {
  readonly name: string;
  readonly is: ReachedCard["is"];
  readonly isOrigin: boolean;
  /** When it may have had it; the end is null while nothing ended it. */
  readonly spells: readonly { readonly from: number; readonly to: number | null }[];
  readonly signs: readonly number[];
  readonly cuts: readonly number[];
}

export interface ArrowCard {
  readonly time: number;
  readonly from: string;
  readonly to: string;
  readonly kind: HopKind;
  readonly text: string;
  readonly way: "forward" | "back" | "beside";
}
