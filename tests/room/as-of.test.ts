import { describe, expect, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { dosesOn } from "../../language/room/due.ts";
import { lastDay, logbookOf } from "../support/marked.ts";

const course = `remedy prazi
  target 2 mg/L
  repeat 3 times every 7 d
tank q1
  volume 50 L
  every 7 d change 30 %
2026-03-01
  q1 dose prazi 100 mg
  q1 change 30 %
2026-03-08
  q1 dose prazi 30 mg
`;

describe("a logbook as of a day", () => {
  const given = (asOf: string): number[] => {
    const checked = logbookOf(course);
    checked.logbook.asOf = dayOf(asOf);
    return dosesOn(checked.logbook.ledgers[0]!, dayOf(asOf)).map((due) => due.course.given);
  };

  test("knows the entries up to the end of that day", () => {
    expect(given("2026-03-07")).toEqual([1]);
    expect(given("2026-03-08")).toEqual([2]);
  });

  test("has that day as its today, whatever the room says", () => {
    const checked = logbookOf(`room\n  as-of last-entry\n${course}`);
    expect(checked.logbook.today(0)).toBe(dayOf("2026-03-08"));
    checked.logbook.asOf = dayOf("2026-03-20");
    expect(checked.logbook.today(0)).toBe(dayOf("2026-03-20"));
  });

  test("knows no entries after the day that its room states, until that is another", () => {
    const room = "room\n  as-of 2026-03-07\n";
    const checked = logbookOf(`${room}${course}`);
    expect(lastDay(checked)).toBe(dayOf("2026-03-01"));
    expect(checked.logbook.today(0)).toBe(dayOf("2026-03-07"));
    checked.logbook.edit("log.tank", 0, room.length, "");
    expect(lastDay(checked)).toBe(dayOf("2026-03-08"));
  });

  test("goes back to all its entries when nobody asks any more", () => {
    const checked = logbookOf(course);
    checked.logbook.asOf = dayOf("2026-03-01");
    expect(lastDay(checked)).toBe(dayOf("2026-03-01"));
    checked.logbook.asOf = Number.NaN;
    expect(lastDay(checked)).toBe(dayOf("2026-03-08"));
  });

  test("takes an edit of a later day without counting it", () => {
    const checked = logbookOf(course);
    checked.logbook.asOf = dayOf("2026-03-07");
    checked.refresh();
    const text = checked.logbook.sources.get("log.tank")!.text;
    checked.logbook.edit("log.tank", text.indexOf("30 mg"), text.indexOf("30 mg") + 5, "40 mg");
    const due = dosesOn(checked.logbook.ledgers[0]!, dayOf("2026-03-07"));
    expect(due.map(({ course: { given, concentration } }) => [given, concentration > 2])).toEqual([
      [1, false],
    ]);
    expect(lastDay(checked)).toBe(dayOf("2026-03-01"));
  });
});
