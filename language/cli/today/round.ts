import { Kind } from "../../book/entries/registry.ts";
import type { Station, Tank } from "../../book/stations.ts";
import type { CheckedLogbook } from "../../checks/check.ts";
import type { Case } from "../../room/cases.ts";
import { type DueDuty, dosesOn, dutiesOn, roundOrder } from "../../room/due.ts";

/** The round of a day: what is due at which tank, in an order that carries nothing from the sick to the healthy. */

/**
 * Where a tank comes in the round: fry first, then the healthy, then arrivals in quarantine, the sick last. Common practice in fish rooms,
 * as water, nets and hands carry disease.
 */
export const stages = ["fry", "healthy", "quarantine", "sick"] as const;
export type Stage = (typeof stages)[number];

/** Work that is due at a tank, a system, or the room. */
export interface Work {
  /** What owes it: the tank itself, its system, or a gear that serves it. */
  readonly station: Station;
  readonly due: DueDuty;
  /** What to write down when it is done, without the target: `change 20..45 %`, `service canister`. */
  readonly act: string;
  /** Litres of new water, the least and the most that will do; undefined where it is no change, or the volume is not known. */
  readonly litres: { readonly low: number; readonly high: number } | undefined;
}

/** What is due at one place of the round. */
export interface Stop {
  /** A tank, a system, or the room; a gear that serves none of them. */
  readonly at: Station;
  readonly stage: Stage;
  readonly work: readonly Work[];
}

/** The stops of a day with something due or late, in the order of the round. */
export function roundOn(checked: CheckedLogbook, open: readonly Case[], day: number): Stop[] {
  const { book } = checked;
  const stageOf = stagesOn(checked, open, day);
  const byStation = new Map<Station, Work[]>();
  for (const work of dueBetween(checked, Number.NEGATIVE_INFINITY, day, day)) {
    const at = placeOf(checked, work.station);
    const known = byStation.get(at);
    if (known === undefined) byStation.set(at, [work]);
    else known.push(work);
  }
  const rank = (at: Station): number => (at.kind === "room" ? stages.length : stages.indexOf(stageOf(at)));
  return [...byStation]
    .map(([at, work]): Stop => ({ at, stage: stageOf(at), work: work.sort(inOrder) }))
    .sort((a, b) => rank(a.at) - rank(b.at) || orderOf(book.stations, a.at) - orderOf(book.stations, b.at));
}

/** Work that falls due from one day to another, by what is known at the end of `day`. */
export function dueBetween(checked: CheckedLogbook, from: number, to: number, day: number): Work[] {
  const { logbook, book } = checked;
  return book.stations.flatMap((station) =>
    dutiesOn(logbook.ledgerOf(station), [station], day)
      // What is owed a number of times is late from the day the number is short, whenever its oldest time leaves the period.
      .map((due) => (due.late > 0 && due.due > day ? { ...due, due: day } : due))
      .filter((due) => due.due >= from && due.due <= to)
      .map((due) => ({ station, due, act: actOf(checked, due), litres: litresOf(checked, due) })),
  );
}

/** Where work at a station is done: that of a gear at the tank or system it serves. */
export function placeOf({ book }: CheckedLogbook, station: Station): Station {
  if (station.kind !== "gear") return station;
  const on = book.gears.find((gear) => gear.id === station.id)?.on ?? "";
  return book.stations.find(({ name, kind }) => name === on && kind !== "gear") ?? station;
}

/** The gear is named where it is served at a tank; where it stands for itself its name is said already. */
function actOf(checked: CheckedLogbook, { duty, station }: DueDuty): string {
  return placeOf(checked, station) === station ? duty.act : `${duty.act} ${station.name}`;
}

function litresOf({ book }: CheckedLogbook, { duty, station }: DueDuty): Work["litres"] {
  const amount = duty.kind === Kind.change ? duty.form.items[0]?.amount : undefined;
  if (amount === undefined) return undefined;
  const volumeL =
    station.kind === "tank" ? (station as Tank).volumeL : (book.bodies[station.body]?.volumeL ?? Number.NaN);
  const litres = (value: number): number =>
    duty.amountIsVolume
      ? book.units.canonical(value, amount.unit, "volume")
      : book.units.canonical(value, amount.unit, "fraction") * volumeL;
  const low = litres(amount.value);
  const high = Number.isNaN(amount.second) ? low : litres(amount.second);
  return Number.isNaN(low) || Number.isNaN(high) ? undefined : { low, high };
}

/** Water that is shared is as sick as the sickest tank in it. */
function stagesOn(checked: CheckedLogbook, open: readonly Case[], day: number): (at: Station) => Stage {
  const { book, logbook } = checked;
  const sick = new Set(open.flatMap(({ stations }) => stations.map(({ body }) => body)));
  for (const [body, ledger] of logbook.ledgers.entries()) if (dosesOn(ledger, day).length > 0) sick.add(body);
  const worst = book.bodies.map(({ id, tanks }): Stage => {
    if (sick.has(id) || tanks.some(({ role }) => role === "hospital")) return "sick";
    if (tanks.some(({ role }) => role === "quarantine")) return "quarantine";
    return tanks.length > 0 && tanks.every(({ role }) => role === "grow-out") ? "fry" : "healthy";
  });
  return (at) => worst[at.body] ?? "healthy";
}

function inOrder(a: Work, b: Work): number {
  return rankOf(a.due.duty.kind) - rankOf(b.due.duty.kind) || b.due.late - a.due.late;
}

const rankOf = (kind: number): number => {
  const at = roundOrder.indexOf(kind);
  return at < 0 ? roundOrder.length : at;
};

/** Tanks in the order of the book, and before the tanks of a system what is done for all of them. */
function orderOf(stations: readonly Station[], at: Station): number {
  const first = stations.findIndex(({ kind, body }) => kind === "tank" && body === at.body);
  return (first < 0 ? stations.length : first) * stations.length + stations.indexOf(at);
}
