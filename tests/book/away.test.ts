import { describe, expect, test } from "vitest";
import { isoOf } from "../../language/book/dates.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";

function read(room: string) {
  const checked = new CheckedLogbook();
  checked.set("room.tank", `room "Shed"\n${room}\n`);
  const findings = checked.findings(0).map(({ code }) => code);
  const absences = checked.book.absences.map(({ from, until, why }) => [isoOf(from), isoOf(until), why]);
  return { findings, absences };
}

describe("days away", () => {
  test("stand with their first and last day, in any order, with what they are for", () => {
    const { absences, findings } = read(
      '  away from 2026-05-01\n  away from 2026-04-03 until 2026-04-10 "at the sea"',
    );
    expect(absences).toEqual([
      ["2026-04-03", "2026-04-10", "at the sea"],
      ["2026-05-01", "2026-05-01", ""],
    ]);
    expect(findings).toEqual([]);
  });

  test("that end before they begin are reported, and do not count", () => {
    const { absences, findings } = read("  away from 2026-04-10 until 2026-04-03");
    expect(absences).toEqual([]);
    expect(findings).toEqual(["definition/away"]);
  });

  test("need a first day that there is", () => {
    expect(read("  away until 2026-04-03").absences).toEqual([]);
    expect(read("  away from 2026-02-30").absences).toEqual([]);
    expect(read("  away until 2026-04-03").findings).not.toEqual([]);
  });
});
