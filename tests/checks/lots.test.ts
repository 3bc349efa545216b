import { describe, expect, it } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import { applyFix } from "../support/fixes.ts";
import { findingsOf } from "../support/marked.ts";

/** Lots, moves and tanks that cannot have been: each at its place, with what mends it. */

const room = `species praecox
species horn
tank dam
  volume 300 L
tank r1
  volume 20 L
  until  2026-03-10
tank r2
  volume 20 L
group rack = r1, r2
`;

const said = (log: string, family: string) =>
  findingsOf(`${room}${log}`)
    .filter(({ code }) => code.startsWith(family))
    .map(({ code, message }) => `${code}: ${message}`);

describe("a lot", () => {
  it("is there from its arrival, spawning, hatch or definition", () => {
    const log = `lot blue-1
  species praecox
2026-03-01
  dam arrive praecox 10 lot a17
  dam spawn praecox 80 eggs lot p7
  dam eggs praecox 60 lot p7
  dam hatch horn 5 lot h1
  dam lose horn 1 found lot h1
  dam condition praecox 3 lot blue-1
  dam count praecox 10 lot a17`;
    expect(said(log, "lot/")).toEqual([]);
  });

  it("is not there before, whichever file says so", () => {
    const log = `lot blue-1
  species praecox; born 2026-03-05
2026-03-01
  dam arrive praecox 10
  dam lose praecox 1 found lot blue-1
  dam lose praecox 1 found lot a17
--- early.tank ---
2026-03-04
  dam arrive praecox 5 lot a17`;
    expect(said(log, "lot/too")).toEqual([
      "lot/too-early: lot blue-1 was not there yet (born 2026-03-05)",
      "lot/too-early: lot a17 was not there yet (arrive 4 March)",
    ]);
  });

  it("counts by lines within a minute", () => {
    const log = `2026-03-01
  dam arrive praecox 10
  dam lose praecox 1 found lot a17
  dam arrive praecox 5 lot a17`;
    expect(said(log, "lot/too")).toHaveLength(1);
  });

  it("that nobody made is mended by the name that is near, or by a definition", () => {
    const log = `${room}2026-03-01
  dam arrive praecox 10 lot a17
  dam lose praecox 1 found lot a71`;
    const finding = findingsOf(log).find(({ code }) => code === "lot/unknown")!;
    expect(finding.fixes.map(({ title }) => title)).toEqual(["Write “a17”", "Define lot “a71”"]);
    for (const fix of finding.fixes)
      expect(findingsOf(applyFix(log, finding, fix)).filter(({ code }) => code.startsWith("lot/"))).toEqual(
        [],
      );
  });
});

describe("a move", () => {
  it("to where the animals are does not count, of a group neither", () => {
    const log = `2026-03-01
  @rack arrive praecox 10
  r1 move praecox 3 -> r1
  @rack move praecox 3 -> r2`;
    expect(said(log, "move/")).toEqual(["move/to-itself: r1 is where they are already"]);
    expect(said(`${log}\n2026-03-02\n  r1 count praecox 7\n  r2 count praecox 13`, "stock/")).toEqual([]);
  });

  it("round in a circle is told, through however many tanks; of lots apart, and by the clock, it is none", () => {
    const moves = (times: readonly string[], lots: readonly string[]) => `2026-03-01
  dam arrive praecox 10 lot a17
  dam arrive praecox 10 lot b2
  ${times[0]} dam move praecox 3 -> r1${lots[0]}
  ${times[1]} r1 move praecox 3 -> r2${lots[1]}
  ${times[2]} r2 move praecox 3 -> dam${lots[2]}`;
    const same = ["09:00", "09:00", "09:00"];
    expect(said(moves(same, ["", "", ""]), "move/")).toEqual([
      "move/circle: praecox go round within a minute: r2 -> dam -> r1 -> r2; write the times of day if they did",
    ]);
    expect(said(moves(["09:00", "09:00", "09:01"], ["", "", ""]), "move/")).toEqual([]);
    expect(said(moves(same, ["", "", " lot b2"]), "move/")).toEqual([]);
  });
});

describe("a tank out of service", () => {
  it("is told wherever animals are said to be in it", () => {
    const log = `2026-03-10
  r1 arrive praecox 4
2026-03-11
  r1 count praecox 4
  dam arrive praecox 2
  dam move praecox 1 -> r1
  r1 move praecox 5 -> dam
  r1 count praecox 0`;
    const message = "stock/out-of-service: r1 was in service until 10 March";
    expect(said(log, "stock/out")).toEqual([message, message, message]);
  });
});

describe("an edit of nothing but the lot", () => {
  it("is taken in", () => {
    const checked = new CheckedLogbook();
    checked.set(
      "log.tank",
      `${room}2026-03-01\n  dam arrive praecox 8 lot a17\n  dam lose praecox 1 lot a17\n`,
    );
    const codes = (): string[] => checked.findings(dayOf("2026-03-02")).map(({ code }) => code);
    expect(codes()).toEqual([]);
    const source = checked.logbook.sources.get("log.tank")!;
    const at = source.text.lastIndexOf("a17");
    checked.take(source.edit(at, at + 3, "b18"));
    expect(codes()).toEqual(["lot/unknown"]);
  });
});
