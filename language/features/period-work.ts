import { spokenDay } from "../book/dates.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { days } from "../checks/words.ts";
import { actAt, placeOf } from "../room/due.ts";
import { type DutyRecord, dutyRecords } from "../room/duty-record.ts";
import type { Period } from "../room/stock-book.ts";
import type { MissedCard, WorkCard, WorkSumCard } from "./period-cards.ts";
import { locationOf } from "./view.ts";

/** Work of a period: done in time, late, and not at all, by kind of work and by place. */

export interface PeriodWork {
  readonly card: WorkCard;
  readonly records: readonly DutyRecord[];
}

export function periodWork(checked: CheckedLogbook, period: Period): PeriodWork {
  const records = dutyRecords(checked.logbook, period);
  const told = records.filter((record) => isTold(record));
  const { book } = checked;
  const placeNamed = ({ duty }: DutyRecord): string => placeOf(book, duty.station).name;
  const actOf = ({ duty }: DutyRecord): string => actAt(book, duty, placeOf(book, duty.station));
  return {
    card: {
      acts: sumsBy(told, ({ duty }) => wordOfAct(duty.act)),
      places: sumsBy(told, placeNamed),
      total: sumOf("", told),
      missed: told
        .filter(isMissed)
        .map((record) => missedCard(record, placeNamed(record), actOf(record), period)),
    },
    records,
  };
}

const wordOfAct = (act: string): string => act.split(" ")[0]!;

/** What was neither done nor due in the period is not told. */
const isTold = (record: DutyRecord): boolean =>
  record.duty.form.when === "at most"
    ? record.daysOff > 0
    : record.doneDays.length > 0 || record.open !== undefined || record.daysOff > 0;

const isMissed = ({ late, open, daysOff }: DutyRecord): boolean =>
  late.length > 0 || open !== undefined || daysOff > 0;

function sumsBy(records: readonly DutyRecord[], nameOf: (record: DutyRecord) => string): WorkSumCard[] {
  const groups = new Map<string, DutyRecord[]>();
  for (const record of records) {
    const name = nameOf(record);
    const known = groups.get(name);
    if (known === undefined) groups.set(name, [record]);
    else known.push(record);
  }
  return [...groups].map(([name, group]) => sumOf(name, group));
}

function sumOf(name: string, records: readonly DutyRecord[]): WorkSumCard {
  // What may be done at most so often is no work that is owed.
  const owed = records.filter(({ duty }) => duty.form.when !== "at most");
  const late = owed.flatMap((record) => record.late.map(({ due, done }) => done - due));
  const count = (of: (record: DutyRecord) => number): number =>
    owed.reduce((sum, record) => sum + of(record), 0);
  return {
    name,
    done: count(({ doneDays }) => doneDays.length),
    inTime: count(({ inTime }) => inTime),
    late: late.length,
    lateDays: late.length === 0 ? null : late.reduce((sum, each) => sum + each, 0) / late.length,
    open: count(({ open }) => Number(open !== undefined)),
    off: records.filter(({ daysOff }) => daysOff > 0).length,
  };
}

function missedCard(record: DutyRecord, place: string, act: string, period: Period): MissedCard {
  const { duty, late, open, daysOff } = record;
  const { form } = duty;
  const span = days(form.periodDays);
  return {
    place,
    act,
    when: form.when === "every" ? `every ${span}` : `${form.when} ${form.times} in ${span}`,
    late: late.map((each) => ({ ...each, days: each.done - each.due })),
    open: open ?? null,
    daysOff,
    text: missedText(record, period),
    at: locationOf(duty.place),
  };
}

function missedText({ duty, late, open, daysOff }: DutyRecord, { from, to }: Period): string {
  const { form } = duty;
  if (form.when !== "every")
    return form.when === "at most"
      ? `more often than ${form.times === 1 ? "once" : `${form.times} times`} on ${days(daysOff)}`
      : `too few on ${daysOff} of ${days(to - from + 1)}`;
  const parts: string[] = [];
  if (late.length > 0) {
    const most = Math.max(...late.map(({ due, done }) => done - due));
    const [first] = late;
    parts.push(
      late.length === 1
        ? `${days(most)} late on ${spokenDay(first!.done, to)}`
        : `late ${late.length} times, by ${days(most)} at most`,
    );
  }
  if (open !== undefined)
    parts.push(
      open.late === 0
        ? "due on the last day, not done by then"
        : `due on ${spokenDay(open.due, to)}, not done by the end: ${days(open.late)}`,
    );
  return parts.join("; ");
}
