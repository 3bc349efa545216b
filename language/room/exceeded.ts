import { type Parameter, parameters } from "../book/parameters.ts";
import type { Limit, Remedy, Station, Tank } from "../book/stations.ts";
import { type Against, againstLimit } from "./against-limit.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import type { Moment } from "./observer.ts";
import type { Series } from "./series.ts";
import type { Period } from "./stock-book.ts";
import { settledTime } from "./water.ts";

/** A reading outside its limit, and what was done to its water until the next test of the same. */
export interface Exceeded {
  readonly ledger: Ledger;
  readonly station: Station;
  readonly parameter: Parameter;
  readonly limit: Limit;
  readonly is: "above" | "below";
  readonly reading: ReadingAt;
  /** Changes of water after it: the days, and new water in all, as a fraction. */
  readonly changes: { readonly days: readonly number[]; readonly fraction: number };
  readonly doses: readonly { readonly day: number; readonly remedy: Remedy }[];
  /** The next test of the same in this water; undefined where there was none up to the day. */
  readonly next: (ReadingAt & { readonly against: Against }) | undefined;
}

export interface ReadingAt extends Moment {
  readonly low: number;
  readonly high: number;
}

/** In the order of the waters, then of time. @param today up to which day what was done after counts */
export function exceededIn(logbook: Logbook, { from, to }: Period, today: number): Exceeded[] {
  return logbook.ledgers.flatMap((ledger) =>
    parameters.flatMap((parameter) => {
      const series = ledger.readings[parameter.id];
      if (series === undefined) return [];
      const found: Exceeded[] = [];
      for (let at = series.from(from); at < series.length && series.time[at]! < to + 1; at++) {
        const station = logbook.book.stations[series.tag[at]!];
        const limits = station?.kind === "tank" ? (station as Tank).limits : ledger.body?.limits;
        const limit = limits?.get(parameter.id);
        if (station === undefined || limit === undefined) continue;
        const is = againstLimit(limit, series.first[at]!, series.second[at]!);
        if (is !== "above" && is !== "below") continue;
        found.push({
          ledger,
          station,
          parameter,
          limit,
          is,
          reading: readingAt(series, at),
          ...afterwards(ledger, series, at, limit, today),
        });
      }
      return found;
    }),
  );
}

function afterwards(
  { exchanges, doses, book }: Ledger,
  series: Series,
  at: number,
  limit: Limit,
  today: number,
): Pick<Exceeded, "changes" | "doses" | "next"> {
  const since = settledTime(series, at);
  const isNext = at + 1 < series.length && series.time[at + 1]! < today + 1;
  const until = isNext ? settledTime(series, at + 1) : today + 1;
  const days = new Set<number>();
  let left = 1;
  for (let each = exchanges.from(Math.floor(since)); each < exchanges.length; each++) {
    const time = settledTime(exchanges, each);
    if (time >= until) break;
    if (time < since || !(exchanges.first[each]! > 0)) continue;
    days.add(Math.floor(time));
    left *= 1 - exchanges.first[each]!;
  }
  const given: { day: number; remedy: Remedy }[] = [];
  for (let each = doses.from(Math.floor(since)); each < doses.length; each++) {
    const time = settledTime(doses, each);
    if (time >= until) break;
    const remedy = book.remedies.find(({ id }) => id === doses.tag[each]);
    if (time >= since && remedy !== undefined) given.push({ day: Math.floor(time), remedy });
  }
  const next = isNext ? readingAt(series, at + 1) : undefined;
  return {
    changes: { days: [...days], fraction: 1 - left },
    doses: given,
    next: next === undefined ? undefined : { ...next, against: againstLimit(limit, next.low, next.high) },
  };
}

const readingAt = (series: Series, at: number): ReadingAt => ({
  time: series.time[at]!,
  block: series.block[at]!,
  row: series.row[at]!,
  low: series.first[at]!,
  high: series.second[at]!,
});
