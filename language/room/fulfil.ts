import { Kind } from "../book/entries/registry.ts";
import { type Facts, isFurther, unitOfAmount } from "../book/facts.ts";
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

/** Whether an entry of the right kind does a duty. @param body the water of its station */
export function fulfils(duty: Duty, deed: Deed, body: Body | undefined, units: RoomUnits): boolean {
  if (duty.station !== deed.station && !countsFor(duty, deed.station, body)) return false;
  if (duty.subjects !== undefined && !isSubject(duty, deed.subject)) return false;
  // Who disinfects a net in a tank's line has not disinfected the tank.
  if (duty.kind === Kind.disinfect && duty.subjects === undefined && deed.subject !== noName) return false;
  return duty.least === 0 || isEnough(duty, deed, body, units);
}

/** Water that is shared is tested in one tank for all, and changed for all where its system is named. */
function countsFor({ kind, station: owner }: Duty, station: Station, body: Body | undefined): boolean {
  if (body?.system === undefined || owner.kind === "gear") return false;
  return kind === Kind.test || (kind === Kind.change && station === body.system);
}

function isSubject(duty: Duty, subject: number): boolean {
  if (duty.subjects!.has(subject)) return true;
  if (duty.kind === Kind.disinfect)
    return subject === noName && duty.subjects!.has(nameOf(duty.station.name));
  // A clean without a part is the usual clean, and counts for each part.
  return duty.kind === Kind.clean && subject === noName;
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
