import { Kind } from "../book/entries/registry.ts";
import { choiceOfRow } from "../book/facts.ts";
import { rowOfId } from "../book/source.ts";
import type { Station } from "../book/stations.ts";
import { looseSignsDays } from "./against.ts";
import type { Case, CaseEntry } from "./cases.ts";
import type { At, LogStep } from "./contact.ts";
import { nodesOf } from "./contact-nodes.ts";
import { contactSteps } from "./contacts.ts";
import { earliest, type Reached, reachedFrom, type Seed, sourcesOf, type Way } from "./exposure.ts";
import type { Logbook } from "./logbook.ts";

/** From a case, a result of a laboratory, or a tank on a day: what it may have reached, and where it may have come from. */

/** Where the room does not state for how long contacts are followed. A choice of this tool: *common practice, no source*. */
export const usualTraceDays = 30;

export interface Origin {
  readonly station: Station;
  /** The day of the first sign, or of the sample. */
  readonly day: number;
  /** The line; undefined for a day that was asked for, to its end. */
  readonly at: At | undefined;
  readonly how: "signs" | "sample" | "result" | "asked";
}

export interface Exposure {
  /** The first of each station. */
  readonly origins: readonly Origin[];
  readonly windowDays: number;
  readonly isStated: boolean;
  /** The days that are looked at, both counted. */
  readonly from: number;
  readonly until: number;
  readonly steps: readonly LogStep[];
  /** Forward, by how close the links may be: of rank 0 alone, and so on; the last has all. */
  readonly byRank: readonly Reached[];
  /** The latest way from each node to one of the origins. */
  readonly back: ReadonlyMap<number, Way>;
  /** What else a consignment or a barrel that it may have come from has reached, but for the origins, what is among the sources itself, and tools. */
  readonly beside: readonly { readonly source: number; readonly reached: ReadonlyMap<number, Way> }[];
}

/** Everything that was reached: links of all ranks. */
export const allReached = ({ byRank }: Exposure): Reached => byRank.at(-1)!;

export interface Window {
  /** NaN for what the room states. */
  readonly days: number;
  /** The last day that counts. */
  readonly until: number;
}

/** The first signs of a case, a station each, and all later ones. */
export function signsOf({ sick }: Case): { first: Origin[]; later: Origin[] } {
  const first: Origin[] = [];
  const later: Origin[] = [];
  for (const entry of sick) {
    // None any more: no sign.
    if (entry.affected === 0) continue;
    for (const station of entry.stations) {
      if (station.body < 0) continue;
      const origin: Origin = { station, day: entry.day, at: entry, how: "signs" };
      (first.some((each) => each.station === station) ? later : first).push(origin);
    }
  }
  return { first, later };
}

/**
 * Where and when the samples were taken of which the last positive result of a case tells: a finding is true of the day of its sample.
 * Without a sample it is taken to be of the place and the day of the result. Empty without a positive result.
 */
export function resultOf({ entries, afterwards }: Case): Origin[] {
  const all = [...entries, ...afterwards];
  const at = all.findLastIndex((entry) => entry.kind === Kind.result && isPositive(entry));
  if (at < 0) return [];
  const taken = all.slice(0, at).filter(({ kind }) => kind === Kind.sample);
  const sampled = originsOf(taken, "sample");
  return sampled.length > 0 ? sampled : originsOf([all[at]!], "result");
}

function originsOf(entries: readonly CaseEntry[], how: Origin["how"]): Origin[] {
  const found: Origin[] = [];
  for (const entry of entries)
    for (const station of entry.stations)
      if (station.body >= 0 && !found.some((each) => each.station === station))
        found.push({ station, day: entry.day, at: entry, how });
  return found;
}

const positive = 1;

function isPositive({ block, row: id }: CaseEntry): boolean {
  const row = rowOfId(block, id);
  return row >= 0 && choiceOfRow(block.facts, row) === positive;
}

/** A case is open on a day: signs without a case are taken to be so for some days. */
export function isOpenOn({ name, closed, since, latest }: Case, day: number): boolean {
  if (since > day || closed <= day) return false;
  return name !== "" || day - (latest?.day ?? since) < looseSignsDays;
}

/** For how many days contacts are followed. @param asked NaN for what the room states */
export function windowOf(
  { book: { traceDays } }: Logbook,
  asked: number,
): { days: number; isStated: boolean } {
  const stated = Number.isNaN(asked) ? traceDays : asked;
  return {
    days: Math.round(Number.isNaN(stated) ? usualTraceDays : stated),
    isStated: !Number.isNaN(stated),
  };
}

/** It may have been passed on before it showed: for the days of the window, or since what ended all that was before. */
export function seedBefore(
  steps: readonly LogStep[],
  { station: { body: node }, day }: Origin,
  place: number,
  windowDays: number,
): Seed {
  let at = Math.min(place, steps.length);
  for (; at > 0 && steps[at - 1]!.day >= day - windowDays; at--) {
    const step = steps[at - 1]!;
    if (step.is === "end" && step.node === node) return { node, at, time: step.time };
  }
  return { node, at, time: day - windowDays };
}

/**
 * The search from some origins.
 * @param later signs after the first: what was ended between them began anew
 */
export function exposureOf(
  logbook: Logbook,
  origins: readonly Origin[],
  later: readonly Origin[],
  { days, until }: Window,
): Exposure {
  const { days: windowDays, isStated } = windowOf(logbook, days);
  const from = Math.min(...origins.map(({ day }) => day)) - windowDays;
  const steps = contactSteps(logbook, from, until);
  const marks = new Map<At["block"], Map<number, number>>();
  for (const [at, step] of steps.entries()) {
    if (step.is !== "mark") continue;
    const known = marks.get(step.block);
    if (known === undefined) marks.set(step.block, new Map([[step.row, at]]));
    else known.set(step.row, at);
  }
  const firstOn = (day: number): number => {
    const at = steps.findIndex((step) => step.day >= day);
    return at < 0 ? steps.length : at;
  };
  const placeOf = ({ at, day }: Origin): number =>
    (at === undefined ? undefined : marks.get(at.block)?.get(at.row)) ?? firstOn(day + 1);
  const seeds = [
    ...origins.map((origin): Seed => seedBefore(steps, origin, placeOf(origin), windowDays)),
    ...later.map((origin): Seed => {
      return { node: origin.station.body, at: placeOf(origin), time: origin.at?.time ?? origin.day };
    }),
  ];
  const byRank = [0, 1, 2, Number.POSITIVE_INFINITY].map((rank) => reachedFrom(steps, seeds, rank));
  const back = new Map<number, Way>();
  for (const origin of firstOfBodies(origins, placeOf)) {
    const { body } = origin.station;
    const seed = { node: body, at: placeOf(origin), time: origin.at?.time ?? origin.day };
    for (const [node, way] of sourcesOf(steps, seed, firstOn(origin.day - windowDays)))
      if (node !== body && isLater(way, back.get(node))) back.set(node, way);
  }
  return { origins, windowDays, isStated, from, until, steps, byRank, back, beside: besideOf() };

  function besideOf(): Exposure["beside"] {
    const nodes = nodesOf(logbook.book);
    const own = new Set(origins.map(({ station }) => station.body));
    // What came from the origins is told by them.
    const others = steps.filter((step) => step.is !== "link" || !own.has(step.from));
    return [...back.keys()].flatMap((source) => {
      const { is } = nodes.at(source);
      if (is !== "consignment" && is !== "barrel") return [];
      const reached = earliest(reachedFrom(others, [{ node: source, at: 0, time: from }]));
      for (const node of [...reached.keys()])
        if (own.has(node) || node === source || back.has(node) || nodes.at(node).is === "tool")
          reached.delete(node);
      return reached.size === 0 ? [] : [{ source, reached }];
    });
  }
}

/** Of each water the origin that stands first: what came into it later did not bring it. */
function firstOfBodies(origins: readonly Origin[], placeOf: (origin: Origin) => number): Origin[] {
  const first = new Map<number, Origin>();
  for (const origin of origins) {
    const known = first.get(origin.station.body);
    if (known === undefined || placeOf(origin) < placeOf(known)) first.set(origin.station.body, origin);
  }
  return [...first.values()];
}

const isLater = (way: Way, known: Way | undefined): boolean =>
  known === undefined || way.time > known.time || (way.time === known.time && way.links < known.links);
