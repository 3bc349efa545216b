import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import {
  isTooShort,
  type TooShort,
  type Windows,
  windowsAround,
} from "../../language/room/change-windows.ts";
import { comparedIn, isSureShift, keyOf } from "../../language/room/compared.ts";
import { lightChanges, lightRatio, lightSettings } from "../../language/room/light-changes.ts";
import { comparedAround, lightsClosed } from "../../language/room/light-compared.ts";
import { algaeRatings, growths, trims } from "../../language/room/plant-rows.ts";
import { Room } from "../support/room.ts";

const settings = (log: string, tank = "dam", today?: string): string[] => {
  const room = new Room(log, today);
  return lightSettings(room.checked.logbook, room.tank(tank), room.today).map(
    ({ row, hours, intensity, of }) =>
      `${isoOf(row.day)} ${Number(hours.toFixed(6))} h${of === undefined ? "" : ` ${Number(intensity.toFixed(6))} ${of}`}`,
  );
};
const changes = (log: string, tank = "dam") => {
  const room = new Room(log);
  return lightChanges(room.checked.logbook, room.tank(tank), room.today);
};

describe("how the light was set", () => {
  it("what an entry does not say stays as it was, and of a day the last counts", () => {
    expect(
      settings(`tank dam
2026-03-01
  dam light 9 h at 70 %
2026-03-10
  dam light 8 h
  dam light 8.5 h
2026-03-20
  dam light at 60 %
2026-03-21
  dam light "as it was"
`),
    ).toEqual([
      "2026-03-01 9 h 0.7 fraction",
      "2026-03-10 8.5 h 0.7 fraction",
      "2026-03-20 8.5 h 0.6 fraction",
    ]);
  });

  it("of a system it is of each tank, of a lamp of the tank it is on, of a group of its tanks", () => {
    const log = `system s
tank r1
  system s
tank r2
  system s
gear bar
  kind lamp; on r1
group both = r1, r2
2026-03-01
  s light 8 h
2026-03-02
  bar light 7 h
2026-03-03
  @both light 6 h
2026-03-04
  room light 5 h
`;
    expect(settings(log, "r1")).toEqual([
      "2026-03-01 8 h",
      "2026-03-02 7 h",
      "2026-03-03 6 h",
      "2026-03-04 5 h",
    ]);
    expect(settings(log, "r2")).toEqual(["2026-03-01 8 h", "2026-03-03 6 h", "2026-03-04 5 h"]);
    expect(settings(log, "r2", "2026-03-02")).toEqual(["2026-03-01 8 h"]);
  });
});

describe("when the light became another", () => {
  it("the first entry says how it was, and one that says the same again changes nothing", () => {
    const found = changes(`tank dam
2026-03-01
  dam light 9 h at 70 %
2026-03-05
  dam light 9 h "checked"
2026-03-10
  dam light 6 h
`);
    expect(found.map(({ row }) => isoOf(row.day))).toEqual(["2026-03-10"]);
    expect(lightRatio(found[0]!)).toBeCloseTo(2 / 3, 12);
  });

  it("an intensity that is told for the first time is no change", () => {
    expect(changes("tank dam\n2026-03-01\n  dam light 9 h\n2026-03-10\n  dam light 9 h at 70 %\n")).toEqual(
      [],
    );
  });

  it("a lamp that was replaced is one, however it is named, but not with new hours on the same day", () => {
    const log = (line: string) => `tank dam
gear bar
  kind lamp; on dam
gear canister
  kind filter; on dam
2026-03-01
  dam light 9 h
2026-03-10
  ${line}
`;
    for (const line of ["dam service lamp replaced", "dam service bar replaced", "bar service replaced"])
      expect(changes(log(line)).map(({ isLamp }) => isLamp)).toEqual([true]);
    for (const line of [
      "dam service lamp checked",
      "dam service canister replaced",
      "canister service replaced",
    ])
      expect(changes(log(line))).toEqual([]);
    expect(changes(log("dam service lamp replaced\n  dam light 8 h")).map(({ isLamp }) => isLamp)).toEqual([
      false,
    ]);
  });
});

describe("ratings and trims", () => {
  const room = new Room(`tank dam
tank r1
group two = dam, r1
2026-03-01
  dam algae thread 2
  dam algae film 10 %
  dam algae thread 1..2
  dam trim stems 200 g
2026-03-08
  dam trim moss 50 g
  dam trim stems 90 g
  @two algae film 1
2026-03-15
  dam trim
2026-03-29
  dam trim 100 g
  @two trim 80 g
2026-04-05
  dam trim stems 70 g
`);
  const { logbook } = room.checked;
  const [from, to] = [dayOf("2026-01-01"), dayOf("2026-12-31")];

  it("a rating is a figure or a range; a share is another measure", () => {
    expect(
      algaeRatings(logbook, room.tank("dam"), from, to).map(
        ({ sort, isShare, reading }) =>
          `${sort} ${reading.low}..${reading.high}${isShare ? " %" : ""} ${reading.is}`,
      ),
    ).toEqual(["thread 2..2 figure", "film 10..10 % figure", "thread 1..2 between", "film 1..1 figure"]);
    expect(algaeRatings(logbook, room.tank("r1"), from, to)).toHaveLength(1);
  });

  it("grows in a week what is cut on a day over the days since the trimming before; without a mass nobody knows", () => {
    const grown = growths(trims(logbook, room.tank("dam"), from, to));
    // 140 g in 7 days; 15 March has no mass, 29 March one of two tanks together; 70 g in 7 days.
    expect(grown.map(({ day, gramsAWeek }) => [isoOf(day), gramsAWeek])).toEqual([
      ["2026-03-08", 140],
      ["2026-04-05", 70],
    ]);
  });
});

/** A day of March to December as an ISO date. */
const day = (at: number): string => isoOf(dayOf("2026-03-01") + at);
/** Ratings every so many days. */
const rated = (tank: string, from: number, values: readonly (number | string)[], every = 7): string =>
  values.map((value, at) => `${day(from + at * every)}\n  ${tank} algae thread ${value}\n`).join("");

describe("days that are held against each other", () => {
  const around = (log: string, today: number, at = 50): string => {
    const room = new Room(`tank dam\n${log}`, day(today));
    const windows = windowsAround(room.checked.logbook, room.tank("dam"), dayOf(day(at)), room.today);
    const since = (each: number): number => each - dayOf("2026-03-01");
    return isTooShort(windows)
      ? `${windows.days} ${windows.bound} ${Number.isNaN(windows.enough) ? "never" : since(windows.enough)}`
      : `${since(windows.before.from)}..${since(windows.before.to)} ${since(windows.after.from)}..${since(windows.after.to)} ${windows.bound} ${since(windows.closes)}`;
  };
  const begin = `${day(0)}\n  dam light 9 h\n`;
  const change = `${day(50)}\n  dam light 8 h\n`;

  it("are six weeks on each side at most, with a week left out behind the change", () => {
    expect(around(begin + change, 200)).toBe("9..50 58..99 most 99");
  });

  it("are as many as there are so far, and equal on both sides", () => {
    expect(around(begin + change, 77)).toBe("31..50 58..77 today 99");
    expect(around(begin + change, 70)).toBe("13 today 71");
    expect(around(begin + change, 71)).toBe("37..50 58..71 today 99");
    expect(around(begin + change, 50)).toBe("0 today 71");
  });

  it("end where the next change is made, and begin a week behind the one before", () => {
    expect(around(`${begin}${change}${day(80)}\n  dam light 7 h\n`, 200)).toBe(
      "29..50 58..79 change after 80",
    );
    expect(around(`${begin}${day(20)}\n  dam light 10 h\n${change}`, 200)).toBe(
      "28..50 58..80 change before 80",
    );
    expect(around(`${begin}${day(40)}\n  dam light 10 h\n${change}`, 200)).toBe("3 change before never");
  });

  it("begin with the log, or with the tank", () => {
    expect(around(`${day(40)}\n  dam light 9 h\n${change}`, 200)).toBe("11 begin never");
    const room = new Room(`tank dam\n  from ${day(30)}\n${begin}${change}`, day(200));
    const windows = windowsAround(
      room.checked.logbook,
      room.tank("dam"),
      dayOf(day(50)),
      room.today,
    ) as Windows;
    expect(windows.days).toBe(21);
    expect(windows.bound).toBe("begin");
  });

  it("are equal, apart by a week, and hold no other change, whatever was changed when", () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 1, max: 200 }), { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 0, max: 260 }),
        (days, today) => {
          const sorted = [...days].sort((a, b) => a - b);
          const log = sorted.map((at, index) => `${day(at)}\n  dam light ${4 + index} h\n`).join("");
          const room = new Room(`tank dam\n${day(0)}\n  dam light 3 h\n${log}`, day(today));
          const tank = room.tank("dam");
          const all = lightChanges(room.checked.logbook, tank, room.today);
          expect(all.map(({ row }) => isoOf(row.day))).toEqual(sorted.filter((at) => at <= today).map(day));
          for (const { row } of all) {
            const found: Windows | TooShort = windowsAround(room.checked.logbook, tank, row.day, room.today);
            if (isTooShort(found)) {
              expect(found.days).toBeLessThan(14);
              continue;
            }
            const { before, after, closes } = found;
            expect(before.to - before.from).toBe(after.to - after.from);
            expect(before.to).toBe(row.day);
            expect(after.from).toBe(row.day + 8);
            expect(after.to).toBeLessThanOrEqual(room.today);
            expect(closes).toBeGreaterThanOrEqual(after.to);
            for (const other of all) {
              if (other.row.day === row.day) continue;
              expect(other.row.day < before.from - 7 || other.row.day > after.to).toBe(true);
            }
          }
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe("a tank before and after", () => {
  const log = `system s
tank dam
  volume 100 L; system s
tank sister
  volume 100 L; system s
species horn
  kind snail
remedy iron-food
${day(0)}
  dam light 9 h
${rated("dam", 3, [3, 3, 2, 3, 3, 2])}${rated("sister", 3, [2, 2, 2, 1, 2, 2])}${day(44)}
  dam light 7 h "thread algae"
${day(46)}
  dam arrive horn 5
  dam plant fern 3
${rated("dam", 53, [1, 2, 1, 1, 0, 1])}${rated("sister", 53, [2, 1, 2, 2, 2, 2])}`;

  it("ratings against ratings, one a day, with the tank beside it that was left as it was", () => {
    const room = new Room(log, day(120));
    const { logbook } = room.checked;
    const [change] = lightChanges(logbook, room.tank("dam"), room.today);
    const found = comparedAround(logbook, room.tank("dam"), change!.row, room.today);
    const [algae] = found.compared;
    expect(keyOf(algae!.measure)).toBe("algae thread rating");
    expect([algae!.before.count, algae!.after.count]).toEqual([6, 6]);
    expect([algae!.before.median.low, algae!.after.median.low]).toEqual([3, 1]);
    expect(algae!.shift!.best).toEqual({ low: -2, high: -2 });
    // 6 and 6: the sixth least and greatest of 36 differences, 1 - 2 × 19/924.
    expect(algae!.shift!.confidence).toBeCloseTo(1 - (2 * 19) / 924, 9);
    expect(algae!.shift!.interval).toEqual({ low: -2, high: -1 });
    expect(isSureShift(algae!.shift)).toBe(true);
    const [sister] = found.sisters;
    expect(sister!.tank.name).toBe("sister");
    expect(sister!.compared[0]!.shift!.best).toEqual({ low: 0, high: 0 });
    expect(isSureShift(sister!.compared[0]!.shift)).toBe(false);
  });

  it("what else happened is named: snails came in, fern was planted", () => {
    const room = new Room(log, day(120));
    const { logbook } = room.checked;
    const [change] = lightChanges(logbook, room.tank("dam"), room.today);
    const { events, routines } = comparedAround(logbook, room.tank("dam"), change!.row, room.today);
    expect(events.map(({ is, name, isGrazer, between }) => [is, name, isGrazer, between])).toEqual([
      ["planted", "fern", false, 1],
      ["came in", "horn", true, 5],
    ]);
    expect(routines).toEqual([]);
  });

  it("is over on one day, and told of the period that holds it", () => {
    const room = new Room(log, day(120));
    const { logbook } = room.checked;
    const closed = (from: number, to: number) =>
      lightsClosed(logbook, { from: dayOf(day(from)), to: dayOf(day(to)) });
    expect(closed(85, 92)).toEqual([]);
    expect(closed(93, 93).map(({ tank }) => tank.name)).toEqual(["dam"]);
    expect(closed(94, 140)).toEqual([]);
  });

  it("two ratings on a side are too few for a difference, and none on a side are no comparison", () => {
    const few = `tank dam\n${day(0)}\n  dam light 9 h\n${rated("dam", 30, [3, 3])}${day(44)}\n  dam light 7 h\n${rated("dam", 53, [1, 1, 1])}${day(90)}\n  dam algae film 1\n`;
    const room = new Room(few);
    const { logbook } = room.checked;
    const windows = windowsAround(logbook, room.tank("dam"), dayOf(day(44)), room.today) as Windows;
    const found = comparedIn(logbook, room.tank("dam"), windows);
    expect(found.map(({ measure, shift }) => [keyOf(measure), shift])).toEqual([
      ["algae thread rating", undefined],
    ]);
  });
});
