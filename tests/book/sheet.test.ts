import { describe, expect, it } from "vitest";
import { parameterOf } from "../../language/book/parameters.ts";
import { applyFix } from "../support/fixes.ts";
import { expectMarks, findingsOf, logbookOf } from "../support/marked.ts";

/** A round as a spreadsheet. */

const room = `tank dam
  volume 100 L
tank r1
  volume 24 L
species cherry
2026-03-01
`;

/** The readings of a parameter in one tank, in its unit, and the animals of a species. */
function readings(log: string, tank: string, parameter: string): string {
  const { logbook } = logbookOf(log);
  const station = logbook.book.tank(tank)!;
  const series = logbook.ledgerOf(station).readings[parameterOf(parameter).id];
  return Array.from({ length: series?.length ?? 0 }, (_, at) =>
    series!.first[at] === series!.second[at]
      ? series!.first[at]!.toFixed(2)
      : `${series!.first[at]!.toFixed(2)}..${series!.second[at]!.toFixed(2)}`,
  ).join(" ");
}

describe("a sheet", () => {
  const log = `${room}  sheet   temperature (F)  pH   nitrate  cherry
    dam   76.1             7.2  <5       -
    r1    75.2             -    18       3.5.20  "all well"`;

  it("is a test and a count for each cell", () => {
    expectMarks(log);
    expect(readings(log, "dam", "temperature")).toBe("24.50");
    expect(readings(log, "r1", "temperature")).toBe("24.00");
    expect(readings(log, "dam", "nitrate")).toBe("0.00..5.00");
    expect(readings(log, "r1", "pH")).toBe("");
  });

  it("counts animals", () => {
    const { logbook } = logbookOf(log);
    const r1 = logbook.book.tank("r1")!;
    expect(logbook.ledgerOf(r1).stock.in(r1.id)[0]?.animals).toBe(28);
  });

  it("takes the unit of a cell before that of its column", () => {
    expect(readings(`${room}  sheet temperature (F)\n    dam 24.5 C`, "dam", "temperature")).toBe("24.50");
  });
});

describe("a cell", () => {
  it("that is no value costs itself", () => {
    const log = `${room}  sheet pH nitrate KH
    dam low 18 4
#       ^^^ sheet/cell
    r1 7.2 3.5.20 4
#          ^^^^^^ sheet/cell`;
    expectMarks(log);
    expect(readings(log, "dam", "nitrate")).toBe("18.00");
    expect(readings(log, "r1", "nitrate")).toBe("");
  });

  it("with a decimal comma is offered a point, and is one cell", () => {
    const log = `${room}  sheet pH nitrate
    dam 7,2 18
#       ^^^ value/decimal-comma`;
    expectMarks(log);
    expect(readings(log, "dam", "nitrate")).toBe("18.00");
    const finding = findingsOf(log)[0]!;
    expect(applyFix(log, finding, finding.fixes[0]!)).toContain("dam 7.2 18");
  });

  it("of a count is a number of animals", () => {
    expectMarks(`${room}  sheet cherry
    dam 2.5
#       ^^^ value/count
    r1 >20
#      ^^^ value/count`);
  });

  it("with another unit is offered the right one", () => {
    expectMarks(`${room}  sheet KH
    dam 70 mg/L
#       ^^^^^^^ unit/wrong-kind
    r1 4 dkh
#      ^^^^^ unit/spelling`);
  });
});

describe("the head of a column", () => {
  it("with a wrong unit has the finding, and its cells wait", () => {
    const log = `${room}  sheet temperature (K) pH
#                   ^^^ unit/unknown
    dam 297 7.2`;
    expectMarks(log);
    expect(readings(log, "dam", "temperature")).toBe("");
    expect(readings(log, "dam", "pH")).toBe("7.20");
  });

  it("that no unit fits says so", () => {
    expectMarks(`${room}  sheet pH (C) cherry (g)
#          ^^^ unit/wrong-kind
#                     ^^^ unit/wrong-kind
    dam 7.2 12`);
  });

  it("that is no species is one finding, at the head", () => {
    const log = `${room}  sheet pH chery
#          ^^^^^ name/species
    dam 7.2 12
    r1  7   3`;
    expectMarks(log);
    const finding = findingsOf(log)[0]!;
    expect(applyFix(log, finding, finding.fixes[0]!)).toContain("sheet pH cherry\n");
  });

  it("with a unit that is not settled is one finding, at the head", () => {
    const log = `room "Shed"
${room}  sheet temperature (deg) pH
#                   ^^^^^ unit/ambiguous
    dam 76 7.2
    r1  75 7.1`;
    expectMarks(log);
    const finding = findingsOf(log)[0]!;
    expect(finding.fixes.map(({ title }) => title)).toEqual([
      "Write “(C)”",
      "Write “(F)”",
      "Declare “temperature C” for the room",
      "Declare “temperature F” for the room",
    ]);
    expect(applyFix(log, finding, finding.fixes[1]!)).toContain("temperature (F) pH");
  });
});
