import { isOpen } from "./brood-course.ts";
import { type Brood, broodsUntil, waitDaysOf } from "./broods.ts";
import { type Culture, culturesOn } from "./cultures.ts";
import { type Expected, nextExpected } from "./development.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Logbook } from "./logbook.ts";
import { type Quarantine, quarantineUntil } from "./quarantine.ts";
import { hasLeft, hasResult, journeyOf, type Step, samplesUntil } from "./samples.ts";

/** What comes of itself on some days, whoever is there: eggs that hatch, cultures that are ready, clocks that end, results that may come. */
export interface ComesMeanwhile {
  /** Their window meets the days. */
  readonly broods: readonly { readonly brood: Brood; readonly expected: Expected }[];
  /** Batches that are ready then, and what begins to give. */
  readonly cultures: readonly Culture[];
  readonly quarantines: readonly Quarantine[];
  readonly results: readonly AwaitedResult[];
}

/** Samples that left and have no result yet: a parcel of a case. */
export interface AwaitedResult {
  readonly case: string;
  /** Empty where nobody wrote it. */
  readonly laboratory: string;
  /** When it left the keeper's hands. */
  readonly left: Step;
}

/** No result is waited for any longer. A choice of this tool. */
const longestDays = 60;

/** By what is known at the end of a day before. */
export function comesMeanwhile(logbook: Logbook, from: number, until: number, day: number): ComesMeanwhile {
  const meets = (first: number, last: number): boolean => first < until + 1 && last >= from;
  return {
    broods: broodsUntil(logbook, day)
      .filter((brood) => isOpen(brood, day, waitDaysOf(logbook, brood.species)))
      .flatMap((brood) => {
        const expected = nextExpected(logbook, brood, day);
        return expected !== undefined && meets(expected.earliest, expected.latest)
          ? [{ brood, expected }]
          : [];
      }),
    cultures: culturesOn(logbook, day).filter(
      ({ is, readyFrom, readyUntil }) =>
        (is === "growing" && meets(readyFrom, Number.isNaN(readyUntil) ? readyFrom : readyUntil)) ||
        (is === "ready" && readyUntil < until + 1),
    ),
    quarantines: logbook.ledgers.flatMap((ledger) => {
      const clock = quarantineUntil(logbook, ledger, day, Number.POSITIVE_INFINITY);
      return clock !== undefined && clock.end > day && meets(clock.end, clock.end) ? [clock] : [];
    }),
    results: awaitedResults(logbook, day),
  };
}

/** A parcel once, whatever was in it. */
export function awaitedResults(logbook: Logbook, day: number): AwaitedResult[] {
  return keptFor(logbook, `awaited results ${day}`, () => {
    const log = samplesUntil(logbook, day);
    const found = new Map<Step, AwaitedResult>();
    for (const sample of log.samples) {
      const journey = journeyOf(sample, log);
      if (journey === undefined || !hasLeft(journey) || hasResult(sample, log)) continue;
      const { left, laboratory, steps } = journey;
      if (left.day <= day - longestDays) continue;
      const to =
        laboratory || sample.laboratory || steps.map((step) => step.to).find((each) => each !== "") || "";
      found.set(left, { case: sample.case, laboratory: to, left });
    }
    return [...found.values()];
  });
}
