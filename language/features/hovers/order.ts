import { spokenDay } from "../../book/dates.ts";
import { formatNumber } from "../../quantity/format.ts";
import { ordersOn, placedOn } from "../../room/orders.ts";
import { paragraphs, plain } from "../markdown.ts";
import type { Named } from "../names.ts";
import { dueSaid, orderCard } from "../orders-card.ts";
import { locationOf } from "../view.ts";
import { headline, linked, type Scope, section } from "./parts.ts";
import { threadHover } from "./thread.ts";

/** An order: what is missing, from where and from when, then the entries that name it. */
export function orderHover(scope: Scope, named: Named): string {
  const { checked } = scope.view;
  const order = checked.book.orders.get(named.name);
  if (order === undefined) return threadHover(scope, named);
  const state = ordersOn(checked.logbook, scope.today).find((each) => each.order === order);
  if (state === undefined)
    return paragraphs(
      headline(order.name, "order", order.title, `counts from ${spokenDay(placedOn(order), scope.today)}`),
      threadHover(scope, named),
    );
  const card = orderCard(checked.book, state, scope.today);
  const due = dueSaid(card.due, scope.today);
  const places = new Map(
    checked.book.tanks.flatMap(({ name, place }) => (place === undefined ? [] : [[name, place]])),
  );
  const lines = card.lines.map(({ species, gone, wanted, text }) =>
    plain(
      `${species}: ${formatNumber(gone, 6)} of ${formatNumber(wanted, 6)} gone${text.endsWith("all gone") ? "" : `; ${text}`}`,
    ),
  );
  const sources = card.lines.flatMap((line) =>
    line.sources.map(({ tank, text }) => {
      const place = places.get(tank);
      const rest = plain(text.slice(tank.length));
      return `${plain(line.species)}: ${linked(scope, tank, place === undefined ? null : locationOf(place))} ${rest}`;
    }),
  );
  return paragraphs(
    headline(card.name, "order", card.buyer, ...(card.missing === 0 ? ["filled"] : [due])),
    section("What it wants", lines),
    section("Where it could come from", sources),
    threadHover(scope, named),
  );
}
