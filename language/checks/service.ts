import { spokenDay } from "../book/dates.ts";
import type { Tank } from "../book/stations.ts";
import type { Moment, Observer } from "../room/observer.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";

/** Animals in tanks that were not in service. */

export const servicePages = [
  page({
    code: "stock/out-of-service",
    severity: "warning",
    since: "0.2",
    title: "A tank out of service",
    says: "Animals come into, leave or are counted in a tank before the first day, or after the last, on which it is in service by its definition. The entry counts.",
    whatToDo: "Correct the tank or the day, or the “from” and “until” of the tank.",
    raises: `species praecox
tank dam
  volume 300 L
  from   2026-03-05
2026-03-01
  dam arrive praecox 14
# ^^^^^^^^^^^^^^^^^^^^^ stock/out-of-service`,
    fine: `species praecox
tank dam
  volume 300 L
  from   2026-03-05
2026-03-05
  dam arrive praecox 14`,
  }),
] as const;

/** Listens to what is said of the animals of a tank. */
export function serviceChecks(add: (finding: RowFinding) => void): Observer {
  const check = (at: Moment, tank: Tank, slots: readonly string[]): void => {
    const day = Math.floor(at.time);
    const isEarly = day < tank.from;
    if (!isEarly && !(day > tank.until)) return;
    add({
      code: "stock/out-of-service",
      block: at.block,
      row: at.row,
      slots,
      severity: () => "warning",
      message: () =>
        isEarly
          ? `${tank.name} is in service from ${spokenDay(tank.from, at.time)} on`
          : `${tank.name} was in service until ${spokenDay(tank.until, at.time)}`,
      related: () =>
        tank.place === undefined ? [] : [{ place: tank.place, message: "where it is defined" }],
      about: tank,
    });
  };
  return {
    count(at, { tank, high }) {
      if (high > 0) check(at, tank, []);
    },
    leave(at, { tank }) {
      check(at, tank, []);
    },
    enter(at, { tank, how }) {
      check(at, tank, how === "move" ? ["destination"] : []);
    },
  };
}
