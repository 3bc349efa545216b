import type { Parameter } from "../book/parameters.ts";
import type { Block } from "../book/source.ts";
import type { Body, Duty, Limit, Remedy, Species, Station, Tank } from "../book/stations.ts";

/**
 * What a ledger tells while it reads the log: what happened and what was known just then. Checks turn it into findings, hints
 * into the text at the end of a line. Every method gets the row it is about.
 */
export interface Observer {
  reading?(at: Moment, reading: ReadingSeen): void;
  change?(at: Moment, change: ChangeSeen): void;
  topUp?(at: Moment, volumeL: number, body: Body): void;
  dose?(at: Moment, dose: DoseSeen): void;
  /** A course ended without all its doses: `at` is its last dose. */
  courseCut?(at: Moment, course: CourseSeen): void;
  count?(at: Moment, count: CountSeen): void;
  /** Animals that leave a tank, by a loss, move, sale or shipment. */
  leave?(at: Moment, leave: LeaveSeen): void;
  /** Animals that come into a tank, by an arrival, hatch or move. */
  enter?(at: Moment, enter: EnterSeen): void;
  duty?(at: Moment, duty: DutySeen): void;
  /** What is needed to go back to this point; given to `reset` as it is. */
  mark?(): number;
  reset?(mark: number): void;
  /** What was told after a mark; given to `addBehind` as it is, to be told again without so many of the first things. */
  behind?(mark: number): unknown;
  addBehind?(told: unknown, without: number): void;
}

export interface Moment {
  /** In days. */
  readonly time: number;
  readonly block: Block;
  /** The number by which the row is referred to: `rowOfId` finds it. */
  readonly row: number;
}

export interface ReadingSeen {
  readonly tank: Station;
  readonly body: Body;
  readonly parameter: Parameter;
  /** Canonical; equal for a plain reading, apart for a range or a censored one. */
  readonly low: number;
  readonly high: number;
  readonly limit: Limit | undefined;
  /** Its place in the body's series of the parameter; -1 if it cannot be and was left out. Later edits may move it. */
  readonly index: number;
  /** The place of its row among those of the same minute in this water. */
  readonly order: number;
}

export interface ChangeSeen {
  readonly tank: Station;
  readonly body: Body;
  readonly volumeL: number;
  /** Of the whole body, new water after it. */
  readonly fraction: number;
  readonly isFlow: boolean;
  /** As asked for, over the tank; more than 1 cannot be in a batch. */
  readonly asked: number;
}

export interface DoseSeen {
  readonly tank: Station;
  readonly body: Body;
  readonly remedy: Remedy;
  /** In the remedy's unit; NaN if it cannot be computed, with the reason in `unknown`. */
  readonly added: number;
  readonly before: number;
  readonly after: number;
  readonly unknown: string | undefined;
  /** Which dose of its course, from 1. */
  readonly number: number;
  /** Days since the dose before in the same course; NaN for the first. */
  readonly sinceDays: number;
  /** New water between that dose and this one, as a fraction. */
  readonly changedSince: number;
  readonly previous: Moment | undefined;
  readonly harmed: readonly Species[];
}

export interface CourseSeen {
  readonly body: Body;
  readonly remedy: Remedy;
  readonly given: number;
  /** When the missing dose was due. */
  readonly due: number;
}

export interface CountSeen {
  readonly tank: Tank;
  readonly species: string;
  /** The lot that alone was counted; empty for all of the species. What is expected is then of the lot. */
  readonly lot: string;
  readonly low: number;
  readonly high: number;
  readonly isAbout: boolean;
  /** How many of how many were seen; NaN otherwise. */
  readonly of: number;
  /** By the book before this count; NaN if the book knows nothing. */
  readonly expected: number;
  readonly isExpectedAbout: boolean;
  /** The count before; NaN if there was none. */
  readonly lastCount: number;
  readonly lastTime: number;
}

export interface LeaveSeen {
  readonly tank: Tank;
  readonly species: string;
  readonly animals: number;
  /** By the book before; NaN if the book knows nothing. */
  readonly there: number;
  readonly isAbout: boolean;
  /** The lot that is named; empty where none is. */
  readonly lot: string;
  /** Of the lot there before, by the entries that name it; NaN if nobody knows. */
  readonly ofLot: number;
  readonly how: "lose" | "move" | "sell" | "ship";
  readonly to: Tank | undefined;
}

export interface EnterSeen {
  readonly tank: Tank;
  readonly species: string;
  readonly animals: number;
  readonly after: number;
  readonly how: "arrive" | "hatch" | "move";
}

export interface DutySeen {
  readonly duty: Duty;
  /** How often in its period up to now, this time included; for `at most`. */
  readonly times: number;
}
