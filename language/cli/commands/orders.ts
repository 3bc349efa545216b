import { ordersCard } from "../../features/orders-card.ts";
import { ordersReport } from "../../features/orders-report.ts";
import { type BagStated, packingCard } from "../../features/packing-card.ts";
import { packingReport } from "../../features/packing-report.ts";
import { registerCard, registerReport } from "../../features/register-card.ts";
import { either, nearest } from "../../quantity/nearest.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { type Opened, type Opening, open } from "../open.ts";
import { asOfDay } from "../options.ts";
import { bagOptions, bagStated } from "../orders/bag-options.ts";
import { ordersReportOf, packingReportOf, registerReportOf } from "../orders/report.ts";
import { printJson, tellUnread } from "../report.ts";
import { formOption, writeReport } from "../report-form.ts";
import type { OrdersReport, PackingReport, RegisterReport } from "../schema.ts";
import { listed } from "../text.ts";
import { Status, Trouble } from "../world.ts";

export const orders: Command = {
  word: "orders",
  takes: "[DIR|-]",
  summary: "orders: what is missing, what is free to go, packing lists with labels, the register",
  about:
    "What buyers wait for and what could fill it from when; what is free to go in each tank, with what speaks against the rest; what arrived dead, by " +
    "species, carrier, route and season. With --pack the packing list of an order and a label for each bag; with --register what was sold and shipped. " +
    "A bag is what you state it to be: what comes out is arithmetic over resting fish, and no licence for a load.",
  options: [
    jsonOption,
    asOfOption,
    formOption,
    { name: "pack", value: "ORDER", doc: "the packing list of an order, with labels" },
    { name: "register", doc: "what was sold and shipped, from --from to --to" },
    { name: "from", value: "DATE", doc: "first day of the register (a year before its last)" },
    { name: "to", value: "DATE", doc: "last day of the register (today)" },
    ...bagOptions,
  ],
  examples: [
    ["standpipe orders samples/cellar", "what waits, what is free, what arrived dead"],
    [
      "standpipe orders samples/cellar --register --from 2026-01-01 --format markdown",
      "what was sold and shipped since the new year",
    ],
    ["standpipe orders --pack o-12 --water 0.6 --each 5 --format html", "labels to print, five to a bag"],
  ],
  run: runOrders,
};

async function runOrders(call: Call): Promise<Status> {
  const pack = call.value("pack");
  const isRegister = call.has("register");
  if (pack !== undefined && isRegister)
    throw new Trouble("--pack and --register are two reports: one at a time");
  for (const name of ["from", "to"])
    if (call.has(name) && !isRegister) throw new Trouble(`--${name} belongs to --register`);
  for (const { name } of bagOptions)
    if (call.has(name) && pack === undefined) throw new Trouble(`--${name} belongs to --pack ORDER`);
  // Read first: what is wrong with the call is told before files are read.
  const stated = pack === undefined ? undefined : bagStated(call);
  const period = { from: asOfDay(call.value("from")), to: asOfDay(call.value("to")) };
  const opening = await open(call, call.words);
  if (pack !== undefined && stated !== undefined) tellPacking(call, opening, pack, stated);
  else if (isRegister) tellRegister(call, opening, period);
  else tellOrders(call, opening);
  if (!call.has("json")) tellUnread(call, opening.unread);
  return opening.unread.length > 0 ? Status.couldNotRun : Status.clean;
}

function tellOrders(call: Call, { logbooks, unread }: Opening): void {
  const { world } = call;
  const cards = logbooks.map((opened) => ({ opened, card: ordersCard(opened.checked, world.day) }));
  if (call.has("json")) {
    const days = cards.map(({ opened, card }) => ordersReportOf(opened, card, world.day));
    const report: OrdersReport = { standpipe: 1, command: "orders", days, unread: [...unread] };
    printJson(world, report);
    return;
  }
  for (const { opened, card } of cards) writeReport(call, ordersReport(card, titleOf(opened)));
}

const titleOf = ({ checked, folder }: Opened): string => checked.book.title || folder;

function tellPacking(call: Call, { logbooks, unread }: Opening, name: string, stated: BagStated): void {
  const { world } = call;
  const having = logbooks.filter(({ checked }) => checked.book.orders.has(name));
  if (having.length > 1)
    throw new Trouble(
      `several logbooks have an order “${name}”; name one of ${listed(having.map(({ folder }) => folder))}`,
    );
  const opened = having[0];
  if (opened === undefined) throw noOrder(logbooks, name);
  const card = packingCard(opened.checked, name, stated, world.day);
  if (card === undefined) throw new Trouble(`${name} was not placed yet on this day`);
  if (call.has("json")) {
    const report: PackingReport = {
      standpipe: 1,
      command: "packing",
      ...packingReportOf(opened, card),
      unread: [...unread],
    };
    printJson(world, report);
  } else writeReport(call, packingReport(card));
}

function noOrder(logbooks: readonly Opened[], name: string): Trouble {
  const names = logbooks.flatMap(({ checked }) => [...checked.book.orders.keys()]);
  if (names.length === 0) return new Trouble("no order is defined here");
  const near = nearest(name, names);
  return new Trouble(
    `no order is called “${name}”; ${near.length > 0 ? `did you mean ${either(near)}?` : `there are ${listed(names)}`}`,
  );
}

const daysOfYear = 365;

function tellRegister(
  call: Call,
  { logbooks, unread }: Opening,
  asked: { readonly from: number; readonly to: number },
): void {
  const { world } = call;
  const cards = logbooks.map((opened) => {
    const today = opened.checked.logbook.today(world.day);
    const to = Number.isNaN(asked.to) ? today : Math.min(asked.to, today);
    const from = Number.isNaN(asked.from) ? to - daysOfYear + 1 : asked.from;
    if (from > to)
      throw new Trouble("the register ends before it begins: --from is after --to, or after today");
    return { opened, card: registerCard(opened.checked, from, to) };
  });
  if (call.has("json")) {
    const registers = cards.map(({ opened, card }) => registerReportOf(opened, card));
    const report: RegisterReport = { standpipe: 1, command: "register", registers, unread: [...unread] };
    printJson(world, report);
    return;
  }
  for (const { opened, card } of cards) writeReport(call, registerReport(card, titleOf(opened)));
}
