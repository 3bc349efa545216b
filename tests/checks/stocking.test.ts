import { describe, expect, it } from "vitest";
import { findingsOf } from "../support/marked.ts";

/** Who lives in a tank, against what is stated. */

const said = (log: string, today?: string) =>
  findingsOf(log, today)
    .filter(({ code }) => code.startsWith("stock/"))
    .map(({ code, message, block }) => `${block.text.slice(0, 10)} ${code}: ${message}`);

const species = `species praecox
  school >= 8; weight 2.5 g; adult 6 cm; apart shrimp
species cherry
  kind shrimp
`;

describe("a school", () => {
  const log = `${species}tank dam
  volume 300 L
2026-03-01
  dam arrive praecox 12
2026-03-05
  dam sell praecox 6
2026-03-08
  dam lose praecox 1 found
2026-03-10
  dam count praecox 5`;

  it("is told at the entry since which there are too few", () => {
    expect(said(log)).toEqual([
      "2026-03-05 stock/school: 5 praecox are in dam: as stated, a school is 8 at least",
    ]);
  });

  it("is not asked of pairs that breed, and none is none", () => {
    expect(said(log.replace("volume 300 L", "volume 300 L\n  role breeding"))).toEqual([]);
    expect(said(`${log}\n2026-03-11\n  dam sell praecox 5`)).toEqual([]);
  });

  it("of an estimate may be a fifth more", () => {
    const about = (animals: number) =>
      said(`${species}tank dam\n  volume 300 L\n2026-03-01\n  dam count praecox ~${animals}`);
    expect([about(7).length, about(6).length]).toEqual([0, 1]);
  });
});

describe("what a tank holds", () => {
  const tank = (holds: string, ...entries: string[]) =>
    said(`${species}tank dam\n  volume 60 L\n  holds ${holds}\n2026-03-01\n  ${entries.join("\n  ")}`);

  it.each([
    ["10", ["dam arrive praecox 11"], "11 animals are in dam; it holds 10 at most, as stated"],
    [
      "20 g",
      ["dam arrive praecox 9"],
      "animals that weigh 22.5 g are in dam; it holds 20 g at most, as stated",
    ],
    [
      "0.4 g/L",
      ["dam arrive praecox 12"],
      "animals that weigh 0.5 g/L are in dam; it holds 0.4 g/L at most, as stated",
    ],
    [
      "20 g",
      ["dam arrive praecox 9", "dam condition praecox weight 3 g"],
      "animals that weigh 27 g are in dam; it holds 20 g at most, as stated",
    ],
  ])("%s with %j", (holds, entries, message) => {
    expect(tank(holds, ...entries)).toEqual([`2026-03-01 stock/over-capacity: ${message}`]);
  });

  it.each([
    ["10", ["dam arrive praecox 10"]],
    ["10", ["dam count praecox ~12"]],
    ["20 g", ["dam arrive praecox 8"]],
    // Half as long weighs an eighth.
    ["20 g", ["dam arrive praecox 40", "dam condition praecox length 3 cm"]],
    // What nobody weighed is left out.
    ["20 g", ["dam arrive cherry 400"]],
  ])("%s bears %j", (holds, entries) => {
    expect(tank(holds, ...entries)).toEqual([]);
  });
});

describe("species that should be apart", () => {
  const log = `${species}tank dam
  volume 300 L
2026-03-01
  dam arrive cherry 20
2026-03-05
  dam arrive praecox 10
2026-03-08
  dam lose cherry 2 found`;

  it("are told where they came together, and no more once they are apart", () => {
    expect(said(log)).toEqual([
      "2026-03-05 stock/apart: praecox should not be kept with shrimp (cherry), as stated; both live in dam",
    ]);
    expect(said(`${log}\n2026-03-09\n  dam lose cherry 18 missing`)).toEqual([]);
  });
});
