import type { Book } from "../book/book.ts";
import { parameterOf } from "../book/parameters.ts";
import type { Station, Water } from "../book/stations.ts";
import type { Litres } from "../room/changes-due.ts";
import type { Ledger } from "../room/ledger.ts";
import { temperatureOf } from "../room/made-of.ts";

/** New water as warm as the tank: what it is now, what it would do to the tank, and the mix with a warmer or colder one. */

export interface Warmth {
  /** Of the tank, as last read; NaN if it never was, or the reading is no figure. */
  readonly tankC: number;
  readonly day: number;
  /** Of the new water; NaN where it is not stated. */
  readonly sourceC: number;
  /** What the change would do to the tank, unmatched: below 0 it cools. From the least change to the most. */
  readonly change: Litres | undefined;
  /** What of another water with the same content makes it as warm as the tank. */
  readonly mix: { readonly water: string; readonly share: number; readonly litres: Litres } | undefined;
}

const temperature = parameterOf("temperature");

/** Closer is not told apart: a change of so little is what a thermometer reads. A choice of this tool. */
const nearC = 0.5;

/**
 * Both mix by volume, as the heat capacity of fresh waters is the same: T = T0 (1 - f) + Ts f, and of the warmer water the share
 * (T - Tcold) / (Thot - Tcold).
 */
export function warmthOf(
  book: Book,
  ledger: Ledger,
  station: Station,
  source: Water | undefined,
  { litres, share, today }: { readonly litres: Litres; readonly share: Litres; readonly today: number },
): Warmth {
  const { celsius: tankC, day } = lastRead(ledger, station, today);
  const sourceC = source === undefined ? Number.NaN : temperatureOf(book, source);
  const off = sourceC - tankC;
  const base = { tankC, day, sourceC };
  if (Number.isNaN(off)) return { ...base, change: undefined, mix: undefined };
  return {
    ...base,
    change: { low: off * share.low, high: off * share.high },
    mix: source === undefined || Math.abs(off) < nearC ? undefined : mixOf(book, source, base, litres),
  };
}

function lastRead(
  ledger: Ledger,
  station: Station,
  today: number,
): { readonly celsius: number; readonly day: number } {
  const series = ledger.readings[temperature.id];
  const until = series?.from(today + 1) ?? 0;
  if (series === undefined || until === 0) return { celsius: Number.NaN, day: Number.NaN };
  // Of shared water its own reading goes first, if it is of the same day.
  let at = until - 1;
  const last = Math.floor(series.time[at]!);
  for (let other = at; other >= 0 && Math.floor(series.time[other]!) === last; other--)
    if (series.tag[other] === station.id) {
      at = other;
      break;
    }
  // A range counts as its middle; a censored reading is no figure.
  return { celsius: (series.first[at]! + series.second[at]!) / 2, day: last };
}

/** The first water on the other side of the tank's temperature that differs in nothing else that both state. */
function mixOf(
  book: Book,
  source: Water,
  { tankC, sourceC }: { readonly tankC: number; readonly sourceC: number },
  litres: Litres,
): Warmth["mix"] {
  for (const water of book.waters) {
    const otherC = temperatureOf(book, water);
    const share = (tankC - sourceC) / (otherC - sourceC);
    if (water === source || !(share > 0 && share <= 1) || !isAlike(source, water)) continue;
    return { water: water.name, share, litres: { low: litres.low * share, high: litres.high * share } };
  }
  return undefined;
}

const alike = 0.1;

function isAlike(a: Water, b: Water): boolean {
  return [...a.content].every(([id, value]) => {
    const other = b.content.get(id);
    if (id === temperature.id || other === undefined) return true;
    return Math.abs(value - other) <= alike * Math.max(Math.abs(value), Math.abs(other));
  });
}
