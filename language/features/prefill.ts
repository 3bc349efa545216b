import { spokenDay } from "../book/dates.ts";
import { findParameter, type Parameter } from "../book/parameters.ts";
import type { Station, Tank } from "../book/stations.ts";
import type { Calculation, Prefill } from "../calculations/calculation.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Ledger } from "../room/ledger.ts";
import { usualChange } from "../room/water.ts";
import { placeOfRow } from "../room/why.ts";
import { type Location, locationOf } from "./view.ts";

/** What a tank in a log gives to a calculation, as a keeper would type it. */
export interface Prefilled {
  readonly text: string;
  /** Where it is from, in words: `test of 3 March`. */
  readonly from: string;
  readonly at: Location | null;
}

/** The inputs that a tank or system fills, as the log stands on a day outside. */
export function prefilled(
  checked: CheckedLogbook,
  station: Station,
  { inputs }: Calculation,
  worldDay: number,
): Readonly<Record<string, Prefilled>> {
  checked.refresh();
  const { logbook, book } = checked;
  const body = book.bodies[station.body];
  if (body === undefined) return {};
  const ledger = logbook.ledgerOf(station);
  const today = logbook.today(worldDay);
  const found: Record<string, Prefilled> = {};
  for (const [name, { from }] of Object.entries(inputs)) {
    const filled = from === undefined ? undefined : fill(ledger, station, from, today);
    if (filled !== undefined) found[name] = filled;
  }
  return found;
}

function fill(ledger: Ledger, station: Station, from: Prefill, today: number): Prefilled | undefined {
  if (from === "volume") return volume(ledger, station);
  if (from === "change") return change(ledger, station);
  if (from === "altitude") return altitude(ledger);
  const [which, word = ""] = from.split(" ");
  const parameter = findParameter(word);
  if (parameter === undefined) return undefined;
  return which === "source" ? source(ledger, parameter) : reading(ledger, parameter, today);
}

function volume({ body, book }: Ledger, station: Station): Prefilled | undefined {
  const own = station.kind === "tank" ? (station as Tank).volumeL : Number.NaN;
  const litres = Number.isFinite(own) ? own : (body?.volumeL ?? Number.NaN);
  if (!Number.isFinite(litres)) return undefined;
  const unit = book.units.declared.volume?.symbol ?? "L";
  const said = book.units.declared.volume === undefined ? litres : litres / book.units.declared.volume.factor;
  return {
    text: `${formatNumber(said, 4)} ${unit}`,
    from: `net volume of ${station.name}`,
    at: station.place === undefined ? null : locationOf(station.place),
  };
}

function altitude({ book }: Ledger): Prefilled | undefined {
  const { altitudeM, roomPlace } = book;
  if (Number.isNaN(altitudeM) || roomPlace === undefined) return undefined;
  return { text: `${formatNumber(altitudeM, 4)} m`, from: "altitude of the room", at: locationOf(roomPlace) };
}

function change(ledger: Ledger, station: Station): Prefilled | undefined {
  const duty = usualChange(ledger, station.kind === "tank" ? (station as Tank) : undefined);
  if (duty === undefined) return undefined;
  return {
    text: `${formatNumber(duty.fraction * 100)} %`,
    from: `stated for ${duty.duty.by}`,
    at: locationOf(duty.duty.place),
  };
}

function source({ book }: Ledger, parameter: Parameter): Prefilled | undefined {
  const [water] = book.waters;
  const content = water?.content.get(parameter.id);
  if (water === undefined || content === undefined) return undefined;
  return {
    text: written(book.units, parameter, content, content),
    from: `water ${water.name}`,
    at: locationOf(water.place),
  };
}

function reading(ledger: Ledger, parameter: Parameter, today: number): Prefilled | undefined {
  const series = ledger.readings[parameter.id];
  const last = (series?.from(today + 1) ?? 0) - 1;
  if (series === undefined || last < 0) return undefined;
  const place = placeOfRow(series.block[last]!, series.row[last]!);
  return {
    text: written(ledger.book.units, parameter, series.first[last]!, series.second[last]!),
    from: `test of ${spokenDay(series.time[last]!, today)}`,
    at: place === undefined ? null : locationOf(place),
  };
}

/** `0.5 mg/L N`, `<0.25 mg/L N`, `7.2`: with what it counts, so that it means the same outside the room. */
function written(units: Ledger["book"]["units"], parameter: Parameter, low: number, high: number): string {
  const isBased = parameter.basis !== undefined;
  const unit = isBased ? parameter.unit : units.shown(parameter);
  const number = (canonical: number): string =>
    formatNumber(isBased ? canonical : units.fromReading(parameter, canonical), 4);
  const symbol = parameter.dimension === "pH" ? "" : ` ${unit.symbol}${isBased ? ` ${parameter.basis}` : ""}`;
  if (low === high) return `${number(low)}${symbol}`;
  if (high === Number.POSITIVE_INFINITY) return `>${number(low)}${symbol}`;
  return low <= 0 ? `<${number(high)}${symbol}` : `${number(low)}..${number(high)}${symbol}`;
}
