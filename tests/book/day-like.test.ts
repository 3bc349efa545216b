import fc from "fast-check";
import { expect, test } from "vitest";
import { readDay } from "../../language/book/day.ts";
import { readDayLike } from "../../language/book/day-like.ts";
import { cutBlocks } from "../../language/syntax/blocks.ts";
import { arbitraryLog, textOf } from "../support/arbitrary-log.ts";
import { anyText } from "../support/arbitrary-text.ts";

/** The day as it is read beside another state of it, which is what it is when it is read alone. */
function like(before: string, after: string) {
  const facts = readDayLike(after, { text: before, facts: readDay(before) });
  expect(facts).toEqual(readDay(after));
  return facts;
}

const day = (...lines: string[]): string => `2026-03-01\n${lines.map((line) => `  ${line}\n`).join("")}`;

test("a line that was put right, added or taken out", () => {
  const [first, second, third] = ["dam clean", "dam test nitrate 18, pH 7.2", "r4 feed flake"] as const;
  expect(like(day(first, second, third), day(first, "dam test nitrate 20", third)).count).toBe(3);
  expect(like(day(first, third), day(first, second, third)).count).toBe(4);
  expect(like(day(first, second, third), day(first, third)).count).toBe(2);
  expect(like(day(first, second), day(first, second)).count).toBe(3);
  expect(like(day(first), day()).count).toBe(0);
  expect(like(day(), day(first)).count).toBe(1);
});

test("times, rounds and what cannot be read are read with all of their day", () => {
  like(day("dam clean", "r4 clean"), day("08:40 dam clean", "r4 clean"));
  like(day("08:40 dam clean", "r4 clean"), day("dam clean", "r4 clean"));
  like(day("sheet pH", "  dam 7", "  r4 8"), day("sheet KH", "  dam 7", "  r4 8"));
  like(day("dam clean", "r4 tset 5"), day("dam clean glass", "r4 tset 5"));
  like(day("dam clean", "r4 test pH 7"), day("dam clena", "r4 test pH 7"));
  like('2026-03-01 "cut"\n  dam clean\n', "2026-03-01\n  dam clean\n");
  like("2026-03-01\n  dam clean", "2026-03-01\n  dam clean glass\n");
});

const days = (text: string): string[] =>
  cutBlocks(text, () => false)
    .filter(({ kind }) => kind === "day")
    .map(({ start, end }) => text.slice(start, end));

test("whatever the days", () => {
  fc.assert(
    fc.property(
      arbitraryLog.map(textOf),
      fc.nat(),
      fc.nat(),
      anyText,
      fc.boolean(),
      (log, at, line, put, isCut) => {
        const all = days(log);
        if (all.length === 0) return;
        const before = all[at % all.length]!;
        const lines = before.split(/(?<=\n)/);
        const place = 1 + (line % lines.length);
        const after = [
          ...lines.slice(0, place),
          `  ${put.replace(/^(?=\S)/gm, "  ")}\n`,
          ...lines.slice(place + Number(isCut)),
        ];
        like(before, after.join(""));
        like(after.join(""), before);
        for (const other of all) like(before, other);
      },
    ),
    { numRuns: Number(process.env.RUNS ?? 100) },
  );
});
