import { chmodSync, linkSync, readdirSync, readFileSync, statSync, symlinkSync, utimesSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { formatReport } from "../../language/cli/schema.ts";
import { replaceFile } from "../../language/cli/write.ts";
import { cellar, folderOf, room, standpipe } from "./support.ts";

const crooked = "2026-03-01\n dam    clean\n rack-1 change 30 %   # weekly\n";
const straight = "2026-03-01\n  dam    clean\n  rack-1 change 30 %   # weekly\n";
const text = (folder: string, name: string): string => readFileSync(join(folder, name), "utf8");

describe("format", () => {
  test("lays out the files that need it, names them, and leaves the others as they are", async () => {
    const folder = folderOf({ "room.tank": room, "a/2026-03.tank": crooked });
    utimesSync(join(folder, "room.tank"), 1, 1);
    const { status, out, err } = await standpipe(["format"], { cwd: folder });
    expect([status, out, err]).toEqual([0, "a/2026-03.tank\n", "1 file laid out; 2 files read\n"]);
    expect(text(folder, "a/2026-03.tank")).toBe(straight);
    expect(statSync(join(folder, "room.tank")).mtimeMs).toBe(1000);
    expect((await standpipe(["format"], { cwd: folder })).err).toBe("Nothing to lay out; 2 files read\n");
  });

  test("takes files and folders by name", async () => {
    const folder = folderOf({ "a.tank": crooked, "b.tank": crooked, "c/d.tank": crooked });
    const { out } = await standpipe(["format", "a.tank", "c"], { cwd: folder });
    expect(out).toBe("a.tank\nc/d.tank\n");
    expect(text(folder, "b.tank")).toBe(crooked);
  });

  test("keeps the mode of a file, the link that leads to it, line ends and a byte order mark", async () => {
    const folder = folderOf({ "kept/a.tank": `\ufeff${crooked}`.replaceAll("\n", "\r\n") });
    chmodSync(join(folder, "kept/a.tank"), 0o640);
    symlinkSync("kept/a.tank", join(folder, "b.tank"));
    await standpipe(["format", "b.tank"], { cwd: folder });
    expect(text(folder, "kept/a.tank")).toBe(`\ufeff${straight}`.replaceAll("\n", "\r\n"));
    expect(statSync(join(folder, "kept/a.tank")).mode & 0o777).toBe(0o640);
    expect(readdirSync(join(folder, "kept"))).toEqual(["a.tank"]);
  });

  test("does not touch a file that it cannot read whole, and ends with 2", async () => {
    const bytes = Buffer.concat([Buffer.from(crooked), Buffer.from([0xe9, 0x0a])]);
    const folder = folderOf({ "a.tank": bytes, "b.tank": crooked });
    const { status, err, out } = await standpipe(["format"], { cwd: folder });
    expect([status, out]).toEqual([2, "b.tank\n"]);
    expect(err).toContain("left alone  a.tank:4: this line is not UTF-8; save the file as UTF-8\n");
    expect(readFileSync(join(folder, "a.tank")).equals(bytes)).toBe(true);
  });

  test("leaves a line that cannot be read as it is", async () => {
    const broken = `${crooked} dam    chnge   30 %\n`;
    const folder = folderOf({ "a.tank": broken });
    await standpipe(["format"], { cwd: folder });
    expect(text(folder, "a.tank")).toContain("\n dam    chnge   30 %\n");
  });

  test("finds the cellar as it should be", async () => {
    expect((await standpipe(["format", "--check", cellar])).status).toBe(0);
  });
});

describe("format --check", () => {
  test("writes nothing, lists what would change, and ends with 1", async () => {
    const folder = folderOf({ "room.tank": room, "b.tank": crooked });
    const { status, out, err } = await standpipe(["format", "--check"], { cwd: folder });
    expect([status, out, err]).toEqual([1, "b.tank\n", "1 file would be laid out; 2 files read\n"]);
    expect(text(folder, "b.tank")).toBe(crooked);
  });

  test("ends with 0 if nothing would", async () => {
    const { status, out } = await standpipe(["format", "--check"], { cwd: folderOf({ "a.tank": straight }) });
    expect([status, out]).toEqual([0, ""]);
  });

  test("tells the same as JSON", async () => {
    const folder = folderOf({ "room.tank": room, "b.tank": crooked, "c.tank": "\0" });
    const { status, out } = await standpipe(["format", "--check", "--json"], { cwd: folder });
    expect(status).toBe(2);
    expect(formatReport.parse(JSON.parse(out))).toEqual({
      standpipe: 1,
      command: "format",
      written: false,
      files: [
        { file: "b.tank", changed: true },
        { file: "room.tank", changed: false },
      ],
      unread: [{ file: "c.tank", message: "c.tank: this is no text" }],
    });
  });
});

describe("format of standard input", () => {
  test.each([["--stdin"], ["-"]])("with %s prints it laid out", async (word) => {
    const { status, out } = await standpipe(["format", word], { input: crooked });
    expect([status, out]).toEqual([0, straight]);
  });

  test("says with --check whether it would change", async () => {
    expect(await standpipe(["format", "--stdin", "--check"], { input: crooked })).toMatchObject({
      status: 1,
      out: "stdin\n",
    });
    expect(await standpipe(["format", "--stdin", "--check"], { input: straight })).toMatchObject({
      status: 0,
      out: "",
    });
  });

  test("refuses what is not UTF-8, and prints nothing of it", async () => {
    const { status, out, err } = await standpipe(["format", "-"], { input: new Uint8Array([0x61, 0xff]) });
    expect([status, out, err]).toEqual([
      2,
      "",
      "standpipe: stdin:1: this line is not UTF-8; save the file as UTF-8\n",
    ]);
  });
});

describe("a file is replaced", () => {
  const shown = (path: string): string => path;

  test("only if it is still what was read", () => {
    const folder = folderOf({ "a.tank": "new by somebody" });
    const path = join(folder, "a.tank");
    expect(() => replaceFile(path, Buffer.from("old"), "mine", shown)).toThrow("changed by somebody else");
    expect([text(folder, "a.tank"), readdirSync(folder)]).toEqual(["new by somebody", ["a.tank"]]);
  });

  test("and never over what stands in the way", () => {
    const folder = folderOf({ "a.tank": "old", [`.a.tank.${process.pid}.new`]: "in the way" });
    expect(() => replaceFile(join(folder, "a.tank"), Buffer.from("old"), "mine", shown)).toThrow();
    expect(text(folder, "a.tank")).toBe("old");
  });

  test("and what was there before is whole under its other name", () => {
    const folder = folderOf({ "a.tank": "old" });
    linkSync(join(folder, "a.tank"), join(folder, "kept"));
    replaceFile(join(folder, "a.tank"), Buffer.from("old"), "new", shown);
    expect([text(folder, "a.tank"), text(folder, "kept")]).toEqual(["new", "old"]);
  });
});
