import { describe, expect, test } from "vitest";
import { expectMarks, findingsOf } from "../support/marked.ts";

const room = `species praecox
system rack-water
  sump 20 L
tank a
  volume 100 L
tank b
  volume 60 L
tank c
  volume 60 L
tank h1
  volume 20 L
  role hospital
tank r1
  volume 20 L
  system rack-water
tank r2
  volume 20 L
  system rack-water
`;
const told = (days: string, code: string): string[] =>
  findingsOf(room + days)
    .filter((finding) => finding.code === code)
    .map(({ message }) => message);

describe("animals that leave a tank a case holds", () => {
  test("are told of moves from the first sign until the case is closed", () => {
    expectMarks(
      `${room}2026-03-10
  a move praecox 1 -> b
  a sick praecox 2 of 9 case w-1
  a move praecox 1 -> b
# ^^^^^^^^^^^^^^^^^^^^^ exposure/moved-out
2026-03-12
  a close w-1 recovered
  a move praecox 1 -> c
`,
      "exposure",
    );
  });

  test("are told of what was reached, before or after the sign, with the way it took", () => {
    const days = `2026-03-05
  a move praecox 1 -> b
2026-03-06
  b move praecox 1 -> r1
2026-03-10
  a sick praecox 2 of 9 case w-1
2026-03-11
  r2 move praecox 1 -> c
  r2 sell praecox 1 to "a neighbour"
`;
    expect(told(days, "exposure/moved-out")).toEqual([
      "praecox are moved out of r2, which is held for case w-1: it shares the water of r1; praecox moved from b to r1, 6 March (a > b > r1)",
      "praecox are sold from r2, which is held for case w-1: it shares the water of r1; praecox moved from b to r1, 6 March (a > b > r1)",
    ]);
  });

  test("name the animals where a net went the same way with them", () => {
    const days = `2026-03-05
  a move praecox 1 -> b with net
2026-03-10
  a sick praecox 2 of 9 case w-1
2026-03-11
  b move praecox 1 -> c
`;
    expect(told(days, "exposure/moved-out")).toEqual([
      "praecox are moved out of b, which is held for case w-1: praecox moved from a to b, 5 March",
    ]);
  });

  test("are left to ship/sick where they are sold out of water with signs", () => {
    const days =
      "2026-03-10\n  r1 sick praecox 2 of 9 case w-1\n  r2 ship praecox 2\n  r2 move praecox 1 -> c\n";
    expect(told(days, "ship/sick")).toHaveLength(1);
    expect(told(days, "exposure/moved-out")).toEqual([
      "praecox are moved out of r2, which is held for case w-1: animals in its water show signs since 10 March",
    ]);
  });

  test("may go to a hospital, and to where the case is already", () => {
    expectMarks(
      `${room}2026-03-10
  a sick praecox 2 of 9 case w-1
  b sick praecox 1 of 4 case w-1
  a move praecox 2 -> h1
  a move praecox 1 -> b
`,
      "exposure",
    );
  });

  test("are not told of a tank by signs that came later", () => {
    expectMarks(
      `${room}2026-03-10
  a sick praecox 2 of 9 case w-1
2026-03-11
  b move praecox 2 -> c
2026-03-12
  b sick praecox 1 of 4 case w-1
2026-03-13
  b move praecox 2 -> c
# ^^^^^^^^^^^^^^^^^^^^^ exposure/moved-out
  c move praecox 2 -> r1
# ^^^^^^^^^^^^^^^^^^^^^^ exposure/moved-out
`,
      "exposure",
    );
  });

  test("are held for the days of the window after the last contact, and until it is ended", () => {
    expectMarks(
      `room "Cellar"
  trace 10 d
${room}2026-03-08
  a move praecox 1 -> b
  a change 5 L from c
  a carry wood -> c
2026-03-10
  a sick praecox 2 of 9 case w-1
2026-03-12
  c disinfect
  c move praecox 1 -> r1
2026-03-18
  b move praecox 1 -> r1
# ^^^^^^^^^^^^^^^^^^^^^^ exposure/moved-out
2026-03-19
  b move praecox 1 -> r1
`,
      "exposure",
    );
  });

  test("are told once of a tank that two cases hold", () => {
    const days = `2026-03-05
  a move praecox 1 -> c
  b move praecox 1 -> c
2026-03-10
  a sick praecox 2 of 9 case w-1
  b sick praecox 2 of 9 case w-2
2026-03-11
  c move praecox 1 -> r1
`;
    expect(told(days, "exposure/moved-out")).toHaveLength(1);
  });

  test("are told again as the log is edited", () => {
    const days = (last: string) => `2026-03-10\n  a sick praecox 2 of 9 case w-1\n2026-03-11\n  ${last}\n`;
    expect(told(days("a move praecox 1 -> b"), "exposure/moved-out")).toHaveLength(1);
    expect(told(days("c move praecox 1 -> b"), "exposure/moved-out")).toHaveLength(0);
  });
});

describe("a tool out of a sick tank", () => {
  test("is told where it is used next, once a tank, until it is disinfected", () => {
    expectMarks(
      `${room}2026-03-09
  a clean with net
  b clean with net
2026-03-10
  a sick praecox 2 of 9 case w-1
  b clean with net
  a clean with net
  b clean with net
#              ^^^ exposure/tool
  b clean with net
  c change 10 % with net
#                    ^^^ exposure/tool
  c clean with siphon
2026-03-11
  a clean with net
  room disinfect net
  b clean with net
`,
      "exposure",
    );
  });

  test("is mended by a line above it, at its time", () => {
    const text = `${room}2026-03-10
  08:00 a sick praecox 2 of 9 case w-1
  08:10 a clean with net
  18:00 c note x
  09:40 b clean with net
`;
    const finding = findingsOf(text).find(({ code }) => code === "exposure/tool")!;
    const { block, start, end, text: inserted } = finding.fixes[0]!.edits[0]!;
    const mended = text.slice(0, block.start + start) + inserted + text.slice(block.start + end);
    expect(mended).toContain("\n  09:40 room disinfect net\n  09:40 b clean with net\n");
    expect(findingsOf(mended).filter(({ code }) => code === "exposure/tool")).toEqual([]);
  });
});

describe("a disinfection", () => {
  test("of an occupied tank is told, in the order of the lines", () => {
    expectMarks(
      `${room}2026-03-10
  h1 count praecox 3
  h1 disinfect with "chlorine"
# ^^^^^^^^^^^^^^^^^^^^^^^^^^^^ disinfect/occupied
  h1 disinfect net
  h1 move praecox 3 -> a
  h1 disinfect
  r2 count praecox 1
  rack-water disinfect
# ^^^^^^^^^^^^^^^^^^^^ disinfect/occupied
`,
      "disinfect",
    );
  });
});
