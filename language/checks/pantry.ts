import { clockOf, spokenDay } from "../book/dates.ts";
import { Col, intsPerRow } from "../book/facts.ts";
import { rowOfId } from "../book/source.ts";
import { formatNumber } from "../quantity/format.ts";
import { type Culture, culturesOn } from "../room/cultures.ts";
import { goodText, inUseDays, placeOfProperty } from "../room/expiries.ts";
import { keptFor } from "../room/kept-for-logbook.ts";
import type { Logbook } from "../room/logbook.ts";
import { isStocked, type PantryItem, pantryOn } from "../room/pantry.ts";
import { goodUntil, storageSource } from "../room/shelf-life.ts";
import { type Why, whyEntry, whyStated } from "../room/why.ts";
import { whyOnHand } from "../room/why-pantry.ts";
import { page } from "./code.ts";
import { expiryPages, openedToday } from "./expiries.ts";
import type { Finding } from "./finding.ts";
import type { RowFinding } from "./observe.ts";
import { days } from "./words.ts";

/** What is on hand: no longer good, running out; cultures that are ready. */

const tank = `tank dam
  volume 100 L
`;

export const pantryPages = [
  ...expiryPages,
  page({
    code: "feed/expired",
    severity: "warning",
    since: "0.2",
    title: "Fed after its last day of use",
    says: "This food was fed, or is on hand, after the day that its definition states as the last. One finding a food, at the last entry that fed it.",
    whatToDo: "Throw it away; of a new pack state its own day.",
    raises: `food flake
  kind dry; expires 2026-02-28
${tank}2026-03-01
  dam feed flake
#          ^^^^^ feed/expired`,
    fine: `food flake
  kind dry; expires 2026-03-01
${tank}2026-03-01
  dam feed flake`,
  }),
  page({
    code: "feed/opened-long",
    severity: "information",
    since: "0.2",
    title: "Fed from a pack that is open for long",
    says: "The pack was open for longer than it keeps when it was fed. Of a dry food that states no time three months are taken.",
    whatToDo: "Open a new pack and state when; buy smaller ones.",
    raises: `food flake
  kind dry; opened 2026-01-10; keeps 30 d
${tank}2026-03-01
  dam feed flake
#          ^^^^^ feed/opened-long`,
    fine: `food flake
  kind dry; opened 2026-01-10
${tank}2026-03-01
  dam feed flake`,
    source: storageSource,
  }),
  page({
    code: "feed/running-out",
    severity: "information",
    since: "0.2",
    title: "A food or remedy runs out within a week",
    says: "What was weighed or bought last, less what was used since, lasts for a week at most at the use of the last weeks. It is reckoned only where what was used can be told in the unit of what is on hand.",
    whatToDo: "Buy some; or weigh what is there and write it: `left cyclops 120 g`.",
    raises: `food cyclops
#    ^^^^^^^ feed/running-out
  kind frozen
${tank}2026-02-01
  room left cyclops 40 g
  dam feed cyclops 8 g
2026-02-08
  dam feed cyclops 8 g
2026-02-15
  dam feed cyclops 8 g
2026-02-22
  dam feed cyclops 8 g`,
    fine: `food cyclops
  kind frozen
${tank}2026-02-01
  room left cyclops 60 g
  dam feed cyclops 8 g
2026-02-08
  dam feed cyclops 8 g
2026-02-15
  dam feed cyclops 8 g
2026-02-22
  dam feed cyclops 8 g`,
    source: "A week ahead: a choice of this tool.",
  }),
  page({
    code: "feed/culture-ready",
    severity: "information",
    since: "0.2",
    title: "A culture is ready today",
    says: "By the time that its food states as `ready` this batch can be harvested today.",
    whatToDo: "Harvest it, and write it where it was started.",
    raises: `food nauplii
  kind live; ready 20..28 h
${tank}2026-03-01
  08:00 dam start nauplii 2 g
#                 ^^^^^^^ feed/culture-ready
2026-03-02
  dam note "morning"`,
    fine: `food nauplii
  kind live; ready 20..28 h
${tank}2026-03-01
  08:00 dam start nauplii 2 g
2026-03-02
  08:00 dam harvest nauplii 100 mL`,
  }),
  page({
    code: "feed/culture-overdue",
    severity: "warning",
    since: "0.2",
    title: "A culture was not harvested in time",
    says: "The time in which this batch was to be harvested is past. It is told of for three days.",
    whatToDo: "Harvest it, or throw it away and start another.",
    raises: `food nauplii
  kind live; ready 20..28 h
${tank}2026-03-01
  08:00 dam start nauplii 2 g
#                 ^^^^^^^ feed/culture-overdue
2026-03-03
  dam note "morning"`,
    fine: `food nauplii
  kind live; ready 20..28 h
${tank}2026-03-01
  08:00 dam start nauplii 2 g
2026-03-02
  08:00 dam harvest nauplii 100 mL
2026-03-03
  dam note "morning"`,
    source:
      "The value of hatched brine shrimp falls after their first moult: P. Lavens & P. Sorgeloos 1996, FAO Fisheries Technical Paper 361; recalled.",
  }),
] as const;

const aheadDays = 7;

/** What is on hand and what grows, as of the end of a day, by the number of the ledger that it is told of with. */
export function pantryFindings(
  logbook: Logbook,
  day: number,
): ReadonlyMap<number, readonly (Finding | RowFinding)[]> {
  return keptFor(logbook, `pantry findings ${day}`, () => {
    const byLedger = new Map<number, (Finding | RowFinding)[]>();
    const items = isStocked(logbook, day) ? pantryOn(logbook, day) : [];
    const found = [
      ...items.flatMap((item) => [...notGood(item, day), ...runningOut(item, day)]),
      ...culturesOn(logbook, day).flatMap((culture) => cultureFinding(culture, day)),
    ];
    for (const each of found) {
      const at = ledgerOf(logbook, each);
      byLedger.set(at, [...(byLedger.get(at) ?? []), each]);
    }
    return byLedger;
  });
}

/** That of the target of its entry; of what is stated, and of the room, the last. */
function ledgerOf(logbook: Logbook, found: Finding | RowFinding): number {
  const misc = logbook.ledgers.length - 1;
  if (!("row" in found)) return misc;
  const target = found.block.facts.ints[rowOfId(found.block, found.row) * intsPerRow + Col.target] ?? -1;
  const { book } = logbook;
  const station = target < 0 ? book.groupTanks(~target)?.[0] : book.station(target);
  return station === undefined ? misc : logbook.ledgerNumber(station);
}

/** A food that was fed past its day, at the entry; else what is on hand past its day, where it is stated. */
function notGood(item: PantryItem, day: number): (Finding | RowFinding)[] {
  const { name, food, lastUsed, expires, openedUntil, onHand } = item;
  if (food === undefined) return remedyNotGood(item, day);
  const usedOn = lastUsed !== undefined && lastUsed.day > day - inUseDays ? lastUsed.day : Number.NaN;
  const isOpenLong = usedOn > openedUntil;
  if (lastUsed !== undefined && (usedOn > expires || isOpenLong)) {
    const isExpired = usedOn > expires;
    const until = isExpired ? expires : openedUntil;
    return [
      {
        code: isExpired ? "feed/expired" : "feed/opened-long",
        block: lastUsed.block,
        row: lastUsed.id,
        slots: ["food"],
        severity: () => (isExpired ? "warning" : "information"),
        message: () =>
          isExpired
            ? `${name} was good until ${spokenDay(expires, day)}, ${days(usedOn - expires)} before it was fed here`
            : `${name} was opened on ${spokenDay(food.opened, day)} and good until ${spokenDay(until, day)}`,
        related: () => [{ place: food.place, message: "as you stated it" }],
        ...(isExpired ? {} : { fixes: () => openedToday(food.place, day) }),
        why: () => whyGood(item, until, lastUsed),
      },
    ];
  }
  const good = goodUntil(food, food.kind);
  if (good === undefined || !(day > good.day) || !(onHand > 0)) return [];
  const isExpired = good.by === "expires";
  return [
    {
      code: isExpired ? "feed/expired" : "feed/opened-long",
      severity: isExpired ? "warning" : "information",
      block: food.place.block,
      start: food.place.start,
      end: food.place.end,
      message: isExpired
        ? `${name}: ${amount(onHand, item)} on hand, good until ${spokenDay(good.day, day)}`
        : `${name}: ${amount(onHand, item)} on hand, ${goodText(food, good, day)}`,
      fixes: isExpired ? [] : openedToday(food.place, day),
      related: [],
      get why() {
        return whyGood(item, good.day);
      },
    },
  ];
}

/** A remedy that is past its day and, as far as is known, on the shelf: told where that is stated. */
function remedyNotGood(item: PantryItem, day: number): Finding[] {
  const { name, remedy, onHand } = item;
  const good = remedy === undefined ? undefined : goodUntil(remedy);
  if (remedy === undefined || good === undefined || !(day > good.day) || onHand <= 0) return [];
  const place = placeOfProperty(remedy.place, good.by);
  const there = Number.isNaN(onHand) ? "" : `, ${amount(onHand, item)} on hand`;
  return [
    {
      code: "dose/expired-stock",
      severity: "information",
      block: place.block,
      start: place.start,
      end: place.end,
      message: `${name}: ${goodText(remedy, good, day)}, ${days(day - good.day)} ago${there}`,
      fixes: good.by === "opened" ? openedToday(remedy.place, day) : [],
      related: [],
      get why() {
        return whyGood(item, good.day);
      },
    },
  ];
}

function whyGood(item: PantryItem, until: number, row?: PantryItem["lastUsed"]): Why {
  const isByOpening = until !== item.expires;
  const name = (item.food ?? item.remedy)?.place;
  return {
    what: `${item.name} is good until`,
    value: spokenDay(until),
    ...(isByOpening ? { formula: "day it was opened + time it keeps" } : {}),
    ...(isByOpening && item.food?.kind === "dry" ? { source: storageSource } : {}),
    from: [
      ...(row === undefined ? [] : [whyEntry({ block: row.block, row: row.id })]),
      ...(name === undefined ? [] : [whyStated(placeOfProperty(name, isByOpening ? "opened" : "expires"))]),
    ],
  };
}

function runningOut(item: PantryItem, day: number): Finding[] {
  const { name, food, remedy, onHand, use, daysLeft, runsOut } = item;
  const place = food?.place ?? remedy?.place;
  if (place === undefined || use === undefined || !(use.aDay > 0) || !(daysLeft.best <= aheadDays)) return [];
  return [
    {
      code: "feed/running-out",
      severity: "information",
      block: place.block,
      start: place.start,
      end: place.end,
      message:
        onHand > 0
          ? `${name}: ${amount(onHand, item)} left, about ${days(daysLeft.best)} at ${amount(use.aDay, item)} a day; runs out on ${spokenDay(runsOut, day)}`
          : `by the log no ${name} is left: weigh what is there and write it, left ${name} ...`,
      fixes: [],
      related: [],
      get why() {
        return whyOnHand(item);
      },
    },
  ];
}

const amount = (value: number, { unit }: PantryItem): string => `${formatNumber(value)} ${unit}`;

function cultureFinding(culture: Culture, day: number): RowFinding[] {
  const { name, food, start, is, readyFrom, readyUntil } = culture;
  if (is !== "ready" && is !== "overdue") return [];
  const clock = (time: number): string => `${spokenDay(time, day)} ${clockOf(time)}`;
  return [
    {
      code: is === "ready" ? "feed/culture-ready" : "feed/culture-overdue",
      block: start.block,
      row: start.id,
      slots: ["food"],
      severity: () => (is === "ready" ? "information" : "warning"),
      message: () =>
        is === "ready"
          ? `${name} is ready from ${clock(readyFrom)} to ${clock(readyUntil)}`
          : `${name} was ready until ${clock(readyUntil)}, and no harvest is written`,
      why: () => ({
        what: `${name} is ready`,
        value: `${clock(readyFrom)} to ${clock(readyUntil)}`,
        formula: "time of the start + time stated as ready",
        from: [
          whyEntry({ block: start.block, row: start.id }),
          ...(food === undefined ? [] : [whyStated(food.place)]),
        ],
      }),
    },
  ];
}
