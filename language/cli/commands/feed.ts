import { feedReport } from "../../features/feed-report.ts";
import { feedingCard } from "../../features/feeding-card.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { feedReportOf } from "../feed/report.ts";
import { open } from "../open.ts";
import { printJson, tellUnread } from "../report.ts";
import { formOption, writeReport } from "../report-form.ts";
import type { FeedReport } from "../schema.ts";
import { Status, Trouble } from "../world.ts";

const usualDays = 7;
const mostDays = 366;

export const feed: Command = {
  word: "feed",
  takes: "[DIR|-]",
  summary: "what each tank was fed, what is missing, what is on hand, cultures",
  about:
    "What the species of each tank need against what it got: what is missing today comes first, then how often each tank got each kind of food. " +
    "What is on hand follows from the last weighing (left) and purchases (buy), less what was fed; how long it lasts from the median of the last weeks.",
  options: [
    {
      name: "days",
      value: "N",
      doc: `so many days of feeding, up to today; ${usualDays} if nothing is said`,
    },
    formOption,
    jsonOption,
    asOfOption,
  ],
  examples: [
    ["standpipe feed samples/cellar", "the sample room, the last week"],
    ["standpipe feed samples/cellar --days 14 --as-of 2026-02-14", "two weeks, as it stood on a day"],
    ["standpipe feed samples/cellar --format markdown", "to keep or to send"],
  ],
  run: runFeed,
};

async function runFeed(call: Call): Promise<Status> {
  const { words, world } = call;
  const days = daysOf(call.value("days"));
  const { logbooks, unread } = await open(call, words);
  const cards = logbooks.map((opened) => ({ opened, card: feedingCard(opened.checked, world.day, days) }));
  if (call.has("json")) {
    const report: FeedReport = {
      standpipe: 1,
      command: "feed",
      logbooks: cards.map(({ opened, card }) => feedReportOf(opened, card)),
      unread: [...unread],
    };
    printJson(world, report);
  } else {
    const titled = cards.map(({ opened, card }) => ({
      title: opened.checked.book.title || opened.folder,
      card,
    }));
    writeReport(call, feedReport(titled));
    tellUnread(call, unread);
  }
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}

function daysOf(text: string | undefined): number {
  if (text === undefined) return usualDays;
  const days = /^\d+$/.test(text) ? Number(text) : Number.NaN;
  if (!(days >= 1 && days <= mostDays))
    throw new Trouble(`--days takes a whole number from 1 to ${mostDays}, not “${text}”`);
  return days;
}
