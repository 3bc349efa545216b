import { describe, expect, test } from "vitest";
import { isoOf } from "../../language/book/dates.ts";
import { moveText } from "../../language/features/move-words.ts";
import { roomPlan } from "../../language/room/planner/plan.ts";
import { Room } from "../support/room.ts";

/** What was moved, from where to where, and why: `b clean 2026-03-09 > 2026-03-10: …`. */
function movesOf(log: string, day: string, days = 9): string[] {
  const { checked, today } = new Room(log, day);
  return roomPlan(checked.logbook, today, days).moved.map((work) => {
    const from = Number.isNaN(work.movedFrom) ? "" : `${isoOf(work.movedFrom).slice(8)} > `;
    return `${work.job.at.name} ${work.job.act} ${from}${isoOf(work.day).slice(8)}: ${moveText(work, today)}`;
  });
}

const room = (capacity: string, more = ""): string => `room "Shed"\n  capacity ${capacity}\n${more}`;
const tank = (name: string, duty = "clean", every = 7): string =>
  `tank ${name}\n  volume 50 L\n  every ${every} d ${duty}\n`;
const done = "2026-03-01\n  a clean\n2026-03-02\n  b clean\n";

describe("why the plan moved work", () => {
  test("the day it had is taken by what was not done yesterday", () => {
    const log = room("1 tanks") + tank("a") + tank("b") + done;
    expect(movesOf(log, "2026-03-08")).toEqual([]);
    expect(movesOf(log, "2026-03-09")[0]).toBe(
      "b clean 09 > 10: the tanks of 9 March are full with a clean, not done on 8 March",
    );
  });

  test("what follows from a time that was moved says so", () => {
    const log = `${room("1 tanks")}${tank("a", "clean", 2)}${tank("b", "clean", 2)}2026-03-06\n  a clean\n2026-03-07\n  b clean\n`;
    expect(movesOf(log, "2026-03-08")).toEqual([]);
    expect(movesOf(log, "2026-03-09", 6).slice(0, 2)).toEqual([
      "b clean 09 > 10: the tanks of 9 March are full with a clean, not done on 8 March",
      "b clean 11 > 12: due by when it is done before, now on 10 March",
    ]);
  });

  test("litres and minutes are told like tanks", () => {
    const changes = done.replaceAll("clean", "change 30 %");
    const litres = room("20 L") + tank("a", "change 30 %") + tank("b", "change 30 %") + changes;
    expect(movesOf(litres, "2026-03-09")[0]).toMatch(
      /^b change 30 % 09 > 10: the litres of 9 March are full with a change 30 %, not done on 8 March/,
    );
    const minutes = room("20 min", "  takes clean 15 min\n") + tank("a") + tank("b") + done;
    expect(movesOf(minutes, "2026-03-09")[0]).toMatch(
      /the minutes of 9 March are full with a clean, not done/,
    );
  });

  test("a dose has its day, and takes of it first", () => {
    const course = `remedy prazi\n  target 2 mg/L; repeat 3 times every 3 d; change-before 50 %\n`;
    const log = `${room("1 tanks")}${course}${tank("a")}tank q\n  volume 50 L\n2026-03-06\n  a clean\n`;
    const before = movesOf(log, "2026-03-12");
    expect(before).toEqual([]);
    const given = `${log}2026-03-10\n  q dose prazi 100 mg\n`;
    expect(movesOf(given, "2026-03-10", 5)).toEqual([
      "a clean 13 > 12: the tanks of 13 March are full with q change 50 % before dose 2 of prazi, which has its day",
    ]);
  });

  test("whatever is missed, each move from a day has a reason, and a full day names who takes it", () => {
    const names = ["a", "b", "c", "d", "e"];
    const log = room("2 tanks") + names.map((name, at) => tank(name, "clean", 5 + (at % 3))).join("");
    const entries = names.map((name, at) => `2026-03-0${1 + at}\n  ${name} clean\n`).join("");
    for (let day = 6; day < 16; day++) {
      const two = String(day).padStart(2, "0");
      for (const move of movesOf(log + entries, `2026-03-${two}`, 14)) {
        if (!move.includes(" > ")) continue;
        expect(move).toMatch(/: .{10}/);
        if (move.includes("are full")) expect(move).toMatch(/full with \S+ clean/);
      }
    }
  });
});
