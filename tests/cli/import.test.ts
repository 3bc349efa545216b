import { existsSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { importReport } from "../../language/cli/schema.ts";
import { atDesk, folderOf, standpipe } from "./support.ts";

const room = `room "Shed"
  units  temperature C

tank dam "Rainbowfish dam"
  volume  300 L
tank r1
  volume  20 L
`;
const table =
  "Date,Temp,pH\n2026-03-01 08:00,24.60,7.2\n2026-03-02 08:00,24.7,72\n2026-03-03 08:00,24.8,7.1\n";
const answers = ["--answer", "tank=dam", "--answer", "unit:Temp=C"];
const text = (folder: string, name: string): string => readFileSync(join(folder, name), "utf8");

describe("import", () => {
  test("asks what is open, writes nothing, and ends with 1", async () => {
    const folder = folderOf({ "room.tank": room, "probe.csv": table });
    const { status, out } = await standpipe(["import", "probe.csv"], { cwd: folder });
    expect(status).toBe(1);
    expect(out).toContain("2 questions are open; nothing was imported");
    expect(out).toContain("  which tank is the table of?\n    --answer tank=dam | r1\n");
    expect(out).toContain(
      "no unit is said of “Temp” (temperature); which is it?\n    --answer unit:Temp=C | F | ignore\n",
    );
    expect(readdirSync(folder).sort()).toEqual(["probe.csv", "room.tank"]);
  });

  test("answered, it writes the log, the mapping and the rejected rows; the mapping serves the next table", async () => {
    const folder = folderOf({ "room.tank": room, "probe.csv": table });
    const first = await standpipe(["import", "probe.csv", ...answers, "--write-map", "probe.map.json"], {
      cwd: folder,
    });
    expect([first.status, first.out]).toEqual([
      1,
      expect.stringContaining(
        "3 rows read = 2 imported + 0 skipped + 1 rejected\n  2026-03.tank: 2 lines, a new file\nWritten\n",
      ),
    ]);
    expect(first.err).toContain("line 3  pH 72 cannot be: 2 to 12 pH can\n");
    expect(text(folder, "2026-03.tank")).toBe(
      "2026-03-01\n  08:00 dam   test temperature 24.60 C, pH 7.2\n\n2026-03-03\n  08:00 dam   test temperature 24.8 C, pH 7.1\n",
    );
    expect(text(folder, "probe.rejects.csv")).toBe(
      "#standpipe rejects of probe.csv: mend the rows, and import this file with the same mapping\nDate,Temp,pH\n#standpipe line 3: pH 72 cannot be: 2 to 12 pH can\n2026-03-02 08:00,24.7,72\n",
    );
    writeFileSync(
      join(folder, "probe.rejects.csv"),
      text(folder, "probe.rejects.csv").replace(",72", ",7.2"),
    );
    const second = await standpipe(["import", "probe.rejects.csv", "--map", "probe.map.json"], {
      cwd: folder,
    });
    expect([second.status, second.out]).toEqual([0, expect.stringContaining("1 row read = 1 imported")]);
    const third = await standpipe(["import", "probe.csv", ".", "--map", "probe.map.json", "--json"], {
      cwd: folder,
    });
    const report = importReport.parse(JSON.parse(third.out));
    expect(report.rows).toMatchObject({ read: 3, imported: 0, known: 2, rejected: 1 });
    expect([report.written, report.files]).toEqual([false, []]);
    expect((await standpipe(["check", "."], { cwd: folder })).status).toBe(0);
  });

  test("--json tells questions and refusals; --dry-run writes nothing", async () => {
    const folder = folderOf({
      "room.tank": room,
      "probe.csv": table,
      "bad.csv": "year,pH\n2025,7\n2026,7\n",
    });
    const open = importReport.parse(
      JSON.parse((await standpipe(["import", "probe.csv", "--json"], { cwd: folder })).out),
    );
    expect([open.questions.map(({ id }) => id), open.mapping, open.rows]).toEqual([
      ["tank", "unit:Temp"],
      null,
      null,
    ]);
    const bad = await standpipe(["import", "bad.csv", "--json"], { cwd: folder });
    expect([bad.status, importReport.parse(JSON.parse(bad.out)).refused]).toEqual([
      2,
      expect.stringContaining("“2025”, which is no day"),
    ]);
    const dry = await standpipe(["import", "probe.csv", ...answers, "--dry-run", "--json"], { cwd: folder });
    const report = importReport.parse(JSON.parse(dry.out));
    expect([report.written, report.files]).toEqual([false, [{ file: "2026-03.tank", new: true, lines: 2 }]]);
    expect(readdirSync(folder).sort()).toEqual(["bad.csv", "probe.csv", "room.tank"]);
  });

  test("standard input, and a file whose name has a line end in it", async () => {
    const name = "probe\n7.csv";
    const folder = folderOf({ "room.tank": room, [name]: table });
    const { status, out } = await standpipe(["import", name, ...answers], { cwd: folder });
    expect([status, out]).toEqual([1, expect.stringContaining("probe\\n7.csv")]);
    expect(text(folder, "probe\n7.rejects.csv")).toContain("#standpipe rejects of probe 7.csv: mend");
    const piped = await standpipe(["import", "-", ...answers], { cwd: folder, input: table });
    expect(piped.out).toContain("2 in the log already");
  });

  test.each([
    ["a zip called .csv", Buffer.from("PK\u0003\u0004\u0014\0\0\0"), "this is a zip archive"],
    [
      "bytes that are no text",
      Buffer.from(Uint8Array.from({ length: 3000 }, (_, at) => (at * 31) & 255)),
      "this is no text",
    ],
    ["one line of 10 MB", Buffer.alloc(10_000_000, "7"), "10,000,000 characters in a line"],
    ["nothing", Buffer.alloc(0), "the file is empty"],
    [
      "NUL bytes among its letters",
      Buffer.from("Date,pH\0\n2026-03-01,7\0\n".repeat(40)),
      /this is no text: \d+ % of its bytes are control characters, 80 of them NUL/,
    ],
    [
      "NUL bytes alone",
      Buffer.alloc(3000),
      "this is no text: 100 % of its bytes are control characters, 3000 of them NUL",
    ],
    [
      "another kind of file by the name of a table",
      Buffer.from("%PDF-1.7\n%âãÏÓ\n1 0 obj\n", "latin1"),
      "this is a PDF, not a table",
    ],
  ])("refuses %s", async (_, bytes, why) => {
    const folder = folderOf({ "room.tank": room, "t.csv": new Uint8Array(bytes) });
    const { status, err } = await standpipe(["import", "t.csv"], { cwd: folder });
    expect([status, err]).toEqual([2, expect.stringContaining(`standpipe: t.csv: `)]);
    if (typeof why === "string") expect(err).toContain(why);
    else expect(err).toMatch(why);
  });

  test("a link that leads out of the log is not written through, and another's file is left alone", async () => {
    const outside = folderOf({ "kept.tank": "kept\n" });
    const folder = folderOf({ "room.tank": room, "probe.csv": table, "probe.rejects.csv": "mine\n" });
    const first = await standpipe(["import", "probe.csv", ...answers], { cwd: folder });
    expect([first.status, first.err]).toEqual([
      2,
      expect.stringContaining("probe.rejects.csv: another file stands there, and is left alone"),
    ]);
    expect(existsSync(join(folder, "2026-03.tank"))).toBe(false);
    writeFileSync(join(folder, "probe.csv"), table.replace(",72", ",7.2"));
    symlinkSync(join(outside, "kept.tank"), join(folder, "2026-03.tank"));
    const second = await standpipe(["import", "probe.csv", ...answers], { cwd: folder });
    expect([second.status, second.err]).toEqual([
      2,
      expect.stringContaining("2026-03.tank: something stands there already"),
    ]);
    expect(text(outside, "kept.tank")).toBe("kept\n");
    expect(readdirSync(outside)).toEqual(["kept.tank"]);
  });

  test("a log that is not known whole takes nothing in: marks of a merge, a file that is no text", async () => {
    const merged = `${room}\n2026-03-01\n<<<<<<< HEAD\n  dam test pH 7.2\n=======\n  dam test pH 7.3\n>>>>>>> other\n`;
    const folder = folderOf({ "room.tank": merged, "probe.csv": table });
    const first = await standpipe(["import", "probe.csv", ...answers], { cwd: folder });
    expect([first.status, first.err]).toEqual([
      2,
      expect.stringContaining(
        "room.tank:10: a merge left two versions here; nothing is imported before one is chosen",
      ),
    ]);
    writeFileSync(join(folder, "room.tank"), room);
    writeFileSync(join(folder, "2026-03.tank"), Buffer.from([0x32, 0xff, 0xfe, 0x00]));
    const second = await standpipe(["import", "probe.csv", ...answers], { cwd: folder });
    expect([second.status, second.err]).toEqual([
      2,
      expect.stringContaining("nothing is imported while a part of the log cannot be read"),
    ]);
  });

  test("a table that is a link to elsewhere is read; what is written stays in the log", async () => {
    const outside = folderOf({ "probe.csv": table });
    const folder = folderOf({ "room.tank": room });
    symlinkSync(join(outside, "probe.csv"), join(folder, "here.csv"));
    const { status } = await standpipe(["import", "here.csv", ...answers], { cwd: folder });
    expect(status).toBe(1);
    expect(readdirSync(outside)).toEqual(["probe.csv"]);
    expect(readdirSync(folder).sort()).toEqual(["2026-03.tank", "here.csv", "here.rejects.csv", "room.tank"]);
  });

  test("what the table settles can be answered otherwise", async () => {
    const folder = folderOf({ "room.tank": room, "probe.csv": table });
    const args = ["import", "probe.csv", ...answers, "--answer", "parameter:pH=ignore", "--dry-run"];
    const { out } = await standpipe(args, { cwd: folder });
    expect(out).toContain("3 rows read = 3 imported");
  });

  test("says what is wrong with the call", async () => {
    const folder = folderOf({ "room.tank": room, "probe.csv": table, "m.json": "{}" });
    for (const [args, why] of [
      [[], "name a table: standpipe import FILE [DIR]"],
      [["gone.csv"], "gone.csv: there is no such file"],
      [["."], "this is no file"],
      [["probe.csv", "--answer", "tank"], "--answer takes ID=VALUE"],
      [["probe.csv", "--map", "m.json"], "m.json: standpipe: "],
      [["probe.csv", "--map", "m.json", "--answer", "tank=dam"], "leave --answer or --map out"],
      [["probe.csv", "--answer", "tank=damm"], "tank=damm: this log has dam, r1"],
    ] as const) {
      const { status, err } = await standpipe(["import", ...args], { cwd: folder });
      expect([status, err]).toEqual([2, expect.stringContaining(why)]);
    }
  });

  test("a dense table is thinned as it is read", async () => {
    const folder = folderOf({ "room.tank": room, "probe.csv": minutes(20_000) });
    const done = await standpipe(["import", "probe.csv", "--answer", "tank=dam"], { cwd: folder });
    expect(done.out).toContain(
      "20,000 rows read = 56 imported + 19,944 skipped (19,944 thinned) + 0 rejected",
    );
  });

  test("an interrupt leaves nothing behind", async () => {
    const folder = folderOf({ "room.tank": room, "probe.csv": minutes(50_000) });
    const before = new Set(process.listeners("SIGINT"));
    const ended = atDesk(["import", "probe.csv", "--answer", "tank=dam"], { cwd: folder, isTTY: false });
    const ours = (): NodeJS.SignalsListener | undefined =>
      process.listeners("SIGINT").find((each) => !before.has(each));
    while (ours() === undefined) await new Promise((resolve) => setImmediate(resolve));
    ours()!("SIGINT");
    const { status, err } = await ended;
    expect([status, err]).toEqual([2, "standpipe: stopped; nothing was written\n"]);
    expect(ours()).toBeUndefined();
    expect(readdirSync(folder).sort()).toEqual(["probe.csv", "room.tank"]);
  });
});

/** A reading a minute. */
function minutes(count: number): string {
  const rows = ["Date,Temp °C,pH"];
  for (let at = 0; at < count; at++) {
    const minute = new Date(Date.UTC(2024, 0, 1) + at * 60_000).toISOString().slice(0, 16).replace("T", " ");
    rows.push(`${minute},${(24 + (at % 7) / 10).toFixed(2)},7.2`);
  }
  return `${rows.join("\n")}\n`;
}
