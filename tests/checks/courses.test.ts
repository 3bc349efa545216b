import { describe, expect, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { Room } from "../support/room.ts";

/** What is said of courses: doses that meet, what is to be out, the change after, tests of the filter, plants. */

const definitions = `species fern
  kind plant
remedy prazi
  target 2 mg/L
  repeat 3 times every 7 d
  without carbon
  harms plant
remedy salt
  target 1 g/L
tank q1
  volume 50 L
tank r1
  volume 50 L
group both = q1, r1
`;
const said = (entries: string, only: string, today?: string): string[] =>
  new Room(definitions + entries, today)
    .findings(only)
    .map((text) => text.replace(/ Computed from what.*/, ""));

describe("twice on a day", () => {
  test("is doubled, and not also too early or without the change", () => {
    const entries = "2026-03-01\n  08:00 q1 dose prazi 100 mg\n  20:00 q1 dose prazi 100 mg\n";
    expect(said(entries, "dose/")).toEqual([
      "dose/doubled: one more dose of prazi in q1 on 1 March 2026: 2 mg/L were there, now 4 mg/L.",
    ]);
  });
  test("divided it is one dose of the course", () => {
    const entries = "2026-03-01\n  08:00 q1 dose prazi 50 mg\n  20:00 q1 dose prazi 50 mg\n";
    expect(said(entries, "dose/doubled")).toEqual([]);
    const log = new Room(definitions + entries);
    expect(log.ledger("q1").solutes!.at(log.checked.book.remedy("prazi")!, log.today)!.given).toBe(1);
  });
  test("where nothing can be computed, only in the same tank", () => {
    const unknown = (second: string): string[] =>
      new Room(
        `remedy r\n  repeat 3 times every 7 d\nsystem s\ntank a\n  system s\ntank b\n  system s\n2026-03-01\n  a dose r 5 mg\n  ${second} dose r 5 mg\n`,
      ).findings("dose/doubled");
    expect(unknown("b")).toEqual([]);
    expect(unknown("a")).toEqual([expect.stringContaining("cannot be computed")]);
  });
  test("what is stated to be given more than once a day is not", () => {
    const often = definitions.replace("every 7 d", "every 12 h");
    const log = new Room(`${often}2026-03-01\n  08:00 q1 dose prazi 100 mg\n  20:00 q1 dose prazi 100 mg\n`);
    expect(log.findings("dose/doubled")).toEqual([]);
  });
});

describe("mixed", () => {
  test("is told once, with what is left", () => {
    const entries =
      "2026-03-01\n  q1 dose salt 50 g\n2026-03-02\n  q1 change 20 %\n  q1 dose prazi 100 mg\n2026-03-09\n  q1 dose salt 10 g\n  q1 dose prazi 20 mg\n";
    expect(said(entries, "dose/mixed")).toEqual([
      "dose/mixed: prazi goes into water of q1 that salt is still in: 800 mg/L are left of the dose of 1 March. Whether they bear each other the labels say.",
    ]);
  });
  test("what cannot be computed is said as such, for as long as it may be there", () => {
    const log = (on: string): string[] =>
      new Room(
        `remedy dye\n  target 1 mg/L\n${definitions}2026-01-01\n  q1 dose dye 5 mL\n${on}\n  q1 dose salt 50 g\n`,
      ).findings("dose/mixed");
    expect(log("2026-01-20")).toEqual([expect.stringContaining("how much is left cannot be computed")]);
    expect(log("2026-03-20")).toEqual([]);
  });
});

describe("what is to be out", () => {
  test("for each water of a group; the fix names the target as it is written", () => {
    const log = new Room(`${definitions}2026-03-01\n  @both dose prazi 100 mg\n`);
    const found = log.checked.findings(log.today).filter(({ code }) => code === "course/not-removed");
    expect(found.map(({ fixes }) => fixes[0]!.title)).toEqual([
      "Write “@both remove carbon” before it",
      "Write “@both remove carbon” before it",
    ]);
  });
  test("taken out late is told without a fix", () => {
    const log = new Room(
      `${definitions}2026-03-01\n  q1 dose prazi 100 mg\n2026-03-03\n  q1 remove carbon\n`,
    );
    const [found] = log.checked.findings(log.today).filter(({ code }) => code === "course/not-removed");
    expect(found!.message).toContain("carbon was taken out only on 3 March");
    expect(found!.fixes).toEqual([]);
  });
  test("put back on the day of the end is in time; what is removed again was back early all the same", () => {
    const begin = "2026-03-01\n  q1 remove carbon\n  q1 dose prazi 100 mg\n";
    expect(said(`${begin}2026-03-22\n  q1 return carbon\n`, "course/returned")).toHaveLength(0);
    const again = "2026-03-04\n  q1 return carbon\n2026-03-05\n  q1 remove carbon\n";
    expect(said(begin + again, "course/")).toEqual([
      "course/returned-early: carbon is back in q1 before the course of prazi is over: it runs until 22 March.",
    ]);
    // As of the day before nothing is known of it.
    expect(said(begin + again, "course/", "2026-03-03")).toEqual([]);
  });
});

describe("plants", () => {
  const harms = (entries: string): string[] => said(entries, "dose/harms");
  test("planted and not taken out since", () => {
    expect(harms("2026-02-01\n  q1 plant fern 3\n2026-03-01\n  q1 dose prazi 100 mg\n")).toEqual([
      "dose/harms: prazi is stated to harm plant: fern was planted in this water, and nothing says that it was taken out.",
    ]);
    for (const out of ["plants", "fern"])
      expect(
        harms(`2026-02-01\n  q1 plant fern 3\n2026-03-01\n  q1 remove ${out}\n  q1 dose prazi 100 mg\n`),
      ).toEqual([]);
    expect(harms("2026-02-01\n  r1 plant fern 3\n2026-03-01\n  q1 dose prazi 100 mg\n")).toEqual([]);
    expect(
      harms(
        "2026-02-01\n  q1 plant fern 3\n  q1 remove plants\n2026-02-20\n  q1 return plants\n2026-03-01\n  q1 dose prazi 100 mg\n",
      ),
    ).toHaveLength(1);
  });
});

test("the tests of the filter: those of the last dose of a week, each course once", () => {
  const filter =
    "remedy blue\n  target 2 mg/L\n  repeat 2 times every 3 d\n  harms filter-bacteria\ntank q1\n  volume 50 L\n";
  const log = "2026-03-01\n  q1 dose blue 100 mg\n2026-03-04\n  q1 dose blue 10 mg\n";
  const found = (entries: string, today: string): string[] =>
    new Room(filter + log + entries, today).findings("course/filter");
  expect(found("", "2026-03-11")).toEqual([]);
  expect(found("", "2026-03-12")).toEqual([expect.stringContaining("ammonia and nitrite were not tested")]);
  expect(found("2026-03-06\n  q1 test ammonia 0 mg/L\n", "2026-03-12")).toEqual([
    expect.stringContaining("nitrite was not tested"),
  ]);
  expect(found("2026-03-11\n  q1 test ammonia 0 mg/L, nitrite 0 mg/L\n", "2026-03-12")).toEqual([]);
});

test("missed and overdue of courses with early and late doses", () => {
  const entries = (second: string): string =>
    `2026-03-01\n  q1 dose prazi 100 mg\n${second}\n  q1 dose prazi 10 mg\n`;
  const due = (second: string, today: string): string[] =>
    said(entries(second), "dose/overdue", today)
      .concat(said(entries(second), "dose/missed", today))
      .map((text) => text.split(".")[0]!);
  // Given early, its interval counts from then.
  expect(due("2026-03-05", "2026-03-12")).toEqual([]);
  expect(due("2026-03-05", "2026-03-13")).toEqual([
    "dose/overdue: dose 3 of 3 of prazi was due on 12 March, 1 day ago",
  ]);
  // Given late too; and when it is later than another interval the course was cut.
  expect(due("2026-03-14", "2026-03-21")).toEqual([]);
  expect(due("2026-03-14", "2026-03-29")).toEqual([expect.stringMatching(/^dose\/missed: 2 of 3 doses/)]);
});

test("an edit of the log is followed", () => {
  const room = new Room(`${definitions}2026-03-01\n  q1 dose prazi 100 mg\n2026-03-02\n  q1 note "x"\n`);
  const codes = (): string[] =>
    room.checked
      .findings(dayOf("2026-03-02"))
      .map(({ code }) => code)
      .filter((code) => code.startsWith("course/"));
  expect(codes()).toEqual(["course/not-removed"]);
  const text = room.checked.logbook.sources.get("log.tank")!.text;
  const before = text.indexOf("  q1 dose");
  room.checked.logbook.edit("log.tank", before, before, "  q1 remove carbon\n");
  expect(codes()).toEqual([]);
});
