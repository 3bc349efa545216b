import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayOf, isoOf, weekdayOf } from "../../language/book/dates.ts";
import { Kind } from "../../language/book/entries/registry.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import { capacityOn, isWorked, workDayFrom } from "../../language/room/capacity.ts";

function read(room: string) {
  const checked = new CheckedLogbook();
  checked.set("room.tank", `room "Shed"\n${room}\n`);
  const findings = checked.findings(0).map(({ code, message }) => `${code}: ${message}`);
  return { book: checked.book, findings };
}
/** 2026-04-11 is a Saturday. */
const on = (room: string, day: string) => capacityOn(read(room).book, dayOf(day));

describe("what a day holds", () => {
  test("is what the room states, of every day", () => {
    expect(on("  capacity 7 tanks, 400 L, 150 min", "2026-04-11")).toEqual({
      tanks: 7,
      litres: 400,
      minutes: 150,
      away: undefined,
      covered: [],
    });
  });
  test("may be less on some weekdays; what is not said of them is as on the others", () => {
    const room = "  capacity 7 tanks, 400 L, 150 min\n  capacity 3 tanks, 60 min on saturday, sunday";
    expect(on(room, "2026-04-11")).toMatchObject({ tanks: 3, litres: 400, minutes: 60 });
    expect(on(room, "2026-04-12")).toMatchObject({ tanks: 3, litres: 400, minutes: 60 });
    expect(on(room, "2026-04-13")).toMatchObject({ tanks: 7, litres: 400, minutes: 150 });
  });
  test("of a weekday alone leaves the others as they are", () => {
    expect(on("  capacity 3 tanks on sunday", "2026-04-11").tanks).toBeNaN();
    expect(on("  capacity 3 tanks on sunday", "2026-04-12").tanks).toBe(3);
  });
  test("needs an amount, each once, and weekdays that there are", () => {
    expect(read("  capacity on sunday").findings).toEqual([
      "entry/missing: capacity needs an amount: capacity 7 tanks, 400 L",
    ]);
    expect(read("  capacity 3 tanks on sunday, 100 L").findings[0]).toContain("weekdays stand at the end");
    expect(read("  capacity 3 tanks, 5 tanks").findings[0]).toContain("says tanks twice");
    expect(read("  capacity 3 tanks on saterday").findings[0]).toContain("did you mean “saturday”?");
    expect(read("  capacity 3 tanks on saturday, sundy").findings[0]).toContain("did you mean “sunday”?");
  });
});

describe("days on which nobody works", () => {
  test("are days away, from the first to the last, with what someone else does", () => {
    const room = '  away from 2026-04-03 until 2026-04-10 "at the sea" covered feed, count';
    expect(on(room, "2026-04-02").away).toBeUndefined();
    expect(on(room, "2026-04-03")).toMatchObject({ away: "at the sea", covered: [Kind.feed, Kind.count] });
    expect(on(room, "2026-04-10").away).toBe("at the sea");
    expect(on(room, "2026-04-11")).toMatchObject({ away: undefined, covered: [] });
  });
  test("may be one day, with its date alone; the reason may stand last", () => {
    expect(on('  away 2026-12-25 "holiday"', "2026-12-25").away).toBe("holiday");
    expect(on("  away 2026-12-25", "2026-12-26").away).toBeUndefined();
    expect(on("  away 2026-12-25", "2026-12-25").away).toBe("");
    expect(on('  away 2026-12-25 covered feed "holiday"', "2026-12-25")).toMatchObject({
      away: "holiday",
      covered: [Kind.feed],
    });
  });
  test("are weekdays off, every week", () => {
    const room = "  off saturday, sunday covered feed";
    expect(on(room, "2026-04-10").away).toBeUndefined();
    expect(on(room, "2026-04-11")).toMatchObject({ away: "day off", covered: [Kind.feed] });
    expect(on(room, "2030-04-14")).toMatchObject({ away: "day off", covered: [Kind.feed] });
  });
  test("that overlap are told, and are days away once; covered is what either covers", () => {
    const room = `  away from 2026-04-03 until 2026-04-10 "at the sea" covered feed
  away from 2026-04-10 until 2026-04-12 "at home" covered feed, count`;
    expect(read(room).findings).toEqual([
      "definition/away-twice: from 10 April 2026 until 10 April another absence is stated already",
    ]);
    expect(on(room, "2026-04-10")).toMatchObject({ away: "at the sea", covered: [Kind.feed, Kind.count] });
  });
  test("cannot be all: then no weekday is off", () => {
    const room = "  off monday, tuesday, wednesday, thursday, friday, saturday, sunday";
    expect(read(room).findings[0]).toContain("definition/off");
    expect(on(room, "2026-04-10").away).toBeUndefined();
  });
  test("need a day, and one that there is", () => {
    expect(read('  away "at the sea"').findings[0]).toContain("away needs a day");
    expect(read("  away until 2026-04-03").findings[0]).toContain("away needs a day");
    expect(read("  away 2026-04-01 from 2026-04-03").findings[0]).toContain("which of the two");
    expect(read("  off").findings[0]).toContain("off needs a weekday");
    expect(read("  off sundy").findings[0]).toContain("did you mean “sunday”?");
    expect(read("  away 2026-04-03 covered fed").findings[0]).toContain("did you mean “feed”?");
    expect(read("  away 2026-04-03 covered feed, cont").findings[0]).toContain("did you mean “count”?");
    expect(read("  away 2026-04-03 feed").findings).toEqual([
      "entry/argument: before “feed” stands “covered”",
    ]);
    expect(read("  capacity 3 tanks, saturday").findings).toEqual([
      "entry/argument: before “saturday” stands “on”",
    ]);
  });
});

describe("the first day on which work is done", () => {
  const { book } = read('  off sunday\n  away from 2026-04-06 until 2026-04-11 "at the sea" covered feed');
  test("is the first with work, over absences and days off that follow one another", () => {
    const back = (day: string, kind?: number) => isoOf(workDayFrom(book, dayOf(day), kind));
    expect(back("2026-04-04")).toBe("2026-04-04");
    expect(back("2026-04-05")).toBe("2026-04-13");
    expect(back("2026-04-08")).toBe("2026-04-13");
    expect(back("2026-04-08", Kind.feed)).toBe("2026-04-08");
    expect(back("2026-04-12", Kind.feed)).toBe("2026-04-13");
  });
  test("is never before the day, and is worked", () => {
    fc.assert(
      fc.property(fc.integer({ min: 20000, max: 21000 }), (day) => {
        const back = workDayFrom(book, day);
        expect(back).toBeGreaterThanOrEqual(day);
        expect(isWorked(book, back)).toBe(true);
        for (let at = day; at < back; at++) expect(isWorked(book, at)).toBe(false);
      }),
    );
  });
});

test("weekdays are those of ISO 8601, as the platform's calendar tells them", () => {
  fc.assert(
    fc.property(fc.integer({ min: -30000, max: 60000 }), (day) => {
      expect(weekdayOf(day) % 7).toBe(new Date(day * 86_400_000).getUTCDay());
      expect(weekdayOf(day + 0.9)).toBe(weekdayOf(day));
    }),
  );
});
