import type { Tank } from "../../book/stations.ts";
import { reasonText } from "../../checks/shipping-words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { reasonsAgainst } from "../../room/against.ts";
import { bookAt } from "../../room/book-at.ts";
import { freeOf, promised } from "../../room/orders.ts";
import type { LogRow } from "../../room/rare-rows.ts";
import { releaseOf } from "../../room/release.ts";
import { settledUntil } from "../../room/settled-until.ts";
import type { Why } from "../../room/why.ts";
import { leaveFigure } from "./animals.ts";
import { inShort } from "./in-short.ts";
import type { LineFigure, Row } from "./row.ts";

/** A sale or shipment: how many are left, and where something speaks against it or others wait, how many were free. */
export function goneFigure(rows: readonly Row[]): LineFigure | undefined {
  const left = leaveFigure(rows);
  const held = rows.flatMap(heldBack);
  if (left === undefined && held.length === 0) return undefined;
  const words = held.map((each) => (rows.length > 1 ? `${each.row.subject} ${each.words}` : each.words));
  const whys = [...(left === undefined ? [] : [left.why]), ...held.map(({ why }) => why)];
  return {
    kind: "move",
    label: inShort([...(left === undefined ? [] : [left.label]), ...words].join(" · ")),
    why: () =>
      whys.length === 1 ? whys[0]!() : { what: "what leaves", value: "", from: whys.map((why) => why()) },
  };
}

interface Held {
  readonly row: Row;
  /** `free: 14 of 20; quarantine until 4 April`. */
  readonly words: string;
  readonly why: () => Why;
}

function heldBack(row: Row): Held[] {
  const { checked, block, facts, at: place, id, kind, time, subject } = row;
  const { logbook, book } = checked;
  const [station, ...others] = row.stations;
  if (station?.kind !== "tank" || others.length > 0) return [];
  const tank = station as Tank;
  const day = block.day;
  const at = { day, time, block, row: place };
  const logRow: LogRow = { day, time, block, facts, row: place, id, kind };
  const owed = promised(logbook, subject, day, row.object, logRow);
  const owedAnimals = owed.reduce((sum, { animals }) => sum + animals, 0);
  const until = settledUntil(logbook.ledgerOf(tank), at);
  const releases = bookAt(logbook, until, subject)
    // What other tanks have matters only where somebody waits.
    .filter((held) => held.tank === tank || owedAnimals > 0)
    .map((held) => releaseOf(held, at, reasonsAgainst(logbook, held.tank, at)));
  const own = releases.find((release) => release.tank === tank);
  if (own === undefined) return [];
  const { reasons, animals } = own;
  if (reasons.length === 0 && owed.length === 0) return [];
  const free = freeOf(own, releases, owedAnimals);
  const said = [
    `free: ${formatNumber(free, 6)} of ${formatNumber(animals, 6)}`,
    ...reasons.map((reason) => reasonText(book, reason, day)),
    ...owed.map(({ order, animals: some }) => `${formatNumber(some, 6)} promised to ${order.name}`),
  ];
  return [
    {
      row,
      words: said.join("; "),
      why: () => ({
        what: `${subject} of ${tank.name} free to go before this`,
        value: `${formatNumber(free, 6)} of ${formatNumber(animals, 6)}`,
        formula:
          "none while anything but fasting is against it; else by the book, less what other orders wait for and no other tank has",
        from: [
          ...reasons.map((reason) => reason.why()),
          ...owed.map(({ order, animals: some }) => ({
            what: `order ${order.name}`,
            value: `${formatNumber(some, 6)} missing`,
            place: order.place,
            from: [],
          })),
        ],
      }),
    },
  ];
}
