import { dayOf, isoOf } from "../../book/dates.ts";
import { register, registerReport } from "../../features/register.ts";
import { stockCard } from "../../features/stock-card.ts";
import { type StockBy, stockBy } from "../../features/stock-cards.ts";
import { stockReport } from "../../features/stock-report.ts";
import type { Period } from "../../room/stock-book.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { type Opened, open } from "../open.ts";
import { printJson, tellUnread } from "../report.ts";
import { formOption, writeReport } from "../report-form.ts";
import type { StockRegisterReport, StockReport } from "../schema/stock.ts";
import { registerOf, stockReportOf } from "../stock/report.ts";
import { Status, Trouble } from "../world.ts";

const usualDays = 30;
const registerDays = 365;

export const stock: Command = {
  word: "stock",
  takes: "[DIR|-]",
  summary: "the animals: what came, went and is there, deaths, lots, stocking",
  about:
    "The book of animals over a period: in each line what was there, came, went and is there adds up. Deaths are told by each usual denominator and against as many days before. " +
    "Lots are told by the entries that name them. With --register what came, from whom, died, and went to whom: what sellers are commonly required to keep.",
  options: [
    {
      name: "from",
      value: "DATE",
      doc: `first day; else ${usualDays} days in all, of a register ${registerDays}`,
    },
    { name: "to", value: "DATE", doc: "last day; else today" },
    {
      name: "by",
      value: "WHAT",
      choices: stockBy,
      doc: "a line for each tank and species (tank), species, lot or supplier",
    },
    { name: "register", doc: "the register of animals: arrivals, births, deaths, sales" },
    formOption,
    jsonOption,
    asOfOption,
  ],
  examples: [
    ["standpipe stock samples/cellar", "the sample room, its last 30 days"],
    ["standpipe stock samples/cellar --from 2025-04-01 --by species", "a year by species"],
    ["standpipe stock samples/cellar --register --format html", "a register to print"],
  ],
  run: runStock,
};

async function runStock(call: Call): Promise<Status> {
  const isRegister = call.has("register");
  if (isRegister && call.has("by")) throw new Trouble("--register lists entries; --by goes without it");
  const [from, to] = [dayGiven(call, "from"), dayGiven(call, "to")];
  if (from > to) throw new Trouble(`--from ${isoOf(from)} is after --to ${isoOf(to)}`);
  const { logbooks, unread } = await open(call, call.words);
  const periods = logbooks.map((opened) =>
    periodOf(call, opened, from, to, isRegister ? registerDays : usualDays),
  );
  if (isRegister) writeRegister(call, logbooks, periods, [...unread]);
  else writeStock(call, logbooks, periods, [...unread]);
  if (!call.has("json")) tellUnread(call, unread);
  return unread.length > 0 ? Status.couldNotRun : Status.clean;
}

type Unreads = StockReport["unread"];

function writeStock(
  call: Call,
  logbooks: readonly Opened[],
  periods: readonly Period[],
  unread: Unreads,
): void {
  const by = (call.value("by") ?? "tank") as StockBy;
  const cards = logbooks.map((opened, at) => ({ opened, card: stockCard(opened.checked, periods[at]!, by) }));
  if (!call.has("json")) {
    writeReport(call, stockReport(cards.map(({ opened, card }) => ({ title: nameOf(opened), card }))));
    return;
  }
  const report: StockReport = {
    standpipe: 1,
    command: "stock",
    by,
    logbooks: cards.map(({ opened, card }) => stockReportOf(opened, card)),
    unread,
  };
  printJson(call.world, report);
}

function writeRegister(
  call: Call,
  logbooks: readonly Opened[],
  periods: readonly Period[],
  unread: Unreads,
): void {
  const made = logbooks.map((opened, at) => ({ opened, register: register(opened.checked, periods[at]!) }));
  if (!call.has("json")) {
    writeReport(
      call,
      registerReport(made.map(({ opened, register: each }) => ({ title: nameOf(opened), register: each }))),
    );
    return;
  }
  const report: StockRegisterReport = {
    standpipe: 1,
    command: "stock",
    register: made.map(({ opened, register: each }) => registerOf(opened, each)),
    unread,
  };
  printJson(call.world, report);
}

const nameOf = ({ checked, folder }: Opened): string => checked.book.title || folder;

/** The day of an option; NaN where it is not given. */
function dayGiven(call: Call, option: string): number {
  const text = call.value(option);
  if (text === undefined) return Number.NaN;
  const day = /^\d{4}-\d{2}-\d{2}$/.test(text) ? dayOf(text) : Number.NaN;
  if (Number.isNaN(day))
    throw new Trouble(`--${option}: “${text}” is no day; a day is written like 2026-03-01`);
  return day;
}

function periodOf(call: Call, { checked, folder }: Opened, from: number, to: number, days: number): Period {
  const today = checked.logbook.today(call.world.day);
  if (to > today)
    throw new Trouble(`--to ${isoOf(to)} is after today, which is ${isoOf(today)} in ${folder}`);
  const last = Number.isNaN(to) ? today : to;
  if (from > last)
    throw new Trouble(`--from ${isoOf(from)} is after the last day, ${isoOf(last)}, in ${folder}`);
  return { from: Number.isNaN(from) ? last - days + 1 : from, to: last };
}
