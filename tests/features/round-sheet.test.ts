import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { roundSheet } from "../../language/features/round-sheet.ts";
import { roundSheetHtml } from "../../language/features/round-sheet-html.ts";
import { writeRound } from "../../language/features/write-day.ts";
import { arbitraryLog, textOf } from "../support/arbitrary-log.ts";
import { viewOf } from "../support/cursor.ts";
import { findingsOf, lastDay, logbookOf } from "../support/marked.ts";

const room = `room "Shed"
  quarantine 28 d
  clear 14 d
  trace 30 d
species praecox
species cherry
  kind shrimp
remedy prazi
  target 2 mg/L
  repeat 3 times every 7 d
  change-before 25 %
  withdrawal 7 d
tank q1
  volume 50 L
  role quarantine
tank dam "Show"
  volume 100 L
  every 7 d change 25..35 %
  every 7 d test nitrate, pH
tank b1
  volume 60 L
tank h1
  volume 20 L
  role hospital
system rack-water
  sump 20 L
  every 7 d test nitrate
tank r1
  volume 20 L
  system rack-water
tank r2
  volume 20 L
  system rack-water
`;
const log = `2026-03-01
  dam test nitrate 18, pH 7.2
  dam change 30 %
  b1 test temperature 24.6
  q1 arrive praecox 8
  b1 arrive praecox 2
  r1 count cherry 20
  rack-water test nitrate <5
  h1 dose prazi 2 mg/L
2026-03-07
  q1 move praecox 2 -> dam with net
  q1 sick praecox 1 of 6 case flukes-1
2026-03-08
  room note "x"
`;
const on = (text: string, day: string) => roundSheet(logbookOf(text), dayOf(day));

describe("a round sheet", () => {
  test("has every tank in the order of hands, what is due, and what to do before the dirtier", () => {
    const { rows, title, day } = on(room + log, "2026-03-08");
    expect([title, day]).toEqual(["Shed", dayOf("2026-03-08")]);
    expect(rows.map(({ at, acts }) => [at, ...acts])).toEqual([
      ["rack-water"],
      ["r1"],
      ["r2"],
      ["dam", "change 25..35 % (25 to 35 L)"],
      ["b1"],
      ["q1"],
      ["h1", "change 25 % first", "dose prazi"],
    ]);
    const flags = Object.fromEntries(rows.map((row) => [row.at, row.flags]));
    expect(flags.dam![0]).toMatch(/^HELD: flukes-1$/);
    expect(flags.q1).toEqual(["SICK: case flukes-1 is open", "quarantine day 8 of 28"]);
    expect(flags.h1).toEqual(["prazi in the water: no shipping"]);
    expect(flags.r2).toEqual(["shrimp: no copper"]);
    expect(rows.filter(({ before }) => before !== "").map(({ at }) => at)).toContain("q1");
  });

  test("has a box with the last value for what is tested there, of shared water once", () => {
    const { heads, rows } = on(room + log, "2026-03-08");
    expect(heads.map(({ parameter, unit }) => `${parameter.name} ${unit}`)).toEqual([
      "temperature C",
      "pH ",
      "nitrate mg/L",
    ]);
    expect(rows.filter(({ boxes }) => boxes.some((box) => box !== undefined))).toMatchObject([
      { at: "rack-water", boxes: [undefined, undefined, "<5"] },
      { at: "dam", boxes: [undefined, "7.2", "18"] },
      { at: "b1", boxes: ["24.6", undefined, undefined] },
    ]);
    // A duty asks for it though it never was read; a reading of long ago does not.
    const later = on(room + log.replaceAll("2026-03", "2025-03"), "2026-03-08");
    expect(later.heads.map(({ parameter }) => parameter.name)).toEqual(["pH", "nitrate"]);
  });

  test("says of what it has no column", () => {
    const many = `tank dam\n  every 7 d test temperature, pH, KH, GH, ammonia, nitrite, nitrate, oxygen\n`;
    const { heads, left } = on(`${many}2026-03-01\n  dam clean\n`, "2026-03-01");
    expect(heads).toHaveLength(6);
    expect(left).toHaveLength(2);
  });

  test("as a page escapes what a log holds, and has boxes to tick", () => {
    const page = roundSheetHtml([on(room.replace('"Show"', '"<i>&"') + log, "2026-03-08")]);
    expect(page).toContain("&#60;i&#62;&#38;");
    expect(page).not.toContain("<i>");
    expect(page).toContain('<span class="tick"></span>change</span> 25..35 % (25 to 35 L)');
    expect(page).not.toContain("<script");
    expect(roundSheetHtml([on("", "2026-03-08")])).toContain("No tank is defined yet.");
  });
});

test("two dozen tanks are planned to the height of one side, with rows for wet hands", () => {
  const tanks = Array.from({ length: 24 }, (_, at) => `tank t${at}\n  volume 50 L\n`).join("");
  const duties = `group all = t0 .. t23\n  every 1 d clean\n  every 7 d change 25..35 %\n  every 7 d test nitrate, pH\n`;
  const sheet = on(`${tanks}${duties}2026-03-01\n  @all clean\n  t3 sick x 1 case a\n`, "2026-03-09");
  const heights = [...roundSheetHtml([sheet]).matchAll(/height:([\d.]+)mm"/g)].map(([, mm]) => Number(mm));
  expect(heights).toHaveLength(24);
  expect(Math.min(...heights)).toBeGreaterThanOrEqual(8);
  // 297 mm less two margins of 8, less 64 for heads, deaths and notes.
  expect(heights.reduce((sum, mm) => sum + mm, 0)).toBeLessThanOrEqual(217);
});

describe("typing in a round sheet", () => {
  test("writes its heads and rows in its order into today, the boxes as places to go through", () => {
    const written = writeRound(viewOf(room + log, undefined, "2026-03-08"))!;
    expect(written.edits).toEqual([]);
    expect(written.snippet.replace(/\$\{(\d):-\}/g, "<$1>")).toBe(
      [
        "",
        "  sheet         temperature  pH  nitrate",
        "    rack-water  -            -   <1>",
        "    dam         -            <2>   <3>",
        "    b1          <4>            -   -",
        "  $0",
      ].join("\n"),
    );
  });

  test("begins today in the same step", () => {
    const text = room + log;
    const written = writeRound(viewOf(text, undefined, "2026-03-09"))!;
    expect(written).toMatchObject({ edits: [], isNewFile: false });
    expect(written.snippet).toMatch(/^\n?2026-03-09\n {2}sheet /);
    const filled = written.snippet.replace("$0", "").replace(/\$\{\d+:-\}/g, "7");
    const made = text.slice(0, written.cursor) + filled + text.slice(written.cursor);
    expect(findingsOf(made).filter(({ code }) => /^(syntax|entry|sheet|value|unit)/.test(code))).toEqual([]);
    expect(made.match(/^2026-03-09$/gm)).toHaveLength(1);
  });

  test("has nothing to write where nothing is tested", () => {
    expect(writeRound(viewOf("tank dam\n2026-03-01\n  dam clean\n"))).toBeUndefined();
  });

  test("of any log has the rows and boxes of the printed sheet, and reads back", () => {
    fc.assert(
      fc.property(arbitraryLog, (arbitrary) => {
        const text = textOf(arbitrary);
        const checked = logbookOf(text);
        const { rows, heads } = roundSheet(checked, lastDay(checked));
        const boxes = rows.flatMap((row) => row.boxes.filter((box) => box !== undefined));
        expect(rows.every((row) => row.boxes.length === heads.length)).toBe(true);
        const page = roundSheetHtml([{ title: "x", day: lastDay(checked), heads, rows, left: [] }]);
        expect(page).not.toMatch(/NaN|undefined|Infinity/);
        const written = writeRound(viewOf(text));
        expect(written === undefined).toBe(boxes.length === 0);
        if (written === undefined) return;
        expect(written.snippet.match(/\$\{\d+:-\}/g)).toHaveLength(boxes.length);
        const filled = written.snippet.replace("$0", "").replace(/\$\{\d+:-\}/g, "7");
        const made = text.slice(0, written.cursor) + filled + text.slice(written.cursor);
        const broken = (log: string): number =>
          findingsOf(log).filter(({ code }) => /^(syntax|entry|sheet|unit)/.test(code)).length;
        expect(broken(made)).toBe(broken(text));
      }),
      { numRuns: 60 },
    );
  });
});
