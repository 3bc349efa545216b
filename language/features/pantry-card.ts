import { spokenDay } from "../book/dates.ts";
import { days } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import { culturesOn } from "../room/cultures.ts";
import { hatchFigures, hatchSource } from "../room/hatch.ts";
import type { Logbook } from "../room/logbook.ts";
import { type PantryItem, pantryOn, targetWords } from "../room/pantry.ts";
import { whyOnHand } from "../room/why-pantry.ts";
import { known, rowLocation, whyCard } from "./card-parts.ts";
import type { CultureCard, PantryCard } from "./feeding-cards.ts";
import { hatchText, whyCulture } from "./figures/culture.ts";
import { windowText } from "./figures/feed.ts";
import { locationOf } from "./view.ts";

/** What is on hand, and the cultures of live food. */

/** What runs out so soon is remarked on. */
const aheadDays = 7;
/** What was harvested, or missed, longer ago than this is left out. */
const shownDays = 14;

/** Foods and remedies that are defined, or were used in the last year. */
export function pantryCards(logbook: Logbook, day: number): PantryCard[] {
  return pantryOn(logbook, day)
    .filter(({ food, remedy, lastUsed, anchors }) => {
      // A food that is only raised, and a remedy that nobody has, is nothing on a shelf.
      if (anchors.length > 0) return true;
      return remedy === undefined && food?.kind !== "live" && (food !== undefined || lastUsed !== undefined);
    })
    .map((item) => pantryCard(item, day));
}

export function pantryCard(item: PantryItem, day: number): PantryCard {
  const { name, food, remedy, unit, onHand, unknown, use, daysLeft, runsOut, expires, lastUsed } = item;
  const place = food?.place ?? remedy?.place;
  return {
    name,
    title: food?.title ?? remedy?.title ?? "",
    kind: remedy === undefined ? (food?.kind ?? "") : "remedy",
    unit,
    onHand: known(onHand),
    onHandText: unknown === "" ? `${formatNumber(onHand)} ${unit}` : unknown,
    useADay: known(use?.aDay ?? Number.NaN),
    daysLeft: known(daysLeft.best),
    daysLeftLow: known(daysLeft.low),
    daysLeftHigh: known(daysLeft.high),
    lastsText: lastsText(item),
    runsOut: known(runsOut),
    expires: known(expires),
    openedUntil: known(item.openedUntil),
    remark: remarkOf(item, day),
    lastUsed: known(lastUsed?.time ?? Number.NaN),
    at: place === undefined ? null : locationOf(place),
    why: whyCard(whyOnHand(item)),
  };
}

/** `10 days (8 to 11)`. */
export function lastsText({ daysLeft: { best, low, high } }: PantryItem): string {
  if (!Number.isFinite(best)) return "";
  const [first, last] = [formatNumber(low, 2), Number.isFinite(high) ? formatNumber(high, 2) : "?"];
  return first === last ? days(best) : `${days(best)} (${first} to ${last})`;
}

function remarkOf(item: PantryItem, day: number): string {
  const { food, remedy, expires, openedUntil, onHand, daysLeft, runsOut } = item;
  const opened = (food ?? remedy)?.opened ?? Number.NaN;
  if (expires < day) return `expired ${spokenDay(expires, day)}`;
  if (openedUntil < day) return `open too long, since ${spokenDay(opened, day)}`;
  if (onHand <= 0) return "none left by the log: weigh it";
  return daysLeft.best <= aheadDays ? `runs out ${spokenDay(runsOut, day)}` : "";
}

/** Cultures that go, or ended of late, the latest start last. */
export function cultureCards(logbook: Logbook, day: number): CultureCard[] {
  return culturesOn(logbook, day)
    .filter(({ is, start }) => (is !== "harvested" && is !== "missed") || start.day > day - shownDays)
    .map((culture) => {
      const { name, start, is, readyFrom, readyUntil, harvests, hasBackUp } = culture;
      const hatch = hatchFigures(logbook, culture);
      return {
        food: name,
        of: targetWords(start),
        started: start.time,
        at: rowLocation(start.block, start.id),
        is,
        text: Number.isNaN(readyFrom) ? "" : `ready ${windowText(readyFrom, readyUntil, day)}`,
        readyFrom: known(readyFrom),
        readyUntil: known(readyUntil),
        harvests: harvests.length,
        lastHarvest: known(harvests.at(-1)?.time ?? Number.NaN),
        hasBackUp,
        hatch: hatch.map((each) => ({ text: `${each.what} ${hatchText(each)}`, isWithin: each.isWithin })),
        hatchSource: hatch.length === 0 ? "" : hatchSource,
        why: whyCard(whyCulture(logbook, culture)),
      };
    });
}
