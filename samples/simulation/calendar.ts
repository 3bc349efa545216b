/** Days as whole numbers since 1970-01-01 in UTC. The room has no time zone and no summer time. */

const MS_A_DAY = 86_400_000;
export const MINUTES_A_DAY = 1440;

export function dayOf(iso: string): number {
  const ms = Date.parse(`${iso}T00:00:00Z`);
  if (Number.isNaN(ms)) throw new RangeError(`${iso} is no date`);
  return ms / MS_A_DAY;
}

export function isoOf(day: number): string {
  return new Date(day * MS_A_DAY).toISOString().slice(0, 10);
}

/** `2025-04`, the name of the file the day stands in. */
export function monthOf(day: number): string {
  return isoOf(day).slice(0, 7);
}

/** 0 for Monday to 6 for Sunday. 1970-01-01 was a Thursday. */
export function weekdayOf(day: number): number {
  return (day + 3) % 7;
}

export const MONDAY = 0;
export const TUESDAY = 1;
export const WEDNESDAY = 2;
export const THURSDAY = 3;
export const FRIDAY = 4;
export const SATURDAY = 5;
export const SUNDAY = 6;

/** Minutes since midnight of `17:45`. */
export function minuteOf(clock: string): number {
  const [hours, minutes] = clock.split(":");
  return Number(hours) * 60 + Number(minutes);
}

export function clockOf(minute: number): string {
  const two = (number: number) => String(number).padStart(2, "0");
  return `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
}

export const FIRST_DAY = dayOf("2025-04-01");
export const LAST_DAY = dayOf("2026-03-31");

/** True from the first date to the second, both included. */
export function within(day: number, from: string, until: string): boolean {
  return day >= dayOf(from) && day <= dayOf(until);
}
