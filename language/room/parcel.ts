import type { Order, Tank } from "../book/stations.ts";
import { type At, endOf } from "./against.ts";
import { type Fed, lastFed } from "./feeds.ts";
import type { Logbook } from "./logbook.ts";
import { type OrderState, ordersOn } from "./orders.ts";
import type { Reason } from "./reason.ts";

/** What of an order is to be packed on a day, tank by tank, and how it is spread over bags. */

export interface Part {
  readonly species: string;
  readonly tank: Tank;
  readonly animals: number;
  readonly lot: string;
  /** What speaks against it on the day: nothing but fasting, and nothing of what was written down as shipped. */
  readonly reasons: readonly Reason[];
  readonly fed: Fed | undefined;
  /** Whether it is written down as shipped on the day, or is what could go. */
  readonly isShipped: boolean;
}

export interface Parcel {
  readonly order: Order;
  readonly state: OrderState;
  readonly parts: readonly Part[];
  /** What is there and may not go on the day. */
  readonly held: readonly {
    readonly species: string;
    readonly tank: Tank;
    readonly animals: number;
    readonly reasons: readonly Reason[];
  }[];
  /** What no tank has. */
  readonly lacking: readonly { readonly species: string; readonly animals: number }[];
}

/** So many days back it is looked when a tank was fed. */
const fedDays = 30;

/** What was shipped for an order on a day, and else what is missing from the tanks that have it soonest; undefined without the order. */
export function parcelOf(logbook: Logbook, name: string, day: number): Parcel | undefined {
  const state = ordersOn(logbook, day).find(({ order }) => order.name === name);
  if (state === undefined) return undefined;
  const shipped = state.gone.filter(({ how, row }) => how === "ship" && row.day === day);
  const fedBefore = (tank: Tank, at: At): Fed | undefined => lastFed(logbook, tank, at, fedDays);
  if (shipped.length > 0) {
    const parts = shipped.flatMap(({ species, animals, lot, stations, row }): Part[] =>
      stations.flatMap((station): Part[] => {
        if (station.kind !== "tank") return [];
        const tank = station as Tank;
        const at = { day, time: row.time, block: row.block, row: row.row };
        const each = animals / stations.length;
        return [
          { species, tank, animals: each, lot, reasons: [], fed: fedBefore(tank, at), isShipped: true },
        ];
      }),
    );
    return { order: state.order, state, parts, held: [], lacking: [] };
  }
  const { parts, held } = partsMissing(logbook, state, day);
  const lacking = state.lines
    .filter(({ short }) => short > 0)
    .map(({ species, short }) => ({ species, animals: short }));
  return { order: state.order, state, parts, held, lacking };
}

/** What an order misses, from the tanks that have it soonest: what may go on the day, and what is held. */
export function partsMissing(
  logbook: Logbook,
  state: OrderState,
  day: number,
): Pick<Parcel, "parts" | "held"> {
  const parts: Part[] = [];
  const held: Parcel["held"][number][] = [];
  for (const { species, missing, sources } of state.lines) {
    let open = missing;
    const readyFirst = [...sources].sort((a, b) => Number(b.release.isReady) - Number(a.release.isReady));
    for (const { release, animals } of readyFirst) {
      const taken = Math.min(open, animals);
      if (taken === 0) break;
      open -= taken;
      const { tank, reasons } = release;
      if (!release.isReady) {
        held.push({ species, tank, animals: taken, reasons });
        continue;
      }
      const fed = lastFed(logbook, tank, endOf(day), fedDays);
      parts.push({ species, tank, animals: taken, lot: "", reasons, fed, isShipped: false });
    }
  }
  return { parts, held };
}

/** Animals in as few bags of so many at most as will do, as evenly as they go: 11 by 4 are 4, 4 and 3. No bags where none may hold any. */
export function bagsOf(animals: number, atMost: number): number[] {
  if (!(atMost > 0) || !(animals > 0)) return [];
  const bags = Math.ceil(animals / atMost);
  const each = Math.floor(animals / bags);
  const more = animals - each * bags;
  return Array.from({ length: bags }, (_, at) => each + (at < more ? 1 : 0));
}
