import { isoOf } from "../../book/dates.ts";
import { ordersToPack } from "../../features/orders-to-pack.ts";
import type { Opened } from "../open.ts";
import { locationReport } from "../report.ts";
import type { DayReport } from "../schema.ts";

/** The orders that are to be packed, with the tanks that are not to be fed. */
export function ordersOf(opened: Opened, day: number): DayReport["orders"] {
  return ordersToPack(opened.checked, day).map(({ card, due, late, text, unfed }) => ({
    order: card.name,
    buyer: card.buyer,
    due: isoOf(due),
    late,
    text,
    unfed: [...unfed],
    place: locationReport(opened, card.at)!,
  }));
}
