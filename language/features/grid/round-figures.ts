import { isoOf } from "../../book/dates.ts";
import { Kind } from "../../book/entries/registry.ts";
import { nameOf } from "../../book/interner.ts";
import { findParameter, type Parameter } from "../../book/parameters.ts";
import { idOfRow } from "../../book/source.ts";
import type { Limit, Station, Tank } from "../../book/stations.ts";
import { limitText, readingSpan } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { againstLimit } from "../../room/against-limit.ts";
import type { Ledger } from "../../room/ledger.ts";
import { figureNamed, roundFigure } from "../../room/round.ts";
import type { Series } from "../../room/series.ts";
import { waterTrend } from "../../room/water.ts";
import { toldOfRounds } from "../rounds.ts";
import type { View } from "../view.ts";
import type { ColumnId, GridCell } from "./grid-model.ts";
import { factOf, type Round, type RoundLine, type RoundValue } from "./rounds-on.ts";

/** What follows from a round: how its readings stand to the limits, and the columns that are reckoned. */

export const changeColumn = (parameter: string): ColumnId => `change ${parameter}`;
export const forecastColumn = (parameter: string): ColumnId => `forecast ${parameter}`;
export const bookColumn = (species: string): ColumnId => `book ${species}`;
export const figureColumn = (calculation: string): ColumnId => `figure ${calculation}`;

export type Figured = Pick<GridCell, "text" | "state" | "detail">;
const unsaid = { state: "", detail: "" } as const;
const none: Figured = { text: "", ...unsaid };

/** A reading in the ledger's columns. */
interface Placed {
  readonly ledger: Ledger;
  readonly series: Series;
  readonly index: number;
}

/** Where a place is in the ledgers. */
export function ledgerFor({ checked }: View, name: string): { station: Station; ledger: Ledger } | undefined {
  const station = checked.book.station(nameOf(name));
  return station === undefined || station.body < 0
    ? undefined
    : { station, ledger: checked.logbook.ledgerOf(station) };
}

function placed(
  ledger: Ledger,
  station: Station,
  round: Round,
  parameter: Parameter,
  value: RoundValue & { readonly of: RoundLine },
): Placed | undefined {
  const series = ledger.readings[parameter.id];
  const { block } = value.of;
  const row = factOf(value.of, value, Kind.test);
  if (series === undefined || row < 0) return undefined;
  const time = round.day + value.of.minute / 1440;
  const index = series.find(time, block, idOfRow(block, row), station.id);
  return index < 0 ? undefined : { ledger, series, index };
}

/** How a reading stands to the limit of its place. */
export function stateOf(view: View, round: Round, parameter: Parameter): Pick<Figured, "state" | "detail"> {
  const found = ledgerFor(view, round.station);
  const value = round.values.get(`test ${parameter.name}`);
  if (found === undefined || value === undefined) return unsaid;
  const limit = ownLimit(found.station, found.ledger, parameter);
  const at = placed(found.ledger, found.station, round, parameter, value);
  if (limit === undefined || at === undefined) return unsaid;
  const state = againstLimit(limit, at.series.first[at.index]!, at.series.second[at.index]!);
  return { state, detail: `${limitText(view.checked.book, limit)}, by ${limit.by}` };
}

/** The limit of a place for a parameter, canonical, with its words. */
export function limitOf(
  view: View,
  name: string,
  parameter: Parameter,
): (Limit & { readonly text: string }) | undefined {
  const found = ledgerFor(view, name);
  const limit = found === undefined ? undefined : ownLimit(found.station, found.ledger, parameter);
  return limit === undefined ? undefined : { ...limit, text: limitText(view.checked.book, limit) };
}

function ownLimit(station: Station, { body }: Ledger, parameter: Parameter): Limit | undefined {
  return (station.kind === "tank" ? (station as Tank).limits : body?.limits)?.get(parameter.id);
}

/** A column that is reckoned, of one round. */
export function figured(view: View, round: Round, column: ColumnId): Figured {
  const found = ledgerFor(view, round.station);
  if (found === undefined) return none;
  const [is, ...rest] = column.split(" ");
  const name = rest.join(" ");
  if (is === "book") return bookOf(found.ledger, found.station, round, name);
  if (is === "figure") return figureOf(found.ledger, found.station, round, name);
  const parameter = findParameter(name);
  if (parameter === undefined) return none;
  if (is === "change") return changeOf(view, found.ledger, found.station, round, parameter);
  return is === "forecast" ? forecastOf(view, found.ledger, found.station, round, parameter) : none;
}

/** Against the reading before it at the same place; of what is censored what it is at least and at most. */
function changeOf(
  { checked: { book } }: View,
  ledger: Ledger,
  station: Station,
  round: Round,
  parameter: Parameter,
): Figured {
  const value = round.values.get(`test ${parameter.name}`);
  const at = value === undefined ? undefined : placed(ledger, station, round, parameter, value);
  if (at === undefined) return none;
  const { series, index } = at;
  let before = index - 1;
  while (before >= 0 && series.tag[before] !== station.id) before--;
  if (before < 0) return { ...none, detail: "the first reading here" };
  const shown = (canonical: number): number => book.units.fromReading(parameter, canonical);
  const low = shown(series.first[index]!) - shown(series.second[before]!);
  const high = shown(series.second[index]!) - shown(series.first[before]!);
  const was = readingSpan(book, parameter, series.first[before]!, series.second[before]!);
  const detail = `since ${was} on ${isoOf(Math.floor(series.time[before]!))}`;
  if (low === high) return { ...none, text: signed(low), detail };
  if (Number.isFinite(low) && Number.isFinite(high))
    return { ...none, text: `${signed(low)}..${signed(high)}`, detail };
  const end = Number.isFinite(low) ? `>${signed(low)}` : Number.isFinite(high) ? `<${signed(high)}` : "";
  return { ...none, text: end, detail };
}

function signed(value: number): string {
  const text = formatNumber(value);
  return value > 0 && text !== "0" ? `+${text}` : text;
}

/** When the parameter meets its limit, by what was known at the end of that day. */
function forecastOf(
  view: View,
  ledger: Ledger,
  station: Station,
  { day }: Round,
  parameter: Parameter,
): Figured {
  if (station.kind !== "tank") return none;
  const trend = waterTrend(ledger, parameter, station as Tank, day);
  if (trend === undefined) return none;
  const { forecast, limit } = trend;
  if (forecast === undefined || limit === undefined) {
    const why = "outside" in trend.production ? trend.production.outside : "";
    return { ...none, detail: limit === undefined ? "no limit is stated" : why };
  }
  const { days, earliestDays, latestDays } = forecast;
  const on = (count: number): string => (Number.isFinite(count) ? isoOf(day + Math.ceil(count)) : "never");
  return {
    text: days === 0 ? "now" : on(days),
    state: "",
    detail: `meets ${limitText(view.checked.book, limit)}; ${on(earliestDays)} at the earliest, ${on(latestDays)} at the latest`,
  };
}

/** A calculation over the round, as at the end of its line. */
function figureOf(ledger: Ledger, station: Station, round: Round, id: string): Figured {
  const told = toldOfRounds.find(({ calculation }) => calculation.name === id);
  const value = told === undefined ? undefined : round.values.get(`test ${told.at.name}`);
  if (told === undefined || value === undefined) return none;
  const at = placed(ledger, station, round, told.at, value);
  const figures = at === undefined ? undefined : roundFigure(ledger, told.calculation, told.at, at.index);
  if (figures === undefined) return none;
  const figure = figureNamed(figures, told.figure);
  return figure === undefined
    ? { ...none, detail: figures.outside ?? "" }
    : { text: figure.text, state: "", detail: told.beside(figures) };
}

/** How many animals the book had: before the count of the round, where one was made, else at its time. */
function bookOf(ledger: Ledger, station: Station, round: Round, species: string): Figured {
  const holding = ledger.stock.known(station.id, nameOf(species));
  if (holding === undefined) return none;
  const { animals } = ledger;
  const value = round.values.get(`count ${species}`);
  let index = -1;
  if (value !== undefined) {
    const { block } = value.of;
    const row = factOf(value.of, value, Kind.count);
    const time = round.day + value.of.minute / 1440;
    if (row >= 0) index = animals.find(time, block, idOfRow(block, row), holding.index);
  }
  const isCounted = index >= 0;
  if (!isCounted) {
    index = animals.from(round.day + round.minute / 1440 + 1e-9) - 1;
    while (index >= 0 && animals.tag[index] !== holding.index) index--;
    if (index < 0) return none;
  }
  const number = isCounted ? animals.first[index]! : animals.second[index]!;
  if (Number.isNaN(number)) return { ...none, detail: "nothing says how many there were" };
  const about = !isCounted && animals.isAbout[index] === 1 ? "~" : "";
  return {
    text: `${about}${formatNumber(number, 15)}`,
    state: "",
    detail: isCounted ? "by the book before this count" : "by the book at this time",
  };
}
