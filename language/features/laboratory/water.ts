import { type Parameter, parameterOf, parameters } from "../../book/parameters.ts";
import type { Tank } from "../../book/stations.ts";
import { limitText, readingSpan } from "../../checks/words.ts";
import { againstLimit } from "../../room/against-limit.ts";
import type { Ledger } from "../../room/ledger.ts";
import type { WaterCard } from "../cards.ts";
import { noPanel, type Panel, panels } from "../pictures/panels.ts";
import { roundCards } from "../round-card.ts";
import { waterCard } from "../water-card.ts";
import { type SheetScope, type SheetWater, waterName, watersOf } from "./scope.ts";

/** The water of the tanks over the last 30 and 90 days. */

export const shortDays = 30;
export const longDays = 90;

export interface SheetWaterCard {
  readonly of: string;
  readonly rows: readonly SheetParameter[];
  /** What the latest rounds say together: free ammonia, oxygen of saturation. */
  readonly figures: readonly { readonly what: string; readonly text: string; readonly day: number }[];
  /** Two parameters on each, so that a page can break between them; with what they show in words. */
  readonly charts: readonly { readonly svg: string; readonly text: string }[];
}

export interface SheetParameter {
  readonly parameter: string;
  readonly title: string;
  readonly unit: string;
  /** The latest reading, however old; null where it was never tested. */
  readonly latest: { readonly text: string; readonly day: number } | null;
  readonly short: Summary;
  readonly long: Summary;
  /** Empty where none is stated. */
  readonly limit: string;
}

/** Readings of some days. A `<5` is from nothing to 5 in all that follows, so a median may be a range. */
export interface Summary {
  readonly tests: number;
  readonly outside: number;
  /** Empty without tests. */
  readonly median: string;
  readonly range: string;
}

/** What laboratories ask for; tested or not it has its line. Others follow where they were tested. */
const asked: readonly Parameter[] = [
  "temperature",
  "oxygen",
  "pH",
  "ammonia",
  "nitrite",
  "nitrate",
  "GH",
  "KH",
].map(parameterOf);

export const sheetWaters = (scope: SheetScope): SheetWaterCard[] =>
  watersOf(scope).map((water) => waterOf(scope, water));

function waterOf(scope: SheetScope, water: SheetWater): SheetWaterCard {
  const { day } = scope;
  const { ledger, tanks } = water;
  const tank = tanks[0];
  const others = parameters.filter(
    (each) => !asked.includes(each) && readingsIn(ledger, each, day - longDays + 1, day).length > 0,
  );
  const told = [...asked, ...others];
  const charted = told.filter((each) => readingsIn(ledger, each, day - longDays + 1, day).length > 1);
  const pairs = charted.flatMap((_, at) => (at % 2 === 0 ? [charted.slice(at, at + 2)] : []));
  return {
    of: waterName(water),
    rows: told.map((each) => rowOf(ledger, tank, each, day)),
    figures: roundCards(ledger, day)
      .filter(({ isKnown }) => isKnown)
      .map(({ what, text, beside, time }) => ({
        what,
        text: beside === "" ? text : `${text}; ${beside}`,
        day: Math.floor(time),
      })),
    charts: pairs.map((pair, at) => ({
      svg: panels(
        pair.map((each) => panelOf(scope, waterCard(ledger, tank, each, day))),
        at === pairs.length - 1 ? legend : "",
      ),
      text: `Readings of the last ${longDays} days: ${pair.map(({ title }) => within(title)).join(", ")}`,
    })),
  };
}

const legend =
  "Dots are readings, bars what a reading leaves open; grey is the level computed between them, dashed a limit stated, dotted the first sign.";

/** A title within a sentence. */
export const within = (title: string): string =>
  title.startsWith("pH") ? title : `${title.charAt(0).toLowerCase()}${title.slice(1)}`;

interface Reading {
  readonly low: number;
  readonly high: number;
}

function readingsIn({ readings }: Ledger, { id }: Parameter, from: number, to: number): Reading[] {
  const series = readings[id];
  if (series === undefined) return [];
  const found: Reading[] = [];
  const end = series.from(to + 1);
  for (let at = series.from(from); at < end; at++)
    found.push({ low: series.first[at]!, high: series.second[at]! });
  return found;
}

function rowOf(ledger: Ledger, tank: Tank | undefined, parameter: Parameter, day: number): SheetParameter {
  const { book, readings } = ledger;
  const series = readings[parameter.id];
  const last = (series?.from(day + 1) ?? 0) - 1;
  const limit = tank?.limits.get(parameter.id);
  const summary = (days: number): Summary => {
    const seen = readingsIn(ledger, parameter, day - days + 1, day);
    return {
      tests: seen.length,
      outside:
        limit === undefined
          ? 0
          : seen.filter(({ low, high }) => ["above", "below"].includes(againstLimit(limit, low, high)))
              .length,
      median: spanOf(ledger, parameter, medianOf(seen)),
      range: rangeOf(ledger, parameter, seen),
    };
  };
  return {
    parameter: parameter.name,
    title: parameter.title,
    unit: parameter.dimension === "pH" ? "" : book.units.shown(parameter).symbol,
    latest:
      series === undefined || last < 0
        ? null
        : {
            text: spanOf(ledger, parameter, { low: series.first[last]!, high: series.second[last]! }),
            day: Math.floor(series.time[last]!),
          },
    short: summary(shortDays),
    long: summary(longDays),
    limit: limit === undefined ? "" : limitText(book, limit),
  };
}

/** Without its unit: that stands beside the parameter. */
function spanOf({ book }: Ledger, parameter: Parameter, span: Reading | undefined): string {
  if (span === undefined) return "";
  const text = readingSpan(book, parameter, span.low, span.high);
  const { symbol } = book.units.shown(parameter);
  return text.endsWith(` ${symbol}`) ? text.slice(0, -symbol.length - 1) : text;
}

/** The median lies between those of the lower and of the upper ends: nothing is put in for a `<5`. */
export function medianOf(readings: readonly Reading[]): Reading | undefined {
  if (readings.length === 0) return undefined;
  const middle = (values: number[]): number => {
    const sorted = values.sort((a, b) => a - b);
    const half = (sorted.length - 1) / 2;
    const [one, other] = [sorted[Math.floor(half)]!, sorted[Math.ceil(half)]!];
    return one === other ? one : (one + other) / 2;
  };
  return { low: middle(readings.map(({ low }) => low)), high: middle(readings.map(({ high }) => high)) };
}

/** From the reading with the lowest to that with the highest ends. */
function rangeOf(ledger: Ledger, parameter: Parameter, readings: readonly Reading[]): string {
  if (readings.length === 0) return "";
  const sorted = [...readings].sort((a, b) => a.low - b.low || a.high - b.high);
  const [first, last] = [sorted[0]!, [...readings].sort((a, b) => b.high - a.high || b.low - a.low)[0]!];
  const [least, most] = [spanOf(ledger, parameter, first), spanOf(ledger, parameter, last)];
  return least === most ? least : `${least} to ${most}`;
}

function panelOf({ day, story }: SheetScope, card: WaterCard): Panel {
  const { title, unit, readings, course, limit } = card;
  return {
    ...noPanel,
    title: unit === "" ? title : `${title}, ${unit}`,
    from: day - longDays + 1,
    to: day + 1,
    points: readings,
    course,
    limits: limit === null ? [] : [limit.low, limit.high].filter((bound) => bound !== null),
    marks: [{ time: story.since, text: "first sign" }],
  };
}
