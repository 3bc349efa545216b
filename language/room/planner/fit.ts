import type { Book } from "../../book/book.ts";
import { Kind } from "../../book/entries/registry.ts";
import type { Station } from "../../book/stations.ts";
import { type RoomJob, usesOf } from "./work.ts";

/** Whether a room fits its keeper: what its duties ask for in an average week, for ever, against what a week holds. */
export interface Fit {
  readonly demands: readonly Demand[];
  /** All intervals so many times as long would do for everything that does not fit; NaN where all fits, or nothing would. */
  readonly allTimes: number;
}

export interface Demand {
  readonly of: Resource;
  /** On an average day. Of tanks the least: their work falls on the same day where it can. */
  readonly perDay: number;
  /** On an average day, those off counted as nothing; NaN where it is not stated. */
  readonly capacity: number;
  /** Above what a day holds; 0 or less where it fits. NaN without a capacity. */
  readonly over: number;
  /** Duties of which it is not known what they take. */
  readonly unknown: number;
  /** What would make it fit, each by itself; none where it does. */
  readonly fixes: readonly Fix[];
  /** So many more days a week could be off with all that is asked for still held; NaN without a capacity. */
  readonly sparedDays: number;
}

export type Resource = "tanks" | "litres" | "minutes";

export type Fix =
  /** Each day with work holds so much. */
  | { readonly is: "capacity"; readonly needed: number }
  /** One day a week holds so much more. */
  | { readonly is: "one day"; readonly more: number }
  /** A weekday that is off is worked. 1 for Monday. */
  | { readonly is: "no day off"; readonly weekday: number; readonly adds: number }
  /** All intervals so many times as long. */
  | { readonly is: "all intervals"; readonly times: number }
  /** The intervals of one tank so many times as long, nothing else. */
  | { readonly is: "intervals of"; readonly at: Station; readonly times: number };

/** So many tanks are named of which one alone would do. */
const mostNamed = 3;
/** Nobody is told to wait longer than so many times the interval. Our own choice. */
const mostTimes = 4;
const week = [1, 2, 3, 4, 5, 6, 7];

type Room = Pick<Book, "capacity" | "weekdayCapacities" | "daysOff">;

export function fitOf(room: Room, jobs: readonly RoomJob[]): Fit {
  const unknownLitres = jobs.filter(
    ({ due, litres, which }) => which === 0 && due.duty.kind === Kind.change && litres === undefined,
  );
  const unknownMinutes = jobs.filter(({ time, which }) => which === 0 && Number.isNaN(time.minutes));
  const demands = [
    demandOf(room, "tanks", visitsOf(jobs), 0),
    demandOf(
      room,
      "litres",
      sharesOf(jobs, (job) => usesOf(job)[0]),
      unknownLitres.length,
    ),
    demandOf(
      room,
      "minutes",
      sharesOf(jobs, (job) => usesOf(job)[1]),
      unknownMinutes.length,
    ),
  ];
  const over = demands.filter(({ fixes }) => fixes.length > 0);
  const times = Math.max(...over.map(({ perDay, capacity }) => perDay / capacity));
  return { demands, allTimes: Number.isFinite(times) ? times : Number.NaN };
}

/** What each place asks for on an average day. */
type Shares = ReadonlyMap<Station, number>;

function demandOf(room: Room, of: Resource, shares: Shares, unknown: number): Demand {
  const perDay = [...shares.values()].reduce((sum, share) => sum + share, 0);
  const holds = (weekday: number): number => room.weekdayCapacities.get(weekday)?.[of] ?? room.capacity[of];
  const worked = week.filter((weekday) => !room.daysOff.has(weekday));
  const capacity = worked.reduce((sum, weekday) => sum + holds(weekday), 0) / week.length;
  const over = perDay - capacity;
  const least = Math.min(...worked.map(holds));
  const sparedDays = least > 0 ? Math.max(0, Math.floor((-over * week.length) / least + 1e-9)) : Number.NaN;
  const demand = { of, perDay, capacity, over, unknown, sparedDays };
  if (!(over > 1e-9)) return { ...demand, fixes: [] };
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
  const whole = (value: number): number => (of === "tanks" ? Math.ceil(value - 1e-9) : value);
  const needed = whole((perDay * week.length) / worked.length);
  const off = week.flatMap((weekday): Fix[] => {
    const adds = holds(weekday);
    const isEnough = room.daysOff.has(weekday) && adds >= over * week.length - 1e-9;
    return isEnough ? [{ is: "no day off", weekday, adds }] : [];
  });
  const days: Fix[] =
    worked.length > 0
      ? [
          { is: "capacity", needed },
          { is: "one day", more: whole(over * week.length) },
        ]
      : [];
  const all: Fix[] = capacity > 0 ? [{ is: "all intervals", times: perDay / capacity }] : [];
  return { ...demand, fixes: [...days, ...off, ...all, ...alone] };
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
  for (const { at, intervalDays, isVisit, times } of jobs)
    if (isVisit) shares.set(at, Math.max(shares.get(at) ?? 0, Math.min(1, times / intervalDays)));
  return shares;
}
