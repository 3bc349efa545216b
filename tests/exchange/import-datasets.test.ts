import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { basename, join, relative } from "node:path";
import { describe, expect, it } from "vitest";
import { lookAt } from "../../language/exchange/import/import.ts";
import { KnownLog } from "../../language/exchange/import/known-log.ts";
import { addsUp, type Done, imported, logOf, tableOf } from "./import-support.ts";

/**
 * Real tables that lie beside the repository and not in it. Each imports with the right figures, or is refused with the right reason; spot values are
 * read off the files by hand.
 */

const folder = join(import.meta.dirname, "..", "..", "..", "shared", "datasets");
const isThere = existsSync(folder);

interface Expected {
  readonly answers: readonly string[];
  /** What is asked before anything is answered. */
  readonly asks: readonly string[];
  readonly read: number;
  readonly imported: number;
  readonly rejected: number;
  /** Lines that stand in the log afterwards, each below its day. */
  readonly has: readonly (readonly [day: string, line: string])[];
}

const tables: Readonly<Record<string, Expected>> = {
  "bavaria_lake_2006.csv": {
    answers: ["tank=dam", "columns=(0.0 m Tiefe)", "unit:KH=mmol/L HCO3"],
    asks: ["columns", "tank"],
    read: 26,
    imported: 24,
    rejected: 0,
    has: [
      [
        "2008-02-11",
        "00:00 dam test nitrate 0.1 mg/L N, ammonia 0.23 mg/L N, pH 7.5, phosphate 0 mg/L P, temperature 5.7 C, silicate 0.2 mg/L, oxygen 13.3 mg/L",
      ],
    ],
  },
  "nerrs_gndblwq2021.csv": {
    answers: [
      "tank:gndblwq=dam",
      "unit:Temp=C",
      "unit:SpCond=mS/cm",
      "unit:Sal=g/L",
      "flag:<1>=leave-out",
      "thin=none",
    ],
    asks: ["tank:gndblwq", "unit:Temp", "unit:SpCond", "unit:Sal", "flag:<1>"],
    read: 1500,
    imported: 1499,
    rejected: 0,
    // The oxygen of midnight is marked as suspect.
    has: [
      ["2021-07-02", "00:00 dam test temperature 30.7 C, conductivity 13.73 mS/cm, salinity 7.9 g/L, pH 6.9"],
      [
        "2021-07-02",
        "00:15 dam test temperature 30.8 C, conductivity 13.59 mS/cm, salinity 7.8 g/L, oxygen 5.5 mg/L, pH 7.2",
      ],
    ],
  },
  "nerrs_gndblnut2020.csv": {
    answers: ["tank:gndblnut=dam", "unit:*=mg/L", "basis:PO4F=P", "basis:NH4F=N", "flag:<1>=leave-out"],
    asks: ["tank:gndblnut", "unit:PO4F", "basis:PO4F", "unit:NH4F", "basis:NH4F", "flag:<1>"],
    read: 102,
    imported: 47,
    rejected: 0,
    has: [
      ["2020-01-22", "06:04 dam test phosphate 0.006 mg/L P, ammonia <0.002 mg/L N"],
      ["2020-01-23", "00:04 dam test phosphate <0.002 mg/L P, ammonia <0.002 mg/L N"],
    ],
  },
  "hobo_pond_do_utf8bom.csv": {
    answers: ["tank=dam", "thin=none"],
    asks: ["tank"],
    read: 1500,
    imported: 1500,
    rejected: 0,
    has: [
      ["2020-03-09", "08:40 dam test oxygen 8.82 mg/L, temperature 22.54 C"],
      ["2020-03-09", "08:50 dam test oxygen 8.87 mg/L, temperature 22.10 C"],
    ],
  },
  "exo_lake_utf16le_2019-05-10.csv": {
    answers: ["tank=dam", "unit:Sal psu=ignore", "thin=none"],
    asks: ["tank", "unit:Sal psu"],
    read: 410,
    imported: 410,
    rejected: 0,
    has: [
      [
        "2019-05-02",
        "10:55 dam test oxygen 10.02 mg/L, conductivity 119.5 uS/cm, pH 7.31, temperature 21.789 C",
      ],
    ],
  },
  "exo_lake_cleaned_2019-05-10.csv": {
    answers: [
      "tank=dam",
      "unit:sal=ignore",
      "unit:oxygen=mg/L",
      "unit:conductivity=uS/cm",
      "unit:temperature=C",
      "thin=none",
    ],
    asks: ["tank", "unit:ODO_conc", "unit:sal", "unit:sp_cond", "unit:temp"],
    read: 400,
    imported: 400,
    rejected: 0,
    has: [
      [
        "2019-05-02",
        "10:55 dam test oxygen 10.02 mg/L, conductivity 119.5 uS/cm, pH 7.31, temperature 21.789 C",
      ],
    ],
  },
  "fishresp_amphipod_decimal_comma.tsv": {
    answers: [
      "tank:1=r1",
      "tank:2=r2",
      "tank:3=r3",
      "tank:4=r4",
      "unit:temperature=C",
      "unit:oxygen=mg/L",
      "thin=none",
    ],
    asks: [
      "tank:1",
      "tank:2",
      "tank:3",
      "tank:4",
      "unit:Temp.1",
      "unit:Ox.1",
      "unit:Temp.2",
      "unit:Ox.2",
      "unit:Temp.3",
      "unit:Ox.3",
      "unit:Temp.4",
      "unit:Ox.4",
    ],
    read: 144,
    imported: 66,
    // Oxygen below nothing: the sensor's zero is off, and a log takes no such figure.
    rejected: 78,
    has: [
      ["2021-02-08", "12:01 r1 test temperature 1.843 C, oxygen 15.259 mg/L"],
      ["2021-02-08", "12:01 r4 test temperature 1.843 C, oxygen 15.623 mg/L"],
    ],
  },
  "fishresp_presens_ch1.txt": {
    answers: ["tank=r1"],
    asks: ["tank"],
    read: 362,
    imported: 1,
    rejected: 0,
    has: [["2018-08-21", "07:55 r1 test temperature 24.43 C"]],
  },
  "respr_oxygen_space_after_comma.csv": {
    answers: ["tank=dam", "unit:Oxygen=ignore", "unit:Sensor Temperature=C"],
    asks: ["tank", "unit:Oxygen", "unit:Sensor Temperature"],
    read: 600,
    // The first, and the lowest, which is below the tank's limit.
    imported: 2,
    rejected: 0,
    has: [["2013-05-23", "13:02 dam test temperature 12.21797 C"]],
  },
  "sonde_eureka_units_row_latin1.csv": {
    answers: ["tank=dam", "unit:SAL=g/L", "thin=none"],
    asks: ["tank", "unit:SAL"],
    read: 600,
    imported: 600,
    rejected: 0,
    has: [
      [
        "2007-02-21",
        "15:00 dam test temperature 19.67 C, conductivity 8300 uS/cm, oxygen 9.17 mg/L, pH 7.79, salinity 4.6 g/L",
      ],
    ],
  },
  "sonde_ysi_mdy_units_row.csv": {
    answers: ["tank=dam", "thin=none"],
    asks: ["tank"],
    read: 1062,
    imported: 1062,
    rejected: 0,
    has: [["2008-01-29", "13:00 dam test temperature 11.87 C, conductivity 20.681 mS/cm"]],
  },
  "sonde_hydrolab_fixedwidth.txt": {
    answers: ["tank=dam", "thin=none"],
    asks: ["tank"],
    // Its pages begin with the heads again; those are no rows.
    read: 417,
    imported: 417,
    rejected: 0,
    has: [
      [
        "2006-02-13",
        "11:30 dam test temperature 19.77 C, pH 9.95, conductivity 0.302 mS/cm, salinity 0.1 ppt, oxygen 0.41 mg/L",
      ],
      // pH ##.##
      [
        "2006-02-13",
        "14:30 dam test temperature 17.41 C, conductivity 0.081 mS/cm, salinity 0.0 ppt, oxygen 0.35 mg/L",
      ],
      [
        "2006-02-14",
        "00:30 dam test temperature 14.69 C, pH 9.97, conductivity 56.9 mS/cm, salinity 37.9 ppt, oxygen 0.56 mg/L",
      ],
    ],
  },
  "sonde_espey_prefixed_header.csv": {
    answers: ["tank=dam", "thin=none"],
    asks: ["tank"],
    read: 501,
    imported: 501,
    rejected: 0,
    has: [["2008-08-23", "17:00 dam test temperature 31.89 C, conductivity 44.3 mS/cm, salinity 28.4 ppt"]],
  },
  "solinst_semicolon_decimal_comma.csv": {
    answers: ["tank=dam"],
    asks: ["tank"],
    read: 10,
    imported: 10,
    rejected: 0,
    has: [["2016-11-23", "20:30 dam test temperature 9.180 C"]],
  },
  "solinst_missing_data.csv": {
    answers: ["tank=dam"],
    asks: ["tank"],
    read: 10,
    imported: 8,
    rejected: 1,
    has: [["2017-05-03", "14:00 dam test temperature 7.860 C"]],
  },
  "stream_epoch_cr_cr_crlf.csv": {
    answers: ["tank=dam", "zone=UTC", "unit:temp=C", "unit:oxy=mg/L", "thin=none"],
    asks: ["zone", "tank", "unit:temp", "unit:oxy"],
    read: 265,
    imported: 265,
    rejected: 0,
    has: [["2014-10-27", "23:38 dam test temperature 18.671776 C, oxygen 7.584166 mg/L"]],
  },
  "texas_arroyo_pipe_long.txt": {
    answers: ["tank:13074=r1", "tank:13079=r2", "rows:End Depth=0.3|0.3048|0.304878"],
    asks: ["tank:13074", "tank:13079", "rows:End Depth"],
    read: 2500,
    imported: 1041,
    rejected: 2,
    has: [
      ["2013-02-25", "14:00 r1 test ammonia 0.06 mg/L N, oxygen 8.8 mg/L, conductivity 4120 uS/cm"],
      ["2015-03-21", "23:51 r2 test conductivity 4390 uS/cm, oxygen 9.3 mg/L, pH 8"],
    ],
  },
  "ntl_lter_lake_profiles.csv": {
    answers: ["tank:L=r1", "tank:R=r2", "tank:T=r3", "unit:dissolvedOxygen=mg/L", "rows:depth=0"],
    asks: ["tank:L", "tank:R", "tank:T", "unit:dissolvedOxygen", "rows:depth"],
    read: 3000,
    imported: 162,
    rejected: 0,
    has: [
      ["1984-05-27", "r1 test temperature 14.5 C, oxygen 9.5 mg/L"],
      ["1984-05-28", "r2 test temperature 14.8 C, oxygen 9.2 mg/L"],
    ],
  },
  "luquillo_stream_chemistry.csv": {
    answers: [
      "tank=dam",
      "unit:temp=C",
      "unit:cond=uS/cm",
      "unit:no3_n=ug/L",
      "unit:nh4_n=ug/L",
      "unit:po4_p=ug/L",
      "unit:*=mg/L",
    ],
    asks: [
      "tank",
      "unit:temp",
      "unit:cond",
      "unit:no3_n",
      "unit:k",
      "unit:mg",
      "unit:ca",
      "unit:nh4_n",
      "unit:po4_p",
      "unit:si_o2",
    ],
    read: 317,
    imported: 316,
    // One date stands twice.
    rejected: 1,
    has: [
      [
        "1987-01-05",
        "dam test temperature 20 C, pH 7.22, conductivity 48.2 uS/cm, nitrate 0.097 mg/L N, potassium 0.18 mg/L, magnesium 1.5 mg/L, calcium 2.46 mg/L, ammonia 0.014 mg/L N, silicate 11.8 mg/L",
      ],
    ],
  },
};

/** Why the others are no tables for a log; the first that fits the path. */
const refusals: readonly (readonly [RegExp, RegExp])[] = [
  [/pond_fish_no_timestamp\.csv$/, /no column holds dates/],
  [/\.json$/, /this is JSON/],
  [/GuelphP/, /“1972-01”, which is no day/],
  [/LakeHuron/, /“1875”, which is no day/],
  [/maxau/, /“1965”, which is no day/],
  [/births_1959/, /no column is a reading that a log has a word for/],
  [/(?:epa_g9s|lh|results)\S*\.csv$/, /no column holds dates/],
  [/nist/, /no line of heads|no line holds numbers/],
  [/invalid-byte-sequence/, /no column is a reading that a log has a word for/],
  [/papaparse\/long-sample|location_coordinates/, /no line holds numbers in columns/],
  [
    /(?:invalid_many|valid|white space|252|432|840|920|verylong|empty|comma_in|escaped|spectrum.*json|location|newlines|simple|utf8|MANIFEST)\S*.*\.csv$/,
    /no column holds dates/,
  ],
  [/csvlint|issue-inputs|papaparse|injection|README|blns/, /no line holds numbers in columns/],
  [/bad-utf8-in-array/, /this is no text: \d+ % of its bytes are control characters, 4 of them NUL/],
  [/toml-test\/control__only-(?:ff|vt)/, /nothing stands in this file/],
  [/toml-test/, /no table|no text/],
  [/unicode/, /no line of heads|no line holds numbers/],
];

function filesBelow(at: string): string[] {
  return readdirSync(at).flatMap((name) => {
    const path = join(at, name);
    return statSync(path).isDirectory() ? filesBelow(path) : [path];
  });
}

/** The lines of a day in all files, their columns closed up. */
function linesOn({ files }: Done, day: string): string[] {
  const blocks = Object.values(files).flatMap((text) => text.split(/^(?=\d{4}-\d\d-\d\d)/m));
  return blocks
    .filter((block) => block.startsWith(day))
    .flatMap((block) => block.split("\n").map((line) => line.trim().replace(/ +/g, " ")));
}

describe.runIf(isThere)("tables that lie beside the repository", () => {
  const all = isThere ? filesBelow(folder).map((path) => relative(folder, path)) : [];

  it("are all known here", () => {
    const inTables = all
      .filter((path) => path.startsWith("water-quality/") && !path.includes("pond_fish"))
      .map((path) => basename(path));
    expect(inTables.sort()).toEqual(Object.keys(tables).sort());
  });

  for (const [name, expected] of Object.entries(tables)) {
    it(`imports ${name}`, async () => {
      const bytes = readFileSync(join(folder, "water-quality", name));
      const file = tableOf(bytes, name, 1009);
      const places = new KnownLog(logOf().logbook).names;
      const looked = await lookAt(file, places);
      expect(looked.propose(new Map()).questions.map(({ id }) => id)).toEqual(expected.asks);
      const done = await imported(file, expected.answers);
      expect(addsUp(done)).toBe(true);
      expect([done.rows.read, done.rows.imported, done.rows.rejected]).toEqual([
        expected.read,
        expected.imported,
        expected.rejected,
      ]);
      for (const [day, line] of expected.has) expect(linesOn(done, day)).toContain(line);
      // What was written says nothing that the log does not know, and a second import adds nothing.
      const after = logOf(done.files);
      for (const { blocks } of after.logbook.dayGroups)
        for (const { facts } of blocks) expect(facts.problems).toEqual([]);
      const again = await imported(file, done.mapping, done.files);
      expect([again.rows.imported, again.files]).toEqual([0, done.files]);
    });
  }

  const others = all.filter((path) => tables[basename(path)] === undefined);
  it.each(others)("refuses %s", async (path) => {
    const reason = refusals.find(([form]) => form.test(path))?.[1];
    expect(reason, `no reason is stated for ${path}`).toBeDefined();
    const file = tableOf(readFileSync(join(folder, path)), basename(path));
    const places = new KnownLog(logOf().logbook).names;
    await expect(lookAt(file, places).then((looked) => looked.propose(new Map()))).rejects.toThrow(reason!);
  });

  it("the raw and the cleaned table of one probe say the same", async () => {
    const names = ["exo_lake_utf16le_2019-05-10.csv", "exo_lake_cleaned_2019-05-10.csv"];
    const [raw, cleaned] = await Promise.all(
      names.map(async (name) =>
        imported(tableOf(readFileSync(join(folder, "water-quality", name)), name), tables[name]!.answers),
      ),
    );
    const of = (done: Done) =>
      new Map(
        done.entries.map((entry) => [
          `${entry.day} ${entry.minute} ${entry.is === "test" ? entry.parameter.name : ""}`,
          entry,
        ]),
      );
    const [a, b] = [of(raw!), of(cleaned!)];
    let compared = 0;
    for (const [key, entry] of b) {
      const other = a.get(key);
      if (other === undefined || other.is !== "test" || entry.is !== "test") continue;
      compared++;
      expect(Number(entry.text), key).toBe(Number(other.text));
    }
    expect(compared).toBeGreaterThan(1500);
  });
});

it.skipIf(isThere)("tables beside the repository: NOT THERE, so nothing was tried on real data", ({ skip }) =>
  skip(`${folder} is not there`),
);
