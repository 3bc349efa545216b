import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isoOf } from "../../language/book/dates.ts";
import { goneUntil, type OrderState, ordersOn } from "../../language/room/orders.ts";
import { Room } from "../support/room.ts";

const room = `room "Cellar"
  quarantine 28 d
species praecox
species horn
  kind snail
tank dam
  volume 100 L
tank r1
  volume 20 L
tank q1
  volume 50 L
  role quarantine
group both = dam, r1
`;

function states(log: string, today?: string): readonly OrderState[] {
  const { checked, today: day } = new Room(room + log, today);
  return ordersOn(checked.logbook, day);
}

/** `o-1 praecox 2 of 6, 4 missing: dam 4 now, q1 8 from 2026-03-29`. */
const told = (log: string, today?: string): string[] =>
  states(log, today).flatMap(({ order, lines }) =>
    lines.map(({ species, wanted, gone, missing, sources, short, from }) => {
      const where = sources.map(({ release, animals }) => `${release.tank.name} ${animals}`).join(", ");
      const when = Number.isNaN(from) ? "" : Number.isFinite(from) ? ` from ${isoOf(from)}` : " never";
      const lack = short > 0 ? `, ${short} short` : "";
      return `${order.name} ${species} ${gone} of ${wanted}, ${missing} missing: ${where || "-"}${when}${lack}`;
    }),
  );

describe("an order", () => {
  const log = `order o-1
  wants praecox 6, horn 5; due 2026-03-20
2026-03-01
  dam count praecox 4
  q1 arrive praecox 8
`;
  test("says what is missing, where it could come from and from when, and by how much it cannot be filled", () => {
    expect(told(log)).toEqual([
      "o-1 praecox 0 of 6, 6 missing: dam 4, q1 8 from 2026-03-29",
      "o-1 horn 0 of 5, 5 missing: - never, 5 short",
    ]);
  });

  test("is filled by the sales and shipments that name it", () => {
    const sent = `${log}2026-03-02
  dam ship praecox 2, horn 1 order o-1
  dam sell praecox 1 order o-1
  dam sell praecox 1
`;
    expect(told(sent)).toEqual([
      "o-1 praecox 3 of 6, 3 missing: q1 8 from 2026-03-29",
      "o-1 horn 1 of 5, 4 missing: - never, 4 short",
    ]);
  });

  test("shipped from the tanks of a group has as many from each", () => {
    const sent = `order o-1
  wants praecox 6
2026-03-01
  @both count praecox 9
  @both ship praecox 2 order o-1
`;
    expect(told(sent)).toEqual(["o-1 praecox 4 of 6, 2 missing: dam 7, r1 7 from 2026-03-01"]);
  });

  test("that is due first takes first", () => {
    const two = `order late
  wants praecox 3; due 2026-03-30
order soon
  wants praecox 3; due 2026-03-10
order whenever
  wants praecox 3
2026-03-01
  dam count praecox 7
`;
    expect(told(two)).toEqual([
      "soon praecox 0 of 3, 3 missing: dam 7 from 2026-03-01",
      "late praecox 0 of 3, 3 missing: dam 4 from 2026-03-01",
      "whenever praecox 0 of 3, 3 missing: dam 1 never, 2 short",
    ]);
  });

  test("is there from the day it was placed, as it was then", () => {
    const placed = log.replace("due", "placed 2026-03-03; due");
    const later = `${placed}2026-03-05\n  dam ship praecox 4 order o-1\n`;
    expect(states(later, "2026-03-02")).toEqual([]);
    expect(told(later, "2026-03-04")[0]).toContain("praecox 0 of 6, 6 missing");
    expect(told(later, "2026-03-05")[0]).toContain("praecox 4 of 6, 2 missing");
    // Where it is not stated, thirty days before it is due.
    expect(states(log.replace("due 2026-03-20", "due 2026-04-20"), "2026-03-20")).toEqual([]);
    expect(states(log.replace("due 2026-03-20", "due 2026-04-20"), "2026-03-21")).toHaveLength(1);
  });

  test("that wants a species twice wants the sum", () => {
    expect(told("order o-1\n  wants horn 2\n  wants horn 3\n2026-03-01\n  dam count horn 9")).toEqual([
      "o-1 horn 0 of 5, 5 missing: dam 9 from 2026-03-01",
    ]);
  });

  test("takes no more than there is, together with all others", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 0, max: 30 }),
        fc.integer({ min: 0, max: 30 }),
        (wants, inDam, inR1) => {
          const orders = wants.map((animals, at) => `order x-${at}\n  wants praecox ${animals}`);
          const all = states(
            `${orders.join("\n")}\n2026-03-01\n  dam count praecox ${inDam}\n  r1 count praecox ${inR1}\n`,
          );
          const missing = all.reduce((sum, each) => sum + each.missing, 0);
          const short = all.flatMap(({ lines }) => lines).reduce((sum, line) => sum + line.short, 0);
          expect(missing).toBe(wants.reduce((sum, each) => sum + each, 0));
          expect(short).toBe(Math.max(0, missing - inDam - inR1));
        },
      ),
      { numRuns: 60 },
    );
  });
});

test("what has gone is the same whatever files it stands in", () => {
  const days = [
    "2026-03-01\n  dam ship praecox 2 order o-1\n  09:00 dam sell horn 1\n  08:00 dam sell horn 2",
    "2026-03-02\n  dam ship praecox 3 order o-1",
    "2026-03-01\n  dam sell praecox 4",
  ];
  const gone = (order: readonly number[]): string[] => {
    const files = order.map((at, index) => `--- ${index}.tank ---\n${days[at]!}`);
    const { checked, today } = new Room(`--- room.tank ---\n${room}\n${files.join("\n")}`);
    return goneUntil(checked.logbook, today).map(
      ({ row, species, animals }) => `${row.time} ${species} ${animals}`,
    );
  };
  const sorted = [...gone([0, 1, 2])].sort();
  for (const order of [
    [1, 0, 2],
    [2, 1, 0],
    [1, 2, 0],
  ])
    expect([...gone(order)].sort()).toEqual(sorted);
  const times = gone([1, 2, 0]).map((text) => Number(text.split(" ")[0]));
  expect(times).toEqual([...times].sort((a, b) => a - b));
});
