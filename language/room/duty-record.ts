import type { Duty } from "../book/stations.ts";
import { dutyOn } from "./due.ts";
import type { Logbook } from "./logbook.ts";
import type { Period } from "./stock-book.ts";

/**
 * What became of the duties of a period, by the same states as on each of its days (`dutyOn`). Done several times on one day is done once.
 * What was due before the period and was done in it, or never, is of this period.
 */
export interface DutyRecord {
  readonly duty: Duty;
  /** Days on which it was done. */
  readonly doneDays: readonly number[];
  /** Of these: on the day it was due or before, or without being owed. */
  readonly inTime: number;
  /** The others, each with the day it was due. */
  readonly late: readonly { readonly due: number; readonly done: number }[];
  /** Due, and not done by the end of the period; undefined where nothing is open. */
  readonly open: { readonly due: number; readonly late: number } | undefined;
  /** Of `at least`: days at whose end it was done too few times; of `at most`: days with more than it allows. */
  readonly daysOff: number;
  /** Days of the period at whose end it was late, in order. */
  readonly lateDays: readonly number[];
}

/** @param period of which the last day has been lived */
export function dutyRecords(logbook: Logbook, period: Period): DutyRecord[] {
  return logbook.book.stations.flatMap((station) =>
    station.duties.map((duty) => recordOf(logbook, duty, period)),
  );
}

function recordOf(logbook: Logbook, duty: Duty, { from, to }: Period): DutyRecord {
  const ledger = logbook.ledgerOf(duty.station);
  const done = ledger.duties.done(duty);
  const doneDays = new Set<number>();
  for (let at = done.from(from); at < done.length && done.time[at]! < to + 1; at++)
    doneDays.add(Math.floor(done.time[at]!));
  const lateDays: number[] = [];
  let over = 0;
  for (let day = from; day <= to; day++) {
    const { late, times } = dutyOn(ledger, duty, day);
    if (late > 0) lateDays.push(day);
    if (duty.form.when === "at most" && doneDays.has(day) && times > duty.form.times) over++;
  }
  const base = { duty, doneDays: [...doneDays], lateDays };
  if (duty.form.when !== "every")
    return {
      ...base,
      inTime: doneDays.size,
      late: [],
      open: undefined,
      daysOff: duty.form.when === "at most" ? over : lateDays.length,
    };
  // What it was due for is what it was due for on the evening before.
  const late = base.doneDays.flatMap((day) => {
    const { owed: due } = dutyOn(ledger, duty, day - 1);
    return due < day ? [{ due, done: day }] : [];
  });
  const last = dutyOn(ledger, duty, to);
  return {
    ...base,
    inTime: doneDays.size - late.length,
    late,
    open: last.late >= 0 ? { due: last.owed, late: last.late } : undefined,
    daysOff: 0,
  };
}
