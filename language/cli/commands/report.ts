import { dayOf, isoOf } from "../../book/dates.ts";
import { periodCard } from "../../features/period-card.ts";
import { periodReport } from "../../features/period-report.ts";
import type { Period } from "../../room/stock-book.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { type Opened, open } from "../open.ts";
import { lastMonth, lastWeek, monthUpTo } from "../period/calendar-periods.ts";
import { periodReportOf } from "../period/report.ts";
import { printJson, tellUnread } from "../report.ts";
import { formOption, writeReport } from "../report-form.ts";
import type { PeriodReport } from "../schema/period.ts";
import { Status, Trouble } from "../world.ts";

const mostDays = 3660;

export const report: Command = {
  word: "report",
  takes: "[DIR|-]",
  summary: "a week or a month: work done and missed, water, animals, losses, spending",
  about:
    "What became of the duties of a period, water used, animals and losses, tests outside limits and what was done after, trends that turned, cases, remedies, broods, " +
    "what was sold and sent, spending, gear, what changes of light brought, and notes; against as many days before. Without days it is the last whole week, Monday to Sunday, before today.",
  options: [
    {
      name: "period",
      value: "WHAT",
      choices: ["week", "month"],
      doc: "the last whole week (the default) or month before today; with --to the one that ends on that day",
    },
    { name: "from", value: "DATE", doc: "first day" },
    { name: "to", value: "DATE", doc: "last day; with --from alone it is today" },
    formOption,
    jsonOption,
    asOfOption,
  ],
  examples: [
    ["standpipe report samples/cellar", "the sample room, its last whole week"],
    ["standpipe report samples/cellar --period month --format markdown", "a month, to keep with the log"],
    ["standpipe report samples/cellar --from 2026-03-01 --to 2026-03-31 --format html", "March, to print"],
  ],
  run: runReport,
};

async function runReport(call: Call): Promise<Status> {
  const [from, to] = [dayGiven(call, "from"), dayGiven(call, "to")];
  if (from > to) throw new Trouble(`--from ${isoOf(from)} is after --to ${isoOf(to)}`);
  if (!Number.isNaN(from) && call.value("period") !== undefined)
    throw new Trouble("--period and --from both say where it begins; give one of them");
  const { logbooks, unread } = await open(call, call.words);
  const cards = logbooks.map((opened) => {
    const today = opened.checked.logbook.today(call.world.day);
    const period = periodOf(call, opened, from, to, today);
    return { opened, card: periodCard(opened.checked, period, today) };
  });
  if (call.has("json")) {
    const made: PeriodReport = {
      standpipe: 1,
      command: "report",
      logbooks: cards.map(({ opened, card }) => periodReportOf(opened, card)),
      unread: [...unread],
    };
    printJson(call.world, made);
  } else {
    writeReport(
      call,
      periodReport(
        cards.map(({ opened, card }) => ({ title: opened.checked.book.title || opened.folder, card })),
      ),
    );
    tellUnread(call, unread);
  }
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}

/** The day of an option; NaN where it is not given. */
function dayGiven(call: Call, option: string): number {
  const text = call.value(option);
  if (text === undefined) return Number.NaN;
  const day = /^\d{4}-\d{2}-\d{2}$/.test(text) ? dayOf(text) : Number.NaN;
  if (Number.isNaN(day))
    throw new Trouble(`--${option}: “${text}” is no day; a day is written like 2026-03-01`);
  return day;
}

function periodOf(call: Call, { folder }: Opened, from: number, to: number, today: number): Period {
  const isMonth = call.value("period") === "month";
  if (to > today)
    throw new Trouble(`--to ${isoOf(to)} is after today, which is ${isoOf(today)} in ${folder}`);
  if (from > today)
    throw new Trouble(`--from ${isoOf(from)} is after today, which is ${isoOf(today)} in ${folder}`);
  if (!Number.isNaN(from)) {
    const last = Number.isNaN(to) ? today : to;
    if (last - from >= mostDays) throw new Trouble(`a report is of ${mostDays} days at most`);
    return { from, to: last };
  }
  if (!Number.isNaN(to)) return isMonth ? monthUpTo(to) : { from: to - 6, to };
  return isMonth ? lastMonth(today) : lastWeek(today);
}
