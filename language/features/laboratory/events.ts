import { Kind } from "../../book/entries/registry.ts";
import { lineAt } from "../../book/entry.ts";
import { Col, type Facts, intsPerRow, kindOfRow } from "../../book/facts.ts";
import { nameOf } from "../../book/interner.ts";
import type { Block } from "../../book/source.ts";
import { eachRow, firstFrom } from "../../room/days.ts";
import { targetsOf } from "../../room/feeding.ts";
import type { SheetScope } from "./scope.ts";

/** What was done to the tanks before, and what was seen: all that is told nowhere else on the sheet. */
export interface SheetEvent {
  /** `new`: something came in. */
  readonly is: "new" | "care" | "note";
  /** Of several of the same words the last. */
  readonly day: number;
  readonly times: number;
  /** As written. */
  readonly text: string;
}

export const eventDays = 60;
/** Notes about the room concern many tanks: those of so many days. */
const noteDays = 30;

const additions: ReadonlySet<number> = new Set([Kind.arrive, Kind.move, Kind.hatch, Kind.plant, Kind.carry]);
const care: ReadonlySet<number> = new Set([
  Kind.service,
  Kind.clean,
  Kind.disinfect,
  Kind.remove,
  Kind.return,
  Kind.light,
  Kind.trim,
  Kind.algae,
]);

/** Of the last 60 days, the latest first; what was done again and again in the same words is one line. */
export function sheetEvents(scope: SheetScope): SheetEvent[] {
  const { logbook, day } = scope;
  const aim = aimOf(scope);
  const groups = logbook.dayGroups;
  const byWords = new Map<string, SheetEvent>();
  let last: { block: Block; end: number } | undefined;
  for (let at = firstFrom(groups, day - eventDays + 1); at < groups.length; at++) {
    const group = groups[at]!;
    if (group.day > day) break;
    eachRow(group, (block, facts, row) => {
      const is = eventIs(facts, row, aim, group.day > day - noteDays);
      if (is === undefined) return;
      const line = lineAt(block, facts.ints[row * intsPerRow + Col.start]!);
      if (line?.is !== "entry" || (last?.block === block && last.end === line.end)) return;
      last = { block, end: line.end };
      const start = line.target?.start ?? line.start;
      const text = block.text.slice(start, line.end).replace(/\s+/g, " ");
      const known = byWords.get(text);
      byWords.set(text, { is, day: group.day, times: (known?.times ?? 0) + 1, text });
    });
  }
  return [...byWords.values()].sort((a, b) => b.day - a.day);
}

interface Aim {
  readonly targets: ReadonlySet<number>;
  readonly tanks: ReadonlySet<number>;
}

const room = nameOf("room");

/** The tanks, their systems and groups, and the gear on them. */
function aimOf({ book, tanks }: SheetScope): Aim {
  const targets = new Set(tanks.flatMap((tank) => [...targetsOf(book, tank)]));
  const served = new Set(tanks.flatMap(({ name, system }) => [name, system]));
  for (const { name, on } of book.gears) if (on !== "" && served.has(on)) targets.add(nameOf(name));
  return { targets, tanks: new Set(tanks.map(({ name }) => nameOf(name))) };
}

function eventIs(
  facts: Facts,
  row: number,
  { targets, tanks }: Aim,
  isLate: boolean,
): SheetEvent["is"] | undefined {
  const kind = kindOfRow(facts, row);
  const at = row * intsPerRow;
  const target = facts.ints[at + Col.target]!;
  const isOwn = targets.has(target);
  if (kind === Kind.note) return isOwn || (target === room && isLate) ? "note" : undefined;
  if (kind === Kind.move || kind === Kind.carry) {
    const to = facts.ints[at + Col.object]!;
    // What goes to where it is does not count.
    if (to === target) return undefined;
    return tanks.has(to) ? "new" : isOwn ? "care" : undefined;
  }
  if (!isOwn) return undefined;
  return additions.has(kind) ? "new" : care.has(kind) ? "care" : undefined;
}
