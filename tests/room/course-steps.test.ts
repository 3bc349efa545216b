import { describe, expect, test } from "vitest";
import { isoOf } from "../../language/book/dates.ts";
import { stepReason, stepWords } from "../../language/features/course-step-words.ts";
import { dueToday } from "../../language/features/day-card.ts";
import { dueEntries } from "../../language/features/due-entries.ts";
import { courseSteps } from "../../language/room/course-steps.ts";
import { Room } from "../support/room.ts";

const definitions = `remedy prazi
  target 2 mg/L
  repeat 2 times every 7 d
  change-after 50 %
  without carbon, light
  harms filter-bacteria
tank q1
  volume 50 L
`;
const tests = "2026-03-09\n  q1 test ammonia 0 mg/L, nitrite 0 mg/L\n";
const begun =
  "2026-03-01\n  q1 remove carbon, light\n  q1 dose prazi 100 mg\n2026-03-08\n  q1 dose prazi 10 mg\n";

function steps(entries: string, today: string): string[] {
  const log = new Room(definitions + entries, today);
  return courseSteps(log.checked.logbook, log.ledger("q1"), log.today).map(
    (step) => `${stepWords(step)}, ${stepReason(step)}, by ${isoOf(step.due)}, ${step.late}`,
  );
}

describe("what a course owes beside its doses", () => {
  test("what is to be out, from the first dose", () => {
    expect(steps("2026-03-01\n  q1 remove light\n  q1 dose prazi 100 mg\n", "2026-03-02")).toEqual([
      "remove carbon, to be out for prazi, by 2026-03-01, 1",
      "test ammonia, nitrite, the filter after prazi, by 2026-03-08, -6",
    ]);
  });
  test("after the last dose the change, and when the interval is over what may go back", () => {
    expect(steps(begun + tests, "2026-03-10")).toEqual(["change 50 %, owed after prazi, by 2026-03-15, -5"]);
    expect(steps(begun + tests, "2026-03-15")).toEqual([
      "change 50 %, owed after prazi, by 2026-03-15, 0",
      "return carbon, light, back after prazi, by 2026-03-15, 0",
    ]);
    // 30 % done: of the 70 % old water so much that half is left: 1 - 0.5 / 0.7 = 28.6 %, rounded up.
    expect(steps(`${begun}${tests}2026-03-15\n  q1 change 30 %\n  q1 return carbon\n`, "2026-03-16")).toEqual(
      ["change 29 %, owed after prazi, by 2026-03-15, 1", "return light, back after prazi, by 2026-03-15, 1"],
    );
    expect(
      steps(`${begun}${tests}2026-03-15\n  q1 change 50 %\n  q1 return carbon, light\n`, "2026-03-16"),
    ).toEqual([]);
  });
  test("what was out long before the course is not to go back after it", () => {
    const long = begun.replace("remove carbon, light", "remove light");
    const entries = `2026-01-10\n  q1 remove carbon\n${long}${tests}2026-03-15\n  q1 change 50 %\n`;
    expect(steps(entries, "2026-03-16")).toEqual(["return light, back after prazi, by 2026-03-15, 1"]);
  });
  test("of what was owed long ago nobody is reminded", () => {
    expect(steps(begun + tests, "2026-05-15")).toEqual([]);
  });
  test("what another course needs out stays out", () => {
    const other = `remedy dye\n  target 1 mg/L\n  repeat 3 times every 7 d\n  without light\n${definitions}`;
    const log = new Room(`${other}${begun}${tests}2026-03-14\n  q1 dose dye 50 mg\n`, "2026-03-15");
    const words = courseSteps(log.checked.logbook, log.ledger("q1"), log.today).map(stepWords);
    expect(words).toEqual(["change 50 %", "return carbon"]);
  });
});

test("they are due today, as duties and as entries to write", () => {
  const log = new Room(definitions + begun + tests, "2026-03-15");
  expect(dueToday(log.checked, log.today).map(({ act, text }) => `${act} ${text}`)).toEqual([
    "change 50 % today",
    "return carbon, light today",
  ]);
  const source = log.checked.logbook.sources.get("log.tank")!;
  const view = { checked: log.checked, source, worldDay: log.today };
  expect(dueEntries(view, log.today).map(({ target, words }) => `${target} ${words}`)).toEqual([
    "q1 change 50 %",
    "q1 return carbon, light",
  ]);
});
