import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { isoOf } from "../../language/book/dates.ts";
import { wordOf } from "../../language/book/interner.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import type { Finding } from "../../language/checks/finding.ts";
import { laidOut } from "../../language/features/format.ts";
import { simulateCellar } from "../../samples/simulation/run.ts";
import { allSpecies } from "../../samples/simulation/species.ts";

/** A day long after the samples: they state that their today is their last entry. */
const worldDay = Date.parse("2031-01-01") / 86_400_000;

function findingsOf(files: ReadonlyMap<string, string>): Finding[] {
  const checked = new CheckedLogbook();
  for (const [path, text] of files) checked.set(path, text);
  return checked.findings(worldDay);
}

/** Where a finding stands: the date of its day or the head of its definition, and its code. */
function placeOf({ block, code }: Finding): string {
  const head = Number.isNaN(block.day)
    ? block.text.split("\n")[0]!.replace(/ ["=].*$/, "")
    : isoOf(block.day);
  return `${head} ${code}`;
}

describe("what the tool finds in the cellar is what there is to find, and nothing else", () => {
  const findings = findingsOf(simulateCellar().files);

  test("each story, once at each line", () => {
    expect(findings.map(placeOf).sort()).toEqual(
      [
        "2025-06-18 limit/above",
        "2025-06-18 limit/above",
        "2025-06-18 water/free-ammonia",
        "2025-06-18 water/free-ammonia",
        "2025-06-19 limit/above",
        "2025-07-09 value/impossible",
        "2025-09-19 quarantine/early",
        "2025-10-04 exposure/moved-out",
        "2025-10-04 exposure/moved-out",
        "2025-10-04 exposure/moved-out",
        "2025-10-15 dose/above-ceiling",
        "2025-10-20 dose/too-early",
        "2026-01-19 loss/room",
        "2026-03-05 loss/room",
        "2026-03-05 loss/run",
        "2026-03-11 dose/missed",
        "2026-03-19 brood/overdue",
        "2026-03-21 quarantine/mixed",
        "2026-03-22 stock/count-differs",
        "2026-03-26 feed/opened-long",
        "2026-03-28 duty/too-often",
        "2026-03-28 feed/grazed",
        "2026-03-28 stock/school",
        "2026-03-30 trend/crosses",
        "2026-03-31 duty/too-often",
        "2026-03-31 stock/over-capacity",
        "food larvae feed/running-out",
        "gear canister duty/overdue",
        "gear worm-tub duty/overdue",
        "group breeders duty/overdue",
        "group young duty/overdue",
        "order o-27 order/short",
        "species furcatus feed/short",
      ].sort(),
    );
  });

  test("the only error is the slip of the finger", () => {
    expect(findings.filter(({ severity }) => severity === "error").map(placeOf)).toEqual([
      "2025-07-09 value/impossible",
    ]);
  });

  test("they say which tank, how much and since when", () => {
    const said = (place: string) =>
      findings.filter((each) => placeOf(each) === place).map(({ message }) => message);
    expect(said("gear canister duty/overdue")[0]).toMatch(/19 days late.*12 February/);
    expect(said("group breeders duty/overdue")[0]).toMatch(/b4.*6 days late/);
    expect(said("group young duty/overdue")[0]).toMatch(/b6.*4 days late/);
    expect(said("2025-09-19 quarantine/early")[0]).toMatch(/18 of 28 days/);
    expect(said("2025-10-15 dose/above-ceiling")[0]).toMatch(/5\.73 mg\/L/);
    expect(said("2026-03-11 dose/missed")[0]).toMatch(/2 of 3 doses.*18 March/);
    expect(said("2026-03-22 stock/count-differs")[0]).toMatch(/2 unaccounted/);
    expect(said("2026-03-05 loss/run")[0]).toMatch(/5 gertrudae died in sill in 14 days, 0 in the 90 before/);
    expect(said("2026-03-28 stock/school")[0]).toMatch(/4 praecox are in r9.*6 at least/);
    expect(said("2026-03-31 stock/over-capacity")[0]).toMatch(/ford.*65 g/);
    expect(said("species furcatus feed/short")[0]).toMatch(/q1: live not once/);
    expect(said("gear worm-tub duty/overdue")[0]).toMatch(/8 days late.*16 March/);
  });

  test("nitrate of the ford is said to pass its limit within three weeks", () => {
    const { message } = findings.find(({ code }) => code === "trend/crosses")!;
    const [, day, month] = /about (\d+) (\w+)/.exec(message)!;
    const ahead = (Date.parse(`${day} ${month} 2026 UTC`) - Date.parse("2026-03-31")) / 86_400_000;
    expect(ahead).toBeGreaterThan(0);
    expect(ahead).toBeLessThanOrEqual(21);
  });
});

describe("the cellar's book at the end", () => {
  const { files, cellar } = simulateCellar();
  const checked = new CheckedLogbook();
  for (const [path, text] of files) checked.set(path, text);
  checked.refresh();

  test("has every animal that is counted one by one where it is", () => {
    // The short count of b2 is a story, and fry in b6 are about so many.
    const tanks = checked.book.tanks.filter(({ name }) => name !== "b2" && name !== "b6");
    const exact = new Set(allSpecies.flatMap(({ name, uncounted }) => (uncounted ? [] : [name])));
    const booked = checked.logbook.ledgers.flatMap((ledger) =>
      tanks.flatMap(({ id, name }) =>
        ledger.stock.in(id).map(({ species, animals }) => `${name} ${wordOf(species)} ${animals}`),
      ),
    );
    const there = tanks.flatMap(({ name }) =>
      cellar.stock
        .speciesIn(name)
        .map((species) => `${name} ${species} ${cellar.stock.there(name, species)}`),
    );
    const counted = (lines: readonly string[]) =>
      lines.filter((line) => exact.has(line.split(" ")[1]!)).sort();
    expect(counted(booked)).toEqual(counted(there));
  });
});

test("both samples stand as the formatter lays them out", () => {
  for (const folder of ["cellar", "first-day"]) {
    const url = new URL(`../../samples/${folder}/`, import.meta.url);
    for (const name of readdirSync(url)) {
      const text = readFileSync(new URL(name, url), "utf8");
      expect(laidOut(text), name).toBe(text);
    }
  }
});

test("the logbook to begin with has nothing to find", () => {
  const text = readFileSync(new URL("../../samples/first-day/logbook.tank", import.meta.url), "utf8");
  expect(findingsOf(new Map([["logbook.tank", text]])).map(placeOf)).toEqual([]);
});
