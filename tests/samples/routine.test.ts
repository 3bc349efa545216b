import { describe, expect, test } from "vitest";
import { simulateCellar } from "../../samples/simulation/run.ts";
import { type Line, readLog } from "./read-log.ts";

const { files, cellar } = simulateCellar();
const lines = readLog(files);
const dayNumber = (iso: string) => Date.parse(iso) / 86_400_000;

const range = (letter: string, from: number, until: number) =>
  Array.from({ length: until - from + 1 }, (_, index) => `${letter}${from + index}`);
const groups: Readonly<Record<string, readonly string[]>> = {
  "@show": ["dam", "ford", "sill"],
  "@breeders": range("b", 1, 5),
  "@young": ["b6", "b7"],
  "@fish-row": range("r", 5, 11),
  "@top": range("r", 1, 4),
  "@middle": range("r", 5, 8),
  "@bottom": range("r", 9, 12),
};
const tanksOf = (target: string) => groups[target] ?? [target];
const kinds: Readonly<Record<string, string>> = {
  cyclops: "frozen",
  daphnia: "frozen",
  larvae: "frozen",
  artemia: "frozen",
  flake: "dry",
  granules: "dry",
  "shrimp-stick": "dry",
  nettle: "fresh",
  courgette: "fresh",
  spinach: "fresh",
  nauplii: "live",
  microworm: "live",
  none: "none",
};

/** The days on which a tank was fed a kind, as the lines say. */
function mealsOf(tank: string, kind: string): number[] {
  const isMeal = (line: Line) =>
    line.kind === "feed" && tanksOf(line.target).includes(tank) && kinds[line.words.split(" ")[0]!] === kind;
  return lines.filter(isMeal).map(({ date }) => dayNumber(date));
}

describe("feeding as the species need it", () => {
  const fishTanks = ["dam", "ford", "sill", ...range("b", 1, 5), "b7", ...range("r", 8, 11)];
  const weeks = Array.from({ length: 359 }, (_, index) => dayNumber("2025-04-01") + index);

  test.each(fishTanks)("%s: frozen food three times in any seven days", (tank) => {
    const meals = mealsOf(tank, "frozen");
    for (const first of weeks) {
      const times = meals.filter((day) => day >= first && day < first + 7).length;
      expect(
        times,
        `seven days from ${new Date(first * 86_400_000).toISOString().slice(0, 10)}`,
      ).toBeGreaterThanOrEqual(3);
    }
  });

  test.each([...fishTanks, ...range("r", 5, 7)])(
    "%s: dry food at most twice in seven days, but for the sill in the last ones",
    (tank) => {
      const meals = mealsOf(tank, "dry");
      for (const first of weeks) {
        if (tank === "sill" && first >= dayNumber("2026-03-22")) continue;
        expect(meals.filter((day) => day >= first && day < first + 7).length).toBeLessThanOrEqual(2);
      }
    },
  );

  test("the sill got dry food three times in seven days at the end", () => {
    const meals = mealsOf("sill", "dry").map((day) => day - dayNumber("2026-03-31"));
    expect(meals.filter((day) => day > -9)).toEqual([-7, -5, -3, 0]);
  });

  test.each(["r1", "r2", "r3", "sill"])("%s: something green twice in any eight days", (tank) => {
    const meals = mealsOf(tank, "fresh");
    const away = (first: number) => first > dayNumber("2025-08-01") && first < dayNumber("2025-08-18");
    for (const first of weeks) {
      if (away(first)) continue;
      expect(meals.filter((day) => day >= first && day < first + 8).length).toBeGreaterThanOrEqual(2);
    }
  });
});

describe("the rotation", () => {
  const last = dayNumber("2026-03-31");
  const daysSince = (tank: string, kind: string) =>
    last -
    Math.max(
      ...lines
        .filter((line) => line.kind === kind && tanksOf(line.target).includes(tank))
        .map(({ date }) => dayNumber(date)),
    );

  test("a change is 25 to 50 % of the net volume", () => {
    for (const { kind, target, words, whole } of lines) {
      if (kind !== "change") continue;
      const number = Number.parseFloat(words);
      const share = words.includes("%") ? number / 100 : number / cellar.bodyOf(target).netL;
      expect(share, whole).toBeGreaterThanOrEqual(0.25);
      expect(share, whole).toBeLessThanOrEqual(0.5);
    }
  });

  test("on the last day every tank but two had its change within a week", () => {
    const own = ["dam", "ford", "sill", ...range("b", 1, 7), "q1"];
    const late = own.filter((tank) => daysSince(tank, "change") > 7);
    expect(late).toEqual(["b4", "b6"]);
    expect(daysSince("b4", "change")).toBe(13);
    expect(daysSince("b6", "change")).toBe(11);
  });

  test("and every tank of the rack was cleaned within three days, the water changed within three", () => {
    for (const tank of range("r", 1, 12)) expect(daysSince(tank, "clean"), tank).toBeLessThanOrEqual(3);
    expect(daysSince("rack-water", "change")).toBeLessThanOrEqual(3);
  });

  test("where animals graze only the front glass is wiped", () => {
    for (const { kind, target, words, whole } of lines) {
      if (kind !== "clean" || !["dam", "ford", "sill", "@top"].includes(target)) continue;
      expect(words.split(", "), whole).not.toContain("glass");
    }
  });

  test("one person: no more than seven tanks cleaned on a day", () => {
    const byDay = new Map<string, Set<string>>();
    for (const { kind, target, date } of lines) {
      if (kind !== "clean") continue;
      const tanks = byDay.get(date) ?? new Set();
      for (const tank of tanksOf(target)) tanks.add(tank);
      byDay.set(date, tanks);
    }
    for (const [date, tanks] of byDay) expect(tanks.size, date).toBeLessThanOrEqual(7);
  });
});

describe("tests within the limits", () => {
  const limits: readonly [parameter: string, most: number, except: (line: Line) => boolean][] = [
    ["nitrate", 40, () => false],
    ["ammonia", 0.3, ({ target, date }) => target === "b7" && date >= "2025-06-18" && date <= "2025-06-22"],
    ["nitrite", 0.5, ({ target, date }) => target === "b7" && date >= "2025-06-18" && date <= "2025-06-22"],
  ];

  test.each(limits)("%s", (parameter, most, except) => {
    for (const line of lines) {
      const reading = new RegExp(`(?:^|, )${parameter} <?([\\d.]+)`).exec(line.words)?.[1];
      if (line.kind !== "test" || reading === undefined || except(line)) continue;
      expect(Number(reading), line.whole).toBeLessThanOrEqual(most);
    }
  });
});
