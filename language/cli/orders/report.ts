import { isoOf } from "../../book/dates.ts";
import type { WhyCard } from "../../features/cards.ts";
import type { PackingCard } from "../../features/packing-cards.ts";
import type { RegisterCard } from "../../features/register-card.ts";
import type { FreeCard, OrderCard, OrdersCard, ReasonCard } from "../../features/shipping-cards.ts";
import type { Opened } from "../open.ts";
import { locationReport, logbookReport } from "../report.ts";
import type { OrdersReport, PackingReport, Place, RegisterReport, WhyTree } from "../schema.ts";

/** Cards of orders in the form of `--json`: days in ISO 8601, places as lines and columns. */

export function ordersReportOf(
  opened: Opened,
  card: OrdersCard,
  worldDay: number,
): OrdersReport["days"][number] {
  const { open, filled, free, sent, unreported, received } = card;
  return {
    ...logbookReport(opened, worldDay),
    open: open.map((each) => orderOf(opened, each)),
    filled: filled.map((each) => orderOf(opened, each)),
    free: free.map((each) => freeOf(opened, each)),
    sent: sent.map((each) => ({ ...each })),
    unreported,
    received: received.map((each) => ({ ...each })),
  };
}

const dayOrNull = (day: number | null): string | null => (day === null ? null : isoOf(day));

function orderOf(opened: Opened, card: OrderCard): OrdersReport["days"][number]["open"][number] {
  const { due, from, lines, at, why, ...rest } = card;
  return {
    ...rest,
    due: dayOrNull(due),
    from: dayOrNull(from),
    lines: lines.map((line) => ({
      ...line,
      from: dayOrNull(line.from),
      sources: line.sources.map((source) => ({ ...source, from: dayOrNull(source.from) })),
    })),
    at: placeOf(opened, at),
    why: whyOf(opened, why),
  };
}

/** Of a card's own definition: it is there, as the card was made from it. */
const placeOf = (opened: Opened, at: OrderCard["at"]): Place => locationReport(opened, at)!;

function freeOf(opened: Opened, card: FreeCard): OrdersReport["days"][number]["free"][number] {
  const { from, reasons, lots, at, ...rest } = card;
  return {
    ...rest,
    from: dayOrNull(from),
    reasons: reasons.map((each) => reasonOf(opened, each)),
    lots: [...lots],
    at: at === null ? null : (locationReport(opened, at) ?? null),
  };
}

const reasonOf = (opened: Opened, { until, why, ...rest }: ReasonCard) => ({
  ...rest,
  until: dayOrNull(until),
  why: whyOf(opened, why),
});

function whyOf(opened: Opened, { what, value, formula, source, at, from }: WhyCard): WhyTree {
  const place = at === null ? undefined : locationReport(opened, at);
  return {
    what,
    value,
    ...(formula === "" ? {} : { formula }),
    ...(source === "" ? {} : { source }),
    ...(place === undefined ? {} : { place }),
    from: from.map((each) => whyOf(opened, each)),
  };
}

export function packingReportOf(
  opened: Opened,
  card: PackingCard,
): Omit<PackingReport, "standpipe" | "command" | "unread"> {
  const { is: _, day, due, bag, parts, held, lacking, labels, published, ...rest } = card;
  return {
    ...rest,
    folder: opened.folder,
    day: isoOf(day),
    due: dayOrNull(due),
    bag: { ...bag, taken: [...bag.taken] },
    parts: parts.map(({ bags, arrival, reasons, why, ...part }) => ({
      ...part,
      bags: [...bags],
      arrival: arrival === null ? null : { ...arrival, unheld: [...arrival.unheld] },
      reasons: reasons.map((each) => reasonOf(opened, each)),
      why: whyOf(opened, why),
    })),
    held: held.map(({ reasons, ...each }) => ({
      ...each,
      reasons: reasons.map((reason) => reasonOf(opened, reason)),
    })),
    lacking: [...lacking],
    labels: labels.map((label) => ({ ...label, packed: isoOf(label.packed) })),
    published: [...published],
  };
}

export function registerReportOf(
  opened: Opened,
  { from, to, rows, totals }: RegisterCard,
): RegisterReport["registers"][number] {
  return {
    folder: opened.folder,
    title: opened.checked.book.title,
    from: isoOf(from),
    to: isoOf(to),
    rows: rows.map(({ day, treatments, quarantineEnd, at, ...row }) => ({
      ...row,
      day: isoOf(day),
      treatments: treatments.map((each) => ({ ...each, day: isoOf(each.day) })),
      quarantineEnd: dayOrNull(quarantineEnd),
      at: at === null ? null : (locationReport(opened, at) ?? null),
    })),
    totals: [...totals],
  };
}
