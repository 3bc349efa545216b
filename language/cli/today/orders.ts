import { isoOf } from "../../book/dates.ts";
import { dueSaid, orderCard } from "../../features/orders-card.ts";
import { ordersOn } from "../../room/orders.ts";
import { parcelOf } from "../../room/parcel.ts";
import type { Opened } from "../open.ts";
import { locationReport } from "../report.ts";
import type { DayReport } from "../schema.ts";

/** Orders are told from so many days before they are due: there is time to let the animals fast. A choice of this tool. */
const packAheadDays = 3;

/** The orders that are to be packed: due within days or late, with the tanks that are not to be fed. */
export function ordersToPack(opened: Opened, day: number): DayReport["orders"] {
  const { logbook, book } = opened.checked;
  return ordersOn(logbook, day)
    .filter(({ missing, late }) => missing > 0 && late >= -packAheadDays)
    .map((state) => {
      const card = orderCard(book, state, day);
      const { name, due } = state.order;
      // Who is fed later than this has not fasted when it is packed.
      const isTime = day >= Math.max(day, due) - Math.ceil(book.fastingDays);
      const tanks = isTime ? (parcelOf(logbook, name, day)?.parts.map(({ tank }) => tank.name) ?? []) : [];
      return {
        order: name,
        buyer: card.buyer,
        due: isoOf(due),
        late: state.late,
        text: `${dueSaid(due, day)}: ${card.text}`,
        unfed: [...new Set(tanks)],
        place: locationReport(opened, card.at)!,
      };
    });
}
