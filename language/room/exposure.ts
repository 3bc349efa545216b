/**
 * What may have come from where: a search over contacts in time. A contact passes on only what its origin had before it, by the order of
 * the log; what was disinfected, or emptied and refilled, passes nothing on of what it touched before. It knows nothing of a log.
 *
 * Paths whose times do not fall are the time-respecting paths of Kempe, Kleinberg & Kumar 2002, "Connectivity and inference problems for
 * temporal networks", J. Comput. Syst. Sci. 64:820-842 (abstract). Here the time of a link is its place in the log, and no two are alike:
 * on a path they rise.
 */

/** Something went from one node to another. */
export interface Link {
  readonly is: "link";
  readonly from: number;
  readonly to: number;
  readonly time: number;
  /** What came stays when the water is let out: plants, wood, filter media. */
  readonly stays: boolean;
  /** How close the contact is: 0 is the closest. */
  readonly rank: number;
}

/** What a node had until now is not passed on. */
export interface End {
  readonly is: "end";
  readonly node: number;
  readonly time: number;
  /** Only the water went: what links that stay brought is there still. */
  readonly spares: boolean;
}

/** A step that passes nothing on: a place in the order of the log. */
export interface Pause {
  readonly is: "mark";
  readonly time: number;
}

export type Step = Link | End | Pause;

/** A node that has it, from before a step on; backward, until before it. */
export interface Seed {
  readonly node: number;
  readonly at: number;
  readonly time: number;
}

/** A way that it may have taken, told from its end. */
export interface Way {
  readonly node: number;
  /** When it came, or left. */
  readonly time: number;
  /** The step by which, by its place; that of the seed for the seed itself. */
  readonly at: number;
  readonly links: number;
  /** Undefined for the seed itself. */
  readonly link: Link | undefined;
  /** Forward the way before, backward the way on; undefined for the seed itself. */
  readonly rest: Way | undefined;
}

/** A time in which a node may have had it. */
export interface Spell {
  readonly node: number;
  /** The place of the step by which it began, or of its seed. */
  readonly begin: number;
  /** Its beginning: of the ways at the earliest time that of the fewest links. */
  readonly first: Way;
  /** The last time that something came from a node that may have had it: of the ways at that time the closest, of those the latest. */
  readonly last: Way;
  /** The place of the step that ended it; -1 while nothing has. */
  readonly end: number;
}

export interface Reached {
  /** In the order in which they began. */
  readonly spells: readonly Spell[];
  /** Every link that left a node that may have had it, as the way by it. */
  readonly arrivals: readonly Way[];
  /** The ends at nodes that may have had it: their places. */
  readonly ends: readonly number[];
}

interface OpenSpell {
  readonly node: number;
  readonly begin: number;
  first: Way;
  last: Way;
  end: number;
}

/**
 * What may have been reached from some seeds.
 * @param steps in the order of the log
 * @param mostRank links of a higher rank are passed over
 * @param watch is told of each link before it is followed, with the spell its origin is in; arrivals are not gathered then
 */
export function reachedFrom(
  steps: readonly Step[],
  seeds: readonly Seed[],
  mostRank = Number.POSITIVE_INFINITY,
  watch?: (link: Link, at: number, spell: Spell | undefined) => void,
): Reached {
  const spells: OpenSpell[] = [];
  const arrivals: Way[] = [];
  const ends: number[] = [];
  const open = new Map<number, OpenSpell>();
  // The way of the fewest links to each node so far: in its water, and in what stays when the water goes.
  const [loose, fixed] = [new Map<number, Way>(), new Map<number, Way>()];
  const enter = (way: Way, stays: boolean): void => {
    const kept = stays ? fixed : loose;
    const known = kept.get(way.node);
    if (known === undefined || way.links < known.links) kept.set(way.node, way);
    const spell = open.get(way.node);
    if (spell === undefined) {
      const fresh = { node: way.node, begin: way.at, first: way, last: way, end: -1 };
      spells.push(fresh);
      open.set(way.node, fresh);
      return;
    }
    if (way.time === spell.first.time && way.links < spell.first.links) spell.first = way;
    if (way.time !== spell.last.time || leastClose(way) <= leastClose(spell.last)) spell.last = way;
  };
  const waiting = [...seeds].sort((a, b) => a.at - b.at);
  let next = 0;
  const sow = (until: number): void => {
    for (; next < waiting.length && waiting[next]!.at <= until; next++)
      enter({ ...waiting[next]!, links: 0, link: undefined, rest: undefined }, false);
  };
  for (let at = waiting[0]?.at ?? steps.length; at < steps.length; at++) {
    sow(at);
    const step = steps[at]!;
    if (step.is === "link") {
      if (step.rank > mostRank || step.from === step.to) continue;
      watch?.(step, at, open.get(step.from));
      const rest = fewer(loose.get(step.from), fixed.get(step.from));
      if (rest === undefined) continue;
      const way = { node: step.to, time: step.time, at, links: rest.links + 1, link: step, rest };
      if (watch === undefined) arrivals.push(way);
      enter(way, step.stays);
    } else if (step.is === "end") {
      const spell = open.get(step.node);
      if (spell === undefined) continue;
      ends.push(at);
      loose.delete(step.node);
      if (!step.spares) fixed.delete(step.node);
      if (fixed.has(step.node)) continue;
      spell.end = at;
      open.delete(step.node);
    }
  }
  sow(steps.length);
  return { spells, arrivals, ends };
}

/** The earliest way to each node: of those of one time that of the fewest links. */
export function earliest({ spells }: Reached): Map<number, Way> {
  const found = new Map<number, Way>();
  for (const { node, first } of spells) {
    const known = found.get(node);
    if (known === undefined || (first.time === known.time && first.links < known.links))
      found.set(node, first);
  }
  return found;
}

/**
 * From where a seed may have had it: of each node the latest way by which it may have left it, of those of one time that of the fewest
 * links. The seed itself is not among them, unless it came back to it.
 * @param begin the place of the first step that is looked at
 */
export function sourcesOf(steps: readonly Step[], seed: Seed, begin: number): Map<number, Way> {
  const found = new Map<number, Way>();
  const own: Way = { ...seed, links: 0, link: undefined, rest: undefined };
  // What a node had at this place, loose or fixed, would come to the seed by this way.
  const [loose, fixed] = [new Map([[seed.node, own]]), new Map([[seed.node, own]])];
  for (let at = Math.min(seed.at, steps.length) - 1; at >= begin; at--) {
    const step = steps[at]!;
    if (step.is === "link") {
      const { from, to, time, stays } = step;
      const rest = from === to ? undefined : (stays ? fixed : loose).get(to);
      if (rest === undefined) continue;
      const way = { node: from, time, at, links: rest.links + 1, link: step, rest };
      const known = found.get(from);
      if (known === undefined || (known.time === time && way.links <= known.links)) found.set(from, way);
      for (const kept of [loose, fixed])
        if (!((kept.get(from)?.links ?? Number.POSITIVE_INFINITY) < way.links)) kept.set(from, way);
    } else if (step.is === "end") {
      loose.delete(step.node);
      if (!step.spares) fixed.delete(step.node);
    }
  }
  return found;
}

/** The links of a way from its beginning to its end. @param isBack whether it was looked for backward */
export function linksOf(way: Way, isBack: boolean): Link[] {
  const links: Link[] = [];
  for (let at: Way | undefined = way; at?.link !== undefined; at = at.rest) links.push(at.link);
  return isBack ? links : links.reverse();
}

/** The highest rank of the links of a way; -1 without links. */
function leastClose(way: Way): number {
  let most = -1;
  for (let at: Way | undefined = way; at?.link !== undefined; at = at.rest)
    most = Math.max(most, at.link.rank);
  return most;
}

const fewer = (a: Way | undefined, b: Way | undefined): Way | undefined =>
  a === undefined || (b !== undefined && b.links < a.links) ? b : a;
