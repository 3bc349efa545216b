import { waterDays } from "../../features/water-day.ts";
import { waterCaution, waterReport } from "../../features/water-report.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { open } from "../open.ts";
import { printJson, tellUnread } from "../report.ts";
import { formOption, writeReport } from "../report-form.ts";
import type { WaterReport } from "../schema.ts";
import { waterOf } from "../water/report.ts";
import { Status, Trouble } from "../world.ts";

export const water: Command = {
  word: "water",
  takes: "[DIR|-]",
  summary: "water: litres of each source to prepare today and in the days after, and how",
  about:
    "What the changes that are due take of each water: from which and by which method as by the last changes of the tank; blend and salts " +
    "of a water that is made of others, conditioner for stated chlorine, warmth to match, time by the flows the room states, all from " +
    "the least to the most that will do. What would have to be stated for more is listed.",
  options: [
    jsonOption,
    asOfOption,
    formOption,
    { name: "days", value: "N", doc: "today and the days after, so many in all (7)" },
  ],
  examples: [
    ["standpipe water samples/cellar", "the sample room on its last day"],
    ["standpipe water --days 14 --format markdown", "a fortnight"],
  ],
  run: runWater,
};

const usualDays = 7;
const mostDays = 92;

async function runWater(call: Call): Promise<Status> {
  const { world } = call;
  // Read first: what is wrong with the call is told before files are read.
  const count = daysOf(call);
  const { logbooks, unread } = await open(call, call.words);
  const rooms = logbooks.map((opened) => ({ opened, days: waterDays(opened.checked, world.day, count) }));
  if (call.has("json")) {
    const report: WaterReport = {
      standpipe: 1,
      command: "water",
      logbooks: rooms.map(({ opened, days }) => waterOf(opened, days)),
      caution: waterCaution,
      unread: [...unread],
    };
    printJson(world, report);
  } else {
    writeReport(
      call,
      waterReport(
        rooms.map(({ opened, days }) => ({
          title: opened.checked.book.title || opened.folder,
          book: opened.checked.book,
          days,
        })),
      ),
    );
    tellUnread(call, unread);
  }
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}

function daysOf(call: Call): number {
  const text = call.value("days");
  if (text === undefined) return usualDays;
  const days = /^\d+$/.test(text) ? Number(text) : 0;
  if (days < 1 || days > mostDays)
    throw new Trouble(`--days takes a whole number of days from 1 to ${mostDays}, not “${text}”`);
  return days;
}
