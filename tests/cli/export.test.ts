import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { parquetMetadata, parquetReadObjects } from "hyparquet";
import { describe, expect, it } from "vitest";
import * as z from "zod/mini";
import { logItem } from "../../language/cli/schema/log.ts";
import { tables } from "../../language/exchange/export/tables.ts";
import { atDesk, cellar, folderOf, room, standpipe } from "./support.ts";

const log = `${room}
2026-03-01
  08:00  dam  test nitrate 18 mg/L, pH 7.2
  dam  dose prazi 200 mg  # by eye
`;
const found = async (folder: string): Promise<unknown> => {
  const { out } = await atDesk(["check", ".", "--json"], { cwd: folder });
  const { findings, counts } = JSON.parse(out) as {
    findings: { code: string; message: string }[];
    counts: unknown;
  };
  return { counts, findings: findings.map(({ code, message }) => `${code} ${message}`) };
};

describe("standpipe export", () => {
  it("writes the log as JSON of its documented form, of which the same log can be made", async () => {
    const { out, err, status } = await atDesk(["export", cellar], { isTTY: false });
    expect({ err, status }).toEqual({ err: "", status: 0 });
    const items = z.parse(z.array(logItem), JSON.parse(out));
    expect(items.filter(({ is }) => is === "file").length).toBe(
      readdirSync(cellar).filter((name) => name.endsWith(".tank")).length,
    );
    const folder = folderOf({ "cellar.json": out });
    const made = await atDesk(["export", "made", "--restore", "cellar.json"], { cwd: folder });
    expect(made).toMatchObject({ status: 0, out: "", err: "20 files written to made\n" });
    expect(await found(join(folder, "made"))).toEqual(await found(cellar));
    // Once more changes nothing; over another text it writes nothing.
    expect((await atDesk(["export", "made", "--restore", "cellar.json"], { cwd: folder })).status).toBe(0);
    writeFileSync(join(folder, "made", "room.tank"), "room\n");
    const other = await atDesk(["export", "made", "--restore", "cellar.json"], { cwd: folder });
    expect(other).toMatchObject({ status: 2 });
    expect(other.err).toContain("made/room.tank: another text stands there; nothing is written");
  });

  it("writes all tables to a folder, the same in CSV and in Parquet", async () => {
    const folder = folderOf({ "shed.tank": log });
    for (const format of ["csv", "parquet"]) {
      const { err, status } = await atDesk(["export", "--format", format, "--out", format], { cwd: folder });
      expect({ err, status }).toEqual({ err: `${format}: 5 tables written\n`, status: 0 });
    }
    for (const { name, columns } of tables) {
      const bytes = readFileSync(join(folder, "parquet", `${name}.parquet`));
      const file = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length);
      const stored = await parquetReadObjects({ file });
      const read = parse(readFileSync(join(folder, "csv", `${name}.csv`)), { columns: true });
      expect(Number(parquetMetadata(file).num_rows)).toBe(read.length);
      const asText = (value: unknown): string =>
        value === null || value === undefined
          ? ""
          : value instanceof Date
            ? value.toISOString().slice(0, 10)
            : String(value);
      expect(stored.map((row) => columns.map((column) => asText(row[column.name])))).toEqual(
        read.map((row) => columns.map((column) => (row as Record<string, string>)[column.name])),
      );
    }
  });

  it("writes one table to standard output, of one tank and some days", async () => {
    const folder = folderOf({
      "shed.tank": `${log}2026-03-02\n  dam  test nitrate 19 mg/L\n  room  clean\n`,
    });
    const asked = ["export", "--format", "csv", "--table", "values", "--tank", "dam", "--from", "2026-03-02"];
    const { out } = await atDesk(asked, { cwd: folder });
    const rows = parse(out, { columns: true }) as Record<string, string>[];
    expect(
      rows.filter(({ slot }) => slot === "reading").map(({ of, value, date }) => [of, value, date]),
    ).toEqual([["nitrate", "19", "2026-03-02"]]);
  });

  it("writes a table without a row, too", async () => {
    const folder = folderOf({ "shed.tank": room });
    await atDesk(["export", "--format", "parquet", "--table", "values", "--out", "v.parquet"], {
      cwd: folder,
    });
    const bytes = readFileSync(join(folder, "v.parquet"));
    const file = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length);
    expect(await parquetReadObjects({ file })).toEqual([]);
  });

  it("reads a log from standard input and writes NDJSON", async () => {
    const { out, status } = await standpipe(["export", "-", "--format", "ndjson"], { input: log });
    expect(status).toBe(0);
    const items = out
      .trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line) as { is: string });
    expect(items[0]).toEqual({ is: "log", standpipe: 1, title: "Shed" });
    expect(items.at(-1)).toMatchObject({ is: "entry", entry: "dose", comment: "# by eye" });
  });

  it.each([
    [["--format", "csv"], "name a table (--table entries, values"],
    [["--format", "parquet", "--table", "values"], "Parquet goes to a file"],
    [["--table", "values"], "--table is for csv and parquet; json holds the whole log"],
    [["--out", "room.tank"], "is a log, and is not written over"],
    [["--tank", "nobody"], "nothing is called “nobody” in this log"],
    [["--from", "1 March"], "--from takes a day, such as 2026-03-01, not “1 March”"],
    [["--out", "no/such/folder/x.json"], "no/such/folder/x.json: there is no such file or folder"],
  ])("says what is wrong with %j", async (args, says) => {
    const folder = folderOf({ "shed.tank": log });
    const { err, out, status } = await atDesk(["export", ".", ...args], { cwd: folder });
    expect({ status, out }).toEqual({ status: 2, out: "" });
    expect(err).toContain(says);
  });

  it.each([
    ["[1]", "no item of a log"],
    ["{]", "this is no JSON: line 1"],
    ['{"is":"file","path":"a.tank"}', "the first item of a log is"],
    ['{"is":"log","standpipe":1,"title":""}', "no file of a log is named here"],
    ['{"is":"log","standpipe":2,"title":""}', "no item of a log, at “standpipe”"],
    [
      '{"is":"log","standpipe":1,"title":""}\n{"is":"file","path":"../a.tank"}',
      "no path of a log within its folder",
    ],
    [
      '{"is":"log","standpipe":1,"title":""}\n{"is":"file","path":"/a.tank"}',
      "no path of a log within its folder",
    ],
    ['{"is":"log","standpipe":1,"title":""}\n{"is":"file","path":"a.sh"}', "it ends in .tank"],
    [
      '{"is":"log","standpipe":1,"title":""}\n{"is":"file","path":"a.tank"}\n{"is":"comment","line":1,"text":"# a\\nroom"}',
      "line 3: no item of a log",
    ],
  ])("makes no log of %s", async (text, says) => {
    const folder = folderOf({ "a.json": text });
    const { err, status } = await atDesk(["export", "made", "--restore", "a.json"], { cwd: folder });
    expect(status).toBe(2);
    expect(err).toContain(says);
    expect(existsSync(join(folder, "made"))).toBe(false);
  });
});
