import type { Station } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { dutyLitres, type Litres } from "../room/changes-due.ts";
import { actAt, type DueDuty, dutiesOn, placeOf, roundOrder } from "../room/due.ts";
import { type HandCases, type HandClass, handClasses, handRanks, isDirtier } from "../room/hand-order.ts";

/** The round of a day: what is due at which tank, in an order that carries nothing from the sick to the healthy. */

/** What is said before the first stop of a class that is dirtier. *Common practice, no source.* */
const handReminder = "disinfect hands and tools first, or take tools of their own; do not go back";

/** Work that is due at a tank, a system, or the room. */
export interface Work {
  /** What owes it: the tank itself, its system, or a gear that serves it. */
  readonly station: Station;
  readonly due: DueDuty;
  /** What to write down when it is done, without the target: `change 20..45 %`, `service canister`. */
  readonly act: string;
  /** Litres of new water, the least and the most that will do; undefined where it is no change, or the volume is not known. */
  readonly litres: Litres | undefined;
}

/** What is due at one place of the round. */
export interface Stop {
  /** A tank, a system, or the room; a gear that serves none of them. */
  readonly at: Station;
  readonly stage: HandClass;
  /** Why it is of its class. */
  readonly reason: string;
  /** What to do before it; empty where it is no dirtier than the stop before. */
  readonly before: string;
  readonly work: readonly Work[];
}

/** The stops of a day with something due or late, in the order of the round. */
export function roundOn(checked: CheckedLogbook, cases: HandCases, day: number): Stop[] {
  return roundOver(checked, cases, day, []);
}

/** The same with stops at further places, where nothing may be due. */
export function roundOver(
  checked: CheckedLogbook,
  cases: HandCases,
  day: number,
  places: readonly Station[],
): Stop[] {
  const { book } = checked;
  const rankOf = handRanks(checked.logbook, day, cases);
  const byStation = new Map<Station, Work[]>(places.map((at) => [at, []]));
  for (const work of dueBetween(checked, Number.NEGATIVE_INFINITY, day, day)) {
    const at = placeOf(checked.book, work.station);
    const known = byStation.get(at);
    if (known === undefined) byStation.set(at, [work]);
    else known.push(work);
  }
  const order = ({ at, stage }: Omit<Stop, "before">): number =>
    at.kind === "room" ? handClasses.length : handClasses.indexOf(stage);
  const stops = [...byStation]
    .map(([at, work]): Omit<Stop, "before"> => {
      const { is, reason } = rankOf(at);
      return { at, stage: is, reason, work: work.sort(inOrder) };
    })
    .sort((a, b) => order(a) - order(b) || orderOf(book.stations, a.at) - orderOf(book.stations, b.at));
  return withReminders(stops);
}

/** Places in the order of hands, with what to do before the first of each stage that is dirtier. */
export function withReminders<T extends { readonly stage: HandClass }>(
  places: readonly T[],
): (T & { readonly before: string })[] {
  return places.map((place, at) => {
    const isFirst = isDirtier(place.stage) && place.stage !== places[at - 1]?.stage;
    return { ...place, before: isFirst ? handReminder : "" };
  });
}

/** Work that falls due from one day to another, by what is known at the end of `day`. */
export function dueBetween(checked: CheckedLogbook, from: number, to: number, day: number): Work[] {
  const { logbook, book } = checked;
  return book.stations.flatMap((station) =>
    dutiesOn(logbook.ledgerOf(station), [station], day)
      // What is owed a number of times is late from the day the number is short, whenever its oldest time leaves the period.
      .map((due) => (due.late > 0 && due.owed > day ? { ...due, owed: day } : due))
      .filter((due) => due.owed >= from && due.owed <= to)
      .map((due) => workOf(checked, due)),
  );
}

/** A duty as work at its place. */
export function workOf(checked: CheckedLogbook, due: DueDuty): Work {
  const { station, duty } = due;
  return { station, due, act: actOf(checked, due), litres: dutyLitres(checked.book, duty) };
}

/** The gear is named where it is served at a tank; where it stands for itself its name is said already. */
function actOf(checked: CheckedLogbook, { duty, station }: DueDuty): string {
  return actAt(checked.book, duty, placeOf(checked.book, station));
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
