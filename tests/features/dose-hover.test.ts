import { describe, expect, test } from "vitest";
import { inlayHints } from "../../language/features/hints.ts";
import { hover } from "../../language/features/hover.ts";
import { atCursor } from "../support/cursor.ts";

const room = `species praecox
remedy prazi
  target 2 mg/L
  repeat 3 times every 7 d
  change-before 25 %
  change-after 50 %
  without carbon
remedy salt
  bath 10..30 g/L for 1..10 min
tank q1
  volume 50 L
tank r1
  volume 20 L
group both = q1, r1
`;

function told(log: string): string[] {
  const { view, offset } = atCursor(log);
  const found = hover(view, offset)?.markdown ?? "";
  return found
    .replace(/\\([!-/:-@[-`{-~])/g, "$1")
    .split("\n")
    .filter((line) => line.trim() !== "");
}
const courseOf = (log: string): string[] => {
  const lines = told(log);
  return lines.slice(lines.indexOf("The course") + 1);
};

describe("the hover of a dose tells its course", () => {
  test("which it is, what is next, the change owed, what is out", () => {
    const lines = courseOf(
      `${room}2026-03-01\n  q1 remove carbon\n  q1 dose prazi 100 mg\n2026-03-08\n  q1 change 25 %\n  q1 dose prazi 25¦ mg`,
    );
    expect(lines.slice(0, 2)).toEqual([
      "- dose 2 of 3; next: dose 3 due on 15 March, change 25 % before it, then 25 mg to reach the target again",
      "- carbon out since 1 March; after the course: change 50 % by 22 March; over on 22 March",
    ]);
  });
  test("of a course that is past, as it ended", () => {
    const [first] = courseOf(
      `${room}2026-01-01\n  q1 dose prazi 10¦0 mg\n2026-03-01\n  q1 dose prazi 100 mg`,
    );
    expect(first).toBe("- dose 1 of 3");
  });
  test("of a group in each water", () => {
    const lines = courseOf(`${room}2026-03-01\n  @both dose prazi 2¦ mg/L`);
    expect(lines.filter((line) => line.startsWith("- q1: dose 1 of 3"))).toHaveLength(1);
    expect(lines.filter((line) => line.startsWith("- r1: dose 1 of 3"))).toHaveLength(1);
  });
  test("another number tells no course", () => {
    expect(told(`${room}2026-03-01\n  q1 arrive praecox 1¦2`)).not.toContain("The course");
  });
});

describe("the hint of a bath", () => {
  const labels = (line: string): string[] => {
    const { view } = atCursor(`${room}2026-03-01\n  q1 arrive praecox 6¦\n  ${line}`);
    return inlayHints(view, 0, view.source.text.length)
      .filter(({ kind }) => kind === "dose")
      .map(({ label }) => label);
  };
  // 120 g in 8 L are 15 g/L.
  test("says how strong it is where that follows from mass and volume", () => {
    expect(labels("q1 bath praecox 3 with salt 120 g for 5 min volume 8 L")).toEqual(["15 g/L"]);
    expect(labels("q1 bath praecox 3 with salt 15 g/L for 5 min volume 8 L")).toEqual([]);
    expect(labels("q1 bath praecox 3 with salt 120 g for 5 min")).toEqual([]);
  });
});
