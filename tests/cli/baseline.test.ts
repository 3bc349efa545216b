import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { baselineFile } from "../../language/cli/schema/baseline.ts";
import { checkReport } from "../../language/cli/schema.ts";
import { atDesk, bad, folderOf, room } from "./support.ts";

const check = (cwd: string, ...words: string[]) =>
  atDesk(["check", ...words], { cwd, env: { NO_COLOR: "1" } });
const known = "known.json";
const shed = (log = bad) => folderOf({ "room.tank": room, "2026-03.tank": log });

async function shedWithBaseline(log = bad): Promise<string> {
  const cwd = shed(log);
  expect(await check(cwd, "--write-baseline", known)).toMatchObject({ status: 0, out: "" });
  return cwd;
}

describe("a baseline", () => {
  test("holds what there is, one finding a line, by code, station, day and text", async () => {
    const cwd = await shedWithBaseline();
    expect(readFileSync(join(cwd, known), "utf8")).toBe(`{
  "standpipe": 1,
  "baseline": [
    {"code":"entry/kind","station":"dam","day":"2026-03-01","text":"dam tset pH 7","count":1},
    {"code":"limit/above","station":"dam","day":"2026-03-01","text":"dam test nitrate 40","count":1}
  ]
}
`);
  });

  test("of a log without findings is empty", async () => {
    const cwd = folderOf({ "room.tank": room });
    expect((await check(cwd, "--write-baseline", known)).err).toBe(
      "0 findings written to known.json as known\n",
    );
    expect(baselineFile.parse(JSON.parse(readFileSync(join(cwd, known), "utf8"))).baseline).toEqual([]);
  });

  test("keeps what is known from counting, wherever it has moved to in its file and however it is laid out", async () => {
    const cwd = await shedWithBaseline();
    const moved = `# March\n\n${bad.replace("  dam  tset", "\tdam   tset").replace("40\n", "40  # again\n")}`;
    writeFileSync(join(cwd, "2026-03.tank"), moved);
    const { status, out, err } = await check(cwd, "--baseline", known);
    expect([status, out]).toEqual([0, "No findings in 2 files, 1 entry\n"]);
    expect(err).toBe("2 findings known from known.json, not counted\n");
  });

  test("lets what is new through: another day, another line, or one more of the same", async () => {
    const cwd = await shedWithBaseline();
    writeFileSync(join(cwd, "2026-03.tank"), `${bad}  dam  tset pH 7\n2026-03-02\n  dam  tset pH 7\n`);
    const { status, out } = await check(cwd, "--baseline", known, "--format", "github");
    expect(status).toBe(1);
    expect(out.match(/line=\d+/g)).toEqual(["line=4", "line=6"]);
  });

  test("tells what of it no longer occurs, also as JSON", async () => {
    const cwd = await shedWithBaseline();
    writeFileSync(join(cwd, "2026-03.tank"), bad.replace("tset", "test"));
    const { status, err } = await check(cwd, "--baseline", known);
    expect(status).toBe(0);
    expect(err).toContain(
      "1 finding of it no longer occurs; --write-baseline writes it anew:\n  entry/kind  2026-03-01  dam tset pH 7\n",
    );
    const report = checkReport.parse(JSON.parse((await check(cwd, "--baseline", known, "--json")).out));
    expect(report.findings).toEqual([]);
    expect(report.baseline).toMatchObject({ known: 1, gone: [{ code: "entry/kind", count: 1 }] });
  });

  test("is not written while a file cannot be read", async () => {
    const cwd = shed("\0");
    const { status, err } = await check(cwd, "--write-baseline", known);
    expect(status).toBe(2);
    expect(err).toContain("no baseline was written");
  });

  test.each([
    ["{", "known.json: this is no JSON: "],
    ["[]", "known.json: this is no baseline: the whole: an object of JSON is wanted here"],
    [
      '{"standpipe":1,"baseline":[\n<<<<<<< HEAD\n=======\n>>>>>>> holiday\n]}',
      "known.json: a merge left two versions in it; keep the lines of both between the marks",
    ],
    ['{"standpipe":1,"baseline":[{"code":5}]}', "baseline[0].code: a text is wanted here"],
    [
      '{"standpipe":2,"baseline":[]}',
      "known.json: this baseline is of version 2, and this tool reads version 1: a later one wrote it",
    ],
    ['{"standpipe":1}', "known.json: this is no baseline: baseline: a list is wanted here; check"],
    [
      '{"standpipe":1,"baseline":[{"code":"x","station":"dam","day":"","text":"","count":1}]}',
      "known.json: this is no baseline: baseline[0].code: a code of a finding, as limit/above",
    ],
    [
      '{"standpipe":1,"baseline":[{"code":"a/b","station":"dam","day":"","text":"","count":0}]}',
      "baseline[0].count: a number above 0",
    ],
  ])("that is malformed is refused, with the place: %s", async (text, says) => {
    const cwd = shed();
    writeFileSync(join(cwd, known), text);
    const { status, err, out } = await check(cwd, "--baseline", known);
    expect([status, out]).toEqual([2, ""]);
    expect(err).toContain(says);
  });

  test("that is not there is told, with what writes one", async () => {
    expect((await check(shed(), "--baseline", "a.json")).err).toBe(
      "standpipe: a.json: there is no such file or folder; check --write-baseline FILE writes one\n",
    );
  });
});
