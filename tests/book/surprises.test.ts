import { describe, expect, it } from "vitest";
import { applyFix } from "../support/fixes.ts";
import { expectMarks, findingsOf } from "../support/marked.ts";

/** What a line says that has no place in it: one finding, with what was likely meant. */

const room = `tank dam
  volume 100 L
water tap
2026-03-01
`;

function first(line: string): { message: string; fixes: string[] } {
  const log = room + line;
  const finding = findingsOf(log)[0]!;
  const fixes = finding.fixes.map((fix) => applyFix(log, finding, fix).slice(room.length));
  return { message: finding.message, fixes };
}

describe("a line with words that have no place in it", () => {
  it("has one finding, at the first of them", () => {
    expectMarks(`${room}  dam change 30 % gently and with care
#                 ^^^^^^ entry/unexpected`);
  });

  it("is offered to have them in quotes", () => {
    expect(first("  dam change 30 % gently and with care").fixes).toEqual([
      `  dam change 30 % "gently and with care"`,
    ]);
    expect(first("  dam note heater clicks again")).toEqual({
      message: "prose stands in quotes",
      fixes: [`  dam note "heater clicks again"`],
    });
  });

  it("is offered the word that is near", () => {
    expect(first("  dam change 30 % flwo").fixes[0]).toBe("  dam change 30 % flow");
    expect(first("  dam change 30 % form tap").fixes[0]).toBe("  dam change 30 % from tap");
  });
});

describe("a list", () => {
  it("without its comma is offered one", () => {
    expect(first("  dam test nitrate 18 pH 7.2")).toEqual({
      message: "a comma is missing before “pH”",
      fixes: ["  dam test nitrate 18, pH 7.2"],
    });
    expect(first("  dam clean glass gravel").fixes[0]).toBe("  dam clean glass, gravel");
  });

  it("with a comma too many is offered to lose it", () => {
    expectMarks(`${room}  dam clean glass,
#                ^ entry/missing
  dam clean , glass
#           ^ entry/missing
  dam test pH 7,
#              ^ entry/missing
  dam change 30 %, flow
#                ^ entry/unexpected`);
    expect(first("  dam change 30 %, flow").fixes).toEqual(["  dam change 30 % flow"]);
    expect(first("  dam clean glass,").fixes).toEqual(["  dam clean glass"]);
  });
});

describe("the same thing twice", () => {
  it("is offered to lose the second", () => {
    expect(first("  dam change 30 % from tap from tap")).toEqual({
      message: "“from” stands here twice",
      fixes: ["  dam change 30 % from tap"],
    });
  });
});

describe("a unit", () => {
  it("in another case is read, and said so", () => {
    expectMarks(`${room}  dam test nitrate 18 mg/l
#                  ^^^^^^^ unit/spelling
  dam change 30 L from tap at 24 c
#                                ^ unit/unknown`);
  });

  it("that is none is offered the nearest of the right kind", () => {
    expect(first("  dam top-up 4 litrs")).toEqual({
      message: "“litrs” is no unit that I know; did you mean “L”?",
      fixes: ["  dam top-up 4 L"],
    });
  });
});
