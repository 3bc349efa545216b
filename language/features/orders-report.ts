import { spokenDay } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import { afterDays } from "../room/dead-on-arrival.ts";
import { type Cell, caution, figure, list, type Report, type Section, table, text } from "./document.ts";
import { dueText } from "./orders-card.ts";
import type { FreeCard, OrderCard, OrdersCard, TollCard } from "./shipping-cards.ts";

/** Orders, what is free, what arrived dead: as a report. */

export function ordersReport(card: OrdersCard, title: string): Report {
  return {
    title: "Orders",
    about: [title, spokenDay(card.day)].filter(Boolean).join(", "),
    sections: [openSection(card), freeSection(card.free, card.day), sentSection(card), receivedSection(card)],
  };
}

const count = (animals: number): string => formatNumber(animals, 6);

function openSection({ open, filled, day }: OrdersCard): Section {
  const note = filled.length === 0 ? "" : `${filled.length} filled`;
  const base = { title: "Waiting", ...(note === "" ? {} : { note }) };
  if (open.length === 0)
    return {
      ...base,
      parts: [
        text(
          filled.length === 0
            ? "No order waits on this day. An order is defined: order o-1, below it what it wants and when it is due."
            : "No order waits: all are filled.",
        ),
      ],
    };
  return {
    ...base,
    parts: [
      table(
        ["Order", "Buyer", "Due", "Missing", "There"],
        open.flatMap((order) => orderRows(order, day)),
      ),
      list(
        open.flatMap(({ name, lines }) =>
          lines
            .filter(({ missing }) => missing > 0)
            .map(({ species, sources }) =>
              sources.length === 0
                ? `${name} ${species}: in no tank`
                : `${name} ${species}: ${sources.map((source) => source.text).join(", ")}`,
            ),
        ),
      ),
    ],
  };
}

function orderRows(order: OrderCard, day: number): Cell[][] {
  const isLate = (order.late ?? 0) > 0;
  const due = dueText(order.due, day);
  return order.lines
    .filter(({ missing }) => missing > 0)
    .map(({ species, missing, short, from }, at): Cell[] => [
      at === 0 ? order.name : "",
      at === 0 ? order.buyer : "",
      at > 0 ? "" : isLate ? { text: due, tone: "warning" } : due,
      `${count(missing)} ${species}`,
      short > 0 ? { text: `${count(short)} too few`, tone: "warning" } : fromText(from, day),
    ]);
}

/** `today`, `4 April`. */
const fromText = (from: number | null, day: number): string =>
  from === null ? "nobody can say" : from <= day ? "today" : spokenDay(from, day);

function freeSection(free: readonly FreeCard[], day: number): Section {
  if (free.length === 0)
    return {
      title: "Free to go",
      parts: [text("The book has no animals on this day: a count says what is there.")],
    };
  const notes = free.flatMap(({ tank, species, reasons, promised, lots }) => {
    const said = [
      // That they are fed every day needs no saying: the column says when they have fasted.
      ...reasons.filter(({ is }) => is !== "fasting").map((reason) => reason.text),
      ...(promised > 0 ? [`${count(promised)} of the species promised`] : []),
      ...lots.map(({ lot, animals }) => `lot ${lot}: ${count(animals)}`),
    ];
    return said.length === 0 ? [] : [`${tank} ${species}: ${said.join("; ")}`];
  });
  return {
    title: "Free to go",
    parts: [
      table(
        ["Tank", "Species", figure("There"), figure("Free"), "From"],
        free.map((each): Cell[] => [
          each.tank,
          each.species,
          count(each.animals),
          each.free > 0 ? { text: count(each.free), tone: "strong" } : "0",
          fromText(each.from, day),
        ]),
      ),
      ...(notes.length === 0 ? [] : [list(notes)]),
      text(
        "Free: by the book, with nothing but fasting against it, less what open orders wait for and no other tank has. From: fasted too, if nothing is fed from now on.",
        "faint",
      ),
    ],
  };
}

function sentSection({ sent, unreported }: OrdersCard): Section {
  const title = "Dead on arrival, of what was sent";
  const silent =
    unreported === 0
      ? []
      : [
          text(
            `${unreported} ${unreported === 1 ? "order was" : "orders were"} shipped of which no buyer has reported; they tell nothing here.`,
            "faint",
          ),
        ];
  if (sent.length === 0)
    return {
      title,
      parts: [text("No buyer has reported: room doa none order o-1 says that all arrived alive."), ...silent],
    };
  return { title, parts: [tollTable(sent, false), text(wilsonText, "faint"), ...silent] };
}

function receivedSection({ received }: OrdersCard): Section {
  const title = "Dead on arrival, of what came";
  if (received.length === 0) return { title, parts: [text("Nothing has arrived on this day or before.")] };
  return {
    title,
    parts: [
      tollTable(received, true),
      text(
        `${wilsonText} Lost after: of the species in the tank they came into, within ${afterDays} days; what was there before them is among these.`,
        "faint",
      ),
      caution(
        "Many deaths at once, or signs of a disease that must be reported, are for a veterinarian and for the authority of the place.",
      ),
    ],
  };
}

const wilsonText = "Dead of all that travelled, with the interval of Wilson 1927 (95 %).";

const byTitle: Readonly<Record<string, string>> = {
  all: "all",
  species: "species",
  carrier: "carrier",
  route: "route",
  season: "months",
};

function tollTable(tolls: readonly TollCard[], isInward: boolean) {
  const heads = ["By", "", figure("Journeys"), figure("Animals"), figure("Dead"), figure("Share")];
  return table(
    isInward ? [...heads, figure("Lost after")] : heads,
    tolls.map(({ by, name, consignments, animals, dead, text: share, after }): Cell[] => [
      by === "route" && isInward ? "supplier" : (byTitle[by] ?? by),
      by === "all" ? "" : name,
      count(consignments),
      count(animals),
      count(dead),
      share,
      ...(isInward ? [after === null ? "" : `${count(after.lost)}: ${after.text}`] : []),
    ]),
  );
}
