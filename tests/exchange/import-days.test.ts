import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { answersOf, isSameMapping } from "../../language/exchange/import/answers-of.ts";
import { lookAt } from "../../language/exchange/import/import.ts";
import { KnownLog } from "../../language/exchange/import/known-log.ts";
import { mappingText, readMapping } from "../../language/exchange/import/mapping.ts";
import { previewOf } from "../../language/exchange/import/preview.ts";
import { rejectsText } from "../../language/exchange/import/rejects-file.ts";
import { addsUp, imported, logOf, proposed, tableOf } from "./import-support.ts";

/** Where a table says its days: across its heads, in columns apart, once over several rows, without their year. */

const rows = (...lines: string[]): string => `${lines.join("\n")}\n`;
const open = async (table: string, name?: string): Promise<unknown[]> =>
  (await proposed(table, [], name)).questions.map(({ id, asks, hint }) => [id, asks, hint]);

describe("what is open is asked", () => {
  test("the order of dates in heads, their year, what is measured, which tanks", async () => {
    const table = rows("Tank,3/4,3/5", "left,7.2,7.1", "dam,6.9,6.8");
    expect(await open(table, "pH 2026.csv")).toEqual([
      ["date-order", "“3/4” in “Date” may be 3 April (dmy) or 4 March (mdy); no row settles it", ""],
      ["year", "the dates of “Date” have no year; which is it?", "2026 stands in the file's name"],
      ["parameter:Value", "what are the figures below the dates?", ""],
      ["tank:left", "which tank is “left”?", ""],
    ]);
  });

  test("whether an empty date is that of the row above", async () => {
    // The same tank twice below one date: two readings of it, or a date that was forgotten.
    const table = rows("Date,Tank,pH", "2026-03-13,dam,7.2", ",dam,7.1", "2026-03-14,dam,7.2", ",dam,7.3");
    expect(await open(table)).toEqual([
      [
        "fill:Date",
        "of “Date” 50 % of the cells are empty; do they say what the one above them does?",
        "down: as the one above, up to an empty row; none: rows without it are rejected",
      ],
    ]);
    const none = await imported(table, ["fill:Date=none"]);
    expect(none.rejects.map(({ why }) => why)).toEqual([
      "no date: “Date” is empty",
      "no date: “Date” is empty",
    ]);
    expect(addsUp(none)).toBe(true);
  });

  test("which columns say the day, where several do", async () => {
    const table = rows("Date,Sampled,pH", "2026-03-13,2026-03-12,7.2", "2026-03-15,2026-03-14,7.1");
    const { decisions } = await proposed(table);
    expect(decisions.find(({ id }) => id === "date")).toMatchObject({
      value: "Date",
      choices: ["Date", "Sampled"],
    });
    expect((await imported(table, ["tank=dam", "date=Sampled"])).lines[0]).toBe("2026-03-12");
  });
});

test("a date on a line of its own: of one alone it is asked whose it is; rejected rows keep theirs", async () => {
  const table = rows("2026-03-12", "Tank,pH", "dam,7.2", "r2,7", "r3,7", "r1,many");
  expect(await open(table)).toEqual([
    ["date", "“2026-03-12” stands on a line of its own; is it the day of the rows below it?", ""],
  ]);
  await expect(proposed(table, ["date=none"])).rejects.toThrow("no column holds dates");
  const two = `${table}2026-03-14,\nr1,lots\n`;
  const done = await imported(two, []);
  expect(done.lines).toEqual(["2026-03-12", "  dam test pH 7.2", "  r2 test pH 7", "  r3 test pH 7"]);
  const mended = rejectsText(done, "t.csv").replace("\nr1,lots", "\nr1,7");
  expect((await imported(mended, done.mapping, done.files)).lines).toEqual(["2026-03-14", "  r1 test pH 7"]);
});

test("two tables side by side are refused, where their days differ", async () => {
  const table = rows("Date,pH,,Date,KH", "2026-03-13,7.2,,2026-03-14,4", "2026-03-14,7.1,,2026-03-15,5");
  await expect(proposed(table, ["tank=dam"])).rejects.toThrow(
    "two tables stand side by side: “Date” is the head of #1 and of #4, and their days differ; import each as a file of its own",
  );
});

test("dates without a year that go over its end are refused", async () => {
  const table = rows("Datum,pH", "30.12.,7.2", "31.12.,7.2", "1.1.,7.3");
  await expect(proposed(table, ["tank=dam", "year=2026"])).rejects.toThrow(
    "have no year, and from one to the next they go over more than half of one: write the year with them",
  );
});

describe("a kept mapping", () => {
  const tables: readonly (readonly [string, string, readonly string[]])[] = [
    ["heads", rows("Parameter,2026-03-13,2026-03-14,Mean", "pH,7.2,7.1,7.15"), ["tank=dam"]],
    ["parts", rows("Year,Month,Day,Hour,pH", "2026,3,13,8,7.2", "2026,3,14,9,7.1"), ["tank=dam"]],
    ["fill", rows("Date,Tank,pH", "2026-03-13,dam,7.2", ",r1,6.9", ",r2,6.9"), []],
    ["year", rows("Date,pH", "13.3.,7.2", "14.3.,7.2"), ["tank=dam", "year=2026"]],
    ["line", rows("Tank,pH", "2026-03-13,", "dam,7.2", "r1,7"), ["date=above"]],
  ];
  test.each(tables)(
    "of %s: is the same read again, and by the answers that it stands for",
    async (_, table, how) => {
      const { mapping } = await imported(table, how);
      expect(readMapping(mappingText(mapping))).toEqual(mapping);
      const looked = await lookAt(tableOf(table), new KnownLog(logOf().logbook).names);
      const again = looked.propose(answersOf(mapping, looked.survey), true);
      expect(again.questions).toEqual([]);
      expect(isSameMapping(again.mapping!, mapping)).toBe(true);
    },
  );

  test("reads the next table with other dates in its heads, and refuses heads that are none", async () => {
    const { mapping, files } = await imported(tables[0]![1], ["tank=dam"]);
    const next = rows("Parameter,2026-04-13,2026-04-14,2026-04-15,Mean", "pH,7.2,,7.1,7.15");
    expect((await imported(next, mapping, files)).lines).toEqual([
      "2026-04-13",
      "  dam test pH 7.2",
      "2026-04-15",
      "  dam test pH 7.1",
    ]);
    await expect(imported(next.replace("2026-04-14", "later"), mapping)).rejects.toThrow(
      "the head “later” is no date, and the mapping does not leave it out",
    );
    await expect(imported(rows("Parameter,Value", "pH,7.2"), mapping)).rejects.toThrow(
      "the mapping is for a table whose heads are dates from column 2 on, and here no line has such heads",
    );
    const stray = await imported(rows("Parameter,2026-03-13,,Mean", "pH,7.2,9,7"), mapping);
    expect(stray.rejects.map(({ why }) => why)).toEqual(["“9” stands below no date"]);
  });
});

test("a rejected row whose date stands above it is copied with it, and goes in once it is mended", async () => {
  const table = rows("Date;Tank;Note;pH", "2026-03-13;dam;;7.2", ';r1;"a ""b""";many', ";r2;;6.9");
  const done = await imported(table, []);
  const text = rejectsText(done, "t.csv");
  expect(text).toContain('\n2026-03-13;r1;"a ""b""";many\n');
  const again = await imported(text.replace(";many", ";7"), done.mapping, done.files);
  expect(again.lines).toContain("  r1 test pH 7");
  expect(again.rows).toMatchObject({ read: 1, imported: 1 });
});

test("what a broken row would have said for the rows below is not guessed", async () => {
  const table = rows(
    "Date,Tank,pH",
    "2026-03-13,dam,7.2",
    ",r1,6.9",
    '2026-03-14,"da"m",7',
    ",r1,6.9",
    ",r2,6",
  );
  const done = await imported(table, ["fill:Date=down"]);
  expect(done.rejects.map(({ line, why }) => `${line}: ${why}`)).toEqual([
    "4: a quote inside a cell in quotes is not doubled",
    "5: no date: “Date” is empty",
    "6: no date: “Date” is empty",
  ]);
});

test("a row of several days is shown as it stands, with all that it writes", async () => {
  const table = rows("Parameter,2026-03-13,2026-03-14", "pH,7.2,7.1");
  const { mapping } = await imported(table, ["tank=dam"]);
  const shown = await previewOf(tableOf(table), mapping, new KnownLog(logOf().logbook));
  expect(shown).toMatchObject([
    {
      line: 2,
      raw: "pH,7.2,7.1",
      is: "imported",
      day: "2026-03-13",
      lines: ["dam test pH 7.2", "2026-03-14 dam test pH 7.1"],
    },
  ]);
});

test("heads or rows, a date written once or in each row: the same entries, and rows add up", async () => {
  const figure = fc.constantFrom("7.2", "7", "6.85", "", "<7", "~7", "7..7.2");
  const grids = fc.array(fc.array(figure, { minLength: 4, maxLength: 4 }), { minLength: 2, maxLength: 5 });
  const wrong = fc.option(
    fc.record({ tank: fc.nat(4), day: fc.nat(3), says: fc.constantFrom("many", "72", "7.2-7") }),
  );
  await fc.assert(
    fc.asyncProperty(grids, wrong, async (grid, bad) => {
      const tanks = ["dam", "r1", "r2", "r3", "r4"].slice(0, grid.length);
      const dates = ["2026-03-10", "2026-03-11", "2026-03-12", "2026-03-15"];
      const cell = (tank: number, day: number): string =>
        bad !== null && bad.tank === tank && bad.day === day ? bad.says : grid[tank]![day]!;
      const hasBad = bad !== null && bad.tank < tanks.length;
      fc.pre(grid.every((of) => of.filter((each) => each !== "").length > 2));
      const wide = rows(
        `pH,${dates.join(",")}`,
        ...tanks.map((tank, at) => `${tank},${dates.map((_, day) => cell(at, day)).join(",")}`),
      );
      const ofDays = (isOnce: boolean): string =>
        rows(
          "Date,Tank,pH",
          ...dates.flatMap((date, day) =>
            tanks.map((tank, at) => `${isOnce && at > 0 ? "" : date},${tank},${cell(at, day)}`),
          ),
        );
      const [across, each, once] = await Promise.all([
        imported(wide, []),
        imported(ofDays(false), []),
        imported(ofDays(true), ["fill:Date=down"]),
      ]);
      for (const done of [across, each, once]) expect(addsUp(done)).toBe(true);
      expect(once.files).toEqual(each.files);
      expect(once.rows).toEqual(each.rows);
      expect([across.rows.rejected, each.rows.rejected]).toEqual(hasBad ? [1, 1] : [0, 0]);
      // A row is taken whole or not at all: across days that is all of its tank's.
      const without = (lines: readonly string[]): string[] => {
        let day = "";
        return lines.flatMap((line) => {
          if (!line.startsWith(" ")) day = line;
          return day === line || (hasBad && line.includes(` ${tanks[bad.tank]} `)) ? [] : [`${day}${line}`];
        });
      };
      expect(without(across.lines)).toEqual(without(each.lines));
    }),
    { numRuns: Number(process.env.RUNS ?? 60) },
  );
});
