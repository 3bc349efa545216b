import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { logLines, takeBackLines } from "../../../language/features/board/log-lines.ts";
import type { View } from "../../../language/features/view.ts";
import { edited, viewOf } from "../../support/cursor.ts";

const room = `tank dam
  volume 100 L
tank r1
  volume 24 L
tank r2
  volume 24 L
tank r3
  volume 24 L
group rack = r1 .. r3
group front = r1, r2
species horn
`;

const logged = (view: View, ...lines: string[]): string => {
  const made = logLines(view, lines);
  if ("refused" in made) throw new Error(JSON.stringify(made.refused));
  return edited(view.source.text, made.edits).slice(room.length);
};

describe("lines logged from the board", () => {
  test("go to the end of today's block, laid out as it is", () => {
    const view = viewOf(
      `${room}2026-03-01
  dam   feed flake     # the last of the tin
  08:40 dam   clean

# next month
2026-03-02
  dam   clean
`,
      undefined,
      "2026-03-01",
    );
    expect(logged(view, "dam change 30 %", "r1 test nitrate 18, pH 7.2")).toBe(`2026-03-01
  dam   feed flake     # the last of the tin
  08:40 dam   clean
  dam   change 30 %
  r1    test nitrate 18, pH 7.2

# next month
2026-03-02
  dam   clean
`);
  });

  test("begin today where it is not begun, in order of days", () => {
    const view = viewOf(
      `${room}
2026-03-01
  dam   clean
`,
      undefined,
      "2026-03-04",
    );
    expect(logged(view, "dam clean", "dam feed flake")).toBe(`
2026-03-01
  dam   clean

2026-03-04
  dam   clean
  dam   feed flake
`);
  });

  test("of all tanks of a group are one line of it, the largest group first; what is measured stays each tank's", () => {
    const view = viewOf(`${room}2026-03-01\n`);
    expect(logged(view, "r1 feed flake", "dam feed flake", "r2 feed flake", "r3 feed flake")).toBe(
      "2026-03-01\n  @rack feed flake\n  dam   feed flake\n",
    );
    expect(logged(view, "r2 clean", "r1 clean")).toBe("2026-03-01\n  @front clean\n");
    expect(logged(view, "r2 clean", "r3 clean")).toBe("2026-03-01\n  r2    clean\n  r3    clean\n");
    expect(logged(view, "r1 test pH 7", "r2 test pH 7")).toBe(
      "2026-03-01\n  r1    test pH 7\n  r2    test pH 7\n",
    );
  });

  test.each([
    ["dam test pH 72", /pH/],
    ["dam test nitrate", /nitrate/],
    ["dam change 30", /./],
    ["dmm clean", /dmm/],
    ["@racks clean", /racks/],
    ["dam clean\n  dam change 30 %", /more than one line/],
    ["dam count horn", /./],
    ["", /./],
    ["2026-03-02", /./],
    ["# a comment", /./],
  ])("%j is refused with its reason, and nothing of the rest is written", (line, reason) => {
    const view = viewOf(`${room}2026-03-01\n`);
    const made = logLines(view, ["dam clean", line]);
    expect(made).toMatchObject({ refused: [{ line: 1, message: expect.stringMatching(reason) }] });
  });

  test("are taken back as they were written, the last of like ones, however they were laid out since", () => {
    const view = viewOf(`${room}2026-03-01
  dam   clean
  dam      feed   flake
  dam   clean
  r1    clean   # by hand
`);
    const back = takeBackLines(view, ["dam clean", "dam feed flake"]);
    if ("refused" in back) throw new Error("refused");
    expect(edited(view.source.text, back.edits).slice(room.length)).toBe(
      "2026-03-01\n  dam   clean\n  r1    clean   # by hand\n",
    );
  });

  test("that were changed since stay, and are told", () => {
    const view = viewOf(`${room}2026-03-01\n  dam   change 35 %\n`);
    expect(takeBackLines(view, ["dam change 30 %"])).toEqual({
      refused: [{ line: 0, message: "this line was changed since, or is gone" }],
    });
  });

  const line = fc.constantFrom(
    "dam clean",
    "dam change 30 %",
    "r1 feed flake 1 pinch",
    "r2 feed flake 1 pinch",
    "r3 feed flake 1 pinch",
    "r1 count horn 5",
    'room note "a # in  a text"',
  );
  test("a day that was begun for them goes with them, unless something else stands under it", () => {
    const text = `${room}2026-03-01\n  dam   clean\n`;
    const view = viewOf(text, undefined, "2026-03-04");
    const made = logLines(view, ["dam clean"]);
    if ("refused" in made) throw new Error("refused");
    const back = (after: string): string => {
      const later = viewOf(after, undefined, "2026-03-04");
      const taken = takeBackLines(later, made.written, made.begun);
      if ("refused" in taken) throw new Error("refused");
      return edited(after, taken.edits);
    };
    const after = edited(text, made.edits);
    expect(back(after)).toBe(text);
    expect(back(`${after}  dam   feed flake\n`)).toMatch(/2026-03-04\n {2}dam {3}feed flake\n$/);
    expect(back(`${after}  # to be looked at\n`)).toMatch(/2026-03-04\n {2}# to be looked at\n$/);
    expect(back(after.replace("2026-03-04", '2026-03-04 "a long day"'))).toMatch(
      /2026-03-04 "a long day"\n$/,
    );
    // The head stood there before.
    const there = viewOf(`${text}2026-03-04\n`, undefined, "2026-03-04");
    expect(logLines(there, ["dam clean"])).not.toHaveProperty("begun");
  });

  test("logged and taken back leave the text as it was", () => {
    fc.assert(
      fc.property(
        fc.array(line, { minLength: 1, maxLength: 6 }),
        fc.array(line, { maxLength: 4 }),
        fc.constantFrom("\n", "\r\n"),
        fc.constantFrom("2026-03-01", "2026-03-04", "2026-03-12"),
        fc.constantFrom("", "\n", "\n\n"),
        fc.boolean(),
        (lines, there, end, today, gap, isEnded) => {
          const days = `2026-03-01\n${there.map((each) => `  ${each}\n`).join("")}${gap}2026-03-09${isEnded ? `\n${gap}` : ""}`;
          const text = `${room}${days}`.replaceAll("\n", end);
          const view = viewOf(text, undefined, today);
          const made = logLines(view, lines);
          if ("refused" in made) throw new Error(JSON.stringify(made));
          const after = viewOf(edited(text, made.edits), undefined, today);
          expect(after.checked.logbook.book.problems).toEqual([]);
          const back = takeBackLines(after, made.written, made.begun);
          if ("refused" in back) throw new Error(JSON.stringify(back));
          const spaced = (each: string): string => each.replace(/ +/g, " ");
          expect(spaced(edited(after.source.text, back.edits))).toBe(spaced(text));
        },
      ),
    );
  });
});
