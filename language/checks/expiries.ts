import { isoOf, spokenDay } from "../book/dates.ts";
import type { Gear, Place, Remedy } from "../book/stations.ts";
import { gearShelf, goodText, placeOfProperty } from "../room/expiries.ts";
import type { Ledger } from "../room/ledger.ts";
import type { Moment } from "../room/observer.ts";
import { goodUntil } from "../room/shelf-life.ts";
import { whyEntry, whyStated } from "../room/why.ts";
import { page } from "./code.ts";
import { doseCaution } from "./doses.ts";
import type { Finding, Fix } from "./finding.ts";
import type { RowFinding } from "./observe.ts";
import { days } from "./words.ts";

/** Remedies and gear past their day. Of foods `pantry.ts` tells. */

const remedy = (when: string): string => `remedy salt
  target 1 g/L; ${when}
tank dam
  volume 100 L
`;

export const expiryPages = [
  page({
    code: "dose/expired",
    severity: "warning",
    since: "0.4",
    title: "Dosed after its last day of use",
    says: "The remedy was dosed, or used in a bath, after the day that its definition states as the last, or after it was open for longer than it keeps. How much of it still works is not known.",
    whatToDo: "Follow the label and your veterinarian; of a new pack state its own day.",
    raises: `${remedy("expires 2026-02-28")}2026-03-01
  dam dose salt 100 g
#          ^^^^ dose/expired`,
    fine: `${remedy("expires 2026-03-01")}2026-03-01
  dam dose salt 100 g`,
  }),
  page({
    code: "dose/expired-stock",
    severity: "information",
    since: "0.4",
    title: "A remedy on the shelf is past its day",
    says: "The day that its definition states as the last is past, or it is open for longer than it keeps, and by the log it is not used up.",
    whatToDo:
      "Replace it before it is needed, dispose of the old one as its label says, and state the day of the new one; or write that none is left.",
    raises: `remedy salt
  target 1 g/L; opened 2026-01-01; keeps 30 d
#               ^^^^^^^^^^^^^^^^^ dose/expired-stock
tank dam
  volume 100 L
2026-03-01
  dam note "new day"`,
    fine: `${remedy("opened 2026-01-30; keeps 30 d")}2026-03-01
  dam note "new day"`,
  }),
  page({
    code: "gear/expired",
    severity: "warning",
    since: "0.4",
    title: "A kit or another gear is past its day",
    says: "The day that its definition states as the last is past, or it is open for longer than it keeps. Which kit a test was made with cannot be told, so this is told once, here.",
    whatToDo: "Replace it, write it (`service ph-kit replaced`), and state the day of the new one.",
    raises: `gear ph-kit
  kind kit; expires 2026-02-28
#           ^^^^^^^^^^^^^^^^^^ gear/expired
tank dam
  volume 100 L
2026-03-01
  dam test pH 7`,
    fine: `gear ph-kit
  kind kit; expires 2026-02-28
tank dam
  volume 100 L
2026-03-01
  room service ph-kit replaced
  dam test pH 7`,
  }),
] as const;

/** A remedy that is used past its day, at the entry. @param slot that names it */
export function usedExpired(at: Moment, used: Remedy, slot: string): RowFinding | undefined {
  const good = goodUntil(used);
  const day = Math.floor(at.time);
  if (good === undefined || !(day > good.day)) return undefined;
  return {
    code: "dose/expired",
    block: at.block,
    row: at.row,
    slots: [slot],
    severity: () => "warning",
    message: () =>
      `${used.name}: ${goodText(used, good, day)}, ${days(day - good.day)} before it was used here. ${doseCaution}`,
    related: () => [{ place: placeOfProperty(used.place, good.by), message: "as you stated it" }],
    why: () => ({
      what: `${used.name} is good until`,
      value: spokenDay(good.day),
      from: [whyEntry(at), whyStated(placeOfProperty(used.place, good.by))],
    }),
  };
}

/** A gear past its own day; how long it lasts is a duty, and told as one. */
export function gearFinding(ledger: Ledger, gear: Gear, day: number): Finding[] {
  const good = gearShelf(ledger, gear, day);
  if (good === undefined || gear.place === undefined || !(day > good.day)) return [];
  const place = placeOfProperty(gear.place, good.by);
  return [
    {
      code: "gear/expired",
      severity: "warning",
      block: place.block,
      start: place.start,
      end: place.end,
      message: `${gear.name}: ${goodText(gear, good, day)}, ${days(day - good.day)} ago`,
      fixes: good.by === "opened" ? openedToday(gear.place, day) : [],
      related: [],
      why: { what: `${gear.name} is good until`, value: spokenDay(good.day), from: [whyStated(place)] },
      about: gear,
    },
  ];
}

/** A new pack that was opened today, written where the old one is stated. @param name the place of the definition's name */
export function openedToday({ block }: Place, day: number): Fix[] {
  const opened = block.definition?.properties.find(({ word }) => word === "opened");
  const date = opened?.filled.items[0]?.opened;
  if (date === undefined) return [];
  return [
    {
      title: `A new pack was opened today: write opened ${isoOf(day)}`,
      edits: [{ block, start: date.start, end: date.end, text: isoOf(day) }],
      isSure: false,
    },
  ];
}
