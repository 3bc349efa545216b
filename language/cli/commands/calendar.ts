import { basename, resolve } from "node:path";
import { isoOf } from "../../book/dates.ts";
import { calendarEvents } from "../../features/calendar-events.ts";
import { folderOfPath } from "../../room/logbooks.ts";
import { type CalendarOfRoom, icsText } from "../calendar/ics.ts";
import { asOfOption, type Call, type Command } from "../command.ts";
import { extension } from "../files.ts";
import { inputName, type Opened, open } from "../open.ts";
import { tellUnread } from "../report.ts";
import { writeWhole } from "../whole-file.ts";
import { Status, Trouble } from "../world.ts";

const usualDays = 14;
const mostDays = 366;

export const calendar: Command = {
  word: "calendar",
  takes: "[DIR|-]",
  summary: "a calendar file (iCalendar) of what is due in the next days",
  about:
    "Duties, doses, ends of quarantine, broods to hatch, orders and last days of use as events of whole days, for any calendar that reads iCalendar (RFC 5545). " +
    "An event stands for one thing and keeps its identity: a calendar that imports the file again moves what has moved and doubles nothing. " +
    "What is late stands on today; what was done of late is told with its next day, be it further ahead. A change of a name, or of what a duty asks for, makes another event of it. What was planned and then dropped has to be taken out by hand; a calendar that subscribes to the file does so by itself.",
  options: [
    { name: "days", value: "N", doc: `so many days, today among them; else ${usualDays}` },
    { name: "out", value: "FILE", doc: "write it to this file; else to standard output" },
    asOfOption,
  ],
  examples: [
    ["standpipe calendar samples/cellar --out cellar.ics", "the sample room, two weeks"],
    ["standpipe calendar --days 60 > room.ics", "two months of the room that you stand in"],
  ],
  run: runCalendar,
};

async function runCalendar(call: Call): Promise<Status> {
  const days = daysOf(call);
  const out = call.value("out");
  if (out?.endsWith(extension))
    throw new Trouble(`--out ${out}: a file that ends in ${extension} is a log; a calendar ends in .ics`);
  const { logbooks, unread } = await open(call, call.words);
  const rooms = calendarsOf(call, logbooks, days);
  const title = logbooks.length === 1 ? nameOf(logbooks[0]!) : "Fish rooms";
  const text = icsText(title, rooms);
  if (out === undefined) call.world.out.write(text);
  else {
    writeWhole(resolve(call.world.cwd, out), out, (write) => write(text));
    const count = rooms.reduce((sum, { events }) => sum + events.length, 0);
    const from = rooms.map(({ day }) => isoOf(day)).join(", ");
    call.world.err.write(
      `${out}: ${count === 1 ? "1 event" : `${count} events`} of ${days} days from ${from} on\n`,
    );
  }
  tellUnread(call, unread);
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}

function daysOf(call: Call): number {
  const text = call.value("days");
  const days = text === undefined ? usualDays : /^\d+$/.test(text) ? Number(text) : 0;
  if (days >= 1 && days <= mostDays) return days;
  throw new Trouble(`--days takes a whole number of days from 1 to ${mostDays}, not “${text}”`);
}

const nameOf = ({ checked, folder }: Opened): string => checked.book.title || folder;

function calendarsOf(call: Call, logbooks: readonly Opened[], days: number): CalendarOfRoom[] {
  const seen = new Map<string, number>();
  return logbooks.map((opened) => {
    const { checked } = opened;
    const day = checked.logbook.today(call.world.day);
    const own = ownName(opened);
    const before = seen.get(own) ?? 0;
    seen.set(own, before + 1);
    return {
      room: before === 0 ? own : `${own} ${before + 1}`,
      prefix: logbooks.length === 1 ? "" : `${nameOf(opened)}, `,
      day,
      events: calendarEvents(checked, day, days),
    };
  });
}

/** Its title, else the name of its folder: not the way to it, which is another one from elsewhere. */
function ownName({ checked, folder }: Opened): string {
  if (checked.book.title !== "") return checked.book.title;
  if (folder === inputName) return inputName;
  const folders = [...checked.logbook.sources.keys()].map(folderOfPath);
  return basename(folders.reduce((a, b) => (b.length < a.length ? b : a), folders[0] ?? ""));
}
