import { type Parameter, parameters } from "../book/parameters.ts";
import type { Limit, Station, Tank } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { isHeadingForLimit } from "../checks/trends.ts";
import { againstLimit } from "../room/against-limit.ts";
import type { Ledger } from "../room/ledger.ts";
import { type WaterTrend, waterTrend } from "../room/water.ts";

/** Water that is out of its limits by its last reading, or heading there. */
export interface Trouble {
  /** The tank, or the system if its tanks share water. */
  readonly at: Station;
  /** Whose limit it is. */
  readonly tank: Tank;
  readonly parameter: Parameter;
  readonly is: "above" | "below" | "heading";
  readonly limit: Limit;
  /** The last reading: equal ends for a plain one. Canonical. */
  readonly low: number;
  readonly high: number;
  readonly time: number;
  /** Undefined for what does not mix, or has too few readings. */
  readonly trend: WaterTrend | undefined;
}

/** Troubles of all water on a day: what is out of its limits first, then what will be, the soonest first. */
export function waterTroubles({ logbook, book }: CheckedLogbook, day: number): Trouble[] {
  const troubles: Trouble[] = [];
  for (const body of book.bodies) {
    const ledger = logbook.ledgers[body.id]!;
    for (const parameter of parameters) {
      const found = troubleOf(ledger, parameter, day);
      if (found !== undefined) troubles.push(found);
    }
  }
  const soon = ({ is, trend }: Trouble): number => (is === "heading" ? (trend?.forecast?.days ?? 0) : -1);
  return troubles.sort((a, b) => soon(a) - soon(b));
}

function troubleOf(ledger: Ledger, parameter: Parameter, day: number): Trouble | undefined {
  const series = ledger.readings[parameter.id];
  const { body } = ledger;
  const last = (series?.from(day + 1) ?? 0) - 1;
  if (series === undefined || body === undefined || last < 0) return undefined;
  const low = series.first[last]!;
  const high = series.second[last]!;
  const tested = body.tanks.find(({ id }) => id === series.tag[last]) ?? body.tanks[0];
  if (tested === undefined) return undefined;
  const base = { at: body.system ?? tested, parameter, low, high, time: series.time[last]! };
  const limit = tested.limits.get(parameter.id);
  const is = limit === undefined ? "within" : againstLimit(limit, low, high);
  if (limit !== undefined && (is === "above" || is === "below"))
    return { ...base, tank: tested, is, limit, trend: waterTrend(ledger, parameter, tested, day) };
  // Water that is shared heads for the strictest limit of its tanks.
  const tank = strictestOf(body.tanks, parameter);
  const trend = tank === undefined ? undefined : waterTrend(ledger, parameter, tank, day);
  if (tank === undefined || trend?.limit === undefined || !isHeadingForLimit(trend)) return undefined;
  return { ...base, tank, is: "heading", limit: trend.limit, trend };
}

function strictestOf(tanks: readonly Tank[], parameter: Parameter): Tank | undefined {
  const limited = tanks.filter(({ limits }) => limits.has(parameter.id));
  return limited.sort((a, b) => a.limits.get(parameter.id)!.high - b.limits.get(parameter.id)!.high)[0];
}
