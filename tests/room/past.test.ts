import { describe, expect, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { parameterOf } from "../../language/book/parameters.ts";
import type { CheckedLogbook } from "../../language/checks/check.ts";
import type { Ledger } from "../../language/room/ledger.ts";
import { levelAcross, remedyAt } from "../../language/room/past.ts";
import { waterTrend } from "../../language/room/water.ts";
import type { Why } from "../../language/room/why.ts";
import { isOutside } from "../../language/science/result.ts";
import { findingsOf, logbookOf } from "../support/marked.ts";

const nitrate = parameterOf("nitrate");

function ledgerOf(checked: CheckedLogbook, tank: string): Ledger {
  return checked.logbook.ledgerOf(checked.book.tank(tank)!);
}

describe("entries of one minute count in the order of their lines", () => {
  const weeks = ["2026-02-01", "2026-02-08", "2026-02-15", "2026-02-22", "2026-03-01"];
  const rate = (lines: string): number => {
    const days = weeks.map((day) => `${day}\n${lines}`).join("\n");
    const checked = logbookOf(`tank dam\n  volume 100 L\n${days}\n`);
    const trend = waterTrend(ledgerOf(checked, "dam"), nitrate, undefined, dayOf("2026-03-01"))!;
    if (isOutside(trend.production)) throw new Error(trend.production.outside);
    return trend.production.rateMgLDay;
  };

  // From 14 mg/L seven days at g make 14 + 7 g; half of it changed leaves 7 + 3.5 g, which is 14 again: g = 2.
  test("a test below a change reads the water after it", () => {
    expect(rate("  dam change 50 %\n  dam test nitrate 14")).toBeCloseTo(2, 6);
  });

  // Of 14 half is changed at once, 7 are left; seven days at g make 7 + 7 g, which is 14 again: g = 1.
  test("a test above it reads the water before", () => {
    expect(rate("  dam test nitrate 14\n  dam change 50 %")).toBeCloseTo(1, 6);
  });

  // Before the change 28, after it 14: both say that 7 g = 14.
  test("tests above and below it agree with each other", () => {
    expect(rate("  dam test nitrate 28\n  dam change 50 %\n  dam test nitrate 14")).toBeCloseTo(2, 6);
  });
});

// 1 mg/L a day from 10, read every day: 13 on the fourth. At noon of the fifth it is 14.5; 40 % with water of 4 leaves
// 14.5 x 0.6 + 4 x 0.4 = 10.3.
test("the level across a change of water, by what was known just then", () => {
  const checked = logbookOf(`water tap
  content nitrate 4 mg/L
tank dam
  volume 100 L
2026-03-01
  dam test nitrate 10
2026-03-02
  dam test nitrate 11
2026-03-03
  dam test nitrate 12
2026-03-04
  dam test nitrate 13
2026-03-05
  12:00 dam change 40 %
2026-03-06
  dam test nitrate 80
`);
  const across = levelAcross(ledgerOf(checked, "dam"), nitrate, 0)!;
  expect(across.before.best).toBeCloseTo(14.5, 6);
  expect(across.after.best).toBeCloseTo(10.3, 6);
  expect(across.sourceMgL).toBe(4);
});

const course = `remedy prazi
  target 2 mg/L
  ceiling 2.2 mg/L
  half-life 7 d
  repeat 3 times every 7 d
`;

describe("a remedy in the water", () => {
  // 100 mg in 50 L are 2 mg/L. A half-life later 1 mg/L; half of the water changed: 0.5; and 2 more: 2.5 mg/L.
  const log = `${course}tank q1
  volume 50 L
2026-03-01
  q1 dose prazi 100 mg
2026-03-08
  q1 change 50 %
  q1 dose prazi 100 mg
`;
  const ledger = ledgerOf(logbookOf(log), "q1");
  const prazi = ledger.book.remedy("prazi")!;

  test("is known at every time of the past", () => {
    const at = (iso: string, hours = 0): number => remedyAt(ledger, prazi, dayOf(iso) + hours / 24);
    expect(at("2026-02-28")).toBe(0);
    expect(at("2026-03-01", 1e-3)).toBeCloseTo(2, 4);
    expect(at("2026-03-08")).toBeCloseTo(1, 6);
    expect(at("2026-03-08", 1)).toBeCloseTo(2.5 * 2 ** (-1 / 168), 6);
    expect(at("2026-03-15")).toBeCloseTo(1.25, 6);
  });

  test("says at each step how it came to be", () => {
    const finding = findingsOf(log).find(({ code }) => code === "dose/above-ceiling")!;
    const { value, from } = finding.why!;
    expect(value).toBe("2.5 mg/L");
    expect(from.map(said)).toEqual([
      "2026-03-01 q1 dose prazi 100 mg: 0 + 2 = 2 mg/L",
      "2026-03-08 q1 change 50 %: 2 × 2^(-7 d / 7 d) = 1; 1 × (1 - 0.5) = 0.5 mg/L",
      "2026-03-08 q1 dose prazi 100 mg: 0.5 + 2 = 2.5 mg/L",
      "net volume of q1: 50 L",
      "stated: target 2 mg/L: ",
      "stated: ceiling 2.2 mg/L: ",
      "stated: half-life 7 d: ",
    ]);
    expect(from[0]!.from.map(said)).toEqual(["added: 100 mg / 50 L = 2 mg/L"]);
  });
});

const said = ({ what, value }: Why): string => `${what}: ${value}`;

// 12 tanks of 20 L and a sump of 60 L are 300 L.
describe("a dose for a group in shared water", () => {
  const dosed = (amount: string): number => {
    const checked = logbookOf(`${course}system rack-water
  sump 60 L
${Array.from({ length: 12 }, (_, at) => `tank r${at + 1}\n  volume 20 L\n  system rack-water\n`).join("")}group rack = r1 .. r12
2026-03-01
  @rack dose prazi ${amount}
`);
    const ledger = ledgerOf(checked, "r1");
    return remedyAt(ledger, ledger.book.remedy("prazi")!, dayOf("2026-03-01") + 1e-6);
  };
  // 50 mg into each of 12 tanks are 600 mg in 300 L.
  test("a mass goes into each tank", () => expect(dosed("50 mg")).toBeCloseTo(2, 4));
  test("a concentration is that of all the water, once", () => expect(dosed("1 mg/L")).toBeCloseTo(1, 4));
});

describe("animals by the book", () => {
  const log = `species praecox
tank dam
  volume 300 L
tank q1
  volume 50 L
2026-03-01
  dam count praecox 14
2026-03-02
  q1 arrive praecox 5
2026-03-03
  dam lose praecox 1 found
  q1 move praecox 5 -> dam
2026-03-08
  dam count praecox 16
`;

  // 14 - 1 + 5 = 18 expected, 16 counted.
  test("rest on the last count and all that came and went since", () => {
    const { why, message } = findingsOf(log).find(({ code }) => code === "stock/count-differs")!;
    expect(message).toContain("18 expected");
    expect(why!.value).toBe("18");
    expect(why!.from.map(said)).toEqual([
      "2026-03-01 dam count praecox 14: = 14",
      "2026-03-03 dam lose praecox 1 found: - 1 = 13",
      "2026-03-03 q1 move praecox 5 -> dam: + 5 = 18",
    ]);
  });

  test("are the same columns after an edit as when read anew", () => {
    const checked = logbookOf(log);
    const before = ledgerOf(checked, "dam");
    const { revision } = before;
    const at = log.indexOf("lose praecox 1") + "lose praecox ".length;
    checked.logbook.edit("log.tank", at, at + 1, "3");
    const after = ledgerOf(checked, "dam");
    const fresh = ledgerOf(logbookOf(log.replace("lose praecox 1", "lose praecox 3")), "dam");
    const column = ({ animals }: Ledger): number[] =>
      Array.from({ length: animals.length }, (_, index) => animals.second[index]!);
    expect(column(after)).toEqual(column(fresh));
    expect(column(after)).toEqual([14, 11, 16, 16]);
    expect(after !== before || after.revision > revision).toBe(true);
  });
});
