import type { Book } from "../book/book.ts";
import { Kind } from "../book/entries/registry.ts";
import type { Duty, Station, Tank } from "../book/stations.ts";
import { workDayFrom } from "./capacity.ts";
import { courseSteps } from "./course-steps.ts";
import { dosesOn, dutiesOn } from "./due.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";

/** Changes of water that fall due: by duties, before a dose, after a course. */

/** New water, the least and the most that will do. */
export interface Litres {
  readonly low: number;
  readonly high: number;
}

export interface ChangeDue {
  /** A tank or a system. */
  readonly station: Station;
  readonly ledger: Ledger;
  /** The day on which it is to be done: what is late, today. */
  readonly day: number;
  /** Whole days past due; 0 if due on the day or later. */
  readonly late: number;
  /** What to do, in the keeper's words or those of a course: `change 25..35 %`. */
  readonly act: string;
  /** Net, of the tank or system; NaN if it is not stated. */
  readonly volumeL: number;
  /** Undefined where the volume is not known. */
  readonly litres: Litres | undefined;
  /** Undefined for what a course owes. */
  readonly duty: Duty | undefined;
}

/** Litres of a duty to change; undefined for another duty, or where the volume is not known. */
export function dutyLitres(book: Book, { kind, form, station, amountIsVolume }: Duty): Litres | undefined {
  const amount = kind === Kind.change ? form.items[0]?.amount : undefined;
  if (amount === undefined) return undefined;
  const volumeL = volumeOf(book, station);
  const litres = (value: number): number =>
    amountIsVolume
      ? book.units.canonical(value, amount.unit, "volume")
      : book.units.canonical(value, amount.unit, "fraction") * volumeL;
  const low = litres(amount.value);
  const high = Number.isNaN(amount.second) ? low : litres(amount.second);
  return Number.isNaN(low) || Number.isNaN(high) ? undefined : { low, high };
}

/**
 * The changes from today to a day, in order of days, each done on its day: what is late counts for today, and what is owed every so
 * many days comes again. What is owed a number of times in a period is told once, as what it then owes hangs on the days it was done.
 */
export function changesDue(logbook: Logbook, today: number, to: number): ChangeDue[] {
  const { book } = logbook;
  const changes = book.stations.flatMap((station) => dutyChanges(logbook, station, today, to));
  for (const ledger of logbook.ledgers)
    for (const owed of courseChanges(logbook, ledger, today, to)) {
      // One change does both: the larger.
      const at = changes.findIndex(({ station, day }) => station === owed.station && day === owed.day);
      if (at < 0) changes.push(owed);
      else changes[at] = both(changes[at]!, owed);
    }
  return changes.sort((a, b) => a.day - b.day);
}

function dutyChanges(logbook: Logbook, station: Station, today: number, to: number): ChangeDue[] {
  const { book } = logbook;
  const ledger = logbook.ledgerOf(station);
  return dutiesOn(ledger, [station], today).flatMap(({ duty, owed, late }) => {
    if (duty.kind !== Kind.change || !Number.isFinite(owed)) return [];
    const litres = dutyLitres(book, duty);
    const volumeL = volumeOf(book, station);
    const workDay = (day: number): number => workDayFrom(book, day, duty.kind);
    const first = late > 0 ? today : Math.max(owed, today);
    const period = duty.form.when === "every" ? Math.round(duty.form.periodDays) : Number.POSITIVE_INFINITY;
    const found: ChangeDue[] = [];
    for (let day = first; day <= to && isThere(station, day); day = workDay(day + period))
      found.push({
        station,
        ledger,
        day,
        late: day === first ? Math.max(0, late) : 0,
        act: duty.act,
        volumeL,
        litres,
        duty,
      });
    return found;
  });
}

function isThere(station: Station, day: number): boolean {
  return station.kind !== "tank" || !((station as Tank).until < day);
}

function courseChanges(logbook: Logbook, ledger: Ledger, today: number, to: number): ChangeDue[] {
  const { body } = ledger;
  const station = body?.system ?? body?.tanks[0];
  if (body === undefined || station === undefined) return [];
  const { volumeL } = body;
  const owed = (due: number, fraction: number, why: string): ChangeDue[] => {
    const day = Math.max(due, today);
    if (!(fraction > leastOwed) || day > to) return [];
    const litres = Number.isNaN(volumeL) ? undefined : { low: fraction * volumeL, high: fraction * volumeL };
    const act = `change ${Math.ceil(fraction * 100 - 1e-9)} % ${why}`;
    return [{ station, ledger, day, late: Math.max(0, today - due), act, volumeL, litres, duty: undefined }];
  };
  return [
    ...dosesOn(ledger, today).flatMap(({ course, due, changeOwed }) =>
      owed(due, changeOwed, `before the next dose of ${course.remedy.name}`),
    ),
    ...courseSteps(logbook, ledger, today)
      .filter((step) => step.is === "change")
      .flatMap(({ due, fraction, remedy }) => owed(due, fraction, `after the course of ${remedy.name}`)),
  ];
}

/** Less is nothing that is owed still. */
const leastOwed = 0.005;

function both(duty: ChangeDue, owed: ChangeDue): ChangeDue {
  const { litres: a } = duty;
  const { litres: b } = owed;
  return {
    ...duty,
    late: Math.max(duty.late, owed.late),
    act: `${duty.act}, and ${owed.act}`,
    litres:
      a === undefined || b === undefined
        ? undefined
        : { low: Math.max(a.low, b.low), high: Math.max(a.high, b.high) },
  };
}

function volumeOf(book: Book, station: Station): number {
  return station.kind === "tank"
    ? (station as Tank).volumeL
    : (book.bodies[station.body]?.volumeL ?? Number.NaN);
}
