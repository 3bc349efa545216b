import { doesWork, everything, undoesWork } from "../book/duty-words.ts";
import { Kind } from "../book/entries/registry.ts";
import { choiceOfRow, type Facts, isFurther, kindOfRow, unitOfAmount } from "../book/facts.ts";
import { nameOf, noName } from "../book/interner.ts";
import type { RoomUnits } from "../book/room-units.ts";
import { rowOfId } from "../book/source.ts";
import type { Body, Duty, Station, Tank } from "../book/stations.ts";
import { UNITS } from "../quantity/units.ts";
import { amountOf } from "./amounts.ts";
import type { Moment } from "./observer.ts";
import type { Series } from "./series.ts";

/** What an entry says of one of its stations. */
export interface Deed {
  readonly facts: Facts;
  readonly row: number;
  readonly station: Station;
  /** The name of what it was done to or with; of a test the number of the parameter. */
  readonly subject: number;
}

/** What an entry is to a duty: it does it, does less than it asks for, takes back what was done, or has nothing to do with it. */
export type Outcome = "done" | "less" | "undone" | undefined;

const allName = nameOf(everything);
const noneName = nameOf("none");

/** What an entry of a kind that may do a duty is to it. @param body the water of its station */
export function outcomeOf(duty: Duty, deed: Deed, body: Body | undefined, units: RoomUnits): Outcome {
  const where = placeOutcome(duty, deed.station, body);
  if (where === undefined) return undefined;
  const kind = kindOfRow(deed.facts, deed.row);
  const what = kind === duty.kind ? ownOutcome(duty, deed, body, units) : lookOutcome(duty, kind, deed);
  return where === "less" && what === "done" ? "less" : what;
}

/** Water that is shared is tested in one tank for all, and changed for all where its system is named; one of its tanks is a part of it. */
function placeOutcome({ kind, station: owner }: Duty, station: Station, body: Body | undefined): Outcome {
  if (owner === station) return "done";
  if (body?.system === undefined || owner.kind === "gear") return undefined;
  if (kind === Kind.test) return "done";
  if (kind !== Kind.change && kind !== Kind.clean) return undefined;
  if (station === body.system) return "done";
  return owner === body.system ? "less" : undefined;
}

function ownOutcome(duty: Duty, deed: Deed, body: Body | undefined, units: RoomUnits): Outcome {
  const named = namedOutcome(duty, deed);
  if (named !== "done") return named;
  if (duty.work !== 0) {
    const work = choiceOfRow(deed.facts, deed.row);
    if (undoesWork(duty.work, work)) return "undone";
    if (!doesWork(duty.work, work)) return "less";
  }
  return duty.least === 0 || isEnough(duty, deed, body, units) ? "done" : "less";
}

function namedOutcome({ kind, station, subjects, parts, form }: Duty, { subject }: Deed): Outcome {
  // The subject of a test is the number of a parameter and no name.
  if (kind === Kind.test) return subjects === undefined || subjects.has(subject) ? "done" : undefined;
  const own = subject === noName && station.kind === "gear" ? nameOf(station.name) : subject;
  if (subjects === undefined) {
    // Who disinfects a net in a tank's line has not disinfected the tank.
    if (kind === Kind.disinfect && subject !== noName) return undefined;
    // That nothing was fed was thought of, but it is not fed.
    if (kind === Kind.feed && subject === noneName && form.when !== "every") return undefined;
    return "done";
  }
  if (subjects.has(own)) return "done";
  if (kind === Kind.disinfect)
    return subject === noName && subjects.has(nameOf(station.name)) ? "done" : undefined;
  // Without a part it is the usual clean, look or trim, and counts for each.
  if (subject === noName) return isUsualOfAll.has(kind) ? "done" : undefined;
  const isPart = parts === undefined ? subjects.size === 1 && subjects.has(allName) : parts.has(own);
  return isPart ? "less" : undefined;
}

const isUsualOfAll: ReadonlySet<number> = new Set([Kind.clean, Kind.check, Kind.trim]);

/** A check and a service of one gear count for each other: who serviced it has looked at it, and a look is all that `checked` says. */
function lookOutcome({ kind, looks, station, subjects }: Duty, done: number, { subject }: Deed): Outcome {
  // A duty to look over a place asks for more than one of its gears.
  if (kind === Kind.check && subjects === undefined && station.kind !== "gear") return undefined;
  if (looks === undefined) return undefined;
  if (subject === noName) return station.kind === "gear" || done === Kind.check ? "done" : undefined;
  return looks.has(subject) ? "done" : undefined;
}

/** Whether with this entry each of the parts that a duty names was done on its day. @param less what was a part of it before, with the part as its tag */
export function isWholeNow({ parts }: Duty, less: Series, { time }: Moment, subject: number): boolean {
  if (parts === undefined || !parts.has(subject)) return false;
  const today = new Set([subject]);
  const day = Math.floor(time);
  for (let at = less.length - 1; at >= 0 && less.time[at]! >= day; at--) today.add(less.tag[at]!);
  return [...parts].every((part) => today.has(part));
}

function isEnough(
  duty: Duty,
  { facts, row, station }: Deed,
  body: Body | undefined,
  units: RoomUnits,
): boolean {
  const value = amountOf(facts, row);
  const code = unitOfAmount(facts, row);
  const isFraction = UNITS[code]?.dimension === "fraction";
  const givenL = isFraction ? Number.NaN : units.canonical(value, code, "volume");
  const share = isFraction ? units.canonical(value, code, "fraction") : givenL / volumeL(station, body);
  const litres = isFraction || duty.station !== station ? share * volumeL(duty.station, body) : givenL;
  const amount = duty.amountIsVolume ? litres : share;
  return Number.isNaN(amount) || amount >= duty.least - 1e-9;
}

function volumeL(station: Station, body: Body | undefined): number {
  return station.kind === "tank" ? (station as Tank).volumeL : (body?.volumeL ?? Number.NaN);
}

/** Whether what was done last was done by another item of the same entry: that is one time. */
export function isSameEntry(
  done: Series,
  { time, block, row: id }: Moment,
  facts: Facts,
  row: number,
): boolean {
  const last = done.length - 1;
  if (last < 0 || done.time[last] !== time || done.block[last] !== block) return false;
  if (done.row[last] === id) return true;
  if (!isFurther(facts, row)) return false;
  let first = row;
  while (first > 0 && isFurther(facts, first)) first--;
  return rowOfId(block, done.row[last]!) >= first;
}
