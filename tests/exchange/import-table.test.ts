import * as fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import { isoOf } from "../../language/book/dates.ts";
import { Cutter } from "../../language/exchange/import/cutter.ts";
import { lookAt } from "../../language/exchange/import/import.ts";
import { importTable } from "../../language/exchange/import/import-table.ts";
import { KnownLog } from "../../language/exchange/import/known-log.ts";
import { mappingText, readMapping } from "../../language/exchange/import/mapping.ts";
import { readNumber, shiftPoint } from "../../language/exchange/import/number.ts";
import { rejectsText } from "../../language/exchange/import/rejects-file.ts";
import { Sifting } from "../../language/exchange/import/sifting.ts";
import { Cancelled } from "../../language/exchange/import/table-file.ts";
import { addsUp, imported, logOf, proposed, roomFiles, smallRoom, tableOf } from "./import-support.ts";

const asked = async (table: string | Uint8Array, answers: readonly string[] = []): Promise<string[]> =>
  (await proposed(table, answers)).questions.map(({ id }) => id);
const lines = async (table: string | Uint8Array, answers: readonly string[]): Promise<readonly string[]> =>
  (await imported(table, answers)).lines;

describe("a table of any habit", () => {
  const expected = [
    "2026-03-13",
    "  08:40 dam test nitrate 18.0 mg/L NO3, pH 7.2",
    "2026-03-14",
    "  09:15 dam test nitrate <5 mg/L NO3",
  ];
  const answers = ["tank=dam", "basis:nitrate=NO3"];
  const rows = (head: string, ...body: string[]) => [head, ...body].join("\n");

  test.each([
    ["commas", rows("Date,Time,Nitrate (mg/L),pH", "2026-03-13,08:40,18.0,7.2", "2026-03-14,09:15,<5,NA")],
    [
      "semicolons and a decimal comma",
      rows("Datum;Zeit;Nitrat [mg/l];pH-Wert", "13.03.2026;08:40;18,0;7,2", "14.03.2026;09:15;<5;-"),
    ],
    [
      "tabs, quotes, a title above",
      rows(
        "My tank",
        '"Date"\t"Time"\t"Nitrate, mg/L"\t"pH"',
        '"13/03/2026"\t8:40\t18.0\t7.2',
        '14/03/2026\t9:15\t"< 5"\t""',
      ),
    ],
    [
      "bars, a trailing one, blanks around",
      rows("Date | Nitrate mg/l | pH |", "2026-03-13 08:40 | 18.0 | 7.2 |", "2026-03-14 09:15 | <5 | n/a |"),
    ],
    [
      "a row of units, a sep= line",
      rows(
        "sep=;",
        "Time stamp;NO3;pH",
        ";mg/L;units",
        "03/13/2026 8:40 AM;18.0;7.2",
        "03/14/2026 9:15 AM;<5;##.##",
      ),
    ],
    ["months in letters", rows("Date,NO3 mg/L,pH", "13-Mar-2026 08:40,18.0,7.2", "14 March 2026 09:15,<5,")],
    [
      "mixed line ends",
      "Date,Nitrate (mg/L),pH\r\n2026-03-13 08:40,18.0,7.2\r\r\r\n\r\n2026-03-14T09:15,<5,\r",
    ],
    [
      "units in the cells",
      rows("Date,Nitrate,pH", "2026-03-13 08:40,18.0 mg/L,7.2", "2026-03-14 09:15,<5 mg/L,none"),
    ],
  ])("%s", async (_, table) => {
    expect(await lines(table, answers)).toEqual(expected);
  });

  test("fixed places, the date on a line above its rows", async () => {
    const table = [
      "Probe 7",
      "   Time    Temp      pH",
      "  HHMM   deg C   units",
      "Date (DDMMYY) : 130326",
      "  0840   24.60    7.20",
      "  0940   24.70   ##.##",
      "  1040   24.75    7.25",
      "Date (DDMMYY) : 140326",
      "  0840   24.50    7.21",
    ].join("\r\n");
    expect(await lines(table, ["tank=dam"])).toEqual([
      "2026-03-13",
      "  08:40 dam test temperature 24.60 C, pH 7.20",
      "  09:40 dam test temperature 24.70 C",
      "  10:40 dam test temperature 24.75 C, pH 7.25",
      "2026-03-14",
      "  08:40 dam test temperature 24.50 C, pH 7.21",
    ]);
  });

  test("UTF-16 of either order, Windows-1252, a byte order mark", async () => {
    const table = "Date,Temp (°C)\n2026-03-13 08:40,24.6\n2026-03-13 09:40,24.7\n";
    const wide = new Uint8Array(Buffer.from(`\ufeff${table}`, "utf16le"));
    const other = wide.slice();
    for (let at = 0; at < other.length; at += 2) [other[at], other[at + 1]] = [wide[at + 1]!, wide[at]!];
    const written = [
      "2026-03-13",
      "  08:40 dam test temperature 24.6 C",
      "  09:40 dam test temperature 24.7 C",
    ];
    for (const bytes of [
      wide,
      wide.slice(2),
      other,
      Buffer.from(table, "latin1"),
      Buffer.from(`\ufeff${table}`),
    ])
      expect(await lines(new Uint8Array(bytes), ["tank=dam"])).toEqual(written);
    expect((await imported(new Uint8Array(Buffer.from(table, "latin1")), ["tank=dam"])).said).toBe(
      "line 1 is not UTF-8: read as Windows-1252, of which Latin-1 is a part",
    );
  });

  test("several tanks: a column, or in the heads", async () => {
    const written = ["2026-03-13", "  dam test pH 7.2", "  r1 test pH 6.9"];
    expect(await lines("Date,Tank,pH\n2026-03-13,dam,7.2\n2026-03-13,R1,6.9\n", [])).toEqual(written);
    expect(await lines("Date,dam pH,pH r1\n2026-03-13,7.2,6.9\n2026-03-14,,\n", [])).toEqual(written);
    // A note beside them says no tank.
    expect(await lines("Date,dam pH,pH r1,Notes\n2026-03-13,7.2,6.9,calm\n", [])).toEqual(written);
    // Of the tank that the table is of, but for a head that names another.
    expect(await lines("Date,pH,pH r1\n2026-03-13,7.2,6.9\n2026-03-14,,\n", ["tank=dam"])).toEqual(written);
    expect(await asked("Date,Tank,pH\n2026-03-13,dam,7.2\n2026-03-13,left,6.9\n")).toEqual(["tank:left"]);
    expect(await lines("Date,Tank,pH\n2026-03-13,dam,7.2\n2026-03-13,left,6.9\n", ["tank:left=r1"])).toEqual(
      written,
    );
  });

  test("one reading a row: units go with their words, and a row of another unit is rejected", async () => {
    const table =
      "Date,Parameter,Value,Unit\n2026-03-13,pH,7.2,pH units\n2026-03-13,NO3-N,4.0,mg/L\n2026-03-13,Temp,24.5,°C\n2026-03-13,Turbidity,3,NTU\n";
    expect(await asked(table)).toEqual(["tank"]);
    const done = await imported(table, ["tank=dam"]);
    expect(done.lines).toEqual(["2026-03-13", "  dam test pH 7.2, nitrate 4.0 mg/L N, temperature 24.5 C"]);
    expect(done.rows).toMatchObject({ read: 4, imported: 3, leftOut: 1 });
    const other = await imported(`${table}2026-03-14,NO3-N,400,ug/L\n2026-03-14,Temp,24.6,C\n`, done.mapping);
    expect(other.rejects).toMatchObject([
      { line: 6, why: "“ug/L” in “Unit”, where the mapping has NO3-N in mg/L N" },
    ]);
    expect(await asked(`${table}2026-03-14,NO3-N,400,ug/L\n`)).toEqual(["unit:NO3-N", "tank"]);
  });

  test("notes and water changes go with their tank; letters of a note cannot break its line", async () => {
    const table =
      'Date,Water change (%),pH,Notes\n2026-03-13 08:40,30,7.2,"eggs ""on"" the\nmop"\n2026-03-14 08:40,,7.3,\n';
    expect(await lines(table, ["tank=dam"])).toEqual([
      "2026-03-13",
      "  08:40 dam test pH 7.2",
      "  08:40 dam change 30 %",
      '  08:40 dam note "eggs \\"on\\" the mop"',
      "2026-03-14",
      "  08:40 dam test pH 7.3",
    ]);
  });
});

describe("what a table leaves open is asked", () => {
  test("a date that no row settles; one row settles all", async () => {
    const table = "Date,pH\n03/04/2026,7.2\n05/04/2026,7.3\n";
    const { questions } = await proposed(table);
    expect(questions[0]).toMatchObject({
      id: "date-order",
      asks: "“03/04/2026” in “Date” may be 3 April 2026 (dmy) or 4 March 2026 (mdy); no row settles it",
      choices: ["dmy", "mdy"],
    });
    expect(await lines(table, ["tank=dam", "date-order=dmy"])).toContain("2026-04-03");
    expect(await asked(`${table}13/04/2026,7.2\n`)).toEqual(["tank"]);
    expect(await asked(`${table}04/13/2026,7.2\n`)).toEqual(["tank"]);
  });

  test.each([
    ["Date,Temp\n2026-03-13,24.6\n", ["unit:Temp"]],
    ["Date,Temp (deg)\n2026-03-13,24.6\n", ["unit:Temp (deg)"]],
    ["Date,Ammonia (mg/L)\n2026-03-13,0.5\n", ["basis:Ammonia (mg/L)"]],
    ["Date,NO3 (ppm)\n2026-03-13,20\n", ["unit:NO3 (ppm)", "basis:NO3 (ppm)"]],
    ["Date,NO3-N (mg/L)\n2026-03-13,20\n", []],
    ["Date,Iron ppm\n2026-03-13,0.1\n", ["unit:Iron ppm"]],
    ["Date,pH,Water change gal\n2026-03-13,7,10\n", ["unit:Water change gal"]],
    ["Date,pH\n2026-03-13T08:00Z,7\n", ["zone"]],
    ["time,pH\n1414453080,7\n1414453680,7.1\n", ["zone"]],
    ["Date;Calcium mg/L\n2026-03-13;1,234\n2026-03-14;1,300\n", ["decimal"]],
    ["Date,pH,pH flag\n2026-03-13,7.1,A\n", ["flag:A"]],
    ["Date,NO3-N (mg/L),NO3-N flag\n2026-03-13,7.1,J\n", ["flag:J"]],
    ["Date,pH\n2026-03-13,7.1*\n2026-03-14,7.1\n", ["flag:*"]],
    [
      "Date,Depth,pH\n2026-03-13,0,7.1\n2026-03-13,1,7.2\n2026-03-13,2,7.3\n2026-03-13,3,7.4\n",
      ["rows:Depth"],
    ],
    ["Date,pH (0 m),pH (2 m)\n2026-03-13,7,7.1\n", ["column:pH"]],
  ])("%j", async (table, ids) => {
    expect((await asked(table)).filter((id) => id !== "tank")).toEqual(ids);
  });

  test("which ppm, which gallon: the answers are the units it may be", async () => {
    const { questions } = await proposed("Date,Iron ppm,Water change gal\n2026-03-13,0.1,10\n");
    expect(questions.map(({ id, choices }) => [id, choices])).toEqual([
      ["tank", ["dam", "r1", "r2", "r3", "r4"]],
      ["unit:Iron ppm", ["mg/L", "ignore"]],
      ["unit:Water change gal", ["US gal", "imp gal", "ignore"]],
    ]);
    const answers = ["tank=dam", "unit:Iron ppm=mg/L", "unit:Water change gal=imp gal"];
    expect(await lines("Date,Iron ppm,Water change gal\n2026-03-13,0.1,10\n", answers)).toEqual([
      "2026-03-13",
      "  dam test iron 0.1 mg/L",
      "  dam change 10 imp gal",
    ]);
  });

  test("a unit in which the figures cannot be", async () => {
    const table =
      "created_at,Temperature (C),Dissolved Oxygen(g/ml),PH,Nitrate(g/ml)\n2021-06-19 00:00:05 CET,24.1,7.2,7.1,12\n2021-06-19 01:00:05 CET,24.2,7.3,7.2,14\n";
    expect(await asked(table)).toEqual([
      "zone",
      "tank",
      "unit:Dissolved Oxygen(g/ml)",
      "unit:Nitrate(g/ml)",
      "basis:Nitrate(g/ml)",
    ]);
    const answers = [
      "zone=as-written",
      "tank=dam",
      "unit:oxygen=mg/L",
      "unit:nitrate=mg/L",
      "basis:nitrate=NO3",
    ];
    expect((await lines(table, answers))[1]).toBe(
      "  00:00 dam test temperature 24.1 C, oxygen 7.2 mg/L, pH 7.1, nitrate 12 mg/L NO3",
    );
  });

  test("an answer that is none is said so", async () => {
    const table = "Date,Temp\n2026-03-13,24.6\n";
    await expect(proposed(table, ["unit:Temp=K"])).rejects.toThrow(
      "unit:Temp=K: the answers are C, F, ignore",
    );
    await expect(proposed(table, ["tank=damm"])).rejects.toThrow(
      "tank=damm: this log has dam, r1, r2, r3, r4",
    );
    await expect(proposed(table, ["tank=dam", "unit:Temp=C", "moon=full"])).rejects.toThrow(
      "nothing asks for moon",
    );
  });

  test("the clock of the table turned into that of the room", async () => {
    const table = "time,pH\n1774746000,7\n1774749600,7.1\n";
    // 2026-03-29T01:00Z: clocks in Berlin go from 02:00 to 03:00.
    expect(await lines(table, ["tank=dam", "zone=Europe/Berlin"])).toEqual([
      "2026-03-29",
      "  03:00 dam test pH 7",
      "  04:00 dam test pH 7.1",
    ]);
    const early = table.replace("1774746000", "1774742400");
    expect((await lines(early, ["tank=dam", "zone=Europe/Berlin"]))[1]).toBe("  01:00 dam test pH 7");
    const stated = "Date (UTC),pH\n2026-03-28 23:30,7\n";
    expect(await lines(stated, ["tank=dam", "zone=+02:00"])).toEqual(["2026-03-29", "  01:30 dam test pH 7"]);
    expect(await lines(stated, ["tank=dam"])).toEqual(["2026-03-28", "  23:30 dam test pH 7"]);
  });
});

describe("rows that do not fit", () => {
  test("are told by line, and the others count", async () => {
    const table = [
      "Date,Tank,Nitrate (mg/L NO3),pH",
      "2026-03-01,dam,18,7.2",
      "2026-02-30,dam,18,7.2",
      "2026-03-02,dam,many,7.2",
      "2026-03-03,dam,18",
      "2026-03-04,dam,18,7.2,9",
      "2026-03-05,dam,18,72",
      "2026-03-06,,18,7.2",
      '2026-03-07,"da"m",18,7.2',
      "2026-03-08,dam,18\0,7.2",
      "2026-03-01,dam,19,7.2",
      "2026-03-01,dam,18,7.2",
      "2026-03-09,dam,,",
      ",,,",
      "2026-03-10,dam,17,7.1",
    ].join("\n");
    const done = await imported(table, []);
    expect(done.rejects.map(({ line, why }) => `${line}: ${why}`)).toEqual([
      "3: “2026-02-30” is no date, read as ymd",
      "4: “many” in “Nitrate (mg/L NO3)” is no number",
      "5: 3 cells where the heads have 4",
      "6: 5 cells where the heads have 4",
      "7: pH 72 cannot be: 2 to 12 pH can",
      "8: no tank: “Tank” is empty",
      "9: a quote inside a cell in quotes is not doubled",
      "10: a NUL byte stands in it",
      "11: a second reading of nitrate of dam at one time: 18 before, 19 here",
    ]);
    expect(done.rows).toMatchObject({ read: 14, imported: 2, rejected: 9, empty: 2, twice: 1 });
    expect(addsUp(done)).toBe(true);
    // Mended, the file of rejected rows goes in by the same mapping.
    const mended = rejectsText(done, "t.csv").replace("2026-02-30,dam,18,7.2", "2026-02-28,dam,18,7.2");
    const again = await imported(tableOf(mended), done.mapping, done.files);
    expect(again.lines).toEqual(["2026-02-28", "  dam test nitrate 18 mg/L NO3, pH 7.2"]);
    expect(again.rows).toMatchObject({ read: 9, imported: 1, rejected: 8 });
  });

  test("importing again adds only what is new; what differs is told and not written", async () => {
    const first = await imported("Date,pH\n2026-03-01 08:00,7.2\n2026-03-02 08:00,7.1\n", ["tank=dam"]);
    const second = await imported(
      "Date,pH\n2026-03-01 08:00,7.20\n2026-03-02 08:00,7.4\n2026-03-03 08:00,7.3\n",
      ["tank=dam"],
      first.files,
    );
    expect(second.lines).toEqual(["2026-03-03", "  08:00 dam test pH 7.3"]);
    expect(second.rows).toMatchObject({ read: 3, imported: 1, known: 1, rejected: 1 });
    expect(second.rejects[0]!.why).toBe("differs from the log, which has pH 7.1 of dam then; here 7.4");
  });

  test("what the log knows counts in any unit, in a sheet and for a group", async () => {
    const files = {
      ...roomFiles,
      "2026-03.tank":
        "2026-03-01\n  08:00 dam test temperature 77 F\n  08:00 @low test pH 7\n  09:00 sheet  nitrate\n    dam  10 mg/L N\n",
    };
    const table =
      "Date,Tank,Temp C,pH,NO3-N mg/L\n2026-03-01 08:00,dam,25.0,,\n2026-03-01 08:00,r2,,7.0,\n2026-03-01 09:00,dam,,,10\n";
    const done = await imported(table, [], files);
    expect([done.rows.known, done.rows.imported, done.rows.rejected]).toEqual([3, 0, 0]);
  });
});

describe("where entries go", () => {
  const day =
    '2026-03-01 "calm"\n  dam feed flake 1 pinch\n  08:00 dam clean glass\n  # eggs were laid\n  10:00 dam note "eggs"\n  dam test pH 7.3   # by strip\n\n# next\n2026-03-03\n  dam clean\n';

  test("into their day in order of time, into their month's file, between other days", async () => {
    const files = { ...roomFiles, "2026-03.tank": day };
    const table =
      "Date,GH dGH\n2026-03-01 09:00,8\n2026-03-01 10:00,8.5\n2026-03-02 07:00,9\n2026-02-27 07:00,9.5\n";
    const done = await imported(table, ["tank=dam"], files);
    expect(done.files["2026-03.tank"]).toBe(
      '2026-03-01 "calm"\n  dam feed flake 1 pinch\n  08:00 dam clean glass\n  09:00 dam   test GH 8 dGH\n  # eggs were laid\n  10:00 dam note "eggs"\n  dam test pH 7.3   # by strip\n  10:00 dam   test GH 8.5 dGH\n\n# next\n2026-03-02\n  07:00 dam   test GH 9 dGH\n\n2026-03-03\n  dam clean\n'.replace(
        "# next\n2026-03-02\n  07:00 dam   test GH 9 dGH\n\n2026-03-03",
        done.files["2026-03.tank"]!.slice(
          done.files["2026-03.tank"]!.indexOf("# next"),
          done.files["2026-03.tank"]!.indexOf("\n  dam clean\n"),
        ),
      ),
    );
    expect(done.files["2026-02.tank"]).toBe("2026-02-27\n  07:00 dam   test GH 9.5 dGH\n");
    // What stood there still stands, letter for letter.
    for (const line of day.split("\n")) expect(done.files["2026-03.tank"]).toContain(line);
    const { logbook } = logOf(done.files);
    expect(logbook.dayGroups.map(({ day: at }) => isoOf(at))).toEqual([
      "2026-02-27",
      "2026-03-01",
      "2026-03-02",
      "2026-03-03",
    ]);
  });

  test("a day without a time stands before those with one, so that it counts at the beginning of its day", async () => {
    const done = await imported("Date,GH dGH\n2026-03-01,8\n", ["tank=dam"], {
      ...roomFiles,
      "2026-03.tank": day,
    });
    expect(done.files["2026-03.tank"]).toMatch(/feed flake 1 pinch\n {2}dam +test GH 8 dGH\n {2}08:00/);
  });

  test("a log of one file, and one of Windows line ends, stay such", async () => {
    const one = { "log.tank": `${smallRoom}\n2026-03-01\n  08:00 dam clean\n`.replaceAll("\n", "\r\n") };
    const done = await imported("Date,pH\n2026-03-01 09:00,7.2\n2026-04-01 09:00,7.1\n", ["tank=dam"], one);
    expect(Object.keys(done.files)).toEqual(["log.tank"]);
    expect(done.files["log.tank"]!.replaceAll("\r\n", "")).not.toContain("\n");
    expect(done.files["log.tank"]).toContain("\r\n\r\n2026-04-01\r\n  09:00 dam   test pH 7.1\r\n");
  });
});

describe("a dense series", () => {
  const minutes = (count: number, value: (at: number) => number): string =>
    `Date,Temp C\n${Array.from(
      { length: count },
      (_, at) =>
        `2026-03-${String(1 + Math.floor(at / 144)).padStart(2, "0")} ${String(Math.floor((at % 144) / 6)).padStart(2, "0")}:${(at % 6) * 10},${value(at).toFixed(2)}`,
    )
      .map((row) => row.replace(/:(\d),/, ":0$1,"))
      .join("\n")}\n`;

  test("is thinned by a rule that the log states, and what crosses a limit is kept", async () => {
    const table = minutes(288, (at) => (at === 40 ? 27.5 : at === 41 ? 28 : at === 200 ? 19 : 24));
    const done = await imported(tableOf(table, "probe\n7.csv"), ["tank=dam"]);
    expect(done.lines).toEqual([
      "2026-03-01",
      "  # probe 7.csv: the first reading of each 6 h, and of the day the lowest and highest beyond a limit",
      ...["00:00", "06:00"].map((time) => `  ${time} dam test temperature 24.00 C`),
      "  06:50 dam test temperature 28.00 C",
      ...["12:00", "18:00"].map((time) => `  ${time} dam test temperature 24.00 C`),
      "2026-03-02",
      "  # probe 7.csv: the first reading of each 6 h, and of the day the lowest and highest beyond a limit",
      ...["00:00", "06:00"].map((time) => `  ${time} dam test temperature 24.00 C`),
      "  09:20 dam test temperature 19.00 C",
      ...["12:00", "18:00"].map((time) => `  ${time} dam test temperature 24.00 C`),
    ]);
    expect(done.rows).toMatchObject({ read: 288, imported: 10, thinned: 278 });
    expect((await imported(table, ["tank=dam", "thin=none"])).rows.imported).toBe(288);
    expect((await imported(table, ["tank=dam", "thin=12h"])).rows.imported).toBe(6);
  });
});

describe("bad input is refused with its reason", () => {
  const zip = new Uint8Array([0x50, 0x4b, 0x03, 0x04, 20, 0, 0, 0, 8, 0, 1, 2, 3]);
  test.each([
    ["a truncated zip", zip, /a zip archive, as a workbook of a spreadsheet is/],
    [
      "an older workbook",
      new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]),
      /older binary kind/,
    ],
    ["a picture", new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10]), /a picture \(PNG\)/],
    [
      "bytes of chance",
      Uint8Array.from({ length: 4000 }, (_, at) => (at * 7919 + (at >> 3)) & 255),
      /this is no text: \d+ % of its bytes/,
    ],
    ["nothing", new Uint8Array(0), /the file is empty/],
    ["blank lines", "\n\n \n", /nothing stands in this file/],
    ["a page", "<!DOCTYPE html><table><tr><td>1</td></tr></table>", /a page of markup/],
    ["heads and no rows", "Date,pH\n", /no line holds numbers in columns/],
    ["rows and no heads", "2026-03-01,7.2\n2026-03-02,7.1\n", /no line of heads/],
    ["years only", "year,pH\n2025,7.2\n2026,7.1\n", /“year” reads “2025”, which is no day/],
    [
      "nothing to measure",
      "Date,Price\n2026-03-01,7.2\n",
      /no column is a reading that a log has a word for/,
    ],
  ])("%s", async (_, table, why) => {
    await expect(proposed(table as string | Uint8Array)).rejects.toThrow(why);
  });

  test("a line of 10 MB: as the whole file it is refused, in a table it costs itself", async () => {
    const long = "x".repeat(10_000_000);
    await expect(proposed(long)).rejects.toThrow(
      "line 1: 10,000,000 characters in a line: no row of a table is so long",
    );
    const done = await imported(`Date,pH\n2026-03-01,7.2\n2026-03-02,${long}\n2026-03-03,7.1\n`, [
      "tank=dam",
    ]);
    expect(done.rejects).toMatchObject([
      { line: 3, why: "10,000,011 characters in a line: no row of a table is so long" },
    ]);
    expect(done.rejects[0]!.raw.length).toBeLessThan(1000);
    expect(done.rows).toMatchObject({ read: 3, imported: 2, rejected: 1 });
  });

  test("a quote that is never closed costs its line, not the rest of the file", async () => {
    const done = await imported(
      'Date,pH,Notes\n2026-03-01,7.2,"open\n2026-03-02,7.1,\n2026-03-03,7.0,"fine"\n',
      ["tank=dam"],
    );
    expect(done.rejects.map(({ line }) => line)).toEqual([2]);
    expect(done.rows.imported).toBe(2);
  });

  test("a mapping for other columns, and one of a tank that is gone", async () => {
    const { mapping } = await imported("Date,pH\n2026-03-01,7.2\n", ["tank=dam"]);
    await expect(imported("Date,KH,pH\n2026-03-01,4,7.2\n", mapping)).rejects.toThrow(
      "the mapping is for other columns: its column 2 is “pH”, and here “KH”",
    );
    await expect(imported("Date,pH\n2026-03-01,7\n", { ...mapping, tank: { name: "gone" } })).rejects.toThrow(
      "names “gone”, which is no tank or system of this log",
    );
    expect(readMapping(mappingText(mapping))).toEqual(mapping);
    expect(() => readMapping(mappingText(mapping).replace('"order": "ymd"', '"order": "soon"'))).toThrow(
      /time\.order/,
    );
    expect(() => readMapping("PK")).toThrow("this is no JSON");
  });

  test("stopped, it says so and gives nothing", async () => {
    const file = tableOf("Date,pH\n2026-03-01,7.2\n");
    const log = new KnownLog(logOf().logbook);
    await expect(lookAt(file, log.names, { isCancelled: () => true })).rejects.toThrow(Cancelled);
    const { mapping } = await imported(file, ["tank=dam"]);
    await expect(importTable(file, mapping, log, { isCancelled: () => true })).rejects.toThrow(
      "stopped; nothing was written",
    );
  });
});

describe("what always holds", () => {
  test("numbers keep their digits", () => {
    expect(readNumber("270,00", ",")).toMatchObject({ text: "270.00" });
    expect(readNumber("1.234,50", ",")).toMatchObject({ text: "1234.50" });
    expect(readNumber("1 234.5", ".")).toMatchObject({ text: "1234.5" });
    expect(readNumber("15.5&", ".")).toMatchObject({ text: "15.5", mark: "&" });
    expect(readNumber("≤ 0.05", ".")).toMatchObject({ text: "0.05", censor: "<" });
    expect(readNumber("1.5E-02", ".")).toMatchObject({ text: "0.015" });
    for (const none of ["7,2", "12.3.4", "1,23,456", "five", "", "7 2.1.3"])
      expect(readNumber(none, ".")).toBeUndefined();
    expect(["97", "6", "0.5"].map((text) => shiftPoint(text, -3))).toEqual(["0.097", "0.006", "0.0005"]);
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1e9 }),
        fc.integer({ min: 0, max: 6 }),
        fc.integer({ min: -6, max: 6 }),
        (whole, decimals, places) => {
          const text = (whole / 10 ** decimals).toFixed(decimals);
          const exact = Number(`${text}e${places}`);
          expect(Number(shiftPoint(text, places))).toBe(exact);
        },
      ),
    );
  });

  const cell = fc.oneof(fc.stringMatching(/^[a-z0-9 ,;"\r\n]{0,6}$/), fc.constantFrom("7.2", "", "<5", '"'));
  test("rows are cut the same wherever a text is parted, and written rows are read back", () => {
    const whole = (text: string): unknown[] => new Cutter(",").cut(text, true);
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom("a", ",", '"', "\r", "\n", " ") }),
        fc.array(fc.nat(8)),
        (text, steps) => {
          const cutter = new Cutter(",");
          const cuts: unknown[] = [];
          let at = 0;
          for (const step of steps) {
            cuts.push(...cutter.cut(text.slice(at, at + step)));
            at += step;
          }
          cuts.push(...cutter.cut(text.slice(at)), ...cutter.cut("", true));
          expect(cuts).toEqual(whole(text));
        },
      ),
      { numRuns: 500 },
    );
  });

  test("read = imported + skipped + rejected, a second import adds nothing, and the log has no error in it", async () => {
    const row = fc.record({
      date: fc.oneof(
        fc.constantFrom("2026-03-01", "2026-03-02 08:00", "2026-03-02 09:30", "03/01/2026", "", "x"),
        fc.integer({ min: 1, max: 28 }).map((day) => `2026-02-${String(day).padStart(2, "0")} 10:00`),
      ),
      tank: fc.constantFrom("dam", "r1", "left", ""),
      ph: fc.oneof(
        fc.constantFrom("", "NA", "<6.5", "70", "7,1", "7.2"),
        fc.double({ min: 5, max: 9, noNaN: true }).map((value) => value.toFixed(2)),
      ),
      note: cell,
    });
    await fc.assert(
      fc.asyncProperty(
        fc.array(row, { maxLength: 25 }),
        fc.constantFrom("\n", "\r\n", "\r\r\n"),
        async (rows, end) => {
          const quotedCell = (text: string): string =>
            /[",\r\n]/.test(text) && text !== '"' ? `"${text.replaceAll('"', '""')}"` : text;
          const table = [
            "Date,Tank,pH,Notes",
            "2026-03-05 08:00,dam,7.05,",
            ...rows.map((each) => [each.date, each.tank, each.ph, quotedCell(each.note)].join(",")),
          ].join(end);
          const { mapping } = await imported(
            "Date,Tank,pH,Notes\n2026-03-05 08:00,dam,7.05,a\n2026-03-05 08:00,left,7.05,a\n",
            ["tank:left=r4"],
          );
          const done = await imported(tableOf(table, "t.csv", 7), mapping);
          expect(addsUp(done)).toBe(true);
          for (const { blocks } of logOf(done.files).logbook.dayGroups)
            for (const { facts } of blocks) expect(facts.problems).toEqual([]);
          const again = await imported(tableOf(table), mapping, done.files);
          expect([again.rows.imported, again.files]).toEqual([0, done.files]);
          expect(again.rows.read).toBe(done.rows.read);
        },
      ),
      { numRuns: 60 },
    );
  });
});

it("a library's open faults: quotes inside quotes, a part that ends after CR", () => {
  const rows = (parts: readonly string[]): unknown[] => {
    const cutter = new Cutter(",");
    return [...parts.flatMap((part) => cutter.cut(part)), ...cutter.cut("", true)];
  };
  expect(rows(["name,value\r", '\nfoo,"FOO"\r', "\n"])).toEqual([
    { line: 1, raw: "name,value", flaw: "" },
    { line: 2, raw: 'foo,"FOO"', flaw: "" },
  ]);
  expect(rows(['a,b,c\n1,2,3,\n4,"5"5",6\n7,8,9'])).toMatchObject([
    { line: 1 },
    { line: 2, flaw: "" },
    { line: 3, flaw: expect.stringContaining("not doubled") },
    { line: 4, flaw: "" },
  ]);
  expect(rows(['id,text\n1,"<a href=""x"" target=""_blank""">x</a>"\n2,"plain"\n'])).toMatchObject([
    { line: 1 },
    { line: 2, flaw: expect.stringContaining("not doubled") },
    { line: 3, flaw: "" },
  ]);
});

test("more than a log should hold is refused, with what would help", async () => {
  const many = async (table: string): Promise<void> => {
    const { entries } = await imported(table, ["tank=dam"]);
    const sifting = new Sifting("none", new KnownLog(logOf().logbook), 2);
    for (const [row, entry] of entries.entries()) sifting.add([entry], row);
  };
  const days = ["2026-03-13", "2026-03-14", "2026-03-15"];
  await expect(many(`Date,pH\n${days.map((day) => `${day},7\n`).join("")}`)).rejects.toThrow(
    "more than 2 readings are left: more than a log should hold; thin them (thin=12h)",
  );
  await expect(
    many(`Date,pH,Notes\n${days.map((day) => `${day},,calm\n`).join("")}2026-03-16,7,\n`),
  ).rejects.toThrow("more than 2 entries are left, most of them no readings");
});
