import { Kind } from "../book/entries/registry.ts";
import { isFurther } from "../book/facts.ts";
import type { Tank } from "../book/stations.ts";
import type { Windows } from "./change-windows.ts";
import { courses } from "./course.ts";
import { isLampReplaced, targetOf, targetsOf } from "./light-changes.ts";
import type { Logbook } from "./logbook.ts";
import { movements } from "./movement.ts";
import type { LogRow } from "./rare-rows.ts";
import { rowsBetween } from "./rows-between.ts";
import { stationsOf, subjectOf } from "./taken-out.ts";

/** What else happened in a tank in the days that are compared: each of it may be what made the difference. */
export interface Meanwhile {
  readonly is: "planted" | "lamp replaced" | "dosed" | "taken out" | "put back" | "came in" | "went out";
  /** A plant, a remedy, a part, a species; empty where the entry names none. */
  readonly name: string;
  /** Of kinds that graze: snails and shrimps. */
  readonly isGrazer: boolean;
  /** Times, of animals how many: in the days before, in those left out, in the days after. */
  readonly before: number;
  readonly between: number;
  readonly after: number;
  /** Its first entry. */
  readonly day: number;
}

/** What is done again and again, a week: a share of the water, days of cleaning, feeds. */
export interface Routine {
  readonly is: "water changed" | "cleaned" | "fed";
  readonly before: number;
  readonly after: number;
}

const kinds: ReadonlySet<number> = new Set([
  Kind.plant,
  Kind.service,
  Kind.dose,
  Kind.remove,
  Kind.return,
  Kind.clean,
  Kind.feed,
]);

/** @param change the entry itself, which is nothing else */
export function meanwhileIn(
  logbook: Logbook,
  tank: Tank,
  windows: Windows,
  change: Pick<LogRow, "block" | "id">,
): { readonly events: readonly Meanwhile[]; readonly routines: readonly Routine[] } {
  const events = new Map<string, Meanwhile>();
  const add = (is: Meanwhile["is"], name: string, day: number, count = 1): void => {
    const key = `${is} ${name}`;
    const known = events.get(key) ?? {
      is,
      name,
      isGrazer: isGrazer(logbook, is, name),
      before: 0,
      between: 0,
      after: 0,
      day,
    };
    events.set(key, { ...known, [sideOf(windows, day)]: known[sideOf(windows, day)] + count });
  };
  const meant = targetsOf(logbook, tank);
  const days = {
    cleaned: { before: new Set<number>(), after: new Set<number>() },
    fed: { before: 0, after: 0 },
  };
  for (const row of rowsBetween(logbook, windows.before.from, windows.after.to, kinds)) {
    if (row.block === change.block && row.id === change.id) continue;
    // What is dosed into shared water is dosed into each of its tanks.
    const isMeant =
      row.kind === Kind.dose
        ? stationsOf(logbook, row).some(({ body }) => body === tank.body)
        : meant.has(targetOf(row));
    if (!isMeant) continue;
    const side = sideOf(windows, row.day);
    if (row.kind === Kind.clean) {
      if (side !== "between") days.cleaned[side].add(row.day);
    } else if (row.kind === Kind.feed) {
      if (side !== "between" && !isFurther(row.facts, row.row) && subjectOf(row) !== "none") days.fed[side]++;
    } else {
      const is = eventOf(logbook, row);
      if (is !== undefined) add(is, is === "lamp replaced" ? "" : subjectOf(row), row.day);
    }
  }
  const ledger = logbook.ledgerOf(tank);
  for (const course of courses(ledger))
    for (const each of movements(ledger, course, windows.before.from, windows.after.to + 1)) {
      const is = wayOf[each.is];
      if (is !== undefined && each.tank === tank && each.animals > 0)
        add(is, each.species, Math.floor(each.time), each.animals);
    }
  const weeks = windows.days / 7;
  const changed = (from: number, to: number): number => {
    const { exchanges } = ledger;
    let sum = 0;
    for (let at = exchanges.from(from); at < exchanges.length && exchanges.time[at]! < to + 1; at++)
      sum += Number.isNaN(exchanges.first[at]!) ? 0 : exchanges.first[at]!;
    return sum / weeks;
  };
  const routines: Routine[] = [
    {
      is: "water changed",
      before: changed(windows.before.from, windows.before.to),
      after: changed(windows.after.from, windows.after.to),
    },
    { is: "cleaned", before: days.cleaned.before.size / weeks, after: days.cleaned.after.size / weeks },
    { is: "fed", before: days.fed.before / weeks, after: days.fed.after / weeks },
  ];
  return {
    events: [...events.values()].sort((a, b) => a.day - b.day),
    routines: routines.filter(({ before, after }) => before > 0 || after > 0),
  };
}

const sideOf = ({ before, after }: Windows, day: number): "before" | "between" | "after" =>
  day <= before.to ? "before" : day >= after.from ? "after" : "between";

function eventOf(logbook: Logbook, row: LogRow): Meanwhile["is"] | undefined {
  switch (row.kind) {
    case Kind.plant:
      return "planted";
    case Kind.dose:
      return "dosed";
    case Kind.remove:
      return "taken out";
    case Kind.return:
      return "put back";
    default:
      return isLampReplaced(logbook, row) ? "lamp replaced" : undefined;
  }
}

/** What comes and goes; what died or is missing is no choice of the keeper, but eats no more all the same. */
const wayOf: Readonly<Partial<Record<string, Meanwhile["is"]>>> = {
  arrive: "came in",
  in: "came in",
  hatch: "came in",
  out: "went out",
  sell: "went out",
  ship: "went out",
  lose: "went out",
};

function isGrazer({ book }: Logbook, is: Meanwhile["is"], name: string): boolean {
  if (is !== "came in" && is !== "went out") return false;
  const kind = book.species.get(name)?.kind;
  return kind === "snail" || kind === "shrimp";
}
