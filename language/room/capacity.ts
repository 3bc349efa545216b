import type { Absence } from "../book/bind-working-days.ts";
import type { Book } from "../book/book.ts";
import { weekdayOf } from "../book/dates.ts";

/** What a day holds, and whether anybody works on it. */
export interface DayCapacity {
  /** What the keeper can do; NaN where it is not stated. On days away it stands as stated, and nobody is there to do it. */
  readonly tanks: number;
  readonly litres: number;
  readonly minutes: number;
  /** Why nobody works, perhaps empty; undefined on a day with work. */
  readonly away: string | undefined;
  /** Numbers of the kinds of entries that someone else does while nobody works; none on a day with work. */
  readonly covered: readonly number[];
}

/** What the away of a weekday off says. */
export const dayOffWhy = "day off";

type Days = Pick<Book, "capacity" | "weekdayCapacities" | "absences" | "daysOff">;

/** What one day holds. @param day whole, or a time in it */
export function capacityOn(book: Days, day: number): DayCapacity {
  const whole = Math.floor(day);
  const weekday = weekdayOf(whole);
  const absent = book.absences.filter(({ from, until }) => from <= whole && whole <= until);
  const off = book.daysOff.get(weekday);
  const covered = absent.length === 0 ? (off ?? []) : absent.flatMap((each) => each.covered);
  return {
    ...book.capacity,
    ...book.weekdayCapacities.get(weekday),
    away: absent[0]?.why ?? (off === undefined ? undefined : dayOffWhy),
    covered: [...new Set(covered)],
  };
}

/** The absence a day lies in; undefined on a day with work, and on a weekday off. */
export function absenceOn({ absences }: Pick<Book, "absences">, day: number): Absence | undefined {
  return absences.find(({ from, until }) => from <= day && day <= until);
}

/** Whether work of a kind is done on a day: by the keeper, or by who covers it. @param kind -1 for what nobody else does */
export function isWorked(book: Days, day: number, kind = -1): boolean {
  const { away, covered } = capacityOn(book, day);
  return away === undefined || covered.includes(kind);
}

/** Nobody stays away for longer: a log that says so is not to stop the tool. */
const longestDays = 1000;

/** The first day from one on on which work of a kind is done. */
export function workDayFrom(book: Days, day: number, kind = -1): number {
  if (book.absences.length === 0 && book.daysOff.size === 0) return day;
  for (let at = day; at < day + longestDays; at++) if (isWorked(book, at, kind)) return at;
  return day;
}
