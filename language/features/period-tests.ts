import type { Book } from "../book/book.ts";
import { spokenDay } from "../book/dates.ts";
import type { Parameter } from "../book/parameters.ts";
import { days, limitText, percent, readingSpan } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import { type Exceeded, exceededIn } from "../room/exceeded.ts";
import type { Logbook } from "../room/logbook.ts";
import type { Period } from "../room/stock-book.ts";
import { type Rate, type TurnedTrend, turnedTrends } from "../room/turned-trends.ts";
import { rowLocation } from "./card-parts.ts";
import type { ExceededCard, RateCard, TurnedCard, TurnsCard } from "./period-cards.ts";

/** Tests of a period that were outside limits with what was done after, and trends that turned. */

export function periodTests(logbook: Logbook, period: Period, today: number): ExceededCard[] {
  return exceededIn(logbook, period, today)
    .map((each) => exceededCard(logbook.book, each, today))
    .sort((a, b) => a.day - b.day);
}

function exceededCard(book: Book, each: Exceeded, today: number): ExceededCard {
  const { ledger, station, parameter, limit, is, reading, next } = each;
  const day = Math.floor(reading.time);
  return {
    place: ledger.body?.system === undefined ? station.name : ledger.body.name,
    parameter: parameter.name,
    is,
    day,
    reading: readingSpan(book, parameter, reading.low, reading.high),
    limit: limitText(book, limit),
    done: doneText(each, today),
    next:
      next === undefined
        ? ""
        : `${readingSpan(book, parameter, next.low, next.high)} on ${spokenDay(Math.floor(next.time), day)}, ${nextWords[next.against]}`,
    isWithinNext: next === undefined ? null : next.against === "within",
    at: rowLocation(reading.block, reading.row),
  };
}

const nextWords = {
  within: "within",
  above: "still above",
  below: "still below",
  unsure: "perhaps within",
} as const;

function doneText({ changes, doses, reading, next }: Exceeded, today: number): string {
  const near = Math.floor(reading.time);
  const parts: string[] = [];
  const [first] = changes.days;
  if (first !== undefined) {
    const last = changes.days.at(-1)!;
    parts.push(
      first === last
        ? `${percent(changes.fraction)} new water on ${spokenDay(first, near)}`
        : `${percent(changes.fraction)} new water in all on ${days(changes.days.length)}, ${spokenDay(first, near)} to ${spokenDay(last, near)}`,
    );
  }
  for (const remedy of new Set(doses.map((dose) => dose.remedy))) {
    const on = doses.filter((dose) => dose.remedy === remedy);
    parts.push(
      `${remedy.name} dosed on ${spokenDay(on[0]!.day, near)}${on.length > 1 ? ` and ${on.length - 1} times after` : ""}`,
    );
  }
  if (parts.length > 0) return parts.join("; ");
  return next === undefined
    ? `nothing is written up to ${spokenDay(today, near)}`
    : "nothing before the next test";
}

export function periodTrends(logbook: Logbook, period: Period): TurnsCard {
  const { turned, compared, tested } = turnedTrends(logbook, period);
  return { turned: turned.map((each) => turnedCard(logbook.book, each)), compared, tested };
}

function turnedCard(book: Book, { ledger, parameter, isProduction, now, before }: TurnedTrend): TurnedCard {
  const { symbol } = book.units.shown(parameter);
  const unit = parameter.dimension === "pH" ? "" : symbol;
  const is = kindOf(now, before);
  const shown = { now: rateCard(book, parameter, now), before: rateCard(book, parameter, before) };
  const place = ledger.body?.name ?? "";
  return {
    place,
    parameter: parameter.name,
    is,
    unit,
    ...shown,
    isProduction,
    text: `${place} ${parameter.name} ${words[is]}: ${rateText(shown.now, unit)} a day, before ${rateText(shown.before, unit)}${isProduction ? ", changes taken out" : ""}`,
  };
}

const words: Readonly<Record<TurnedCard["is"], string>> = {
  rises: "rises now, and did not before",
  falls: "falls now, and did not before",
  level: "neither rises nor falls surely now",
  faster: "goes on faster",
  slower: "goes on more slowly",
};

type Way = -1 | 0 | 1;
const wayOf = ({ low, high }: Rate): Way => (low > 0 ? 1 : high < 0 ? -1 : 0);

function kindOf(now: Rate, before: Rate): TurnedCard["is"] {
  const [to, from] = [wayOf(now), wayOf(before)];
  if (to !== from) return to === 1 ? "rises" : to === -1 ? "falls" : "level";
  return Math.abs(now.best) > Math.abs(before.best) ? "faster" : "slower";
}

/** Differences in the room's unit: what a scale adds (of a temperature) falls out. */
function rateCard(book: Book, parameter: Parameter, { best, low, high }: Rate): RateCard {
  const zero = book.units.fromReading(parameter, 0);
  const shown = (value: number): number => book.units.fromReading(parameter, value) - zero;
  return { best: shown(best), low: shown(low), high: shown(high) };
}

function rateText({ best, low, high }: RateCard, unit: string): string {
  const signed = (value: number): string => `${value > 0 ? "+" : ""}${formatNumber(value, 2)}`;
  return `${signed(best)}${unit === "" ? "" : ` ${unit}`} (${signed(low)} to ${signed(high)})`;
}
