/** The clock of the room from a moment of UTC: an offset, or a place whose clocks change. */

const formats = new Map<string, Intl.DateTimeFormat>();

/** Whether a text names a zone: `UTC`, `+02:00`, `Europe/Berlin`. */
export function isPlace(zone: string): boolean {
  if (!/^[A-Za-z]+(?:\/[A-Za-z_+-]+)+$/.test(zone)) return false;
  try {
    formatOf(zone);
    return true;
  } catch {
    return false;
  }
}

function formatOf(zone: string): Intl.DateTimeFormat {
  const known = formats.get(zone);
  if (known !== undefined) return known;
  const made = new Intl.DateTimeFormat("en-GB", {
    timeZone: zone,
    hourCycle: "h23",
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
    hour: "2-digit",
    minute: "2-digit",
  });
  formats.set(zone, made);
  return made;
}

const quarterHour = 15 * 60_000;
const ahead = new Map<string, Map<number, number>>();

/** Minutes that the clocks of a place are ahead of UTC at a moment; they change at a quarter of an hour, if at all. @param utcMs milliseconds from 1970 */
export function placeMinutes(zone: string, utcMs: number): number {
  const quarter = Math.floor(utcMs / quarterHour);
  let known = ahead.get(zone);
  if (known === undefined || known.size > 100_000) {
    known = new Map();
    ahead.set(zone, known);
  }
  const found = known.get(quarter);
  if (found !== undefined) return found;
  const parts = Object.fromEntries(
    formatOf(zone)
      .formatToParts(quarter * quarterHour)
      .map(({ type, value }) => [type, Number(value)]),
  ) as Record<string, number>;
  const local = Date.UTC(parts.year!, parts.month! - 1, parts.day!, parts.hour!, parts.minute!);
  const minutes = Math.round((local - quarter * quarterHour) / 60_000);
  known.set(quarter, minutes);
  return minutes;
}
