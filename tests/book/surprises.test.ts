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

describe("a name in quotes", () => {
  it("is told that it takes none", () => {
    expect(first('  dam sick praecox 1 case "spot"').message).toBe(
      "after “case” comes a case, a name without quotes",
    );
    expect(first("  dam sick praecox 1 case 3").message).toBe("after “case” comes a case");
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

describe("what a keeper is likely to type", () => {
  it.each([
    ["dam move praecox 2 to b1", "dam move praecox 2 -> b1"],
    ["dam move praecox 2 b1", "dam move praecox 2 -> b1"],
    ["dam light 8", "dam light 8 h"],
    ["dam feed flake 2", "dam feed flake 2 cubes"],
    ["dam nitrate 18", "dam test nitrate 18"],
    ["dam test pH 6-7", "dam test pH 6..7"],
    ["dam test temperature 23-27 C", "dam test temperature 23..27 C"],
    ["dam fed flake", "dam feed flake"],
    ["08.40 dam clean", "08:40 dam clean"],
    ["dam note “heater clicks”", 'dam note "heater clicks"'],
    ["dam change 30 % „half of it“", 'dam change 30 % "half of it"'],
    ["dam test pH: 7.2", "dam test pH 7.2"],
  ])("%s is mended to %s", (typed, meant) => {
    expect(first(`  ${typed}`).fixes[0]).toBe(`  ${meant}`);
  });

  it.each([
    ["dam count praecox fourteen", "“fourteen” is no number: count needs a number: count praecox 14"],
    [
      "dam lose praecox 1 dead",
      "“dead” says nothing in “lose”; it takes a species, a number of animals, “found”, “missing”, “jumped”, “culled” or “euthanised”, “lot” a lot, “case” a case",
    ],
    ["dam algae film 5", "5 cannot be: expected a rating from 0 to 4, or share"],
    ["dam condition praecox 0.5", "0.5 cannot be: expected a score from 1 to 5"],
    ["dam, b1 change 30 %", "an entry has one target; several tanks are a group: group x = dam, q1, then @x"],
    ["dam 08:40 clean", "the time stands before the tank: 08:40 dam clean"],
    ["24:00 dam clean", "there is no time 24:00: a day goes from 00:00 to 23:59"],
    ["r1 .. r3 clean", "an entry has one target; a range of tanks is a group: group x = r1 .. r3, then @x"],
  ])("%s: %s", (typed, message) => {
    expect(first(`  ${typed}`).message).toBe(message);
  });

  it("in a definition is mended there", () => {
    const mended = (log: string): string => {
      const finding = findingsOf(log).find(({ fixes }) => fixes.length > 0)!;
      return applyFix(log, finding, finding.fixes[0]!);
    };
    expect(mended("tank dam volume 20 L")).toBe("tank dam\n  volume 20 L");
    expect(mended("tank dam Rainbowfish dam\n  volume 9 L")).toBe('tank dam "Rainbowfish dam"\n  volume 9 L');
    expect(mended("water tap\n  nitrate 6")).toBe("water tap\n  content nitrate 6");
    expect(mended("tank dam\n  volume 9 L\n  every week clean")).toBe(
      "tank dam\n  volume 9 L\n  every 7 d clean",
    );
    expect(mended("remedy r\n  harms snail scaleless")).toBe("remedy r\n  harms snail, scaleless");
    expect(mended("remedy r\n  harms snails")).toBe("remedy r\n  harms snail");
    expect(mended("tank a\n  volume 9 L\ntank b\n  volume 9 L\ngroup g = a b")).toBe(
      "tank a\n  volume 9 L\ntank b\n  volume 9 L\ngroup g = a, b",
    );
    expect(mended("2026-03-01 power cut")).toBe('2026-03-01 "power cut"');
  });

  it("with spaces from elsewhere is read", () => {
    expectMarks(`${room}  dam\u202fchange\u200930\u202f% "a"
\u2003dam\u3000clean`);
  });

  it("without spaces between lengths is read", () => {
    expect(findingsOf("tank x5\n  inside 60x30x36cm")).toEqual([]);
  });

  it("names no tank in a group: said", () => {
    expectMarks("group g =\n#       ^ definition/members", "definition");
  });
});
