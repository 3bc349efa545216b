import { describe, expect, it } from "vitest";
import { comparedPairs, type Yield, yieldsUntil } from "../../language/room/brood-yield.ts";
import { Room } from "../support/room.ts";

const tanks = "tank b1\n  volume 40 L\nspecies praecox\n";

/** Spawnings of a pair, ten days apart: eggs laid, and young. */
const spawnings = (
  father: string,
  mother: string,
  first: number,
  broods: readonly [number, number][],
): string =>
  broods
    .map(([eggs, young], at) => {
      const day = (offset: number): string =>
        new Date(Date.UTC(2026, 0, first + 10 * at + offset)).toISOString().slice(0, 10);
      const lot = `${father}-${mother}-${at}`;
      return `${day(0)}\n  b1 spawn praecox ${eggs} eggs lot ${lot} father ${father} mother ${mother}\n${day(8)}\n  b1 hatch praecox ${young} lot ${lot}`;
    })
    .join("\n");

const yields = (log: string): readonly Yield[] => {
  const room = new Room(tanks + log);
  return yieldsUntil(room.checked.logbook, room.today);
};

describe("what a pair gives", () => {
  it("is told by the month, with the days between spawnings", () => {
    const [pair] = yields(
      spawnings("m1", "f1", 1, [
        [100, 60],
        [80, 40],
        [120, 50],
      ]),
    );
    expect(pair).toMatchObject({
      name: "m1 × f1",
      spawnings: 3,
      interval: { median: 10, least: 10, most: 10 },
      eggs: { median: 100, all: [100, 80, 120] },
      young: { median: 50 },
      // The eggs of the first two in 20 days.
      eggsAMonth: 270,
      youngAMonth: 150,
    });
    expect(pair?.shares).toMatchObject([{ what: "hatched of laid", count: 150, outOf: 300 }]);
  });

  it("counts eggs that came to nothing as no young, and eggs that wait not at all", () => {
    const log = `2026-01-01
  b1 spawn praecox 50 eggs lot a father m1 mother f1
2026-01-05
  b1 eggs praecox 0 lot a
2026-01-11
  b1 spawn praecox 70 eggs lot b father m1 mother f1`;
    expect(yields(log)).toMatchObject([{ eggs: { all: [50, 70] }, young: { all: [0] } }]);
  });

  it("is told by the tank where no parents are named", () => {
    expect(yields("2026-01-01\n  b1 hatch praecox 9\n2026-01-25\n  b1 hatch praecox 7")).toMatchObject([
      { name: "praecox in b1", spawnings: 2, interval: { median: 24 }, eggs: undefined },
    ]);
  });
});

describe("pairs held against each other", () => {
  const compared = (log: string): string[] =>
    comparedPairs(yields(log), "praecox").map(
      ({ best, other, p, isApart }) =>
        `${best.name} ${isApart ? "more than" : "not told apart from"} ${other.name}, p ${p.toFixed(3)}`,
    );
  const many = (young: readonly number[]): [number, number][] => young.map((each) => [100, each]);

  it("are told apart where all spawnings of one lie above those of the other", () => {
    // Of 5 and 5 there are 252 ways to deal the ranks; two are as far apart.
    const log = `${spawnings("m1", "f1", 1, many([60, 62, 64, 66, 68]))}\n${spawnings("m2", "f2", 3, many([20, 22, 24, 26, 28]))}`;
    expect(compared(log)).toEqual(["m1 × f1 more than m2 × f2, p 0.008"]);
  });

  it("are not ranked by chance", () => {
    const log = `${spawnings("m1", "f1", 1, many([60, 30, 64]))}\n${spawnings("m2", "f2", 3, many([20, 62, 24]))}`;
    expect(compared(log)).toEqual(["m1 × f1 not told apart from m2 × f2, p 0.400"]);
  });

  it("are not compared with two spawnings each, and pay for every comparison", () => {
    const two = `${spawnings("m1", "f1", 1, many([60, 62]))}\n${spawnings("m2", "f2", 3, many([20, 22]))}`;
    expect(compared(two)).toEqual([]);
    const three = [
      spawnings("m1", "f1", 1, many([60, 62, 64, 66])),
      spawnings("m2", "f2", 3, many([20, 22, 24, 26])),
      spawnings("m3", "f3", 5, many([30, 32, 34, 36])),
    ].join("\n");
    // 2 of 70, three times.
    expect(compared(three)).toEqual([
      "m1 × f1 not told apart from m3 × f3, p 0.086",
      "m1 × f1 not told apart from m2 × f2, p 0.086",
    ]);
  });
});
