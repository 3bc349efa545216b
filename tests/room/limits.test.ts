import { describe, expect, it } from "vitest";
import { Room } from "../support/room.ts";

/** Limits: who states them, and what a reading says against them. */

const room = `room "Cellar"
  units temperature F
  limits nitrate <= 50 mg/L, temperature 64..82, pH 6..8, ammonia <= 0.5 mg/L N
system rack-water
  sump 90 L
  limits nitrate <= 40 mg/L, KH >= 3
tank r1
  volume 24 L
  system rack-water
tank r2
  volume 24 L
  system rack-water
  limits nitrate <= 20 mg/L, temperature 70..75
tank dam
  volume 300 L
group wide = r1, r2, dam
  limits pH 6.5..7.5
group narrow = r1, dam
  limits pH 6.8..7.2
`;

describe("the narrowest statement of a parameter", () => {
  it("wins: tank, then group, then system, then room; of two groups the later", () => {
    const made = new Room(room);
    expect(made.limit("r1", "nitrate")).toBe("-Infinity..40 by system rack-water");
    expect(made.limit("r2", "nitrate")).toBe("-Infinity..20 by tank r2");
    expect(made.limit("dam", "nitrate")).toBe("-Infinity..50 by room");
    expect(made.limit("r2", "pH")).toBe("6.5..7.5 by group wide");
    expect(made.limit("r1", "pH")).toBe("6.8..7.2 by group narrow");
    expect(made.limit("r1", "KH")).toMatch(/^1\.0699.*\.\.Infinity by system rack-water$/);
    expect(made.limit("dam", "KH")).toBe("none");
  });

  it("is in the room's unit where none is written", () => {
    expect(new Room(room).limit("dam", "temperature")).toMatch(/^17\.7{6,}\d*\.\.27\.7{6,}\d* by room$/);
  });

  it("of a parameter that one definition limits twice is its later line", () => {
    const log = "tank dam\n  volume 9 L\n  limits nitrate <= 50 mg/L\n  limits nitrate <= 40 mg/L";
    expect(new Room(log).limit("dam", "nitrate")).toBe("-Infinity..40 by tank dam");
  });
});

describe("a reading", () => {
  const said = (entry: string): string[] =>
    new Room(`${room}2026-03-01\n  ${entry}`).findings("limit/", "value/");

  it("at its limit is within it, in whatever unit it was written", () => {
    expect(said("dam test temperature 64, nitrate 50")).toEqual([]);
    expect(said("dam test temperature 82")).toEqual([]);
    expect(said("dam test ammonia 0.5 mg/L")).toEqual([]);
  });

  it("above or below is said in the room's unit", () => {
    expect(said("dam test temperature 63")).toEqual([
      "limit/below: temperature 63 F in dam is below its limit: 64..82 F",
    ]);
    expect(said("dam test temperature 28 C")).toEqual([
      "limit/above: temperature 82.4 F in dam is above its limit: 64..82 F",
    ]);
    expect(said("dam test nitrate 12 mg/L N")).toEqual([
      "limit/above: nitrate 53.1 mg/L in dam is above its limit: at most 50 mg/L",
    ]);
  });

  it("that is censored tells only what it can", () => {
    expect(said("dam test nitrate <50")).toEqual([]);
    expect(said("dam test nitrate <80")).toEqual([
      "limit/unsure: nitrate <80 mg/L in dam: this reading cannot tell whether the limit holds (at most 50 mg/L)",
    ]);
    expect(said("dam test nitrate >50")).toHaveLength(1);
    expect(said("dam test nitrate >60")[0]).toContain("limit/above");
    expect(said("dam test pH <5")).toEqual(["limit/below: pH <5 in dam is below its limit: 6.8..7.2"]);
    expect(said("dam test temperature <60 F")[0]).toContain("limit/below");
  });

  it("of the system is held against the strictest of its tanks", () => {
    expect(said("rack-water test nitrate 25")).toEqual([
      "limit/above: nitrate 25 mg/L in rack-water is above its limit: at most 20 mg/L",
    ]);
    expect(said("r1 test nitrate 25")).toEqual([]);
    expect(said("rack-water test pH 6.7")[0]).toContain("limit/below");
  });

  it("of a group in shared water is held against the limit of each of its tanks", () => {
    expect(said("@wide test nitrate 25").map((text) => text.slice(0, 45))).toEqual([
      "limit/above: nitrate 25 mg/L in r2 is above i",
    ]);
  });
});

describe("what cannot be", () => {
  const said = (entry: string, head = ""): string[] =>
    new Room(`${head}tank dam\n  volume 9 L\n2026-03-01\n  ${entry}`).findings("value/");

  it("is left out, and what was meant is offered in the unit it was written in", () => {
    expect(said("dam test pH 72")).toEqual([
      "value/impossible: pH 72 in dam cannot be (2..12); did you mean 7.2?",
    ]);
    expect(said("dam test temperature 764 F")).toEqual([
      "value/impossible: temperature 764 F in dam cannot be (0..45 C); did you mean 76.4?",
    ]);
    expect(
      new Room("tank dam\n  volume 9 L\n2026-03-01\n  dam test pH 72, nitrate 5").readings("dam", "pH"),
    ).toEqual([]);
  });

  it("is nearest to the last reading where several are possible", () => {
    expect(said("dam test temperature 24.5\n  dam test temperature 246")[0]).toContain("did you mean 24.6?");
  });

  it("is so at either end of a range, and for a censored reading", () => {
    expect(said("dam test pH 7..72")).toHaveLength(1);
    expect(said("dam test pH <72")).toHaveLength(1);
    expect(said("dam test nitrate -5")).toHaveLength(1);
    expect(said("dam test redox -120 mV")).toEqual([]);
  });
});
