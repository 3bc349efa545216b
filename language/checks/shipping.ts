import { clockOf, spokenDay } from "../book/dates.ts";
import type { Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { caseReasons, ownReasons } from "../room/against.ts";
import { bathReasons } from "../room/baths.ts";
import { bookAt } from "../room/book-at.ts";
import { keptFor } from "../room/kept-for-logbook.ts";
import { KeptOfRows } from "../room/kept-of-rows.ts";
import type { Logbook } from "../room/logbook.ts";
import { type Gone, goneUntil, promised } from "../room/orders.ts";
import type { Reason } from "../room/reason.ts";
import { settledUntil } from "../room/settled-until.ts";
import { whyEntry } from "../room/why.ts";
import { page } from "./code.ts";
import { reportFindings } from "./dead-on-arrival.ts";
import { doseCaution } from "./doses.ts";
import type { Finding } from "./finding.ts";
import type { RowFinding } from "./observe.ts";
import { orderFindings } from "./orders.ts";
import { reasonText } from "./shipping-words.ts";
import { concentration, days } from "./words.ts";

/** Animals that are sold or shipped against what speaks against it. */

const prelude = `species praecox
tank dam
  volume 300 L
`;

export const shippingPages = [
  page({
    code: "ship/arrivals",
    severity: "warning",
    since: "0.2",
    title: "Sold or shipped from among new animals",
    says: "Animals came into this tank from outside, and the time that arrivals stay apart in your room has not passed since. What they may carry, all animals in the tank may carry.",
    whatToDo: "Keep them until the time has passed, or tell the buyer.",
    raises: `room "Cellar"
  quarantine 28 d
${prelude}2026-03-01
  dam count praecox 20
  dam arrive praecox 6
2026-03-10
  dam ship praecox 8 to "a breeder"
# ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ ship/arrivals`,
    fine: `room "Cellar"
  quarantine 28 d
${prelude}2026-03-01
  dam count praecox 20
  dam arrive praecox 6
2026-03-29
  dam ship praecox 8 to "a breeder"`,
    source:
      "The clock counts from the last animal into the water: Australian Department of Agriculture, Fisheries and Forestry 2025, industry notice 41-2025. How many days is the keeper's to state.",
  }),
  page({
    code: "ship/treated",
    severity: "warning",
    since: "0.2",
    title: "Sold or shipped under treatment",
    says: "A remedy is in the water still, by the doses, the changes and the half-life you stated, or its stated withdrawal has not passed since the last dose. Animals under treatment travel badly, and a buyer does not know what is in their bag.",
    whatToDo:
      "Wait, and change water. Follow the label, local rules and a veterinarian: for some remedies the law says when animals may leave.",
    raises: `remedy prazi
  target 2 mg/L
  half-life 1 d
  withdrawal 14 d
${prelude}2026-03-01
  dam count praecox 20
  dam dose prazi 600 mg
2026-03-10
  dam ship praecox 8
# ^^^^^^^^^^^^^^^^^^ ship/treated`,
    fine: `remedy prazi
  target 2 mg/L
  half-life 1 d
  withdrawal 14 d
${prelude}2026-03-01
  dam count praecox 20
  dam dose prazi 600 mg
2026-03-15
  dam ship praecox 8`,
    source: "Dilution and half-life: mass balance of water that is well mixed; withdrawal as you stated it.",
  }),
  page({
    code: "ship/sick",
    severity: "warning",
    since: "0.2",
    title: "Sold or shipped with a case open",
    says: "A case is open in this tank or in its water. Only healthy animals travel: what is not known yet goes along in the bag.",
    whatToDo:
      "Close the case when it is over, or keep the animals. Some diseases must be reported, and forbid moving animals: ask a veterinarian.",
    raises: `${prelude}2026-03-01
  dam count praecox 20
  dam sick praecox 2 of 20 case flukes-1
2026-03-10
  dam sell praecox 8
# ^^^^^^^^^^^^^^^^^^ ship/sick`,
    fine: `${prelude}2026-03-01
  dam count praecox 20
  dam sick praecox 2 of 20 case flukes-1
2026-03-09
  dam close flukes-1 recovered
2026-03-10
  dam sell praecox 8`,
    source:
      "Only healthy animals are packed: CITES packer's guidelines (as summarised; look them up). Else common practice.",
  }),
  page({
    code: "ship/fed",
    severity: "information",
    since: "0.2",
    title: "Shipped before they had fasted",
    says: "The tank was fed, live food included, later than the fasting you state for your room allows. What is in the gut ends in the bag as ammonia.",
    whatToDo: "Stop feeding in time: standpipe today lists the orders that are to be packed.",
    raises: `room "Cellar"
  fasting 24..48 h
${prelude}2026-03-01
  dam count praecox 20
2026-03-09
  18:00 dam feed nauplii
2026-03-10
  09:00 dam ship praecox 8
#       ^^^^^^^^^^^^^^^^^^ ship/fed`,
    fine: `room "Cellar"
  fasting 24..48 h
${prelude}2026-03-01
  dam count praecox 20
2026-03-08
  18:00 dam feed nauplii
2026-03-09
  dam feed none
2026-03-10
  09:00 dam ship praecox 8`,
    source:
      "Starvation before packing is among what makes fish stand it: Lim, Dhert & Sorgeloos 2003, Aquaculture Research 34:923-935 (abstract). How long is the keeper's to state.",
  }),
  page({
    code: "ship/promised",
    severity: "information",
    since: "0.2",
    title: "What leaves was promised",
    says: "After this fewer animals are left in the room than other orders still wait for.",
    whatToDo: "Name the order on the line if it was for one of them; else tell the buyer who waits.",
    raises: `order o-1
  wants praecox 15; placed 2026-03-01
${prelude}2026-03-01
  dam count praecox 20
2026-03-10
  dam sell praecox 8
#                  ^ ship/promised`,
    fine: `order o-1
  wants praecox 15; placed 2026-03-01
${prelude}2026-03-01
  dam count praecox 20
2026-03-10
  dam sell praecox 5`,
  }),
] as const;

/** Findings by the number of the ledger that they are about; those of orders with the ledger of the room. */
export type ByLedger = ReadonlyMap<number, readonly (Finding | RowFinding)[]>;

/** What is to be said of sales, shipments and orders. @param day today */
export function shippingFindings(logbook: Logbook, day: number): ByLedger {
  return keptFor(logbook, `shipping findings ${day}`, () => {
    const found = new Map<number, (Finding | RowFinding)[]>();
    const add = (ledger: number, finding: Finding | RowFinding): void => {
      const known = found.get(ledger);
      if (known === undefined) found.set(ledger, [finding]);
      else known.push(finding);
    };
    for (const gone of goneUntil(logbook, Number.POSITIVE_INFINITY)) {
      for (const station of gone.stations) {
        if (station.kind !== "tank") continue;
        const ledger = logbook.ledgerNumber(station);
        for (const finding of goneFindings(logbook, gone, station as Tank)) add(ledger, finding);
      }
    }
    const room = logbook.ledgers.length - 1;
    for (const finding of orderFindings(logbook, day)) add(room, finding);
    for (const finding of reportFindings(logbook)) add(room, finding);
    return found;
  });
}

/** The codes of the reasons; that of quarantine tanks is told where animals leave them for anywhere. */
const codes = {
  arrival: "ship/arrivals",
  remedy: "ship/treated",
  withdrawal: "ship/treated",
  case: "ship/sick",
  fasting: "ship/fed",
} as const;

/** What follows from the tank's own ledger: another tank's entry, or one of a later day, does not make it anew. */
const reasonsKept = new KeptOfRows<readonly Reason[]>();

function* goneFindings(logbook: Logbook, gone: Gone, tank: Tank): Iterable<RowFinding> {
  const { row, how, species } = gone;
  const at = { day: row.day, time: row.time, block: row.block, row: row.row };
  const ledger = logbook.ledgerOf(tank);
  const own = reasonsKept.get(ledger, row, tank.id, () => [
    ...ownReasons(logbook, tank, at),
    ...bathReasons(ledger, tank, species, at.day, settledUntil(ledger, at)),
  ]);
  const told = new Set<string>();
  for (const reason of [...own, ...caseReasons(logbook, tank, at)]) {
    const code = codes[reason.is as keyof typeof codes];
    if (code === undefined || told.has(code) || (reason.is === "fasting" && how === "sell")) continue;
    told.add(code);
    yield {
      code,
      block: row.block,
      row: row.id,
      slots: [],
      severity: () => severityOf(code),
      message: () => messageOf(logbook, gone, tank, reason),
      related: () => {
        const place = reason.why().from.find((each) => each.place !== undefined)?.place;
        return place === undefined ? [] : [{ place, message: "what it follows from" }];
      },
      why: reason.why,
      about: tank,
    };
  }
  const others = promised(logbook, species, row.day, gone.order, row);
  if (others.length === 0) return;
  const until = settledUntil(ledger, at);
  const before = bookAt(logbook, until, species).reduce((sum, { animals }) => sum + animals, 0);
  const owed = others.reduce((sum, { animals }) => sum + animals, 0);
  // What could not be filled before is no news of this line.
  const left = Math.max(0, before - gone.animals);
  if (left >= owed || before < owed) return;
  yield {
    code: "ship/promised",
    block: row.block,
    row: row.id,
    slots: ["animals"],
    severity: () => severityOf("ship/promised"),
    message: () =>
      `${formatNumber(left, 6)} ${species} are left in the room; ${formatNumber(owed, 6)} are promised: ${others
        .map(({ order, animals }) => `${formatNumber(animals, 6)} to ${order.name}`)
        .join(", ")}`,
    related: () => others.map(({ order }) => ({ place: order.place, message: `order ${order.name}` })),
    why: () => ({
      what: `${species} left in the room after this`,
      value: `${formatNumber(left, 6)}, promised ${formatNumber(owed, 6)}`,
      formula:
        "by the book before - what leaves here; promised = wanted - shipped - sold, of each other order",
      from: [
        whyEntry({ block: row.block, row: row.id }),
        ...others.map(({ order, animals }) => ({
          what: `order ${order.name}`,
          value: `${formatNumber(animals, 6)} missing`,
          place: order.place,
          from: [],
        })),
      ],
    }),
    about: tank,
  };
}

const severityOf = (code: (typeof shippingPages)[number]["code"]) =>
  shippingPages.find((each) => each.code === code)!.severity;

function messageOf({ book }: Logbook, { row, species, how }: Gone, tank: Tank, reason: Reason): string {
  const { day, time } = row;
  const leave = `${species} ${how === "ship" ? "are shipped" : "are sold"} from ${tank.name}`;
  switch (reason.is) {
    case "arrival":
      return `${leave}: animals came into it from outside on ${spokenDay(reason.until - Math.round(book.quarantineDays), day)}, and arrivals stay apart for ${days(book.quarantineDays)}, until ${spokenDay(reason.until, day)}`;
    case "remedy": {
      const unit = book.remedy(reason.name)?.unit ?? "";
      const level = Number.isNaN(reason.amount)
        ? "how much is not known"
        : concentration(reason.amount, unit);
      return `${leave} with ${reason.name} in the water: ${level}. ${doseCaution}`;
    }
    case "withdrawal":
      return `${leave} too soon after ${reason.name}: you stated ${days(book.remedy(reason.name)?.withdrawalDays ?? Number.NaN)} after the last dose, until ${spokenDay(reason.until, day)}. ${doseCaution}`;
    case "case":
      return `${leave} while ${reason.name === "" ? "signs of disease are new" : `case ${reason.name} is open`} in its water`;
    case "fasting": {
      const fed = reason.amount - book.fastingDays;
      return `${species} were fed ${hours(time - fed)} before they were shipped, on ${spokenDay(fed, day)} at ${clockOf(fed)}; in this room they fast for ${hours(book.fastingDays)} at least`;
    }
    default:
      return `${leave}: ${reasonText(book, reason, day)}`;
  }
}

const hours = (inDays: number): string => `${formatNumber(inDays * 24, 2)} h`;
