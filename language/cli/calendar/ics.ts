import { createHash } from "node:crypto";
import ical, { ICalCalendarMethod, ICalEventStatus, ICalEventTransparency } from "ical-generator";
import type { CalendarEvent } from "../../features/calendar-events.ts";

/** Events as iCalendar (RFC 5545): the same events of the same day are the same bytes. */

export interface CalendarOfRoom {
  /** What tells the room from others, wherever its folder stands. */
  readonly room: string;
  /** Empty where the calendar is of one room. */
  readonly prefix: string;
  readonly day: number;
  readonly events: readonly CalendarEvent[];
}

const msPerDay = 86_400_000;
const dateOfDay = (day: number): Date => new Date(day * msPerDay);

/** The text with its line ends. @param title of the calendar */
export function icsText(title: string, rooms: readonly CalendarOfRoom[]): string {
  const calendar = ical({ prodId: "//Standpipe//Standpipe//EN", method: ICalCalendarMethod.PUBLISH });
  calendar.name(clean(title));
  for (const { room, prefix, day, events } of rooms) {
    const stamp = dateOfDay(day);
    for (const event of events)
      calendar.createEvent({
        id: uidOf(room, event),
        // It grows from day to day, so that who imports knows which is the later.
        sequence: day,
        stamp,
        allDay: true,
        start: dateOfDay(event.from),
        end: dateOfDay(event.to + 1),
        summary: clean(`${prefix}${event.title}`),
        description: event.about.map(clean).join("\n"),
        ...(event.where === "" ? {} : { location: clean(event.where) }),
        categories: [{ name: event.category }],
        status: event.isOff ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED,
        // Work in the fish room leaves the day free for others to see.
        transparency: ICalEventTransparency.TRANSPARENT,
      });
  }
  return `${calendar.toString()}\r\n`;
}

/** A name-based UUID (RFC 9562, version 5), as RFC 7986 asks of a UID: 36 letters whatever is in the names. */
export function uidOf(room: string, { key }: Pick<CalendarEvent, "key">): string {
  const hash = createHash("sha1")
    .update(Buffer.from(namespace.replaceAll("-", ""), "hex"))
    .update(JSON.stringify([room, ...key]))
    .digest();
  hash[6] = (hash[6]! & 0x0f) | 0x50;
  hash[8] = (hash[8]! & 0x3f) | 0x80;
  const hex = hash.subarray(0, 16).toString("hex");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** Of this tool's events; drawn once. It never changes. */
const namespace = "6f0c2b1e-93d4-4b7a-8e15-2a7d5c90f3b6";

/** A text of one line without what no calendar may hold: control characters (RFC 5545, 3.1), and halves of a letter, which are no UTF-8. */
const clean = (text: string): string =>
  text
    .replace(/[\p{Cc}\u2028\u2029]+/gu, " ")
    .replace(/\p{Cs}/gu, "\ufffd")
    .trim();
