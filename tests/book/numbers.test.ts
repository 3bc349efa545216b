import { describe, expect, it } from "vitest";
import { applyFix } from "../support/fixes.ts";
import { expectMarks, findingsOf } from "../support/marked.ts";

/** What a number may look like where it stands. */

const room = `tank dam
  volume 100 L
species praecox
remedy prazi
  target 2 mg/L
2026-03-01
`;

describe("an amount in an entry", () => {
  it("is a number, about a number or a range; a bound does not say how much it was", () => {
    expectMarks(`${room}  dam change 30 %
  dam change ~30 %
  dam change 25..35 %
  dam change <= 30 %
#            ^^^^^^^ value/form
  dam top-up >4 L
#            ^^^^ value/form`);
  });

  it("of a dose is one number", () => {
    expectMarks(
      `${room}  dam dose prazi 200 mg
  dam dose prazi 190..210 mg
#                ^^^^^^^^^^^ value/form`,
      "value",
    );
  });

  it("is not below zero", () => {
    expectMarks(`${room}  dam top-up -4 L
#            ^^^^ value/negative
  dam light -8 h
#           ^^^^ value/negative`);
  });

  it("has the lower end of a range first", () => {
    expectMarks(`${room}  dam change 35..25 %
#            ^^^^^^^^ value/range
  dam count praecox 14..12
#                   ^^^^^^ value/range`);
  });
});

describe("a number of animals", () => {
  it("is whole, about, a range, or males, females and unsexed", () => {
    expectMarks(`${room}  dam count praecox 10
  dam count praecox ~10
  dam count praecox 9..11
  dam count praecox 4.5.1
  dam count praecox 4.5
#                   ^^^ value/count
  dam count praecox -1
#                   ^^ value/count
  dam count praecox 12 g
#                   ^^^^ unit/wrong-kind
  dam count praecox >10
#                   ^^^ value/count`);
  });
});

describe("a number in a definition", () => {
  it("of which only one can be computed with is one", () => {
    expectMarks(
      `tank dam
  volume  90..100 L
#         ^^^^^^^^^ value/form
remedy prazi
  target     2 mg/L
  half-life  2..3 d
#            ^^^^^^ value/form
  ceiling    <= 5 mg/L
#            ^^^^^^^^^ value/form`,
      "value",
    );
  });

  it("may be a bound where that says something", () => {
    expectMarks(
      `species praecox
  school  >= 8
  adult   5..6 cm
remedy salt
  target  <= 3 g/L
tank dam
  volume  100 L
  every   7 d change >= 25 %`,
      "value",
      "syntax",
      "entry",
      "definition",
    );
  });

  it("is a limit only as a range or a bound", () => {
    expectMarks(`tank dam
  volume  100 L
  limits  nitrate 25 mg/L, pH 6.5..7.5, KH ~4
#                 ^^^^^^^ definition/limit
#                                          ^^ definition/limit`);
  });

  it("of a source water is a number or a range, not a bound", () => {
    expectMarks(`water tap
  content  nitrate 4..8 mg/L, GH 9, KH <1
#                                      ^^ value/form`);
  });

  it("of a limit has a unit of its parameter, counted as the same element", () => {
    expectMarks(`tank dam
  volume  100 L
  limits  nitrate <= 10 mg/L N, phosphate <= 1 mg/L N
#                                         ^^^^^^^^^^^ unit/wrong-kind
  limits  GH <= 100 ppm
#            ^^^^^^^^^^ unit/ambiguous`);
  });
});

describe("what is offered for a number", () => {
  const fixed = (line: string): string => {
    const log = room + line;
    const finding = findingsOf(log).find(({ fixes }) => fixes.length > 0)!;
    return applyFix(log, finding, finding.fixes[0]!).slice(room.length);
  };

  it("is the same number, right", () => {
    expect(fixed("  dam change <= 30 %")).toBe("  dam change 30 %");
    expect(fixed("  dam top-up -4 L")).toBe("  dam top-up 4 L");
    expect(fixed("  dam change 35..25 %")).toBe("  dam change 25..35 %");
    expect(fixed("  dam test pH 7,2")).toBe("  dam test pH 7.2");
    expect(fixed("  dam change 30")).toBe("  dam change 30 %");
    expect(fixed("  dam test KH 70 mg/L")).toBe("  dam test KH 70 mg/L CaCO3");
  });
});
