import { describe, expect, test } from "vitest";
import { importTable } from "../../language/exchange/import/import-table.ts";
import { KnownLog } from "../../language/exchange/import/known-log.ts";
import { addsUp, imported, logOf, proposed, roomFiles, smallRoom, tableOf } from "./import-support.ts";

/** Tables as keepers, meters and laboratories write them, one habit each: what becomes of them, and that a second import adds nothing. */

const livestock = `species praecox "Melanotaenia praecox"
  kind fish
species cherry "Cherry shrimp"
  kind shrimp
food flake
  kind dry
food cyclops "Cyclops"
  kind frozen
`;
const files = { "room.tank": `${smallRoom}${livestock}` };
const rows = (...lines: string[]): string => `${lines.join("\n")}\n`;
const latin1 = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, "latin1"));
const utf16 = (text: string): Uint8Array => new Uint8Array(Buffer.from(`\ufeff${text}`, "utf16le"));

/** Without the indentation, days by their last two figures. */
const short = (lines: readonly string[]): string[] =>
  lines.filter((line) => !line.trim().startsWith("#")).map((line) => line.trim().replace(/^2026-/, ""));

interface Habit {
  readonly of: string;
  readonly table: string | Uint8Array;
  readonly answers?: readonly string[];
  readonly lines: readonly string[];
  readonly rejects?: readonly string[];
}

const habits: readonly Habit[] = [
  {
    of: "a laboratory: units in a second line of heads, a decimal comma, a thousands point",
    table: rows(
      "Probenahme Datum;pH;Nitrat;Leitfähigkeit;Gesamthärte",
      "TT.MM.JJJJ;;mg/l;µS/cm;°dH",
      "13.03.2026;7,2;18,0;450;9,5",
      "14.03.2026;7,1;<0,5;1.450;9,0",
    ),
    answers: ["basis:nitrate=NO3"],
    lines: [
      "03-13",
      "dam test pH 7.2, nitrate 18.0 mg/L NO3, conductivity 450 uS/cm, GH 9.5 dH",
      "03-14",
      "dam test pH 7.1, nitrate <0.5 mg/L NO3, conductivity 1450 uS/cm, GH 9.0 dH",
    ],
  },
  {
    of: "the letters of Windows-1252, years of two digits",
    table: latin1(rows("Datum;Temperatur °C;Leitwert µS/cm", "13.03.26;24,5;450", "14.03.26;24,6;455")),
    lines: [
      "03-13",
      "dam test temperature 24.5 C, conductivity 450 uS/cm",
      "03-14",
      "dam test temperature 24.6 C, conductivity 455 uS/cm",
    ],
  },
  {
    of: "UTF-16 with its mark, tabs, a time of its own",
    table: utf16("Date\tTime\tTemp (°C)\r\n2026-03-13\t08:40\t24.6\r\n2026-03-13\t09:40\t24.7\r\n"),
    lines: ["03-13", "08:40 dam test temperature 24.6 C", "09:40 dam test temperature 24.7 C"],
  },
  {
    of: "thousands marks: a comma in quotes",
    table: rows('Date,"Conductivity (uS/cm)"', '2026-03-13,"1,450"', '2026-03-14,"1,455"'),
    lines: ["03-13", "dam test conductivity 1450 uS/cm", "03-14", "dam test conductivity 1455 uS/cm"],
  },
  {
    of: "thousands marks: an apostrophe, a narrow blank",
    table: rows("Datum;Leitwert uS/cm;pH", "13.03.2026;1'450;7,0", "14.03.2026;1\u202f455,5;7,1"),
    lines: [
      "03-13",
      "dam test conductivity 1450 uS/cm, pH 7.0",
      "03-14",
      "dam test conductivity 1455.5 uS/cm, pH 7.1",
    ],
  },
  {
    of: "a line end inside quotes",
    table: rows("Date,pH,Notes", '2026-03-13,7.2,"eggs', 'on the mop"', '2026-03-14,7.1,""'),
    lines: ["03-13", "dam test pH 7.2", 'dam note "eggs on the mop"', "03-14", "dam test pH 7.1"],
  },
  {
    of: "comments above the heads",
    table: rows(
      "# exported by a meter",
      "# serial 123, firmware 2.1",
      "Date,pH",
      "2026-03-13,7.2",
      "2026-03-14,7.1",
    ),
    lines: ["03-13", "dam test pH 7.2", "03-14", "dam test pH 7.1"],
  },
  {
    of: "means and totals below",
    table: rows("Date,pH,Temp C", "2026-03-13,7.2,24", "2026-03-14,7.1,25", "Average,7.15,24.5", "Total,,"),
    lines: ["03-13", "dam test pH 7.2, temperature 24 C", "03-14", "dam test pH 7.1, temperature 25 C"],
    rejects: ["4: “Average” is no date"],
  },
  {
    of: "halves of the day",
    table: rows(
      "Date/Time,pH",
      "3/13/2026 12:05:00 AM,7.2",
      "3/13/2026 12:05:00 PM,7.1",
      "3/13/2026 1:05 p.m.,7.0",
    ),
    lines: ["03-13", "00:05 dam test pH 7.2", "12:05 dam test pH 7.1", "13:05 dam test pH 7.0"],
  },
  {
    of: "ISO 8601 with its zone, as it is written",
    table: rows("timestamp,temp_c", "2026-03-13T08:00:00+01:00,24.5", "2026-03-13T09:00:00+01:00,24.6"),
    answers: ["zone=as-written"],
    lines: ["03-13", "08:00 dam test temperature 24.5 C", "09:00 dam test temperature 24.6 C"],
  },
  {
    of: "ISO 8601 of UTC with parts of seconds, by the clock of the room",
    table: rows("timestamp,temp_c", "2026-03-13T08:00:00.000Z,24.5", "2026-03-13T23:30:00.000Z,24.6"),
    answers: ["zone=Europe/Berlin"],
    lines: ["03-13", "09:00 dam test temperature 24.5 C", "03-14", "00:30 dam test temperature 24.6 C"],
  },
  {
    // 46094 is 13 March 2026: 2026-01-01 is 46023 (a spreadsheet's own answer), and 71 days lie between.
    of: "days as a spreadsheet counts them, with and without a part",
    table: rows("Date,pH", "46094,7.2", "46095.5,7.1"),
    lines: ["03-13", "dam test pH 7.2", "03-14", "12:00 dam test pH 7.1"],
  },
  {
    of: "the same with a time of its own",
    table: rows("Date;Time;pH", "46094;08:40;7,2", "46095;09:00;7,1"),
    lines: ["03-13", "08:40 dam test pH 7.2", "03-14", "09:00 dam test pH 7.1"],
  },
  {
    of: "nothing measured, and below what is not said",
    table: rows(
      "Date,Ammonia (mg/L N),Nitrite mg/L NO2",
      "2026-03-13,<0.05,n/a",
      "2026-03-14,ND,0.1",
      "2026-03-15,n.d.,-",
      "2026-03-16,BDL,trace",
    ),
    lines: ["03-13", "dam test ammonia <0.05 mg/L N", "03-14", "dam test nitrite 0.1 mg/L NO2"],
  },
  {
    of: "below and above in words",
    table: rows(
      "Date,Nitrate (mg/L NO3)",
      "2026-03-13,less than 5",
      "2026-03-14,> 100",
      "2026-03-15,unter 5",
    ),
    lines: [
      "03-13",
      "dam test nitrate <5 mg/L NO3",
      "03-14",
      "dam test nitrate >100 mg/L NO3",
      "03-15",
      "dam test nitrate <5 mg/L NO3",
    ],
  },
  {
    of: "a strip read as from one field to the next, and about",
    table: rows(
      "Date,Nitrate mg/L NO3,pH",
      "2026-03-13,10-20,7",
      "2026-03-14,5–10,ca. 7",
      "2026-03-15,20 mg/l..40 mg/l,7 to 7.4",
      "2026-03-16,20-10,7",
      "2026-03-17,1:1000,7",
    ),
    lines: [
      "03-13",
      "dam test nitrate 10..20 mg/L NO3, pH 7",
      "03-14",
      "dam test nitrate 5..10 mg/L NO3, pH ~7",
      "03-15",
      "dam test nitrate 20..40 mg/L NO3, pH 7..7.4",
    ],
    rejects: [
      "5: “20-10” is no range: write its lower end first, or one figure",
      "6: “1:1000” in “Nitrate mg/L NO3” is no number",
    ],
  },
  {
    of: "about so much, and from so much to so much, of a change and a count",
    table: rows(
      "Date,change %,praecox",
      "2026-03-13,25-30,10-12",
      "2026-03-14,~30,ca. 20",
      "2026-03-15,>30,12",
      "2026-03-16,30,>12",
    ),
    lines: [
      "03-13",
      "dam change 25..30 %",
      "dam count praecox 10..12",
      "03-14",
      "dam change ~30 %",
      "dam count praecox ~20",
    ],
    rejects: [
      "4: “>30” in “change %” does not say how much: write about so much (~30) or a range (25..35)",
      "5: “>12” in “praecox” does not say how much: write about so much (~12) or a range (25..35)",
    ],
  },
  {
    of: "dates as heads, a row a tank, what is measured in the corner",
    table: rows("Nitrate mg/L,2026-03-13,2026-03-14,Mean", "dam,18,20,19", "r1,<5,10-20,", "r2,,,"),
    answers: ["basis:nitrate=NO3"],
    lines: [
      "03-13",
      "dam test nitrate 18 mg/L NO3",
      "r1 test nitrate <5 mg/L NO3",
      "03-14",
      "dam test nitrate 20 mg/L NO3",
      "r1 test nitrate 10..20 mg/L NO3",
    ],
  },
  {
    of: "dates as heads, a row a parameter",
    table: rows(
      "Parameter;13.03.2026;14.03.2026",
      "pH;7,2;7,1",
      "Nitrat mg/l;18;viel",
      "Temperatur °C;24,5;",
    ),
    answers: ["basis:Nitrat mg/l=NO3"],
    lines: ["03-13", "dam test pH 7.2, temperature 24.5 C", "03-14", "dam test pH 7.1"],
    rejects: ["3: “viel” in “Value” is no number"],
  },
  {
    of: "dates as heads without their year, a tank over its parameters",
    table: rows("Tank,Test,3/13,3/14", "dam,pH,7.2,7.1", ",Temp C,24.5,", "r1,pH,6.9,", ",Temp C,25,25"),
    answers: ["year=2026"],
    lines: [
      "03-13",
      "dam test pH 7.2, temperature 24.5 C",
      "r1 test pH 6.9, temperature 25 C",
      "03-14",
      "dam test pH 7.1",
      "r1 test temperature 25 C",
    ],
  },
  {
    of: "dates as heads, what is measured said nowhere",
    table: rows("Tank,13 Mar 2026,14 Mar 2026", "left,7.2,7.1", "right,6.9,"),
    answers: ["tank:left=dam", "tank:right=r1", "parameter:Value=pH"],
    lines: ["03-13", "dam test pH 7.2", "r1 test pH 6.9", "03-14", "dam test pH 7.1"],
  },
  {
    of: "year, month and day apart, and the hour",
    table: rows(
      "Year,Month,Day,Hour,Minute,Temp C",
      "2026,3,13,8,40,24.5",
      "2026,3,13,24,0,24.6",
      "2026,13,14,8,0,24.6",
      "2026,2,30,8,0,24.6",
      "2026,3,,8,0,24.6",
    ),
    lines: ["03-13", "08:40 dam test temperature 24.5 C", "03-14", "00:00 dam test temperature 24.6 C"],
    rejects: ["4: “13” in “Month” is no month", "5: there is no 2026-02-30", "6: no date: “Day” is empty"],
  },
  {
    of: "the month as a name, years of two digits",
    table: rows("Jahr;Monat;Tag;pH", "26;März;13;7,2", "26;Okt.;14;7,1"),
    lines: ["03-13", "dam test pH 7.2", "10-14", "dam test pH 7.1"],
  },
  {
    of: "YY MM DD hh mm, as buoys write it",
    table: rows("YY,MM,DD,hh,mm,WTMP C", "26,03,13,08,40,24.5", "26,03,13,09,40,24.6"),
    answers: ["parameter:WTMP C=temperature"],
    lines: ["03-13", "08:40 dam test temperature 24.5 C", "09:40 dam test temperature 24.6 C"],
  },
  {
    of: "a month and a day, the year said nowhere",
    table: rows("Month,Day,pH", "Mar,13,7.2", "March,14,7.1"),
    answers: ["year=2026"],
    lines: ["03-13", "dam test pH 7.2", "03-14", "dam test pH 7.1"],
  },
  {
    of: "dates without their year",
    table: rows("Datum;pH", "Fr 13.3.;7,2", "Sa 14.3.;7,1"),
    answers: ["year=2026"],
    lines: ["03-13", "dam test pH 7.2", "03-14", "dam test pH 7.1"],
  },
  {
    of: "a date written once over the tanks of its day, empty rows between days",
    table: rows(
      "Datum;Becken;pH;Temperatur °C",
      "13.03.2026;dam;7,2;24,5",
      ";r1;6,9;25",
      ";r2;viel;",
      ";;;",
      "14.03.2026;dam;7,1;24,6",
      ";r1;6,9;25",
      "",
      ";r2;6,8;",
    ),
    lines: [
      "03-13",
      "dam test pH 7.2, temperature 24.5 C",
      "r1 test pH 6.9, temperature 25 C",
      "03-14",
      "dam test pH 7.1, temperature 24.6 C",
      "r1 test pH 6.9, temperature 25 C",
    ],
    rejects: ["4: “viel” in “pH” is no number", "9: no date: “Datum” is empty"],
  },
  {
    of: "ordinals, weekdays, the hour of 24, months run together with their day",
    table: rows(
      "Date,pH",
      '"Friday, 13th March 2026",7.2',
      '"March 14th, 2026",7.1',
      "15 Mar '26 24:00,7.0",
      "Fr 13.11.2026,7.3",
    ),
    lines: [
      "03-13",
      "dam test pH 7.2",
      "03-14",
      "dam test pH 7.1",
      "03-16",
      "00:00 dam test pH 7.0",
      "11-13",
      "dam test pH 7.3",
    ],
  },
  {
    of: "heads that recur",
    table: rows("Date,Temp (C),Temp (C),pH", "2026-03-13,24,25,7", "2026-03-14,24,25,7"),
    answers: ["column:temperature=#3"],
    lines: ["03-13", "dam test temperature 25 C, pH 7", "03-14", "dam test temperature 25 C, pH 7"],
  },
  {
    of: "blank columns before, between and behind",
    table: rows(",Date,,pH,,", "  ,2026-03-13,,7.2,,", "  ,2026-03-14,,7.1,,"),
    lines: ["03-13", "dam test pH 7.2", "03-14", "dam test pH 7.1"],
  },
  {
    of: "trailing separators",
    table: rows("Datum;pH;;;", "13.03.2026;7,2;;;", "14.03.2026;7,1;;;"),
    lines: ["03-13", "dam test pH 7.2", "03-14", "dam test pH 7.1"],
  },
  {
    of: "bars around, a ruler below the heads",
    table: rows(
      "| Date | pH | Temp C |",
      "|---|:--:|---|",
      "| 2026-03-13 | 7.2 | 24 |",
      "| 2026-03-14 | 7.1 | 25 |",
    ),
    lines: ["03-13", "dam test pH 7.2, temperature 24 C", "03-14", "dam test pH 7.1, temperature 25 C"],
  },
  {
    of: "several tanks, a reading a row",
    table: rows(
      "Becken;Datum;Parameter;Wert;Einheit",
      "dam;13.03.2026;pH;7,2;",
      "dam;13.03.2026;Nitrat;18;mg/l",
      "r1;13.03.2026;pH;6,9;",
      "r1;13.03.2026;Temperatur;24,5;°C",
    ),
    answers: ["basis:nitrate=NO3"],
    lines: ["03-13", "dam test pH 7.2, nitrate 18 mg/L NO3", "r1 test pH 6.9, temperature 24.5 C"],
  },
  {
    of: "a tank above its columns",
    table: rows(",dam,,r1,", "Date,pH,Temp C,pH,Temp C", "2026-03-13,7.2,24,6.9,25"),
    lines: ["03-13", "dam test pH 7.2, temperature 24 C", "r1 test pH 6.9, temperature 25 C"],
  },
  {
    of: "a column a tank, what it is said nowhere",
    table: rows("Date,dam,r1", "2026-03-13,7.2,6.9"),
    answers: ["parameter:*=pH"],
    lines: ["03-13", "dam test pH 7.2", "r1 test pH 6.9"],
  },
  {
    of: "a column a tank by other names than the log's",
    table: rows("Date,pH left,pH right", "2026-03-13,7.2,6.9"),
    answers: ["parameter:*=pH", "tank:#2=dam", "tank:#3=r1"],
    lines: ["03-13", "dam test pH 7.2", "r1 test pH 6.9"],
  },
  {
    of: "months in letters, of two languages",
    table: rows("Datum;pH", "13. März 2026;7,2", "14 Mar 2026;7,1", "15. Mai 2026;7,0", "1-Dec-26;7,0"),
    lines: [
      "03-13",
      "dam test pH 7.2",
      "03-14",
      "dam test pH 7.1",
      "05-15",
      "dam test pH 7.0",
      "12-01",
      "dam test pH 7.0",
    ],
  },
  {
    of: "days of the week before dates, the month first",
    table: rows("Date,pH", '"Fri 13 Mar 2026",7.2', '"March 14, 2026",7.1'),
    lines: ["03-13", "dam test pH 7.2", "03-14", "dam test pH 7.1"],
  },
  {
    of: "times as they are spoken",
    table: rows("Datum;Uhrzeit;pH", "13.03.2026;8.40 Uhr;7,2", "14.03.2026;9 Uhr;7,1"),
    lines: ["03-13", "08:40 dam test pH 7.2", "03-14", "09:00 dam test pH 7.1"],
  },
  {
    of: "formulas with their small figures and charges",
    table: rows("Date,NO₃⁻ (mg/L),NH₄⁺ mg/L,PO₄³⁻ mg/L", "2026-03-13,18,0.1,0.5"),
    answers: ["basis:nitrate=NO3", "basis:ammonia=NH4", "basis:phosphate=PO4"],
    lines: ["03-13", "dam test nitrate 18 mg/L NO3, ammonia 0.1 mg/L NH4, phosphate 0.5 mg/L PO4"],
  },
  {
    of: "units in the cells",
    table: rows("Date,Temp,pH", "2026-03-13,24.5 °C,7.2", "2026-03-14,24.6°C,7.1"),
    lines: ["03-13", "dam test temperature 24.5 C, pH 7.2", "03-14", "dam test temperature 24.6 C, pH 7.1"],
  },
  {
    of: "a probe at each minute",
    table: rows(
      "Time,Temp C",
      ...Array.from(
        { length: 400 },
        (_, at) => `2026-03-13 0${Math.floor(at / 60)}:${String(at % 60).padStart(2, "0")}:00,24.${at % 10}`,
      ),
    ),
    lines: ["03-13", "00:00 dam test temperature 24.0 C", "06:00 dam test temperature 24.0 C"],
  },
  {
    of: "merged heads of tanks, in other letters than the log's",
    table: rows(
      "Fish room 2026,,,,",
      ",Dam,,R1,",
      "Date,pH,Temp °C,pH,Temp °C",
      "2026-03-13,7.2,24.5,6.9,25",
    ),
    lines: ["03-13", "dam test pH 7.2, temperature 24.5 C", "r1 test pH 6.9, temperature 25 C"],
  },
  {
    of: "tanks in other letters, with blanks and by their titles",
    table: rows(
      "Date,Tank,pH",
      "2026-03-13,DAM ,7.2",
      "2026-03-14,rainbowfish dam,7.1",
      "2026-03-14,R 1,7.2",
      "2026-03-14,Tank r2,7",
    ),
    lines: ["03-13", "dam test pH 7.2", "03-14", "dam test pH 7.1", "r1 test pH 7.2", "r2 test pH 7"],
  },
  {
    of: "a decimal comma only in cells that carry their unit, counted as nitrogen there",
    table: rows("Datum;Nitrit", "13.03.2026;0,05 mg/l NO2-N", "14.03.2026;0,1 mg/l NO2-N"),
    lines: ["03-13", "dam test nitrite 0.05 mg/L N", "03-14", "dam test nitrite 0.1 mg/L N"],
  },
  {
    of: "conductivity with what it is referred to, an apostrophe for thousands",
    table: rows("Datum;EC µS/cm @25;GH °dH", "13.03.2026;1’450,5;9", "14.03.2026;1’460;9"),
    lines: [
      "03-13",
      "dam test conductivity 1450.5 uS/cm, GH 9 dH",
      "03-14",
      "dam test conductivity 1460 uS/cm, GH 9 dH",
    ],
  },
  {
    of: "notes with the apostrophe that keeps a spreadsheet from reckoning",
    table: rows(
      "Date,pH,Notes",
      "2026-03-13,7.2,'=2 eggs",
      "2026-03-14,7.1,''+1 fry",
      '2026-03-15,7,"\'tis well, -2"',
    ),
    lines: [
      "03-13",
      "dam test pH 7.2",
      'dam note "=2 eggs"',
      "03-14",
      "dam test pH 7.1",
      `dam note "'+1 fry"`,
      "03-15",
      "dam test pH 7",
      `dam note "'tis well, -2"`,
    ],
  },
  {
    of: "pictures in heads and notes",
    table: rows("Date 📅,pH 🧪,🌡️ Temp °C,Notes", "2026-03-13,7.2,24.5,🐟 lively"),
    lines: ["03-13", "dam test pH 7.2, temperature 24.5 C", 'dam note "🐟 lively"'],
  },
  {
    of: "a half as one letter, a minus behind its figure",
    table: rows("Date,pH,Redox mV", "2026-03-13,6½,210", "2026-03-14,7,120-", "2026-03-15,7,-120"),
    lines: ["03-15", "dam test pH 7, redox -120 mV"],
    rejects: ["2: “6½” in “pH” is no number", "3: “120-” in “Redox mV” is no number"],
  },
  {
    of: "a second table below the first, with heads of its own",
    table: rows("Date,pH", "2026-03-13,7.2", "", "Date,KH", "2026-03-13,4", "Date,pH", "2026-03-14,7.1"),
    lines: ["03-13", "dam test pH 7.2", "03-14", "dam test pH 7.1"],
    rejects: [
      "4: it stands below other heads: import that table as a file of its own",
      "5: it stands below other heads: import that table as a file of its own",
    ],
  },
  {
    of: "the hour that the clocks go through twice",
    table: rows("Date,pH", "2026-10-25 02:30,7.2", "2026-10-25 02:30,7.3"),
    lines: ["10-25", "02:30 dam test pH 7.2"],
    rejects: ["3: a second reading of pH of dam at one time: 7.2 before, 7.3 here"],
  },
  {
    of: "a date on a line of its own over the tanks of its day",
    table: rows(
      "Becken;pH;Temperatur °C",
      "13.03.2026;;",
      "dam;7,2;24,5",
      "r1;viel;25",
      ";;",
      '"Sa, 14.03.2026";;',
      "dam;7,1;24,6",
    ),
    lines: ["03-13", "dam test pH 7.2, temperature 24.5 C", "03-14", "dam test pH 7.1, temperature 24.6 C"],
    rejects: ["4: “viel” in “pH” is no number"],
  },
  {
    of: "counts by species, losses, and what was fed",
    table: rows(
      "Date,praecox,Cherry shrimp,praecox deaths,Fed",
      "2026-03-13,14,30,0,flake",
      '2026-03-14,3.5.5,~30,1,"flake, cyclops"',
    ),
    lines: [
      "03-13",
      "dam count praecox 14",
      "dam count cherry 30",
      "dam feed flake",
      "03-14",
      "dam count praecox 3.5.5",
      "dam count cherry ~30",
      "dam lose praecox 1",
      "dam feed flake",
      "dam feed cyclops",
    ],
  },
  {
    of: "a food and how much of it, where it is said",
    table: rows(
      "Date,Food,Amount (cubes)",
      "2026-03-13,Cyclops,2",
      "2026-03-13,flake,1",
      "2026-03-14,flake,",
    ),
    lines: ["03-13", "dam feed cyclops 2 cubes", "dam feed flake 1 cube", "03-14", "dam feed flake"],
  },
  {
    of: "a species and how many, of several tanks",
    table: rows(
      "Date,Tank,Species,Count,Dead",
      "2026-03-13,dam,praecox,14,1",
      "2026-03-13,r1,Cherry shrimp,20,0",
    ),
    lines: ["03-13", "dam count praecox 14", "dam lose praecox 1", "r1 count cherry 20"],
  },
  {
    of: "losses of one day in two rows: both count",
    table: rows("Date,praecox deaths", "2026-03-13,1", "2026-03-13,1", "2026-03-14,2"),
    lines: ["03-13", "dam lose praecox 1", "dam lose praecox 1", "03-14", "dam lose praecox 2"],
  },
];

describe("a habit of tables", () => {
  test.each(habits)("$of", async ({ table, answers = [], lines, rejects = [] }) => {
    const all = answers.some((each) => each.startsWith("tank")) ? answers : ["tank=dam", ...answers];
    const hasOwn = (await proposed(table, answers, undefined, files)).questions.every(
      ({ id }) => id !== "tank",
    );
    const done = await imported(table, hasOwn ? answers : all, files);
    expect(short(done.lines)).toEqual(lines);
    expect(done.rejects.map(({ line, why }) => `${line}: ${why}`)).toEqual(rejects);
    expect(addsUp(done)).toBe(true);
    for (const { blocks } of logOf(done.files).logbook.dayGroups)
      for (const { facts } of blocks) expect(facts.problems).toEqual([]);
    const again = await imported(table, done.mapping, done.files);
    expect([again.rows.imported, again.files]).toEqual([0, done.files]);
    expect(addsUp(again)).toBe(true);
  });
});

describe("animals and food are asked for where the table leaves them open", () => {
  const open = async (table: string): Promise<unknown[]> =>
    (await proposed(table, ["tank=dam"], undefined, files)).questions.map(({ id, choices }) => [id, choices]);

  test("of which species, which food, in which portions", async () => {
    expect(await open(rows("Date,Deaths", "2026-03-13,1"))).toEqual([
      ["species:Deaths", ["praecox", "cherry", "ignore"]],
    ]);
    expect(await open(rows("Date,Fed", "2026-03-13,bits"))).toEqual([
      ["food:bits", ["flake", "cyclops", "none", "ignore"]],
    ]);
    expect((await open(rows("Date,Cyclops", "2026-03-13,2"))).map((each) => (each as string[])[0])).toEqual([
      "unit:Cyclops",
    ]);
    expect(await open(rows("Date,Species,Count", "2026-03-13,barb,3", "2026-03-14,praecox,3"))).toEqual([
      ["species:barb", ["praecox", "cherry", "ignore"]],
    ]);
  });

  test("a log that has no species is offered none", async () => {
    const { columns } = await proposed(rows("Date,pH,Deaths", "2026-03-13,7,1"), ["tank=dam"]);
    expect(columns.find(({ head }) => head === "Deaths")).toMatchObject({ as: "ignored" });
  });

  test("no part of an animal, and no mapping for a species that is gone", async () => {
    const table = rows("Date,praecox", "2026-03-13,14", "2026-03-14,1.5", "2026-03-15,-1");
    const done = await imported(table, ["tank=dam"], files);
    expect(done.rejects.map(({ why }) => why)).toEqual([
      "“1.5” in “praecox” is no number of animals",
      "-1 in “praecox” is less than nothing",
    ]);
    await expect(imported(table, done.mapping, roomFiles)).rejects.toThrow(
      "the mapping names “praecox”, which is no species of this log",
    );
  });
});

describe("what a log has is compared by what it means", () => {
  const shared = `system sump
  volume 300 L
tank a1
  volume 40 L
  system sump
tank a2
  volume 40 L
  system sump
`;
  const withLog = (...lines: string[]) => ({
    "room.tank": `${files["room.tank"]}${shared}`,
    "2026-03.tank": `2026-03-13\n${lines.map((line) => `  ${line}\n`).join("")}`,
  });
  const outcome = async (table: string, log: Record<string, string>, answers: string[] = []) => {
    const { rows: counted, rejects } = await imported(table, answers, log);
    return [counted.known, counted.imported, ...rejects.map(({ why }) => why)];
  };

  test("a reading of shared water is one of its tanks and of its system, not of the tank beside", async () => {
    const log = withLog("08:00 sump test nitrate 18", "09:00 a1 test pH 7.2");
    const table = (tank: string, time: string, head: string, value: string) =>
      rows(`Date,Tank,${head}`, `2026-03-13 ${time},${tank},${value}`);
    const nitrate = "Nitrate (mg/L NO3)";
    expect(await outcome(table("a1", "08:00", nitrate, "18"), log)).toEqual([1, 0]);
    expect(await outcome(table("a2", "08:00", nitrate, "18"), log)).toEqual([1, 0]);
    expect(await outcome(table("sump", "09:00", "pH", "7.2"), log)).toEqual([1, 0]);
    expect(await outcome(table("a2", "09:00", "pH", "7.2"), log)).toEqual([0, 1]);
    expect(await outcome(table("a1", "08:00", nitrate, "20"), log)).toEqual([0, 1]);
    // A change of the system is one of each tank, and one of a tank is not of the system.
    const changes = withLog("08:00 sump change 30 %", "09:00 a1 change 20 %");
    const change = "Water change (%)";
    expect(await outcome(table("a1", "08:00", change, "30"), changes)).toEqual([1, 0]);
    expect(await outcome(table("sump", "09:00", change, "20"), changes)).toEqual([0, 1]);
  });

  test("a group's entry is one of each of its tanks; a change in other words and units is the same", async () => {
    const log = withLog(
      "dam change 100 L flow",
      "dam count praecox 14, cherry 30",
      "dam feed flake 1 pinch, cyclops 2 cubes",
      "08:00 @low change 30 % flow   # by hose",
    );
    expect(await outcome(rows("Date,Tank,Water change (%)", "2026-03-13 08:00,r2,30"), log)).toEqual([1, 0]);
    expect(await outcome(rows("Date,Water change (mL)", "2026-03-13,100000"), log, ["tank=dam"])).toEqual([
      1, 0,
    ]);
    expect(await outcome(rows("Date,praecox,cherry", "2026-03-13,14,30"), log, ["tank=dam"])).toEqual([1, 0]);
    expect(await outcome(rows("Date,Cyclops (cubes)", "2026-03-13,2"), log, ["tank=dam"])).toEqual([1, 0]);
    expect(await outcome(rows("Date,Cyclops (cubes)", "2026-03-13,3"), log, ["tank=dam"])).toEqual([0, 1]);
    expect(await outcome(rows("Date,praecox", "2026-03-13,13"), log, ["tank=dam"])).toEqual([
      0,
      0,
      "differs from the log, which has count praecox 14 of dam then; here count praecox 13",
    ]);
  });

  test("of two losses in the table and one in the log, one is new", async () => {
    const log = withLog("dam lose praecox 1 found");
    const table = rows("Date,praecox deaths", "2026-03-13,1", "2026-03-13,1");
    expect(await outcome(table, log, ["tank=dam"])).toEqual([1, 1]);
  });

  test("a second count at one time that says otherwise is rejected", async () => {
    const table = rows("Date,praecox", "2026-03-13 08:00,14", "2026-03-13 08:00,15", "2026-03-13 08:00,14");
    const done = await imported(table, ["tank=dam"], files);
    expect(done.rejects.map(({ why }) => why)).toEqual([
      "a second count of dam at one time: “count praecox 14” before, “count praecox 15” here",
    ]);
    expect(done.rows).toMatchObject({ imported: 1, twice: 1 });
  });
});

test("what became of each row can be seen", async () => {
  const table = rows("Date,pH", "2026-03-13,7.2", "2026-03-14,many", "2026-03-15,", "2026-03-13,7.2");
  const { mapping } = await imported(table, ["tank=dam"]);
  const seen: string[] = [];
  await importTable(tableOf(table), mapping, new KnownLog(logOf().logbook), {}, ({ line, is }) => {
    seen.push(`${line} ${is}`);
  });
  expect(seen.sort()).toEqual(["2 imported", "3 rejected", "4 empty", "5 twice"]);
});
