import type { Tank } from "../book/stations.ts";
import type { Ledger } from "./ledger.ts";
import type { Moment } from "./observer.ts";

/** What a quarantine is made of: who came in, what put its end off, how long signs of disease lasted. */

/** Animals that came into the water, with the clock of their own. */
export interface QuarantineArrival {
  readonly how: "arrive" | "move";
  readonly tank: Tank;
  /** The tanks they were moved from; none of what came from outside. */
  readonly from: readonly string[];
  readonly species: string;
  readonly animals: number;
  /** The number is an estimate. */
  readonly isAbout: boolean;
  readonly lot: string;
  readonly day: number;
  /** The first day on which their own clock is over: nothing ends it sooner. */
  readonly end: number;
  readonly at: Moment;
}

/** `over`: the day on which signs that lasted were over. */
export type PutOffBy = "arrive" | "move" | "loss" | "signs" | "over" | "dose" | "bath";

/** What gave the clock its end, or put it off. */
export interface PutOff {
  readonly by: PutOffBy;
  /** The case or the remedy; empty where it is about none. */
  readonly name: string;
  /** The end before it; NaN for what began the clock. */
  readonly from: number;
  readonly to: number;
  readonly day: number;
  readonly at: Moment;
}

export type Settled<T> = T & { readonly settled: number };

/** From the first animals in to the emptied tank, or to the next that came in after it was over. */
export interface QuarantinePeriod {
  /** Settled times, as are those of what it holds. */
  readonly begun: number;
  readonly emptied: number;
  readonly arrivals: readonly Settled<QuarantineArrival>[];
  readonly putOff: readonly Settled<PutOff>[];
  readonly signs: readonly { readonly name: string; readonly from: number; readonly to: number }[];
}

/** The quarantine tanks of a water. */
export function quarantineTanks(ledger: Ledger): readonly Tank[] {
  return ledger.body?.tanks.filter(({ role }) => role === "quarantine") ?? [];
}

/** Days from a loss or a sign to the end: those stated to be clear, else the clock anew. */
export const runDays = ({ book }: Ledger): number =>
  Math.round(Number.isNaN(book.clearDays) ? book.quarantineDays : book.clearDays);
