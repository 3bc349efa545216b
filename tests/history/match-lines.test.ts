import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { blocksOf, linesOfBlock } from "../../language/history/log-lines.ts";
import { matchLogs, type UnitMatch, unitsOf } from "../../language/history/match-lines.ts";
import { anyText } from "../support/arbitrary-text.ts";

const log = `tank dam "Rainbowfish dam"
  volume  310 L
  limits  nitrate <= 25 mg/L, pH 6.8..7.8

2026-03-01
  dam   change 30 %
  # looked at twice
  dam   test nitrate 18 mg/L, pH 7.2
  08:40 dam   feed cyclops 2 cubes
  sheet  pH   nitrate
    dam  7.2  18
    r4   7.0  <5

2026-03-02
  dam   feed flake
`;

const told = (matches: readonly UnitMatch[]): string[] =>
  matches
    .filter((match) => match.is !== "same" || match.isRemarked)
    .map(({ is, before, after }) => {
      const text = (unit: typeof before) => unit?.line?.text.trim() ?? (unit === undefined ? "" : "below");
      return [is, text(before), text(after)].filter((each) => each !== "").join(" | ");
    });
const matched = (before: string, after: string): string[] =>
  told(matchLogs([{ path: "a.tank", text: before }], [{ path: "a.tank", text: after }]).units);
const edited = (from: string, to: string): string[] => {
  expect(log).toContain(from);
  return matched(log, log.replace(from, to));
};

describe("a line that became another", () => {
  test("is corrected where it says the same fact with another value", () => {
    expect(edited("nitrate 18 mg/L, pH 7.2", "nitrate 20 mg/L, pH 7.2")).toEqual([
      "corrected | dam   test nitrate 18 mg/L, pH 7.2 | dam   test nitrate 20 mg/L, pH 7.2",
    ]);
    expect(edited("nitrate <= 25 mg/L", "nitrate <= 30 mg/L")).toEqual([
      "corrected | limits  nitrate <= 25 mg/L, pH 6.8..7.8 | limits  nitrate <= 30 mg/L, pH 6.8..7.8",
    ]);
    expect(edited("r4   7.0  <5", "r4   7.1  <5")).toEqual(["corrected | r4   7.0  <5 | r4   7.1  <5"]);
  });

  test("is corrected where its food, its tank or its very word was put right", () => {
    expect(edited("feed flake", "feed pellet")).toEqual(["corrected | dam   feed flake | dam   feed pellet"]);
    expect(edited("  dam   feed flake", "  r4    feed flake")).toHaveLength(1);
    expect(matched("2026-03-01\n  dam tset pH 7\n", "2026-03-01\n  dam test pH 7\n")).toEqual([
      "corrected | dam tset pH 7 | dam test pH 7",
    ]);
  });

  test("is moved where it says the same at another time or on another day", () => {
    expect(edited("08:40 dam ", "09:40 dam ")[0]).toMatch(/^moved \| 08:40 .* \| 09:40 /);
    const later = log.replace("  dam   change 30 %\n", "").replace("flake\n", "flake\n  dam   change 30 %\n");
    expect(matched(log, later)).toEqual(["moved | dam   change 30 % | dam   change 30 %"]);
  });

  test("is the same where only white space or a comment is another", () => {
    expect(edited("# looked at twice", "# looked at once")).toEqual([
      "same | dam   test nitrate 18 mg/L, pH 7.2 | dam   test nitrate 18 mg/L, pH 7.2",
    ]);
    expect(edited("dam   change 30 %", "dam change 30 %  # early")).toEqual([
      "same | dam   change 30 % | dam change 30 %  # early",
    ]);
  });

  test("is another reading where the head of its column is another", () => {
    expect(edited("sheet  pH   nitrate", "sheet  KH   nitrate").map((each) => each.slice(0, 9))).toEqual([
      "corrected",
      "corrected",
      "corrected",
    ]);
  });
});

describe("what has no other", () => {
  test("is added or removed", () => {
    expect(edited("  dam   feed flake\n", "  dam   feed flake\n  q1    clean\n")).toEqual([
      "added | q1    clean",
    ]);
    expect(edited("  dam   change 30 %\n", "")).toEqual(["removed | dam   change 30 %"]);
  });

  test("is counted: of two equal lines one is one", () => {
    const twice = "2026-03-01\n  dam feed flake\n  dam feed flake\n";
    expect(matched(twice, "2026-03-01\n  dam feed flake\n")).toEqual(["removed | dam feed flake"]);
  });
});

test("a day that went to a file of its own is the same day", () => {
  const [first, second] = [log.slice(0, log.indexOf("2026-03-02")), log.slice(log.indexOf("2026-03-02"))];
  const { units, sameBlocks } = matchLogs(
    [{ path: "all.tank", text: log }],
    [
      { path: "all.tank", text: first },
      { path: "b.tank", text: second },
    ],
  );
  expect(units).toEqual([]);
  expect(sameBlocks.filter(({ isMoved }) => isMoved).map(({ after }) => after.name)).toEqual(["2026-03-02"]);
});

describe("nothing is lost", () => {
  test("blocks, lines and units make up any text, and every unit is told once", () => {
    fc.assert(
      fc.property(anyText, anyText, (one, two) => {
        const blocks = blocksOf(one);
        expect(blocks.map(({ text }) => text).join("")).toBe(one);
        for (const block of blocks) {
          expect(
            linesOfBlock(block)
              .map(({ text, eol }) => text + eol)
              .join(""),
          ).toBe(block.text);
          expect(
            unitsOf(block)
              .map(({ text }) => text)
              .join(""),
          ).toBe(block.text);
        }
        const { units, sameBlocks } = matchLogs([{ path: "a", text: one }], [{ path: "a", text: two }]);
        const length = (side: "before" | "after"): number =>
          units.reduce((sum, match) => sum + (match[side]?.text.length ?? 0), 0) +
          sameBlocks.reduce((sum, pair) => sum + pair[side].text.length, 0);
        expect([length("before"), length("after")]).toEqual([one.length, two.length]);
      }),
    );
  });

  test("lines are numbered as in the file", () => {
    const { units } = matchLogs([], [{ path: "a", text: log.replaceAll("\n", "\r\n") }]);
    const numbers = units.map(({ after }) => [after?.number, after?.line?.text.trim()]);
    expect(numbers).toContainEqual([8, "dam   test nitrate 18 mg/L, pH 7.2"]);
    expect(numbers).toContainEqual([15, "dam   feed flake"]);
  });
});
