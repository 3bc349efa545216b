import { describe, expect, test } from "vitest";
import type { FigureKind } from "../../language/features/figures/row.ts";
import { type HintOptions, inlayHints } from "../../language/features/hints.ts";
import { cellarView } from "../support/cellar.ts";
import { atCursor, viewOf } from "../support/cursor.ts";

const room = `room "Cellar"
  quarantine 28 d
water tap
  content nitrate 4 mg/L
species praecox
species horn
  kind snail
remedy prazi
  target 2 mg/L
  ceiling 5 mg/L
  repeat 3 times every 7 d
tank dam
  volume 310 L
  limits nitrate <= 40 mg/L
tank q1
  volume 50 L
  role quarantine
system rack-water
  sump 90 L
tank r1
  volume 24 L
  system rack-water
tank r2
  volume 24 L
  system rack-water
group rack = r1 .. r2
group own = dam, q1
`;

/** The hints of a log, as their lines with the hint behind them. */
function hints(days: string, options?: HintOptions): string[] {
  const view = viewOf(`${room}${days}`);
  const { text } = view.source;
  return inlayHints(view, 0, text.length, options).map(({ offset, label }) => {
    const start = text.lastIndexOf("\n", offset - 1) + 1;
    return `${text.slice(start, offset).trim().replace(/\s+/g, " ")} | ${label}`;
  });
}

const labels = (days: string): string[] => hints(days).map((hint) => hint.split(" | ")[1]!);

describe("a change of water", () => {
  // 30 % of 310 L; 100 / 310 = 0.3226; 1 - exp(-100 / 310) = 0.2757.
  test("says what is not written: litres of a share, a share of litres, what a flow replaces", () => {
    expect(
      hints("2026-03-01\n  dam change 30 %\n  dam change 100 L\n  dam change 100 L flow from tap at 24 C"),
    ).toEqual([
      "dam change 30 % | 93 L",
      "dam change 100 L | 32 %",
      "dam change 100 L flow from tap at 24 C | replaces 28 %",
    ]);
  });

  // Sump and two tanks: 90 + 24 + 24 = 138 L. Half of r1 is 12 L, 12 / 138 = 0.08696.
  test("of one tank in shared water says its share of all of it", () => {
    expect(labels("2026-03-01\n  r1 change 50 %\n  rack-water change 50 %")).toEqual([
      "12 L, 8.7 % of rack-water",
      "69 L",
    ]);
  });

  // Of shared water one change: half of 24 + 24 L. Of tanks with their own: half of 310 and of 50 L.
  test("of a group says what it comes to", () => {
    expect(labels("2026-03-01\n  @rack change 50 %\n  @own change 50 %")).toEqual([
      "24 L, 17 % of rack-water",
      "2 tanks, 180 L",
    ]);
  });

  // 2 mg/L a day: 26 at the start of the fourth day, 29 at noon of the fifth; 29 x 0.6 + 4 x 0.4 = 19.
  const tests = `2026-03-01
  dam test nitrate 20
2026-03-02
  dam test nitrate 22
2026-03-03
  dam test nitrate 24
2026-03-04
  dam test nitrate 26
2026-03-05
  12:00 dam change 40 %
`;
  test("says what it did to nitrate, if a level is known", () => {
    expect(labels(tests).at(-1)).toBe("124 L · nitrate 29 → 19 mg/L");
  });
  test("and is not told otherwise by what comes after it", () => {
    const later = "2026-03-06\n  dam test nitrate 60\n2026-03-07\n  dam test nitrate 5\n  dam change 90 %\n";
    expect(labels(tests + later)).toContain("124 L · nitrate 29 → 19 mg/L");
  });
});

describe("a test", () => {
  // From 10 to 20 in ten days with nothing changed: 1 mg/L a day, every pair of readings says so.
  const daily = (count: number): string =>
    Array.from(
      { length: count },
      (_, at) => `2026-03-${String(at + 1).padStart(2, "0")}\n  dam test nitrate ${10 + at}\n`,
    ).join("");
  test("says the production a day once the readings tell it", () => {
    expect(labels(daily(8)).at(-1)).toBe("+1 mg/L a day");
  });
  test("before that what changed since the last", () => {
    expect(labels(daily(2))).toEqual(["+1 mg/L since 1 March"]);
  });
  test("names the parameter where the line has several", () => {
    expect(
      labels("2026-03-01\n  dam test pH 7.4, nitrate 20\n2026-03-08\n  dam test pH 7.2, nitrate 15"),
    ).toEqual(["nitrate -5 mg/L since 1 March"]);
    expect(labels("2026-03-01\n  dam test pH 7.4\n2026-03-08\n  dam test pH 7.2")).toEqual([
      "-0.2 since 1 March",
    ]);
  });
  test("says nothing where nothing changed, of a first reading, or of one that is censored", () => {
    expect(
      labels(
        "2026-03-01\n  dam test nitrate 10\n2026-03-02\n  dam test nitrate 10\n2026-03-03\n  dam test nitrate <5",
      ),
    ).toEqual([]);
  });
  // 0.5 mg/L in 30 L are 15 mg; crystals to tetrathionate 7.00 x 15 = 105 mg, to sulfate 0.875 x 15 = 13 mg; chloramine 0.5 in 30 %
  // of the water leaves 0.5 x 0.3 x 0.19756 = 0.0296 mg/L N.
  test("of new water that holds chlorine says how much, and why says what takes it up and what it leaves", () => {
    const log = `room "R"\nwater mains\n  content chloramine 0.5 mg/L\ntank tub\n  volume 100 L\n2026-03-01\n  tub change 30 %\n`;
    const view = viewOf(log);
    const [hint] = inlayHints(view, 0, log.length);
    expect(hint?.label).toBe("30 L · 15 mg chlorine");
    expect(hint?.tooltip).toMatch(/0\\\.013 to 0\\\.11 g/);
    expect(hint?.tooltip).toMatch(/0\\\.03 mg\\\/L N/);
  });
  test("in a sheet stands behind its row", () => {
    const sheet = (day: string, nitrate: number): string =>
      `${day}\n  sheet  temperature  nitrate\n    dam  24  ${nitrate}   "lamp"  # poor light\n    q1   25  -\n`;
    expect(hints(sheet("2026-03-01", 10) + sheet("2026-03-02", 12))).toEqual([
      'dam 24 12 "lamp" | nitrate +2 mg/L since 1 March',
    ]);
  });

  // pKa = 0.09018 + 2729.92 / 298.15 = 9.24638; 1 / (1 + 10^(9.24638 - 8)) = 0.05366; 0.5 mg/L N of it as NH3 (17.031 / 14.007):
  // 0.5 x 0.05366 x 1.21589 = 0.03262.
  test("says free ammonia where total ammonia, pH and temperature stand in one round", () => {
    expect(labels("2026-03-01\n  dam test temperature 25, pH 8, ammonia 0.5 mg/L N")).toEqual([
      "free ammonia 0.033 mg/L NH3, stress from 0.02",
    ]);
    expect(
      labels("2026-03-01\n  dam test ammonia <0.1 mg/L N\n  dam test pH 8\n  dam test temperature 25"),
    ).toEqual(["free ammonia <0.0065 mg/L NH3"]);
    expect(labels("2026-03-01\n  dam test ammonia 0.5 mg/L N, pH 8\n  q1 test temperature 25")).toEqual([]);
  });
});

describe("a dose", () => {
  // 100 mg in 50 L; half of it changed; 100 mg more: 2 x 0.5 + 2 = 3.
  test("says what is in the water now, and which of the course it is", () => {
    expect(
      labels("2026-03-01\n  q1 dose prazi 100 mg\n2026-03-08\n  q1 change 50 %\n  q1 dose prazi 100 mg"),
    ).toEqual(["2 mg/L in the water · dose 1 of 3", "25 L", "3 mg/L in the water · dose 2 of 3"]);
  });
  // 300 mg in 310 L: 0.968; in 50 L: 6.
  test("for a group says the least and the most", () => {
    expect(labels("2026-03-01\n  @own dose prazi 300 mg")).toEqual([
      "0.968..6 mg/L in the water · dose 1 of 3",
    ]);
  });
  test("that cannot be computed has a finding and no hint", () => {
    expect(labels("2026-03-01\n  q1 dose prazi 5 mL")).toEqual([]);
  });
});

describe("animals", () => {
  test("a count is held against the book", () => {
    expect(
      hints(`2026-03-01
  dam count praecox 14, horn ~20
2026-03-08
  dam count praecox 14
  dam count praecox 12
  dam count praecox 12, horn ~18
  dam count praecox 13, horn 18
  dam count praecox 11 of 13
  dam count praecox 12..15`),
    ).toEqual([
      "dam count praecox 14 | = book",
      "dam count praecox 12 | 2 fewer than the book",
      "dam count praecox 12, horn ~18 | praecox = book, horn book 20",
      "dam count praecox 13, horn 18 | praecox 1 more than the book, horn = book",
      "dam count praecox 11 of 13 | 2 not seen",
      "dam count praecox 12..15 | = book",
    ]);
  });
  test("who leaves leaves so many behind, and comes to so many", () => {
    expect(
      hints(`2026-03-01
  dam count praecox 14, horn 3
  r1 count praecox 2
2026-03-02
  dam move praecox 4 -> r1
  dam lose praecox 1 found
  dam sell praecox 2, horn 3
  r2 lose horn 1`),
    ).toEqual([
      "dam move praecox 4 -> r1 | 10 left, 6 in r1",
      "dam lose praecox 1 found | 9 left",
      "dam sell praecox 2, horn 3 | praecox 7 left, horn none left",
    ]);
  });
  // The first day and 28 more.
  test("an arrival says how long its quarantine lasts, and how many there are now", () => {
    expect(
      hints(
        "2026-03-01\n  q1 arrive praecox 8\n  q1 arrive praecox 2\n  dam hatch praecox 5\n  dam hatch praecox ~5",
      ),
    ).toEqual([
      "q1 arrive praecox 8 | quarantine until 29 March",
      "q1 arrive praecox 2 | quarantine until 29 March · 10 now",
      "dam hatch praecox ~5 | 10 now",
    ]);
  });
  test("a top-up, a meal, a note and the head of a day say nothing", () => {
    expect(hints('2026-03-01 "spring"\n  dam top-up 4 L\n  dam feed flake\n  dam note "quiet"')).toEqual([]);
  });
});

describe("hints", () => {
  const day = `2026-03-01
  dam change 30 %    # in the evening
  dam count praecox 4
2026-03-02
  dam count praecox 4
  q1 dose prazi 100 mg
`;
  test("stand behind the last word, before a comment", () => {
    const view = viewOf(room + day);
    const [first] = inlayHints(view, 0, view.source.text.length);
    expect(view.source.text.slice(first!.offset - 4, first!.offset + 5)).toBe("30 %    #");
  });
  test("can be switched off, all or each kind", () => {
    expect(hints(day, { enabled: false })).toEqual([]);
    const without = (...off: FigureKind[]): string[] =>
      hints(day, { off: new Set(off) }).map((hint) => hint.split(" | ")[1]!);
    expect(without("dose")).toEqual(["93 L", "= book"]);
    expect(without("change", "count")).toEqual(["2 mg/L in the water · dose 1 of 3"]);
  });
  test("are not on the line that is typed", () => {
    for (const log of [
      `${room}2026-03-01\n  dam change 30 %¦`,
      `${room}2026-03-01\n ¦ dam change 30 %`,
      `${room}2026-03-01\n  dam change 30 %   ¦\n  dam note "x"`,
    ]) {
      const { view, offset } = atCursor(log);
      expect(inlayHints(view, 0, view.source.text.length, { activeOffset: offset })).toEqual([]);
    }
    const { view, offset } = atCursor(`${room}2026-03-01\n  dam change 30 %\n¦  dam note "x"`);
    expect(inlayHints(view, 0, view.source.text.length, { activeOffset: offset })).toHaveLength(1);
  });
  test("are those of the lines in sight", () => {
    const view = viewOf(room + day);
    const at = view.source.text.indexOf("q1 dose");
    expect(inlayHints(view, at, at + 3).map(({ kind }) => kind)).toEqual(["dose"]);
  });
  test("follow an edit", () => {
    const view = viewOf(`${room}2026-03-01\n  dam test nitrate 10\n2026-03-02\n  dam test nitrate 14\n`);
    const label = (): string | undefined => inlayHints(view, 0, view.source.text.length)[0]?.label;
    expect(label()).toBe("+4 mg/L since 1 March");
    const at = view.source.text.indexOf("10\n");
    view.checked.take(view.source.edit(at, at + 2, "11"));
    expect(label()).toBe("+3 mg/L since 1 March");
  });
  test("say in their tooltip why", () => {
    const view = viewOf(`${room}2026-03-01\n  dam change 100 L flow`);
    const [hint] = inlayHints(view, 0, view.source.text.length);
    expect(hint!.tooltip.split("\n")).toEqual([
      "**100 L\\, 27\\.6 \\% of the water is new** change of 1 March 2026 in dam",
      "- `f = 1 - exp(-V / V0)`",
      "- *Steffensen 1989\\, Fish Physiol\\. Biochem\\. 6\\:49\\-59\\, eq\\. 5*",
      "- `2026-03-01 dam change 100 L flow`",
      "- net volume of dam: 310 L",
      "    - `stated: volume 310 L`",
    ]);
  });
});

describe("in the sample room", () => {
  const view = cellarView("2026-03.tank");
  const { text } = view.source;
  const shown = inlayHints(view, 0, text.length);
  const behind = (words: string): string | undefined => {
    const at = text.indexOf(words) + words.length;
    return shown.find(({ offset }) => offset === at)?.label;
  };
  test("the two that are missing show", () => {
    expect(behind('b2         count gertrudae 14 "twice, two short"')).toBe("2 fewer than the book");
  });
  // Twelve tanks of 22 L and a sump of 90 L: 354 L; 1 - exp(-110 / 354) = 0.2671.
  test("a flow through the rack replaces its share of all the water", () => {
    expect(behind("rack-water change 110 L flow from tap at 23 C")).toMatch(/^replaces 27 % · nitrate/);
  });
  test("nitrate of the ford rises by more than a milligram a day", () => {
    expect(behind("ford      test nitrate 35")).toMatch(/^\+1\.\d mg\/L a day$/);
  });
  test("every hint is one short line at the end of one", () => {
    expect(shown.length).toBeGreaterThan(100);
    for (const { offset, label, tooltip } of shown) {
      expect(label).toMatch(/^[^\n]{2,60}$/);
      expect(text.slice(offset)).toMatch(/^[ \t]*(#|\r?\n|$)/);
      expect(tooltip).toMatch(/^\*\*/);
    }
  });
});
