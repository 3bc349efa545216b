import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isoOf } from "../../language/book/dates.ts";
import { type RoomPlan, roomPlan } from "../../language/room/planner/plan.ts";
import { daysShort, spreadDues } from "../../language/room/planner/spread.ts";
import { Room } from "../support/room.ts";

const planOf = (log: string, day: string, days = 14): RoomPlan => {
  const { checked, today } = new Room(log, day);
  return roomPlan(checked.logbook, today, days);
};

/** `2026-03-08 dam change 30 %`, with a star where it has its own day. */
const told = ({ days }: RoomPlan, word = ""): string[] =>
  days
    .flatMap(({ day, stops }) =>
      stops.flatMap(({ at, work }) =>
        work.map(
          ({ job }) =>
            `${isoOf(day)} ${at.kind === "room" ? "room" : at.name} ${job.act}${job.isFixed ? "*" : ""}`,
        ),
      ),
    )
    .filter((line) => line.includes(word));

describe("what is owed a number of times in a period", () => {
  const dam =
    'room "Shed"\n  capacity 90 min\n  takes feed 5 min\ntank dam\n  volume 50 L\n  at least 3 per 7 d feed frozen\nfood cyclops\n  kind frozen\n';

  test("is spread over the period, and never short", () => {
    const log = `${dam}2026-03-01\n  dam feed cyclops 1 cubes\n2026-03-03\n  dam feed cyclops 1 cubes\n2026-03-05\n  dam feed cyclops 1 cubes\n`;
    const plan = planOf(log, "2026-03-06");
    expect(told(plan, "feed").map((line) => line.slice(0, 10))).toEqual([
      "2026-03-08",
      "2026-03-10",
      "2026-03-12",
      "2026-03-15",
      "2026-03-17",
      "2026-03-19",
    ]);
    expect(plan.daysLate).toBe(0);
    // Three times in seven days, five minutes each.
    expect(plan.fit.demands.find(({ of }) => of === "minutes")?.perDay).toBeCloseTo(15 / 7, 9);
    // A feeding is no tank of the day.
    expect(plan.days.every(({ tanks }) => tanks === 0)).toBe(true);
  });

  test("is parted where it fell together", () => {
    const log = `${dam}2026-03-05\n  dam feed cyclops 1 cubes\n  dam feed cyclops 1 cubes\n  dam feed cyclops 1 cubes\n`;
    const days = told(planOf(log, "2026-03-06", 8), "feed").map((line) => line.slice(8, 10));
    expect(new Set(days).size).toBe(days.length);
    expect(days).toHaveLength(3);
  });

  test("that was never done begins on the first day, parted", () => {
    const plan = planOf(`${dam}2026-03-05\n  dam test pH 7\n`, "2026-03-06", 8);
    expect(told(plan, "feed").map((line) => line.slice(8, 10))).toEqual(["06", "08", "10", "13"]);
  });

  test("whatever was done, the times of a plan are parted and no period is short that need not be", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 5 }),
        fc.integer({ min: 5, max: 21 }),
        fc.array(fc.integer({ min: -20, max: 0 }), { maxLength: 8 }),
        (times, period, gone) => {
          const done = gone.filter((day) => day > -period).sort((a, b) => a - b);
          const isShort = done.length < times;
          const due = isShort ? 0 : done.at(-times)! + period;
          const dues = spreadDues(done, times, period, due, 1);
          expect(dues).toHaveLength(times);
          // Done on the days they are planned by, no period is short that was not short already.
          const planned = dues.flatMap((each) =>
            [0, 1, 2].map((again) => Math.max(1, each) + again * period),
          );
          expect(new Set(done.length === 0 ? dues : []).size).toBe(done.length === 0 ? times : 0);
          if (!isShort) expect(daysShort([...done, ...planned], times, period, 1, 2 * period)).toEqual([]);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe("work that has its day", () => {
  const course = `room "Shed"
  capacity 1 tanks, 30 L
remedy prazi
  target 2 mg/L; repeat 3 times every 4 d
  change-before 40 %; change-after 50 %
tank q
  volume 50 L
tank dam
  volume 60 L
  every 4 d change 30 %
2026-03-01
  dam change 30 %
  q dose prazi 100 mg
`;

  test("doses and the changes before and after them keep their days, and take capacity first", () => {
    const plan = planOf(course, "2026-03-02");
    expect(told(plan, "*")).toEqual([
      "2026-03-05 q change 40 % before dose 2 of prazi*",
      "2026-03-05 q dose prazi*",
      "2026-03-09 q change 40 % before dose 3 of prazi*",
      "2026-03-09 q dose prazi*",
      "2026-03-13 q change 50 % after the course of prazi*",
    ]);
    // The dam is due on the 5th too, but one tank a day is all: it is pulled forward.
    expect(told(plan, "dam")[0]).toBe("2026-03-04 dam change 30 %");
    for (const { tanks, litres } of plan.days) {
      expect(tanks).toBeLessThanOrEqual(1);
      expect(litres.low).toBeLessThanOrEqual(30);
    }
  });

  test("a change that a course owes does the duty of its day as well", () => {
    const both = course.replace("tank q\n  volume 50 L", "tank q\n  volume 50 L\n  every 5 d change 30 %");
    const plan = planOf(both.replace("  q dose", "  q change 30 %\n  q dose"), "2026-03-02", 6);
    expect(told(plan, " q change")).toEqual(["2026-03-05 q change 40 % before dose 2 of prazi*"]);
  });

  test("an order is packed on the day it leaves, on the last day with work before it where that is off", () => {
    const order = (away: string): string => `room "Shed"\n${away}species praecox
tank dam
  volume 60 L
order o-1
  wants praecox 2
  placed 2026-03-01; due 2026-03-07
2026-03-01
  dam count praecox 9
`;
    expect(told(planOf(order(""), "2026-03-02"), "pack")).toEqual(["2026-03-07 room pack o-1*"]);
    const away = "  away from 2026-03-06 until 2026-03-08\n";
    expect(told(planOf(order(away), "2026-03-02"), "pack")).toEqual(["2026-03-05 room pack o-1*"]);
  });

  test("on days away what someone else does is not owed by the keeper", () => {
    const log = (covered: string): string => `room "Shed"
  away from 2026-03-05 until 2026-03-08${covered}
food cyclops
  kind frozen
tank dam
  volume 60 L
  every 1 d feed
2026-03-02
  dam feed cyclops 1 cubes
`;
    const alone = planOf(log(""), "2026-03-02", 8);
    expect(alone.days.filter(({ owed }) => owed.length > 0)).toHaveLength(4);
    const helped = planOf(log(" covered feed"), "2026-03-02", 8);
    expect(helped.daysLate).toBe(0);
    expect(helped.days.map(({ covered }) => covered.length)).toEqual([0, 0, 0, 1, 1, 1, 1, 0]);
    expect(helped.days.map(({ stops }) => stops.length)).toEqual([0, 1, 1, 0, 0, 0, 0, 1]);
  });
});

describe("what each day holds", () => {
  test("is what its weekday holds, and days off are days on which nothing is planned", () => {
    const names = ["a", "b", "c"];
    const log = `room "Shed"
  capacity 1 tanks
  capacity 2 tanks on saturday
  off sunday
${names.map((name) => `tank ${name}\n  volume 50 L\n  every 7 d clean\n`).join("")}2026-03-01
${names.map((name) => `  ${name} clean\n`).join("")}`;
    // The 7th is a Saturday, the 8th, when all are due, a Sunday.
    const plan = planOf(log, "2026-03-05", 5);
    expect(plan.days.map(({ tanks, away }) => (away === undefined ? tanks : away))).toEqual([
      0,
      1,
      2,
      "day off",
      0,
    ]);
    const [tanks] = plan.fit.demands;
    expect(tanks?.capacity).toBeCloseTo(7 / 7, 9);
  });
});

describe("a room that does not fit", () => {
  const room = (capacity: string, off = ""): string => `room "Shed"
  capacity ${capacity}
${off}  takes change 10 min, clean 20 min
tank big
  volume 100 L
  every 2 d change 50 %
tank small
  volume 20 L
  every 4 d change 50 %
  every 4 d clean
2026-03-01
  big change 50 %
  small change 50 %
  small clean
`;
  const overOf = (capacity: string, off = ""): string[] =>
    planOf(room(capacity, off), "2026-03-02")
      .fit.demands.filter(({ fixes }) => fixes.length > 0)
      .map(({ of }) => of);

  test("is told of tanks, litres and minutes by itself, and of several at once", () => {
    expect(overOf("1 tanks, 30 L, 13 min")).toEqual([]);
    expect(overOf("1 tanks, 30 L, 13 min", "  off monday, tuesday\n")).toEqual([
      "tanks",
      "litres",
      "minutes",
    ]);
    expect(overOf("1 tanks, 20 L, 13 min")).toEqual(["litres"]);
    expect(overOf("1 tanks, 30 L, 10 min")).toEqual(["minutes"]);
    expect(overOf("0 tanks, 30 L, 13 min")).toEqual(["tanks"]);
    expect(overOf("1 tanks, 20 L, 10 min")).toEqual(["litres", "minutes"]);
  });

  test("each remedy, put in, makes it fit", () => {
    const demand = (capacity: string, off = "") =>
      planOf(room(capacity, off), "2026-03-02").fit.demands.find(({ fixes }) => fixes.length > 0)!;
    const litres = demand("1 tanks, 20 L, 13 min");
    for (const fix of litres.fixes) {
      switch (fix.is) {
        case "capacity":
          expect(overOf(`1 tanks, ${fix.needed} L, 13 min`)).toEqual([]);
          break;
        case "one day":
          expect(overOf(`1 tanks, 20 L, 13 min\n  capacity ${20 + fix.more} L on friday`)).toEqual([]);
          break;
        case "all intervals":
          expect(litres.perDay / fix.times).toBeCloseTo(20, 9);
          break;
        case "intervals of":
          expect(fix.at.name).toBe("big");
          expect(25 / fix.times + 2.5).toBeCloseTo(20, 9);
      }
    }
    expect(litres.fixes.map(({ is }) => is)).toEqual([
      "capacity",
      "one day",
      "all intervals",
      "intervals of",
    ]);
    const off = demand("1 tanks, 32 L, 15 min", "  off monday\n");
    expect(off.fixes).toContainEqual({ is: "no day off", weekday: 1, adds: 32 });
    expect(overOf("1 tanks, 32 L, 15 min")).toEqual([]);
  });

  test("of several at once all intervals so many times as long do for all of it", () => {
    const { fit } = planOf(room("1 tanks, 20 L, 10 min"), "2026-03-02");
    // 27.5 L of 20, and 5 + 2.5 + 5 min of 10.
    expect(fit.allTimes).toBeCloseTo(1.375, 9);
    expect(Number.isNaN(planOf(room("1 tanks, 30 L, 13 min"), "2026-03-02").fit.allTimes)).toBe(true);
  });

  test("that fits says how many more days a week could be off", () => {
    const [, litres] = planOf(room("1 tanks, 50 L, 30 min"), "2026-03-02").fit.demands;
    // 192.5 of 350 L a week: three days of 50 L could be spared.
    expect(litres?.sparedDays).toBe(3);
  });
});
