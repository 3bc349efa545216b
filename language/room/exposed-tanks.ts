import type { Book } from "../book/book.ts";
import type { Body, Station, Tank } from "../book/stations.ts";
import { type Contact, type Cut, sharedRank } from "./contact.ts";
import { linksOf, type Spell, type Way } from "./exposure.ts";
import { allReached, type Exposure } from "./exposure-of-case.ts";

/** What was reached, tank by tank: tanks that share their water are reached together, each by its own way. */

/** A link of a way, or the water that two tanks on it share. */
export type Hop =
  | { readonly is: "contact"; readonly contact: Contact }
  | { readonly is: "shared"; readonly from: Station; readonly to: Station; readonly time: number };

export interface TankWay {
  readonly hops: readonly Hop[];
  /** The least close of its hops; -1 for the origin itself. */
  readonly rank: number;
  readonly time: number;
}

export interface ExposedTank {
  readonly tank: Tank;
  /** Animals in it showed signs, it was sampled, or it was asked for. */
  readonly isOrigin: boolean;
  /** So did a tank of its water, or it is that tank. */
  readonly isWithOrigin: boolean;
  /** Since when, and by which way first; of an origin from the first day on which it may have passed it on. */
  readonly since: number;
  readonly first: TankWay;
  /** The closest way, of those the one of the fewest links, of those the earliest. */
  readonly closest: TankWay;
  /** The last time that anything came into its water from what may have had it. */
  readonly last: number;
  /** What ended it; undefined while nothing has. */
  readonly ended: Cut | undefined;
}

/** Every tank that was reached, in each by its last spell; those with signs are told by their own. */
export function exposedTanks(book: Book, exposure: Exposure): ExposedTank[] {
  const { steps, origins } = exposure;
  const last = new Map<number, Spell>();
  for (const spell of allReached(exposure).spells) last.set(spell.node, spell);
  const found: ExposedTank[] = [];
  for (const spell of last.values()) {
    const body = book.bodies[spell.node];
    if (body === undefined) continue;
    const own = origins.filter(({ station }) => station.body === body.id);
    for (const tank of body.tanks) {
      const isOrigin = own.some(({ station }) => station === tank || station === body.system);
      const ways = isOrigin ? [] : waysInto(exposure, spell, body, tank);
      const origin: TankWay = { hops: [], rank: -1, time: spell.first.time };
      const [first = origin] = [...ways].sort((a, b) => a.time - b.time || a.hops.length - b.hops.length);
      const [closest = first] = ways
        .filter(({ isThere }) => isThere)
        .sort((a, b) => a.rank - b.rank || a.hops.length - b.hops.length || a.time - b.time);
      found.push({
        tank,
        isOrigin,
        isWithOrigin: own.length > 0,
        since: spell.first.time,
        first,
        closest,
        last: spell.last.time,
        ended: spell.end < 0 ? undefined : (steps[spell.end] as Cut),
      });
    }
  }
  return found;
}

/** A tank is held while nothing ended it: with signs in its water, else for the days of the window after it was last reached. */
export const isHeld = (
  { ended, isWithOrigin, last }: ExposedTank,
  { until, windowDays }: Exposure,
): boolean => ended === undefined && (isWithOrigin || last >= until - windowDays);

/** The ways into one tank of a water in a spell of it: by links that name it, or another tank of it and the water they share. */
function waysInto(
  exposure: Exposure,
  spell: Spell,
  body: Body,
  tank: Tank,
): (TankWay & { readonly isThere: boolean })[] {
  const { steps, byRank } = exposure;
  const end = spell.end < 0 ? Number.POSITIVE_INFINITY : spell.end;
  // What came before the water was let out is there still if it stays.
  const emptied =
    allReached(exposure).ends.findLast((at) => at < end && (steps[at] as Cut).node === body.id) ?? -1;
  return byRank.flatMap(({ spells, arrivals }) => {
    const begun = spells.filter(({ node, first }) => node === body.id && first.link === undefined);
    return [...begun.map(({ first }) => first), ...arrivals]
      .filter(({ node, at }) => node === body.id && at >= spell.begin && at <= end)
      .map((way) => ({
        ...tankWay(exposure, way, tank),
        isThere: way.at > emptied || way.link?.stays === true,
      }));
  });
}

export function tankWay({ origins }: Exposure, way: Way, tank: Tank): TankWay {
  const links = linksOf(way, false) as Contact[];
  const start = links[0]?.from ?? way.node;
  const stations = origins.filter(({ station }) => station.body === start).map(({ station }) => station);
  return { ...hopsOf(links, stations, way.time, tank), time: way.time };
}

/** A way with the water that is shared on it. @param begins any of the stations it begins at @param time of a way without links @param end where it leads to */
export function hopsOf(
  links: readonly Contact[],
  begins: readonly Station[],
  time: number,
  end?: Station,
): { hops: Hop[]; rank: number } {
  const hops: Hop[] = [];
  let rank = -1;
  let here = begins;
  const share = (to: Station | undefined, when: number): void => {
    const [from] = here;
    if (to === undefined || from === undefined || here.includes(to) || to.body !== from.body) return;
    hops.push({ is: "shared", from, to, time: when });
    rank = Math.max(rank, sharedRank);
  };
  for (const contact of links) {
    share(contact.fromStation, contact.time);
    hops.push({ is: "contact", contact });
    rank = Math.max(rank, contact.rank);
    here = contact.toStation === undefined ? [] : [contact.toStation];
  }
  share(end, links.at(-1)?.time ?? time);
  return { hops, rank };
}
