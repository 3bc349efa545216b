import type { Why } from "./why.ts";

/** `fasting` speaks against shipping only. */
export type Against =
  | "service"
  | "quarantine"
  | "arrival"
  | "remedy"
  | "withdrawal"
  | "case"
  | "count"
  | "fasting";

export interface Reason {
  readonly is: Against;
  /** The first day on which it no longer speaks against it, if nothing comes in between; Infinity where nobody can say. */
  readonly until: number;
  /** The remedy, the case or the species; empty where it is about none. */
  readonly name: string;
  /** Of a count the animals that are missing, of a remedy what is in the water, of fasting the time by which it is enough; else NaN. */
  readonly amount: number;
  /** Made when it is asked for: most reasons are never looked at. */
  readonly why: () => Why;
}
