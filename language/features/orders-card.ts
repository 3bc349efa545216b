import type { Book } from "../book/book.ts";
import { spokenDay } from "../book/dates.ts";
import { wordOf } from "../book/interner.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { whyOrder } from "../checks/orders.ts";
import { reasonText } from "../checks/shipping-words.ts";
import { days, percent } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import { animalsBefore, lotCourses } from "../room/course.ts";
import {
  type Consignment,
  receivedConsignments,
  sentConsignments,
  type Toll,
  type TollBy,
  tollsOf,
} from "../room/dead-on-arrival.ts";
import { freeOf, type OrderLine, type OrderState, ordersOn, promised } from "../room/orders.ts";
import { namesOfParty } from "../room/party.ts";
import type { Reason } from "../room/reason.ts";
import { type Release, releaseOn } from "../room/release.ts";
import { known, rowLocation, whyCard } from "./card-parts.ts";
import type {
  FreeCard,
  OrderCard,
  OrderLineCard,
  OrdersCard,
  ReasonCard,
  TollCard,
} from "./shipping-cards.ts";
import { locationOf } from "./view.ts";

/** Orders, what is free to go, and what arrived dead, on a day. @param worldDay today outside */
export function ordersCard(checked: CheckedLogbook, worldDay: number): OrdersCard {
  const { logbook } = checked;
  const day = logbook.today(worldDay);
  const states = ordersOn(logbook, day).map((state) => orderCard(checked.book, state, day));
  const sent = sentConsignments(logbook, day);
  const received = receivedConsignments(logbook, day);
  const tolls = (of: readonly Consignment[], ...by: readonly TollBy[]): TollCard[] =>
    by.flatMap((each) => tollsOf(of, each).map(tollCard));
  return {
    is: "orders",
    day,
    open: states.filter(({ missing }) => missing > 0),
    filled: states.filter(({ missing }) => missing === 0),
    free: freeCards(checked, day),
    sent: tolls(sent.reported, "all", "species", "carrier", "route", "season"),
    unreported: new Set(sent.unreported.map(({ order }) => order)).size,
    received: tolls(received, "all", "species", "carrier", "route"),
  };
}

export function orderCard(book: Book, state: OrderState, day: number): OrderCard {
  const { order, missing, late, from } = state;
  const lines = state.lines.map((line) => lineCard(book, line, day));
  const open = lines.filter((line) => line.missing > 0);
  return {
    name: order.name,
    title: order.title,
    buyer: order.buyer === "" ? order.title : order.buyer,
    due: known(order.due),
    late: known(late),
    carrier: order.carrier,
    route: order.route,
    missing,
    from: known(from),
    text: open.length === 0 ? "all gone" : open.map(({ text }) => text).join("; "),
    lines,
    at: locationOf(order.place),
    why: whyCard(whyOrder(state)),
  };
}

function lineCard(book: Book, line: OrderLine, day: number): OrderLineCard {
  const { species, wanted, gone, missing, short, from, sources } = line;
  const count = (animals: number): string => formatNumber(animals, 6);
  const when =
    short > 0
      ? `${count(short)} more than there are`
      : Number.isFinite(from)
        ? whenText(from, day)
        : "nobody can say from when";
  return {
    species,
    wanted,
    gone,
    missing,
    short,
    from: known(from),
    text: missing === 0 ? `${species} all gone` : `${count(missing)} ${species} missing, ${when}`,
    sources: sources.map(({ release, animals }) => ({
      tank: release.tank.name,
      animals,
      from: known(release.from),
      text: sourceText(book, release, animals, day),
    })),
  };
}

/** `r1 has 6`, `q1 has 8 (quarantine until 4 April)`. That they are fed every day needs no saying: `from` says when they have fasted. */
export function sourceText(book: Book, { tank, reasons }: Release, animals: number, day: number): string {
  const against = reasons
    .filter(({ is }) => is !== "fasting")
    .map((reason) => reasonText(book, reason, day))
    .join("; ");
  return `${tank.name} has ${formatNumber(animals, 6)}${against === "" ? "" : ` (${against})`}`;
}

/** `there today`, `from 4 April`. */
const whenText = (from: number, day: number): string =>
  from <= day ? "there today" : `from ${spokenDay(from, day)}`;

/** What is in each tank and free, in the order of the book. @param tanks of these only */
export function freeCards(checked: CheckedLogbook, day: number, tanks?: readonly string[]): FreeCard[] {
  const { logbook, book } = checked;
  const releases = releaseOn(logbook, day);
  return releases
    .filter(({ tank }) => tanks === undefined || tanks.includes(tank.name))
    .map((release): FreeCard => {
      const { species, animals, reasons, from, held } = release;
      const owed = promised(logbook, species, day, "").reduce((sum, each) => sum + each.animals, 0);
      const series = held.ledger.animals;
      return {
        tank: release.tank.name,
        species,
        animals,
        free: freeOf(release, releases, owed),
        promised: owed,
        from: known(from),
        fromText: Number.isFinite(from) ? whenText(from, day) : "nobody can say",
        reasons: reasons.map((reason) => reasonCard(book, reason, day)),
        lots: lotsOf(release, day),
        at: rowLocation(series.block[held.index]!, series.row[held.index]!),
      };
    });
}

/** The lots of a species in a tank, by the entries that name them. */
function lotsOf({ tank, species, held }: Release, day: number): FreeCard["lots"] {
  return lotCourses(held.ledger).flatMap((course) => {
    const party = namesOfParty(course.holding.species);
    if (course.holding.tank !== tank.id || wordOf(party.species) !== species) return [];
    const animals = animalsBefore(course, day + 1);
    return animals > 0 ? [{ lot: wordOf(party.lot), animals }] : [];
  });
}

export function reasonCard(book: Book, reason: Reason, day: number): ReasonCard {
  return {
    is: reason.is,
    until: known(reason.until),
    text: reasonText(book, reason, day),
    why: whyCard(reason.why()),
  };
}

export function tollCard({ by, name, consignments, animals, dead, share, after }: Toll): TollCard {
  return {
    by,
    name,
    consignments: consignments.length,
    animals,
    dead,
    ...share,
    text: shareText(share),
    after: after === undefined ? null : { ...after, text: shareText(after) },
  };
}

/** `2.1 % (0.6 to 7.3)`. */
const shareText = ({ best, low, high }: Toll["share"]): string =>
  `${percent(best)} (${formatNumber(low * 100, 2)} to ${formatNumber(high * 100, 2)})`;

/** `7 April`, `today`, `2 days late`. */
export function dueText(due: number | null, day: number): string {
  if (due === null) return "no day";
  if (due < day) return `${days(day - due)} late`;
  return due === day ? "today" : spokenDay(due, day);
}

/** The same as part of a sentence: `due 7 April`, `2 days late`; empty where it is not due at a day. */
export function dueSaid(due: number | null, day: number): string {
  if (due === null || Number.isNaN(due)) return "";
  return due < day ? dueText(due, day) : `due ${dueText(due, day)}`;
}
