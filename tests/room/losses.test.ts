import { describe, expect, it } from "vitest";
import { comparedRun, isRun, lossRuns, runTest } from "../../language/room/losses.ts";
import { poisson, random } from "../support/random.ts";
import { Room } from "../support/room.ts";

/** A run of losses, and how often it is seen where there is none. */

describe("a run of losses", () => {
  const room = `species praecox
tank dam
  volume 300 L
2026-01-01
  dam arrive praecox 40
`;
  const lost = (...days: string[]) => days.map((day) => `2026-${day}\n  dam lose praecox 1 found`).join("\n");
  const runsIn = (log: string) => lossRuns(new Room(log).ledger("dam"));

  it("shows at the loss that makes it one, once", () => {
    const runs = runsIn(`${room}${lost("04-15", "04-17", "04-20", "04-22", "04-23")}`);
    expect(runs.map(({ at, now, before }) => [at.block.text.slice(0, 10), now.count, before.count])).toEqual([
      ["2026-04-22", 4, 0],
    ]);
  });

  it("is none where as many were lost before", () => {
    const before = ["01-20", "02-01", "02-10", "02-20", "03-01", "03-10", "03-20"];
    expect(runsIn(`${room}${lost(...before, "04-15", "04-17", "04-20", "04-22")}`)).toEqual([]);
  });

  it.each(["culled", "missing"])("is none of animals that are %s", (how) => {
    expect(runsIn(`${room}2026-04-15\n  dam lose praecox 20 ${how}`)).toEqual([]);
  });

  it("has nothing to be held against where the animals just came", () => {
    const log = `${room}2026-04-15\n  dam arrive praecox 4\n`.replace(
      "2026-01-01\n  dam arrive praecox 40\n",
      "",
    );
    expect(runsIn(`${log}${lost("04-16", "04-17", "04-18", "04-19")}`)).toEqual([]);
  });

  it("given all losses is binomial: four of four in 14 of 104 days, by hand", () => {
    const compared = comparedRun({ count: 4, exposure: 14 }, { count: 0, exposure: 90 })!;
    expect(compared.asMany).toBeCloseTo((14 / 104) ** 4, 12);
    expect(isRun(compared)).toBe(true);
    expect(isRun(comparedRun({ count: 3, exposure: 14 }, { count: 0, exposure: 90 }))).toBe(false);
  });
});

/** Losses by chance alone, at an even rate, looked at on every day of a year, by the test itself. */
describe("by chance alone a run is seen", () => {
  const { windowDays, beforeDays } = runTest;
  const known = new Map<number, boolean>();
  const isSeen = (now: number, before: number): boolean => {
    const key = now * 1000 + before;
    let seen = known.get(key);
    if (seen === undefined) {
      seen = isRun(
        comparedRun({ count: now, exposure: windowDays }, { count: before, exposure: beforeDays }),
      );
      known.set(key, seen);
    }
    return seen;
  };

  it.each([
    [1 / 30, 0.01],
    [2 / 7, 0.045],
  ])("at %f losses a day in fewer than %f of the years", (aDay, most) => {
    const uniform = random(11);
    const years = 3000;
    let alarms = 0;
    for (let year = 0; year < years; year++) {
      const lost = Array.from({ length: 365 + windowDays + beforeDays }, () => poisson(aDay, uniform));
      const sum = (from: number, to: number) => lost.slice(from, to).reduce((all, each) => all + each, 0);
      let before = sum(0, beforeDays);
      let now = sum(beforeDays, beforeDays + windowDays);
      for (let day = beforeDays + windowDays; day < lost.length; day++) {
        const leaves = lost[day - windowDays]!;
        now += lost[day]! - leaves;
        before += leaves - lost[day - windowDays - beforeDays]!;
        if (lost[day]! > 0 && isSeen(now, before)) {
          alarms++;
          break;
        }
      }
    }
    expect(alarms / years).toBeLessThan(most);
    expect(alarms).toBeGreaterThan(0);
  });
});
