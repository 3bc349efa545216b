import type { Capacity } from "../../book/bind-working-days.ts";
import { Kind } from "../../book/entries/registry.ts";
import type { Station } from "../../book/stations.ts";
import { type RoomJob, usesOf } from "./work.ts";

/** Whether a room fits its keeper: what its duties ask for on an average day, for ever, against what a day holds. */
export interface Demand {
  readonly of: "tanks" | "litres" | "minutes";
  /** On an average day. Of tanks the least: their work falls on the same day where it can. */
  readonly perDay: number;
  /** As the room states it; NaN where it does not. */
  readonly capacity: number;
  /** Above what a day holds; 0 or less where it fits. NaN without a capacity. */
  readonly over: number;
  /** Duties of which it is not known what they take. */
  readonly unknown: number;
  /** What would make it fit; none where it does. */
  readonly fixes: readonly Fix[];
}

export type Fix =
  /** A day that holds so much. */
  | { readonly is: "capacity"; readonly needed: number }
  /** All intervals so many times as long. */
  | { readonly is: "all intervals"; readonly times: number }
  /** The intervals of one tank so many times as long, nothing else. */
  | { readonly is: "intervals of"; readonly at: Station; readonly times: number };

/** So many tanks are named of which one alone would do. */
const mostNamed = 3;
/** Nobody is told to wait longer than so many times the interval. Our own choice. */
const mostTimes = 4;

export function demandsOf(jobs: readonly RoomJob[], capacity: Capacity): Demand[] {
  return [
    demandOf("tanks", visitsOf(jobs), capacity.tanks, 0),
    demandOf(
      "litres",
      sharesOf(jobs, (job) => usesOf(job)[0]),
      capacity.litres,
      jobs.filter(({ due, litres }) => due.duty.kind === Kind.change && litres === undefined).length,
    ),
    demandOf(
      "minutes",
      sharesOf(jobs, (job) => usesOf(job)[1]),
      capacity.minutes,
      jobs.filter(({ time }) => Number.isNaN(time.minutes)).length,
    ),
  ];
}

/** What each place asks for on an average day. */
type Shares = ReadonlyMap<Station, number>;

function demandOf(of: Demand["of"], shares: Shares, capacity: number, unknown: number): Demand {
  const perDay = [...shares.values()].reduce((sum, share) => sum + share, 0);
  const over = perDay - capacity;
  if (!(over > 1e-9)) return { of, perDay, capacity, over, unknown, fixes: [] };
  // A place whose share is s gives up what is over when its intervals are s / (s - over) times as long.
  const alone = [...shares]
    .filter(([, share]) => share > over)
    .map(([at, share]): Fix & { times: number } => ({
      is: "intervals of",
      at,
      times: share / (share - over),
    }))
    .filter(({ times }) => times <= mostTimes)
    .sort((a, b) => a.times - b.times)
    .slice(0, mostNamed);
  const needed = of === "tanks" ? Math.ceil(perDay - 1e-9) : perDay;
  const all: Fix[] = capacity > 0 ? [{ is: "all intervals", times: perDay / capacity }] : [];
  return { of, perDay, capacity, over, unknown, fixes: [{ is: "capacity", needed }, ...all, ...alone] };
}

function sharesOf(jobs: readonly RoomJob[], useOf: (job: RoomJob) => number): Shares {
  const shares = new Map<Station, number>();
  for (const job of jobs) {
    const use = useOf(job);
    if (use > 0) shares.set(job.at, (shares.get(job.at) ?? 0) + use / job.intervalDays);
  }
  return shares;
}

/** A place is visited as often as its most frequent work at least. */
function visitsOf(jobs: readonly RoomJob[]): Shares {
  const shares = new Map<Station, number>();
  for (const { at, intervalDays, isVisit } of jobs)
    if (isVisit) shares.set(at, Math.max(shares.get(at) ?? 0, 1 / intervalDays));
  return shares;
}
