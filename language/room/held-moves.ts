import type { Block } from "../book/source.ts";
import type { Tank } from "../book/stations.ts";
import { looseSignsDays } from "./against.ts";
import { type Case, casesUntil } from "./cases.ts";
import type { At, Contact, LogStep } from "./contact.ts";
import { isStill, readContacts, type StepsRead } from "./contacts.ts";
import { reachedFrom, type Seed, type Way } from "./exposure.ts";
import { type Origin, seedBefore, signsOf, windowOf } from "./exposure-of-case.ts";
import type { Logbook } from "./logbook.ts";

/** What left tanks that an open case holds, by what was known at the time: signs that came later hold nothing back. */

export interface HeldMove {
  readonly thread: Case;
  readonly contact: Contact;
  /** The signs in its water; undefined where it was only reached. */
  readonly sign: Origin | undefined;
  /** The way by which it was reached last. */
  readonly way: Way;
}

/** A tool that was used in water with signs, and elsewhere before it was disinfected. */
export interface CarriedTool {
  readonly thread: Case;
  readonly from: Contact;
  readonly contact: Contact;
}

export interface Leaving {
  readonly moves: readonly HeldMove[];
  readonly tools: readonly CarriedTool[];
  /** Blocks of which lines were read beside their facts: who bought stands in no column. */
  readonly blocks: readonly Block[];
}

interface Kept {
  readonly read: StepsRead;
  readonly leaving: Leaving;
}

/** What was found of each case, as long as its days say the same. */
const known = new WeakMap<Logbook, Map<string, Kept>>();

/** Of every case there ever was, in the order in which they were opened. */
export function leavingOfCases(logbook: Logbook): readonly Leaving[] {
  const cases = casesUntil(logbook, Number.POSITIVE_INFINITY);
  const before = known.get(logbook);
  const now = new Map<string, Kept>();
  for (const thread of cases) {
    const { first, later } = signsOf(thread);
    if (first.length === 0) continue;
    const from = Math.min(...first.map(({ day }) => day)) - windowOf(logbook, Number.NaN).days;
    const to = lastHeldDay(thread);
    const key = `${thread.name} ${thread.since} ${to} ${first.length} ${later.length} ${now.size}`;
    const last = before?.get(key);
    if (last !== undefined && isStill(last.read, logbook, from, to)) {
      now.set(key, last);
      continue;
    }
    const read = readContacts(logbook, from, to);
    now.set(key, { read, leaving: leavingOf(logbook, thread, first, later, read.steps) });
  }
  known.set(logbook, now);
  return [...now.values()].map(({ leaving }) => leaving);
}

/** The day before it was closed; signs without a case hold for some days. */
function lastHeldDay({ name, closed, latest, since }: Case): number {
  const end = name === "" ? (latest?.day ?? since) + looseSignsDays : Number.POSITIVE_INFINITY;
  return Math.min(end, Number.isNaN(closed) ? Number.POSITIVE_INFINITY : closed) - 1;
}

function leavingOf(
  logbook: Logbook,
  thread: Case,
  first: readonly Origin[],
  later: readonly Origin[],
  steps: readonly LogStep[],
): Leaving {
  const windowDays = windowOf(logbook, Number.NaN).days;
  const placed = (origins: readonly Origin[]) =>
    origins
      .map((origin) => ({ origin, at: steps.findIndex((step) => isMarkOf(step, origin.at)) }))
      .filter(({ at }) => at >= 0)
      .sort((a, b) => a.at - b.at);
  const signs = placed(first);
  const again = placed(later);
  const moves: HeldMove[] = [];
  for (const [index, { at: begin }] of signs.entries()) {
    const end = signs[index + 1]?.at ?? steps.length;
    // What is known from this sign until the next in another tank.
    const shown = signs.slice(0, index + 1);
    const seeds = [
      ...shown.map(({ origin, at }) => seedBefore(steps, origin, at, windowDays)),
      ...again
        .filter(({ at }) => at < end)
        .map(({ origin, at }): Seed => ({ node: origin.station.body, at, time: origin.at!.time })),
    ];
    const signIn = (node: number): Origin | undefined =>
      shown.find(({ origin }) => origin.station.body === node)?.origin;
    reachedFrom(steps.slice(0, end), seeds, Number.POSITIVE_INFINITY, (link, at, spell) => {
      const contact = link as Contact;
      if (at < begin || spell === undefined || !isLeaving(contact)) return;
      const [sign, way] = [signIn(contact.from), spell.last];
      if (sign === undefined && way.time < contact.day - windowDays) return;
      if (sign !== undefined && (contact.toStation === undefined || signIn(contact.to) !== undefined)) return;
      moves.push({ thread, contact, sign, way });
    });
  }
  const blocks = steps.flatMap((step) => (step.is === "link" && isSale(step) ? [step.block] : []));
  return { moves, tools: toolsOf(thread, steps, signs), blocks };
}

const isSale = ({ kind, fromStation, toStation }: Contact): boolean =>
  kind === "animals" && fromStation !== undefined && toStation === undefined;

/**
 * Animals that leave a tank, for another or for a buyer. Those of a hospital are with what they have; and what is sold out of water with
 * signs is told of sales already.
 */
const isLeaving = ({ kind, fromStation, toStation }: Contact): boolean =>
  kind === "animals" && fromStation !== undefined && (toStation as Tank | undefined)?.role !== "hospital";

const isMarkOf = (step: LogStep, at: At | undefined): boolean =>
  step.is === "mark" && step.block === at?.block && step.row === at.row;

/** @param signs the first in each tank, in order */
function toolsOf(
  thread: Case,
  steps: readonly LogStep[],
  signs: readonly { readonly origin: Origin; readonly at: number }[],
): CarriedTool[] {
  const found: CarriedTool[] = [];
  const sick = new Map<number, number>();
  for (const { origin, at } of signs) if (!sick.has(origin.station.body)) sick.set(origin.station.body, at);
  const isSick = (node: number, at: number): boolean => (sick.get(node) ?? Number.POSITIVE_INFINITY) < at;
  const carrying = new Map<number, { readonly from: Contact; readonly told: Set<number> }>();
  for (const [at, step] of steps.entries()) {
    if (step.is === "end") carrying.delete(step.node);
    if (step.is !== "link" || step.kind !== "tool") continue;
    if (isSick(step.from, at)) {
      if (step.toStation === undefined) carrying.set(step.to, { from: step, told: new Set() });
      continue;
    }
    const carried = carrying.get(step.from);
    // Where the animals themselves went with it, that is told; so it is once a tank.
    if (carried === undefined || isSick(step.to, at) || carried.told.has(step.to)) continue;
    carried.told.add(step.to);
    if (carried.from.block !== step.block || carried.from.row !== step.row)
      found.push({ thread, from: carried.from, contact: step });
  }
  return found;
}
