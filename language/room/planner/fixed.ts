import { Kind } from "../../book/entries/registry.ts";
import type { Station } from "../../book/stations.ts";
import { workDayFrom } from "../capacity.ts";
import { type CourseStep, courseSteps } from "../course-steps.ts";
import type { Ledger } from "../ledger.ts";
import type { Logbook } from "../logbook.ts";
import { ordersOn, packingDay } from "../orders.ts";
import { quarantineUntil } from "../quarantine.ts";
import { treatmentsOf } from "../treatments.ts";

/** Work that has a day of its own, which no plan moves: doses and what a course owes, orders to pack, the end of a quarantine. */
export interface FixedWork {
  readonly is: "dose" | "step" | "order" | "quarantine";
  /** The number of the entry kind, by which it takes minutes. */
  readonly kind: number;
  readonly at: Station;
  /** As it is written when it is done, or in words, without the target. */
  readonly act: string;
  readonly due: number;
  /** The first day from the due day on on which it is done; no earlier than the first day of the plan. */
  readonly day: number;
  /** New water; undefined where it takes none, or the volume is not known. */
  readonly litres: { readonly low: number; readonly high: number } | undefined;
  readonly isVisit: boolean;
}

const kindOfStep = { remove: Kind.remove, return: Kind.return, test: Kind.test, change: Kind.change };
const wordOfStep = { remove: "remove", return: "return", test: "test", change: "change" };

/** What falls on days of a plan. @param known the last day whose entries count */
export function fixedWork(logbook: Logbook, day: number, days: number, known: number): FixedWork[] {
  const { book } = logbook;
  const room = book.stations[0];
  const found: FixedWork[] = [];
  const add = (work: Omit<FixedWork, "day">, onOrBefore = false): void => {
    const { due, kind } = work;
    const on = onOrBefore ? packingDay(book, due, day) : workDayFrom(book, Math.max(due, day), kind);
    if (on < day + days) found.push({ ...work, day: on });
  };
  for (const ledger of logbook.ledgers) {
    const at = ledger.body?.system ?? ledger.body?.tanks[0];
    if (at === undefined) continue;
    const change = (fraction: number, due: number, why: string): void => {
      const { volumeL } = ledger.body!;
      const litres = Number.isNaN(volumeL)
        ? undefined
        : { low: fraction * volumeL, high: fraction * volumeL };
      const act = `change ${Math.ceil(fraction * 100 - 1e-9)} % ${why}`;
      add({ is: "step", kind: Kind.change, at, act, due, litres, isVisit: true });
    };
    for (const { remedy, planned, state, changeAfter } of treatmentsOf(logbook, ledger, known)) {
      // What a course that is over owes still stands among its steps.
      if (state !== "running") continue;
      if (changeAfter !== undefined && changeAfter.due < day + days)
        change(changeAfter.owed, changeAfter.due, `after the course of ${remedy.name}`);
      for (const { number, due, changeOwed } of planned) {
        if (due >= day + days) continue;
        if (changeOwed > leastOwed) change(changeOwed, due, `before dose ${number} of ${remedy.name}`);
        const act = `dose ${remedy.name}`;
        add({ is: "dose", kind: Kind.dose, at, act, due, litres: undefined, isVisit: false });
      }
    }
    for (const step of courseSteps(logbook, ledger, known)) {
      if (step.is === "change") change(step.fraction, step.due, `after the course of ${step.remedy.name}`);
      else add({ ...stepWork(step), at });
    }
    for (const each of quarantineEnds(logbook, ledger, known))
      add({ ...each, is: "quarantine", kind: Kind.count, litres: undefined, isVisit: false });
  }
  if (room !== undefined)
    for (const { order, missing } of ordersOn(logbook, known))
      if (missing > 0 && order.due < day + days) {
        const act = `pack ${order.name}`;
        const base = { is: "order" as const, kind: Kind.ship, at: room, act, due: order.due };
        add({ ...base, litres: undefined, isVisit: false }, true);
      }
  return found;
}

/** Less is nothing that is owed still. */
const leastOwed = 0.005;

const stepWork = ({ is, due, names }: CourseStep): Omit<FixedWork, "day" | "at"> => ({
  is: "step",
  kind: kindOfStep[is],
  act: `${wordOfStep[is]} ${names.join(", ")}`,
  due,
  litres: undefined,
  isVisit: is === "remove" || is === "return",
});

/** The day a clock is over, of those that still run. */
function quarantineEnds(
  logbook: Logbook,
  ledger: Ledger,
  known: number,
): { readonly at: Station; readonly act: string; readonly due: number }[] {
  const clock = quarantineUntil(logbook, ledger, known, Number.POSITIVE_INFINITY);
  const [at] = clock?.tanks ?? [];
  if (clock === undefined || at === undefined || !(clock.end > known)) return [];
  return [{ at, act: "quarantine over: look before they leave", due: clock.end }];
}
