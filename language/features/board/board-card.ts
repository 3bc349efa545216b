import type { Location } from "../view.ts";

/**
 * The board: what to do today in a room, in the order of the round, and what to know while doing it. Plain JSON, so that it goes over a wire as
 * it is: null where a figure is not known, never NaN or Infinity. Days are whole numbers of days since 1970-01-01.
 */
export interface BoardCard {
  /** The room's title; empty if it has none. */
  readonly title: string;
  readonly day: number;
  /** `Tuesday 24 November 2026`. */
  readonly dayText: string;
  /** Why nobody works today, perhaps empty; null on a day with work. */
  readonly away: string | null;
  /** In service today; 0 is a room without tanks. */
  readonly tanks: number;
  /** Tanks, litres, minutes: done, to do, and what a day holds. */
  readonly load: readonly BoardLoad[];
  /** Places with something due, in the order of hands. */
  readonly stops: readonly BoardStop[];
  /** What was not fed yet today, as it is usually fed, in the order of hands. */
  readonly feeds: readonly BoardTask[];
  /** What to know: only sections that say something. */
  readonly notices: readonly BoardSection[];
  /** Lines of today's blocks, the latest first. */
  readonly done: readonly BoardDone[];
  /** The plan of the days after today. */
  readonly coming: readonly BoardDay[];
  /** Whether the room fits its keeper, and what would fix it; empty where there is nothing to say. */
  readonly fit: readonly string[];
  /** There are boxes to fill on a round sheet. */
  readonly hasRound: boolean;
  /** The usual cautions that what is shown calls for; may be empty. */
  readonly cautions: readonly string[];
}

export interface BoardLoad {
  readonly is: "tanks" | "litres" | "minutes";
  readonly done: number;
  /** What is still due today. */
  readonly open: number;
  /** What the room states for a day; null where it states none. */
  readonly most: number | null;
  /** `2 of 7 tanks done, 5 to do`. */
  readonly text: string;
}

export interface BoardStop {
  /** The tank, system, gear or `room`. */
  readonly at: string;
  readonly title: string;
  /** `healthy`, `quarantine`: see `room/hand-order.ts`. */
  readonly stage: string;
  /** Why it is of its stage: `case flukes-1 is open`; empty for the usual. */
  readonly reason: string;
  /** What to do before it; empty where it is no dirtier than the stop before. */
  readonly before: string;
  readonly tasks: readonly BoardTask[];
  readonly place: Location | null;
  /** A card can be shown of it. */
  readonly hasCard: boolean;
}

/** Something to do, that one line of the log says is done. */
export interface BoardTask {
  /** The same for the same task as long as it is due. */
  readonly key: string;
  /** What the line begins with: `dam`, `@rack`. */
  readonly target: string;
  /** The word of its kind: `change`. */
  readonly kind: string;
  /** How it may be written, the usual first; never empty. */
  readonly ways: readonly BoardWay[];
  /** Whole days; 0 is due today, below 0 early or not owed. */
  readonly late: number;
  /** `3 days late`, `today`, `1 of 3 in 7 days`. */
  readonly when: string;
  /** `done 20 March`, `never done`; empty where that says nothing. */
  readonly last: string;
  /** Why it matters now: `nitrate meets 25 mg/L about 1 December`; empty where there is nothing to say. */
  readonly why: string;
  /** `18 to 32 L`; empty for what needs none. */
  readonly litres: string;
  /** Caution for what can harm; empty for most. */
  readonly caution: string;
  /** Where it is stated. */
  readonly place: Location | null;
}

/** A line without its target: `change 30 %`; what has to be measured or seen is left blank. */
export interface BoardWay {
  readonly words: string;
  /** In order, behind the words. */
  readonly blanks: readonly BoardBlank[];
  /** Behind the last blank: a unit. */
  readonly end: string;
}

export interface BoardBlank {
  /** Stands between what comes before and the value: `nitrate `, `, pH `. */
  readonly before: string;
  /** `nitrate, mg/L`: the name of its box. */
  readonly label: string;
  /** What was measured or seen last, and when: `18 on 20 March`; empty if never. */
  readonly last: string;
}

export interface BoardSection {
  readonly is:
    | "merge"
    | "water"
    | "unseen"
    | "cases"
    | "quarantine"
    | "remedies"
    | "broods"
    | "orders"
    | "expiry"
    | "absence";
  readonly title: string;
  readonly lines: readonly BoardLine[];
}

export interface BoardLine {
  /** The same for the same fact. */
  readonly key: string;
  /** What it is about: `dam nitrate`. */
  readonly name: string;
  readonly text: string;
  /** `bad`: a limit is crossed, an order late. `soon`: it will be. */
  readonly tone: "bad" | "soon" | "plain";
  /** What answers it; null where nothing is to be written. */
  readonly task: BoardTask | null;
  readonly place: Location | null;
  /** Has a card of its own in the preview; null for none. */
  readonly card: { readonly tank: string } | { readonly case: string; readonly episode: number } | null;
}

export interface BoardDone {
  /** The whole line as it stands in the log, without indentation. */
  readonly line: string;
  /** `08:40`; empty if none was written. */
  readonly clock: string;
  readonly place: Location;
}

export interface BoardDay {
  readonly day: number;
  /** `Wed 25 Nov`. */
  readonly dayText: string;
  /** Null on a day with work. */
  readonly away: string | null;
  /** `dam change, clean; r1 .. r4 clean`. */
  readonly text: string;
  /** `92 L`, empty for none. */
  readonly litres: string;
  /** `40 min`, empty where nothing is known. */
  readonly minutes: string;
  /** Still owed when it ends; empty if nothing. */
  readonly owed: string;
  /** What the plan of yesterday had on another day, with why: `dam clean from 9 March: the tanks of 9 March are full with …`. */
  readonly moved: readonly string[];
}
