import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { nextUint32, type State, Stream } from "../../samples/simulation/random.ts";
import { simulateCellar } from "../../samples/simulation/run.ts";
import { readLog } from "./read-log.ts";

const folder = new URL("../../samples/cellar/", import.meta.url);
const simulated = simulateCellar();
const lines = readLog(simulated.files);

describe("the sample room is what the simulation writes", () => {
  test("byte for byte, and no file more", () => {
    const there = readdirSync(folder).sort();
    expect(there).toEqual([...simulated.files.keys()].sort());
    for (const name of there) {
      expect(readFileSync(new URL(name, folder), "utf8"), name).toBe(simulated.files.get(name));
    }
  });

  test("the same every time", () => {
    expect([...simulateCellar().files]).toEqual([...simulated.files]);
  });
});

describe("its size", () => {
  test("24 tanks: three to look at, nine to breed, rear and keep apart, twelve on one sump", () => {
    const tanks = simulated.files.get("tanks.tank")!;
    expect(tanks.match(/^tank /gm)).toHaveLength(24);
    expect(tanks.match(/^ {2}role +show$/gm)).toHaveLength(3);
    expect(tanks.match(/^ {2}role +(breeding|grow-out|quarantine|hospital)$/gm)).toHaveLength(9);
    expect(tanks.match(/^ {2}system +rack-water$/gm)).toHaveLength(12);
  });

  test("about six and a half thousand entries, by a second count", () => {
    expect(lines.length).toBe(simulated.entries);
    expect(lines.length).toBeGreaterThanOrEqual(6300);
    expect(lines.length).toBeLessThanOrEqual(6800);
  });

  test("a file a month, each with its own days in order, from the first day to the last", () => {
    const months = [...simulated.files.keys()].filter((name) => /^\d/.test(name)).sort();
    expect(months).toHaveLength(12);
    for (const name of months) {
      const dates = simulated.files.get(name)!.match(/^\d{4}-\d{2}-\d{2}/gm)!;
      expect(dates).toEqual([...new Set(dates)].sort());
      for (const date of dates) expect(`${date.slice(0, 7)}.tank`).toBe(name);
    }
    expect(lines[0]!.date).toBe("2025-04-01");
    expect(lines.at(-1)!.date).toBe("2026-03-31");
  });

  test("a day a person could have worked: 12 to 24 entries on nine days of ten", () => {
    const days = [...simulated.entriesOfDay.values()];
    const usual = days.filter((entries) => entries >= 12 && entries <= 24);
    expect(usual.length / days.length).toBeGreaterThan(0.9);
    expect(Math.max(...days)).toBeLessThanOrEqual(28);
  });
});

describe("what is said", () => {
  test("a text of more than six words is written once", () => {
    const texts = lines.flatMap(({ text }) =>
      text === undefined || text.split(" ").length <= 6 ? [] : [text],
    );
    expect(texts.length).toBeGreaterThan(250);
    expect(texts.length).toBe(new Set(texts).size);
  });

  test("a note has something to say", () => {
    for (const { kind, text, whole } of lines) if (kind === "note") expect(text, whole).toBeTruthy();
  });

  test("no line of the log is longer than the eye follows", () => {
    for (const { whole } of lines) expect(whole.length, whole).toBeLessThanOrEqual(130);
  });
});

describe("the generator", () => {
  test("xoshiro128** from the state 1, 2, 3, 4, by hand", () => {
    const state: State = [1, 2, 3, 4];
    // rotl(2 * 5, 7) * 9 = 1280 * 9. Then s2 = 3 ^ 1 = 2, s3 = 4 ^ 2 = 6, s1 = 2 ^ 2 = 0, s0 = 1 ^ 6 = 7: s1 = 0 gives 0.
    expect(nextUint32(state)).toBe(11520);
    expect(nextUint32(state)).toBe(0);
  });

  test("streams of other names go other ways, and a stream is the same again", () => {
    const draws = (name: string) =>
      Array.from(
        { length: 5 },
        (
          (stream) => () =>
            stream.whole(0, 1e6)
        )(new Stream(name)),
      );
    expect(draws("a")).toEqual(draws("a"));
    expect(draws("a")).not.toEqual(draws("b"));
  });

  test("even and nearly normal draws have the mean and spread they should", () => {
    const stream = new Stream("test");
    const noise = Array.from({ length: 20000 }, () => stream.noise());
    const mean = noise.reduce((sum, value) => sum + value, 0) / noise.length;
    const variance = noise.reduce((sum, value) => sum + (value - mean) ** 2, 0) / noise.length;
    // Four standard errors: 1/sqrt(20000) for the mean, sqrt(2/20000) for the variance.
    expect(Math.abs(mean)).toBeLessThan(0.029);
    expect(Math.abs(variance - 1)).toBeLessThan(0.04);
  });
});
