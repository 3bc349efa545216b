import type { Tank } from "../book/stations.ts";
import { casesUntil } from "./cases.ts";
import { exposedTanks, isHeld } from "./exposed-tanks.ts";
import { exposureOf, isOpenOn, signsOf } from "./exposure-of-case.ts";
import type { HandCases } from "./hand-order.ts";
import type { Logbook } from "./logbook.ts";

/** The cases that are open at the end of a day, and which tanks they may have reached that nothing has ended since. */
export function handCases(logbook: Logbook, day: number): HandCases {
  const { book } = logbook;
  const open = casesUntil(logbook, day).filter((each) => isOpenOn(each, day));
  const reached = new Map<Tank, string[]>();
  for (const each of open) {
    const { first, later } = signsOf(each);
    if (first.length === 0) continue;
    const exposure = exposureOf(logbook, first, later, { days: Number.NaN, until: day });
    for (const exposed of exposedTanks(book, exposure)) {
      const { tank } = exposed;
      if (exposed.isWithOrigin || !isHeld(exposed, exposure)) continue;
      const known = reached.get(tank) ?? [];
      reached.set(tank, known.includes(each.name) ? known : [...known, each.name]);
    }
  }
  return { open, isReached: (tank) => reached.get(tank) ?? [] };
}
