import type { Parameter } from "../book/parameters.ts";
import { parameters } from "../book/parameters.ts";
import type { Limit, Tank } from "../book/stations.ts";
import { whyTrend } from "../checks/trends.ts";
import { days, limitText, percent, readingSpan, readingText } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import { againstLimit } from "../room/against-limit.ts";
import type { Ledger } from "../room/ledger.ts";
import { type WaterTrend, waterTrend } from "../room/water.ts";
import { levelAhead, levelCourse } from "../room/water-course.ts";
import type { Span } from "../science/mass-balance.ts";
import { isOutside } from "../science/result.ts";
import { dayText, known, rowLocation, whyCard } from "./card-parts.ts";
import type { ChangeCard, CrossingCard, LimitCard, ReadingCard, SpanCard, WaterCard } from "./cards.ts";
import { type Location, locationOf } from "./view.ts";

/** The water of a tank: each parameter with its readings, where it stands, and where it heads. */

/** So far back a card goes: a year. */
const cardDays = 366;
/** So far ahead. */
const aheadDays = 60;
/** What moves a level by less than this share in four weeks is next to nothing. */
const nextToNothing = 0.01;

/** @param tank whose limits hold */
export function waterCards(ledger: Ledger, tank: Tank | undefined, day: number): WaterCard[] {
  const cards = parameters.flatMap((parameter) => {
    const isTested = (ledger.readings[parameter.id]?.from(day + 1) ?? 0) > 0;
    return isTested || tank?.limits.has(parameter.id) ? [waterCard(ledger, tank, parameter, day)] : [];
  });
  return [...cards.filter(({ limit }) => limit !== null), ...cards.filter(({ limit }) => limit === null)];
}

export function changeCards(ledger: Ledger, day: number): ChangeCard[] {
  const { exchanges } = ledger;
  const cards: ChangeCard[] = [];
  const end = exchanges.from(day + 1);
  for (let at = exchanges.from(day + 1 - cardDays); at < end; at++) {
    const place = rowLocation(exchanges.block[at]!, exchanges.row[at]!);
    const [fraction, litres] = [exchanges.first[at]!, exchanges.second[at]!];
    if (place === null) continue;
    const volume = Number.isFinite(litres) ? `${formatNumber(litres)} L` : "";
    cards.push({
      time: exchanges.time[at]!,
      fraction,
      litres: known(litres) ?? 0,
      text: fraction > 0 ? [percent(fraction), volume].filter(Boolean).join(", ") : `topped up, ${volume}`,
      at: place,
    });
  }
  return cards;
}

export function waterCard(
  ledger: Ledger,
  tank: Tank | undefined,
  parameter: Parameter,
  day: number,
): WaterCard {
  const { units } = ledger.book;
  const limit = tank?.limits.get(parameter.id);
  const trend = waterTrend(ledger, parameter, tank, day);
  const shown = (canonical: number): number => units.fromReading(parameter, canonical);
  return {
    parameter: parameter.name,
    title: parameter.title,
    unit: parameter.dimension === "pH" ? "" : units.shown(parameter).symbol,
    limit: limit === undefined ? null : limitCard(ledger, limit),
    readings: readingCards(ledger, parameter, limit, day),
    ...(trend === undefined ? untrended : trendCard(ledger, trend, day)),
    course:
      trend === undefined
        ? []
        : levelCourse(trend, day).map(({ timeDays, mgL }) => ({ time: timeDays, value: shown(mgL) })),
    ahead:
      trend === undefined || limit === undefined
        ? []
        : levelAhead(trend, day, aheadDays).map(({ timeDays, best, low, high }) => ({
            time: timeDays,
            best: shown(best),
            low: shown(low),
            high: shown(high),
          })),
  };
}

/** When a limit is met, alone: for who compares two logs and shows no more of the water. */
export interface LimitMet {
  readonly limitText: string;
  readonly crossing: CrossingCard | null;
  /** The last reading of a year; where there is none the limit. */
  readonly at: Location;
}

export function limitMet(ledger: Ledger, tank: Tank, limit: Limit, day: number): LimitMet {
  const { parameter, place } = limit;
  const trend = waterTrend(ledger, parameter, tank, day);
  const series = ledger.readings[parameter.id];
  let at: Location | null = null;
  const first = series?.from(day + 1 - cardDays) ?? 0;
  for (let last = (series?.from(day + 1) ?? 0) - 1; at === null && last >= first; last--)
    at = rowLocation(series!.block[last]!, series!.row[last]!);
  return {
    limitText: limitText(ledger.book, limit),
    crossing: trend === undefined ? null : crossingCard(trend, day),
    at: at ?? locationOf(place),
  };
}

function limitCard({ book }: Ledger, limit: Limit): LimitCard {
  const { parameter, low, high, by, place } = limit;
  const shown = (bound: number): number | null =>
    Number.isFinite(bound) ? book.units.fromReading(parameter, bound) : null;
  return { low: shown(low), high: shown(high), text: limitText(book, limit), by, at: locationOf(place) };
}

function readingCards(
  { readings, book }: Ledger,
  parameter: Parameter,
  limit: Limit | undefined,
  day: number,
): ReadingCard[] {
  const series = readings[parameter.id];
  if (series === undefined) return [];
  const cards: ReadingCard[] = [];
  const end = series.from(day + 1);
  for (let at = series.from(day + 1 - cardDays); at < end; at++) {
    const place = rowLocation(series.block[at]!, series.row[at]!);
    if (place === null) continue;
    const [low, high] = [series.first[at]!, series.second[at]!];
    cards.push({
      time: series.time[at]!,
      low: book.units.fromReading(parameter, low),
      high: Number.isFinite(high) ? book.units.fromReading(parameter, high) : null,
      text: readingSpan(book, parameter, low, high),
      isOutside: limit !== undefined && ["above", "below"].includes(againstLimit(limit, low, high)),
      of: book.stations[series.tag[at]!]?.name ?? "",
      at: place,
    });
  }
  return cards;
}

const untrended = {
  level: null,
  production: null,
  productionUnknown: "",
  crossing: null,
  regular: null,
  holdingText: "",
  changeBackText: "",
  why: null,
} satisfies Partial<WaterCard>;

function trendCard(ledger: Ledger, trend: WaterTrend, day: number): Omit<WaterCard, keyof Known> {
  const { parameter, level, production, duty, holding, changeBack, steady } = trend;
  const text = (value: number): string => readingText(ledger.book, parameter, value);
  const isNothing =
    !isOutside(production) &&
    level !== undefined &&
    28 * Math.abs(production.rateMgLDay) < nextToNothing * level.best;
  return {
    level: level === undefined ? null : spanCard(ledger, parameter, level),
    production:
      isOutside(production) || isNothing
        ? null
        : spanCard(ledger, parameter, {
            best: production.rateMgLDay,
            ...(isOutside(production.interval) ? { low: Number.NaN, high: Number.NaN } : production.interval),
          }),
    productionUnknown: isOutside(production)
      ? production.outside
      : isNothing
        ? "Next to nothing is made or used up"
        : "",
    crossing: crossingCard(trend, day),
    regular:
      duty === undefined
        ? null
        : {
            everyDays: duty.everyDays,
            fraction: duty.fraction,
            text: `${percent(duty.fraction)} every ${days(duty.everyDays)}`,
            steady:
              typeof steady === "number" && !isNothing
                ? ledger.book.units.fromReading(parameter, steady)
                : null,
            steadyText: typeof steady === "number" && !isNothing ? `${text(steady)} before a change` : "",
            at: locationOf(duty.duty.place),
          },
    holdingText:
      holding === undefined || duty === undefined || (!isOutside(holding) && holding <= duty.fraction)
        ? ""
        : isOutside(holding)
          ? holding.outside
          : `${percent(holding)} every ${days(duty.everyDays)}`,
    changeBackText:
      changeBack === undefined
        ? ""
        : isOutside(changeBack)
          ? changeBack.outside
          : `${percent(changeBack)} at once`,
    why: whyCard(whyTrend(ledger, trend, day)),
  };
}

/** What a card knows without a trend. */
type Known = Pick<WaterCard, "parameter" | "title" | "unit" | "limit" | "readings" | "course" | "ahead">;

function spanCard({ book }: Ledger, parameter: Parameter, { best, low, high }: Span): SpanCard {
  const shown = (value: number): number => book.units.fromReading(parameter, value);
  // What rounding leaves of nothing is nothing.
  const text = (value: number): string =>
    readingText(book, parameter, Math.abs(value) < 1e-9 * Math.abs(best) ? 0 : value);
  const bare = (value: number): string => text(value).replace(/ .*$/, "");
  const isKnown = Number.isFinite(low) && Number.isFinite(high);
  return {
    best: shown(best),
    low: known(shown(low)),
    high: known(shown(high)),
    text: isKnown ? `${text(best)} (${bare(low)} to ${bare(high)})` : text(best),
  };
}

/** When a limit is met: the same days that a finding would name. */
function crossingCard({ forecast, production }: WaterTrend, day: number): CrossingCard | null {
  if (forecast === undefined || isOutside(production)) return null;
  const { days: best, earliestDays, latestDays } = forecast;
  if (!Number.isFinite(best) && !Number.isFinite(earliestDays)) return null;
  const on = (count: number): number => day + Math.ceil(count);
  const word = (count: number): string => (Number.isFinite(count) ? dayText(on(count), day) : "never");
  const [earliest, latest] = [word(earliestDays), word(latestDays)];
  const between = earliest === latest ? "" : ` (${earliest} to ${latest})`;
  return {
    day: known(on(best)),
    earliest: known(on(earliestDays)),
    latest: known(on(latestDays)),
    text: !Number.isFinite(best)
      ? `not expected; ${earliest} at the earliest`
      : best === 0
        ? "now"
        : `about ${word(best)}${between}`,
  };
}
