import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { freeAmmoniaMgLN } from "../../language/science/ammonia.ts";
import { simulateCellar } from "../../samples/simulation/run.ts";
import { toFind } from "../../samples/simulation/stories/to-find.ts";
import { readLog } from "./read-log.ts";

const { files } = simulateCellar();
const lines = readLog(files);
const readme = readFileSync(new URL("../../samples/README.md", import.meta.url), "utf8");

describe("what there is to find stands in the files, and in the list of them", () => {
  test.each(toFind)("$what in $tank on $on", ({ on, tank, line }) => {
    expect(lines.some(({ date, whole }) => date === on && line.test(whole))).toBe(true);
    const items = readme.split("\n- ").filter((item) => item.startsWith(`\`${tank}\`:`));
    expect(items.some((item) => item.includes(on))).toBe(true);
  });

  test.each([
    ["dam", /service canister/],
    ["b4", /change/],
    ["b6", /change/],
    ["q1", /dose praziquantel/],
  ])("%s: nothing of the kind comes later", (tank, line) => {
    const last = toFind.find(
      (each) => each.tank === tank && line.test(String(each.line).replace(" +", " ")),
    )!;
    const later = lines.filter(
      ({ date, target, kind, words }) => date > last.on && target === tank && line.test(`${kind} ${words}`),
    );
    expect(later).toEqual([]);
  });
});

describe("doses", () => {
  const volumesL: Readonly<Record<string, number>> = { q1: 63, b3: 45, h1: 22 };
  const doses = lines.filter(({ kind, words }) => kind === "dose" && words.startsWith("praziquantel"));

  test("one of praziquantel is above 5 mg/L, all others are 2 mg/L", () => {
    const concentrations = doses.map(
      ({ target, words }) => Number.parseFloat(words.split(" ")[1]!) / volumesL[target]!,
    );
    expect(concentrations.filter((mgL) => mgL > 5)).toHaveLength(1);
    expect(concentrations.filter((mgL) => mgL <= 5).every((mgL) => mgL === 2)).toBe(true);
  });

  test("one repeat comes after four days, all others after seven, each with a change between", () => {
    const gaps: number[] = [];
    for (const [at, dose] of doses.entries()) {
      const before = doses.slice(0, at).findLast(({ target }) => target === dose.target);
      const days = before === undefined ? 99 : (Date.parse(dose.date) - Date.parse(before.date)) / 86_400_000;
      if (days > 20) continue;
      gaps.push(days);
      const changed = lines.some(
        ({ kind, target, date }) =>
          kind === "change" && target === dose.target && date > before!.date && date <= dose.date,
      );
      expect(changed, dose.whole).toBe(true);
    }
    expect(gaps.filter((days) => days === 4)).toHaveLength(1);
    expect(gaps.filter((days) => days !== 4).every((days) => days === 7)).toBe(true);
  });
});

test("after the sponges were washed free ammonia passes 0.02 mg/L", () => {
  const { words } = lines.find(
    ({ date, target, kind }) => date === "2025-06-18" && target === "b7" && kind === "test",
  )!;
  const [temperatureC, pH, ammoniaMgLN] = ["temperature", "pH", "ammonia"].map((name) =>
    Number(new RegExp(`${name} ([\\d.]+)`).exec(words)![1]),
  );
  expect(freeAmmoniaMgLN(ammoniaMgLN!, pH!, temperatureC!)).toBeGreaterThan(0.02);
});

test("the case is one thread: signs, bath, samples and their way, questions, result, doses, close", () => {
  const kinds = lines.filter(({ words }) => words.includes("flukes-1")).map(({ kind }) => kind);
  const first = "sick sick bath lose sample sample sample ask ask send send send sick lose result";
  expect(kinds).toEqual([...first.split(" "), ...Array.from({ length: 6 }, () => "dose"), "close"]);
});
