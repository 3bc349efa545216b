import { spokenDay } from "../../../../language/book/dates.ts";
import type { FilePlace } from "../../../../language/server/protocol.ts";

/** The places of a chart at which the cursor stops: what was read or given, what is today, what lies ahead. @template At where it is written */
export interface Stop<At = FilePlace> {
  /** In days; on a chart of places side by side the number of the place. */
  readonly time: number;
  /** Where it stands on the chart; null where nobody can say. */
  readonly value: number | null;
  /** `35 mg/L`. */
  readonly text: string;
  /** What is to be said beside it: `outside the limit`, `tested in r4`. */
  readonly remark: string;
  /** Where it is written; null for what is computed. */
  readonly at: At | null;
  /** What it is called where it is no day. */
  readonly name?: string;
}

/** A stop in words: `30 March: 35 mg/L, outside the limit`. */
export function stopWords(stop: Stop<unknown>, now: number): string {
  const { time, text, remark, name } = stop;
  return `${name ?? spokenDay(Math.floor(time), now)}: ${text}${remark === "" ? "" : `, ${remark}`}`;
}

/** The stop nearest to a time; -1 if there is none. */
export function nearestStop(stops: readonly Stop<unknown>[], time: number): number {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  stops.forEach((stop, at) => {
    const far = Math.abs(stop.time - time);
    if (far < least) {
      best = at;
      least = far;
    }
  });
  return best;
}

/** Where a key leads from a stop; undefined for a key that leads nowhere. From no stop, to the last thing that was read. */
export function stopAfterKey(
  key: string,
  at: number | undefined,
  stops: readonly Stop<unknown>[],
  now: number,
): number | undefined {
  const last = stops.length - 1;
  if (last < 0) return undefined;
  const step = { ArrowLeft: -1, ArrowRight: 1, PageUp: -10, PageDown: 10 }[key];
  if (key === "Home") return 0;
  if (key === "End") return last;
  if (step === undefined) return undefined;
  if (at === undefined)
    return Math.max(
      0,
      stops.findLastIndex((stop) => stop.at !== null && stop.time <= now),
    );
  return Math.min(last, Math.max(0, at + step));
}
