import type { CheckedLogbook } from "../checks/check.ts";
import { ordersOn, packingDay } from "../room/orders.ts";
import { type Part, parcelOf, partsMissing } from "../room/parcel.ts";
import { dueSaid, orderCard } from "./orders-card.ts";
import type { OrderCard } from "./shipping-cards.ts";

/** The orders that are to be packed: due within days or late. */
export interface OrderToPack {
  readonly card: OrderCard;
  readonly due: number;
  /** Whole days past due; below 0 before. */
  readonly late: number;
  /** `due tomorrow: 15 cherry missing, there today`. */
  readonly text: string;
  /** Tanks that are not to be fed, as their animals are packed fasted. */
  readonly unfed: readonly string[];
  /** On the day of packing, or later: what is missing and may go today. */
  readonly parts: readonly Part[];
}

/** Orders are told from so many days before they are due: there is time to let the animals fast. A choice of this tool. */
const packAheadDays = 3;

export function ordersToPack({ logbook, book }: CheckedLogbook, day: number): OrderToPack[] {
  return ordersOn(logbook, day)
    .filter(({ missing, late }) => missing > 0 && late >= -packAheadDays)
    .map((state) => {
      const card = orderCard(book, state, day);
      const { name, due } = state.order;
      // Who is fed later than this has not fasted when it is packed.
      const isTime = day >= Math.max(day, due) - Math.ceil(book.fastingDays);
      const tanks = isTime ? (parcelOf(logbook, name, day)?.parts.map(({ tank }) => tank.name) ?? []) : [];
      const text = `${dueSaid(due, day)}: ${card.text}`;
      const parts = day < packingDay(book, due, day) ? [] : partsMissing(logbook, state, day).parts;
      const free = parts.filter(({ reasons }) => reasons.length === 0);
      return { card, due, late: state.late, text, unfed: [...new Set(tanks)], parts: free };
    });
}
