import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { writeTogether } from "../../language/cli/whole-file.ts";
import { tables } from "../../language/exchange/export/tables.ts";
import { atDesk, folderOf, room } from "./support.ts";

const names = ["a", "b", "c"];
const texts = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder, { withFileTypes: true })
      .filter((each) => !each.isDirectory())
      .map(({ name }) => [name, readFileSync(join(folder, name), "utf8")]),
  );

/** Writes all, and does something to the folder before any takes its place. */
function write(folder: string, meanwhile: () => void = () => undefined): void {
  writeTogether((begin) => {
    for (const name of names) begin(join(folder, name), name).write(`new ${name}`);
    meanwhile();
  });
}

describe("files that are written together", () => {
  it("take their places together, and leave nothing beside them", () => {
    const folder = folderOf({ a: "old a" });
    write(folder);
    expect(texts(folder)).toEqual({ a: "new a", b: "new b", c: "new c" });
    expect(readdirSync(folder)).toEqual(names);
  });

  it.each([
    ["the first", "a"],
    ["the last", "c"],
  ])("leave the old set whole where %s cannot take its place", (_, taken) => {
    const old = { b: "old b", other: "x" };
    const folder = folderOf(old);
    // A file cannot be renamed over a folder, be it root who does it.
    expect(() => write(folder, () => mkdirSync(join(folder, taken)))).toThrow(
      `${taken}: this is a folder, not a file`,
    );
    expect(texts(folder)).toEqual(old);
    expect(readdirSync(folder).sort()).toEqual([taken, "b", "other"].sort());
  });

  it("leave a link that was there a link, be it one that leads nowhere", () => {
    const folder = folderOf({});
    symlinkSync("nowhere", join(folder, "a"));
    expect(() => write(folder, () => mkdirSync(join(folder, "c")))).toThrow("c: this is a folder");
    const [a] = readdirSync(folder, { withFileTypes: true });
    expect([a?.name, a?.isSymbolicLink()]).toEqual(["a", true]);
  });

  it("are not begun where one of them can be no file, and leave nothing where writing stops", () => {
    const folder = folderOf({ a: "old a" });
    mkdirSync(join(folder, "b"));
    let isFilled = false;
    const fill = (): void => {
      isFilled = true;
    };
    expect(() => write(folder, fill)).toThrow("b: this is a folder, not a file");
    expect(isFilled).toBe(false);
    const other = folderOf({ a: "old a" });
    const stop = (): never => {
      throw new Error("enough");
    };
    expect(() => write(other, stop)).toThrow("enough");
    expect([texts(other), readdirSync(other)]).toEqual([{ a: "old a" }, ["a"]]);
  });
});

describe("tables that are exported over an earlier set", () => {
  it.each(["csv", "parquet"])("stay what they were if one of them cannot be written: %s", async (format) => {
    const folder = folderOf({ "shed.tank": `${room}\n2026-03-01\n  dam  clean\n` });
    const last = `${tables.at(-1)!.name}.${format}`;
    const old = Object.fromEntries(
      tables.slice(0, -1).map(({ name }) => [`${name}.${format}`, `old ${name}`]),
    );
    mkdirSync(join(folder, "tables", last), { recursive: true });
    for (const [name, text] of Object.entries(old)) writeFileSync(join(folder, "tables", name), text);
    const { err, status } = await atDesk(["export", "--format", format, "--out", "tables"], { cwd: folder });
    expect({ err, status }).toEqual({
      err: `standpipe: tables/${last}: this is a folder, not a file\n`,
      status: 2,
    });
    expect(texts(join(folder, "tables"))).toEqual(old);
    expect(readdirSync(join(folder, "tables"))).toHaveLength(tables.length);
  });
});
