import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { movedTo } from "../../extension/client/moved-log.ts";
import { findingsOf, logbookOf } from "../support/marked.ts";

const sample = readFileSync(join(import.meta.dirname, "../../extension/media/first-days.tank"), "utf8");

test("a new logbook ends today, over the end of a year and in a leap year", () => {
  const days = (text: string) => [...text.matchAll(/^\d{4}-\d{2}-\d{2}/gm)].map(([day]) => day);
  expect(days(movedTo("2027-01-01", sample))).toEqual(["2026-12-30", "2026-12-31", "2027-01-01"]);
  expect(days(movedTo("2028-03-01", sample))).toEqual(["2028-02-28", "2028-02-29", "2028-03-01"]);
});

test("it is not finished: its today is the day outside, and nothing is wrong with it", () => {
  const moved = movedTo("2027-05-04", sample);
  expect(moved).not.toContain("as-of");
  expect(Number.isNaN(logbookOf(moved).book.asOf)).toBe(true);
  expect(
    findingsOf(moved, "2027-05-04").filter(({ severity }) => severity === "error" || severity === "warning"),
  ).toEqual([]);
});

test("a text without days stays as it is", () => {
  expect(movedTo("2027-05-04", "tank dam\n")).toBe("tank dam\n");
});
