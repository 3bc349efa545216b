import { describe, expect, it } from "vitest";
import { applyFix } from "../support/fixes.ts";
import { findingsOf } from "../support/marked.ts";

/** The book of animals against what is written: what each fix leaves. */

const room = `species praecox
species horn
tank dam
  volume 300 L
tank r1
  volume 20 L
tank r2
  volume 20 L
group rack = r1, r2
2026-03-01
  @rack arrive praecox 10
  dam arrive praecox 14 lot a17
  dam arrive horn 5
`;

const raised = (log: string, code: string) => findingsOf(log).filter((finding) => finding.code === code);

describe("a count that differs", () => {
  const short = ["lose praecox 2 missing", "lose praecox 2 found"];
  const over = ["hatch praecox 2", "arrive praecox 2"];
  it.each([
    ["2026-03-08\n  dam count praecox 12", short, "14"],
    ["2026-03-08\n  08:40 dam count praecox 12, horn 5", short, "14"],
    ["2026-03-08\n  dam count praecox 16", over, "14"],
    ["2026-03-08\n  dam count praecox 10..12", short, "14"],
    ["2026-03-08\n  dam count praecox 9 of 12", short, "14"],
    ["2026-03-08\n  dam count praecox 3.4.5", short, "14"],
    ["2026-03-08\n  @rack count praecox 8", short, "10"],
    ["2026-03-08\n  sheet  praecox\n    dam  12", short, "14"],
    ["2026-03-08\n  09:00 sheet  praecox  horn\n    dam  12       5", short, "14"],
    ["2026-03-08\n  dam count praecox 12 lot a17", short.map((entry) => `${entry} lot a17`), "14"],
  ])("%s is mended by each of its fixes", (entry, entries, number) => {
    const log = `${room}${entry}`;
    const found = raised(log, "stock/count-differs");
    const [finding] = found;
    expect(finding!.fixes.map(({ title }) => title)).toEqual([
      ...entries.map((each) => `Write “${entry.includes("@rack") ? "r1" : "dam"} ${each}” before it`),
      `Write ${number} instead`,
    ]);
    for (const fix of finding!.fixes) {
      const fixed = applyFix(log, finding!, fix);
      const left = findingsOf(fixed);
      // Of a group one entry is about several tanks: each has its own finding, and a fix of the number mends them all.
      expect(left.filter(({ code }) => code === "stock/count-differs").length, fixed).toBeLessThan(
        found.length,
      );
      expect(
        left.filter(({ severity }) => severity === "error"),
        fixed,
      ).toEqual([]);
    }
  });

  it("of a lot tells the lot", () => {
    const [finding] = raised(`${room}2026-03-08\n  dam count praecox 12 lot a17`, "stock/count-differs");
    expect(finding!.message).toBe("12 praecox of lot a17 counted in dam, 14 expected: 2 unaccounted");
    expect(finding!.why!.from).toHaveLength(1);
  });
});

describe("animals that leave before they came", () => {
  it("are told when the first of them come", () => {
    const [finding] = raised(
      `${room}2026-03-08\n  dam move horn 6 -> r1\n  r2 lose horn 1 found\n2026-03-12\n  r2 arrive horn 4`,
      "stock/none-there",
    );
    expect(finding!.message).toBe(
      "the book knows of no horn in r2, the first came on 12 March: write a count first, or check tank and species",
    );
  });
});
