import type { Book } from "../book/book.ts";
import { Kind } from "../book/entries/registry.ts";
import { absenceOn, capacityOn, isWorked } from "./capacity.ts";
import { type ComesMeanwhile, comesMeanwhile } from "./comes-meanwhile.ts";
import { type CourseStep, courseSteps } from "./course-steps.ts";
import { type DueDuty, dutiesOn } from "./due.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import { type OrderState, ordersOn } from "./orders.ts";
import { type Treatment, treatmentsOf } from "./treatments.ts";

/** What falls due while nobody works: what to do before it, and what nobody does meanwhile. */

/** Days one after the other on which nobody works. */
export interface DaysAway {
  readonly from: number;
  readonly until: number;
  /** Of its first absence; undefined where all are weekdays off. */
  readonly why: string | undefined;
  /** Kinds of entries that someone else does on all of them. */
  readonly covered: readonly number[];
}

/** A longer absence is told of on its last working days, so many of them; days off on the last. A choice of this tool. */
const toldDays = 3;
const longDays = 2;
/** Nobody looks further ahead for it. */
const horizonDays = 14;
/** An absence that never ends is told of up to here. */
const longestDays = 400;

/** The stretch of days away that a day lies in; undefined on a day with work. */
export function daysAwayOn(book: Book, day: number): DaysAway | undefined {
  if (isWorked(book, day)) return undefined;
  let from = day;
  while (from > day - longestDays && !isWorked(book, from - 1)) from--;
  let until = day;
  while (until < day + longestDays && !isWorked(book, until + 1)) until++;
  let why: string | undefined;
  let covered: readonly number[] | undefined;
  for (let at = from; at <= until; at++) {
    why ??= absenceOn(book, at)?.why;
    const on = capacityOn(book, at).covered;
    covered = covered?.filter((kind) => on.includes(kind)) ?? on;
  }
  return { from, until, why, covered: covered ?? [] };
}

/** The stretches of days away of which a day is one of the last working days. */
export function daysAwayAhead(book: Book, day: number): DaysAway[] {
  if (!isWorked(book, day)) return [];
  const found: DaysAway[] = [];
  let worked = 1;
  for (let at = day + 1; at <= day + horizonDays && worked <= toldDays; at++) {
    const away = daysAwayOn(book, at);
    if (away === undefined) {
      worked++;
      continue;
    }
    const isLong = away.why !== undefined && away.until - away.from >= longDays;
    if (worked <= (isLong ? toldDays : 1)) found.push(away);
    at = away.until;
  }
  return found;
}

function withoutCovered({ why, covered }: DaysAway, comes: ComesMeanwhile): ComesMeanwhile {
  const kept = covered.includes(Kind.harvest) ? { ...comes, cultures: [] } : comes;
  return why === undefined ? { ...kept, quarantines: [], results: [] } : kept;
}

export interface BeforeAway {
  readonly away: DaysAway;
  /** Falls due while nobody works. */
  readonly work: readonly DueDuty[];
  /** Falls due at least twice in it, even if it is done on the last day before: nobody does it, unless somebody is asked to. */
  readonly meanwhile: readonly DueDuty[];
  readonly doses: readonly {
    readonly ledger: Ledger;
    readonly treatment: Treatment;
    readonly number: number;
    readonly due: number;
  }[];
  readonly steps: readonly CourseStep[];
  readonly orders: readonly OrderState[];
  /** What comes of itself; of weekdays off only what cannot wait for the next day. */
  readonly comes: ComesMeanwhile;
}

/** What falls due in some days away, by what is known at the end of a day before. */
export function beforeAway(logbook: Logbook, away: DaysAway, day: number): BeforeAway {
  const { book, ledgers } = logbook;
  const isIn = (due: number): boolean => due >= away.from && due <= away.until;
  const lastDay = away.from - 1;
  const open = book.stations
    .flatMap((station) => dutiesOn(logbook.ledgerOf(station), [station], day))
    .filter(({ duty, due }) => due <= away.until && !away.covered.includes(duty.kind));
  // What falls due once can wait a little; what falls due twice or more has to be done by somebody.
  const isOften = ({ duty }: DueDuty): boolean =>
    lastDay + 2 * Math.round(duty.form.periodDays) <= away.until;
  return {
    away,
    work: open.filter((due) => isIn(due.due) && !isOften(due)),
    // A day off once a week is a day on which it is not done, and no news.
    meanwhile: away.why === undefined ? [] : open.filter(isOften),
    doses: away.covered.includes(Kind.dose)
      ? []
      : ledgers.flatMap((ledger) =>
          treatmentsOf(logbook, ledger, day).flatMap((treatment) =>
            treatment.planned
              .filter(({ due }) => isIn(due))
              .map(({ number, due }) => ({ ledger, treatment, number, due })),
          ),
        ),
    steps: ledgers.flatMap((ledger) => courseSteps(logbook, ledger, day)).filter(({ due }) => isIn(due)),
    orders: ordersOn(logbook, day).filter(({ missing, order }) => missing > 0 && isIn(order.due)),
    comes: withoutCovered(away, comesMeanwhile(logbook, away.from, away.until, day)),
  };
}
