import { describe, expect, it } from "vitest";
import { isoOf } from "../../language/book/dates.ts";
import { broodsUntil } from "../../language/room/broods.ts";
import { developed, type Expected, expected, type Stage } from "../../language/room/development.ts";
import { warmthOn } from "../../language/room/warmth.ts";
import { Room, timeOf } from "../support/room.ts";

const prelude = `tank b1
  volume 40 L
tank b6
  volume 20 L
species praecox
  hatches 7..10 d at 25 C; swims 1..2 d at 25 C; base 10 C
`;

const warmth = (room: Room, tank: string, day: string): string => {
  const { meanC, by } = warmthOn(room.ledger(tank), room.tank(tank), timeOf(day), room.today);
  return `${Number(meanC.toFixed(3))} by ${by}`;
};

describe("the warmth of a day", () => {
  it("lies on the line from test to test", () => {
    const room = new Room(`${prelude}2026-03-01
  b1 test temperature 24
2026-03-05
  b1 test temperature 28`);
    // From 24 at the beginning of the first day to 25 at its end.
    expect(warmth(room, "b1", "2026-03-01")).toBe("24.5 by tests");
    expect(warmth(room, "b1", "2026-03-03")).toBe("26.5 by tests");
    expect(warmth(room, "b1", "2026-02-25")).toBe("24 by tests");
  });

  it("is the area under the line on a day with several tests", () => {
    const room = new Room(`${prelude}2026-03-01
  00:00 b1 test temperature 20
  12:00 b1 test temperature 30
2026-03-02
  00:00 b1 test temperature 20`);
    expect(warmth(room, "b1", "2026-03-01")).toBe("25 by tests");
  });

  it("is assumed where no test is near: the middle of the limits, or nothing", () => {
    const log = '2026-03-01\n  b1 test temperature 24\n  b6 note "dry"\n2026-03-20\n  b1 note "eggs"';
    const limited = new Room(prelude.replace("40 L", "40 L\n  limits temperature 22..26 C") + log);
    expect(warmth(limited, "b1", "2026-03-20")).toBe("24 by limits");
    expect(warmth(new Room(prelude + log), "b1", "2026-03-20")).toBe("NaN by nothing");
  });

  it("is that of the tests of late for days to come", () => {
    const room = new Room(`${prelude}2026-03-01
  b1 test temperature 20
2026-03-09
  b1 test temperature 24
2026-03-10
  b1 test temperature 26`);
    expect(warmth(room, "b1", "2026-03-20")).toBe("25 by late tests");
  });

  it("is the tank's own before that of the water it shares", () => {
    const room = new Room(`system rack
tank r1
  volume 20 L; system rack
tank r2
  volume 20 L; system rack
2026-03-01
  r1 test temperature 22
  rack test temperature 26
2026-03-02
  r1 test temperature 22
  rack test temperature 26`);
    expect(warmth(room, "r1", "2026-03-01")).toBe("22 by tests");
    expect(warmth(room, "r2", "2026-03-01")).toBe("24 by tests");
  });
});

const stageOf = (log: string, stage: Stage, today?: string, lot = ""): Expected | undefined => {
  const room = new Room(prelude + log, today);
  const broods = broodsUntil(room.checked.logbook, room.today);
  const brood = lot === "" ? broods.at(-1)! : broods.find((each) => each.lot === lot)!;
  return expected(room.checked.logbook, brood, stage, room.today);
};

const days = (found: Expected | undefined): string =>
  found === undefined
    ? "nothing"
    : `${[found.earliest, found.likely, found.latest].map((day) => (Number.isNaN(day) ? "never" : isoOf(day).slice(5))).join(" ")} by ${found.by}`;

const steady = (from: number, to: number, tank: string, celsius: number): string =>
  Array.from(
    { length: to - from + 1 },
    (_, at) => `2026-03-${String(from + at).padStart(2, "0")}\n  ${tank} test temperature ${celsius}`,
  ).join("\n");

describe("when eggs are to be expected to hatch", () => {
  it("is as stated at the temperature that is stated", () => {
    const found = stageOf(
      `${steady(1, 3, "b1", 25)}\n2026-03-01\n  b1 spawn praecox 120 eggs lot p7`,
      "hatch",
    );
    expect(days(found)).toBe("03-08 03-10 03-11 by stated");
    expect(found).toMatchObject({ low: 105, high: 150, soFar: 45 });
  });

  // At 20 C there are 10 degree-days a day above 10 C instead of 15: 105 to 150 take 11 to 15 days.
  it("is later in cooler water, and counts from the base of the species", () => {
    const log = `${steady(1, 3, "b1", 20)}\n2026-03-01\n  b1 spawn praecox 120 eggs lot p7`;
    expect(days(stageOf(log, "hatch"))).toBe("03-12 03-14 03-16 by stated");
  });

  it("follows the eggs into another tank", () => {
    const log = `${steady(1, 5, "b1", 20)}\n${steady(3, 5, "b6", 30)}
2026-03-01
  b1 spawn praecox 120 eggs lot p7
2026-03-03
  b6 eggs praecox 110 lot p7`;
    expect(stageOf(log, "hatch")?.soFar).toBe(2 * 10 + 3 * 20);
  });

  it("never comes where it is colder than the base", () => {
    const log = `${steady(1, 3, "b1", 9)}\n2026-03-01\n  b1 spawn praecox 120 eggs lot p7`;
    expect(days(stageOf(log, "hatch"))).toBe("never never never by stated");
  });

  it("rests on days alone where no temperature is known, and on nothing where nothing is stated", () => {
    expect(days(stageOf("2026-03-01\n  b1 spawn praecox 120 eggs lot p7", "hatch"))).toBe(
      "03-08 03-10 03-11 by days alone",
    );
    expect(stageOf("2026-03-01\n  b1 spawn rhino 120 eggs lot p7", "hatch")).toBeUndefined();
  });

  it("reaches from the first spawning to the last of a brood", () => {
    const log = `${steady(1, 4, "b1", 25)}
2026-03-01
  b1 spawn praecox 60 eggs lot p7
2026-03-03
  b1 spawn praecox 60 eggs lot p7`;
    expect(days(stageOf(log, "hatch"))).toBe("03-08 03-10 03-13 by stated");
  });

  it("begins to swim counted from the hatch, expected or seen", () => {
    const spawn = `${steady(1, 3, "b1", 25)}\n2026-03-01\n  b1 spawn praecox 120 eggs lot p7`;
    expect(days(stageOf(spawn, "swim"))).toBe("03-09 03-12 03-13 by stated");
    const hatch = `${spawn}\n2026-03-09\n  b1 hatch praecox 80 lot p7`;
    expect(days(stageOf(hatch, "swim"))).toBe("03-10 03-11 03-11 by stated");
  });
});

/** A brood that hatched after some days, from a day on. */
const past = (lot: string, from: number, took: number): string => {
  const day = (number: number): string => `2026-03-${String(number).padStart(2, "0")}`;
  return `${day(from)}\n  b1 spawn praecox 50 eggs lot ${lot}\n${day(from + took)}\n  b1 hatch praecox 30 lot ${lot}\n`;
};

describe("the room's own broods", () => {
  it("count before what is stated once there are three", () => {
    const two = past("a", 1, 5) + past("b", 2, 6);
    const now = `${steady(1, 20, "b1", 25)}\n2026-03-20\n  b1 spawn praecox 50 eggs lot p7`;
    expect(days(stageOf(two + now, "hatch"))).toBe("03-27 03-29 03-30 by stated");
    const found = stageOf(`${two + past("c", 3, 6)}${now}`, "hatch");
    // Five and six days at 25 C above 10 C are 75 and 90 degree-days.
    expect(found).toMatchObject({ low: 75, middle: 90, high: 90, chance: 0.5 });
    expect(days(found)).toBe("03-25 03-26 03-26 by own broods");
  });

  it("are not told together where it was cold and warm", () => {
    const three = past("a", 1, 5) + past("b", 2, 6) + past("c", 3, 6);
    const now = `${steady(1, 12, "b1", 25)}\n${steady(18, 20, "b1", 21)}\n2026-03-20\n  b1 spawn praecox 50 eggs lot p7`;
    expect(stageOf(three + now, "hatch")).toMatchObject({ by: "stated", others: 3, own: [] });
  });

  it("tell what they took", () => {
    const room = new Room(`${prelude}${steady(1, 20, "b1", 25)}\n${past("a", 1, 5)}`);
    const [brood] = broodsUntil(room.checked.logbook, room.today);
    expect(developed(room.checked.logbook, brood!, "hatch", room.today)).toMatchObject({
      degreeDays: 75,
      meanC: 25,
      tested: 1,
    });
  });
});
