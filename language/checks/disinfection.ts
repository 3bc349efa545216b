import { Kind } from "../book/entries/registry.ts";
import { Col, intsPerRow, kindOfRow } from "../book/facts.ts";
import { noName } from "../book/interner.ts";
import type { Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { heldBefore } from "../room/before-row.ts";
import type { At } from "../room/contact.ts";
import type { Logbook } from "../room/logbook.ts";
import { type LogRow, rowFinder } from "../room/rare-rows.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";

/** A disinfection that meets animals. */

export const disinfectionPages = [
  page({
    code: "disinfect/occupied",
    severity: "warning",
    since: "0.3",
    title: "Disinfected with animals in it",
    says: "By the book there are animals in the tank that is disinfected. What kills germs harms them, and their filter; and what they may carry is not ended by it: contacts are followed on.",
    whatToDo:
      "If the tank was empty, write down where the animals went. If only a tool was meant, name it: q1 disinfect net. Follow the label of the agent, wear what it asks for, and rinse.",
    raises: `species praecox
tank q1
  volume 60 L
tank r1
  volume 20 L
2026-03-10
  q1 count praecox 3
  q1 disinfect with "chlorine, 30 min"
# ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ disinfect/occupied`,
    fine: `species praecox
tank q1
  volume 60 L
tank r1
  volume 20 L
2026-03-10
  q1 count praecox 3
  q1 move praecox 3 -> r1
  q1 disinfect with "chlorine, 30 min"`,
    source:
      "Emptied of animals before, rinsed after: *common practice, no source*. The label of the agent says more.",
  }),
] as const;

export function* occupiedFindings(logbook: Logbook): Iterable<{ tank: Tank; finding: RowFinding }> {
  for (const row of findDisinfected(logbook, Number.POSITIVE_INFINITY))
    for (const tank of disinfectedTanks(logbook, row)) {
      const finding = occupiedFinding(logbook, row, tank);
      if (finding !== undefined) yield { tank, finding };
    }
}

const findDisinfected = rowFinder((facts, row) => kindOfRow(facts, row) === Kind.disinfect);

/** The tanks that a row says were disinfected: its targets where it names no thing, or a tank that it names. */
function disinfectedTanks({ book }: Logbook, { facts, row }: LogRow): readonly Tank[] {
  const name = (column: number): number => facts.ints[row * intsPerRow + column]!;
  const thing = name(Col.subject);
  const target = name(Col.target);
  const stations =
    thing !== noName
      ? [book.station(thing)]
      : target < 0
        ? (book.groupTanks(~target) ?? [])
        : [book.station(target)];
  return stations.flatMap((station): readonly Tank[] => {
    if (station?.kind === "tank") return [station as Tank];
    return station?.kind === "system" ? book.bodies[station.body]!.tanks : [];
  });
}

function occupiedFinding(logbook: Logbook, row: LogRow, tank: Tank): RowFinding | undefined {
  const at: At = { day: row.day, time: row.time, block: row.block, row: row.id };
  const held = heldBefore(logbook, tank, at).filter(({ animals }) => animals > 0);
  if (held.length === 0) return undefined;
  const what = held.map(({ species, animals }) => `${formatNumber(animals, 6)} ${species}`).join(", ");
  return {
    code: "disinfect/occupied",
    block: row.block,
    row: row.id,
    slots: [],
    severity: () => "warning" as const,
    message: () => `${tank.name} is disinfected while ${what} are in it by the book`,
    about: tank,
  };
}
