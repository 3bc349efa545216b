import { describe, expect, test } from "vitest";
import { calculations } from "../../language/calculations/registry.ts";
import { workListReport, workReport } from "../../language/cli/schema.ts";
import { atDesk, cellar, folderOf, standpipe } from "./support.ts";

describe("work", () => {
  test("works one thing out, with formula, range, source and caution", async () => {
    const { status, out, err } = await standpipe([
      "work",
      "free-ammonia",
      "total=0.5",
      "pH=8",
      "temperature=77",
      "F",
    ]);
    expect({ status, err }).toEqual({ status: 0, err: "" });
    expect(out).toContain("free ammonia                    0.033 mg/L NH3\n");
    expect(out).toContain("pKa = 0.09018 + 2729.92 / T");
    expect(out).toContain("Emerson, Russo, Lund & Thurston 1975");
    expect(out).toContain("Take care:");
  });

  test("takes what the tests leave open through to the result", async () => {
    const { out } = await standpipe(["work", "free-ammonia", "total=<0.25", "pH=7.8..8.2", "temperature=25"]);
    expect(out).toMatch(/free ammonia +<0\.025 mg\/L NH3\n/);
  });

  test("names the input that is wrong, all of them at once, and does nothing", async () => {
    const { status, out, err } = await standpipe(["work", "free-ammonia", "total=5 dKH", "pH=20", "temp=25"]);
    expect({ status, out }).toEqual({ status: 2, out: "" });
    expect(err.split("\n").slice(0, -1)).toEqual([
      "standpipe: free-ammonia takes no “temp”; did you mean “temperature”?",
      "standpipe: total: dKH is a hardness or alkalinity; total is measured in mg/L N",
      "standpipe: pH: 20 is not within 0 to 14",
      "standpipe: temperature is missing: temperature=1 C",
    ]);
  });

  test("outside the range of its formula gives a reason and no figure, and its status says so", async () => {
    const { status, out } = await standpipe(["work", "free-ammonia", "total=1", "pH=8", "temperature=60"]);
    expect(status).toBe(1);
    expect(out).toContain("No figure: temperature 60 C is not within 0 to 50 C.");
    expect(out).not.toMatch(/mg\/L NH3\n/);
  });

  test("is filled from a tank of a log; what is given goes before it", async () => {
    const filled = await standpipe(["work", "free-ammonia", "--tank", "dam", "--log", cellar]);
    expect(filled.out).toMatch(/pH +7\.\d +test of 29 March/);
    const given = await standpipe([
      "work",
      "free-ammonia",
      "pH=8.1",
      "--tank",
      "dam",
      "--log",
      cellar,
      "--json",
    ]);
    const report = workReport.parse(JSON.parse(given.out));
    expect(report.inputs.map(({ name, text, from }) => `${name} ${text} ${from ?? ""}`.trim())).toEqual([
      "total <0.1 mg/L N test of 25 March",
      "pH 8.1",
      expect.stringMatching(/^temperature 25\.\d C test of 29 March$/),
      "salinity 0 g/kg",
    ]);
    expect(report.inputs[0]?.place?.file).toMatch(/2026-03\.tank$/);
  });

  test("takes an ambiguous unit as the room of the log declares it", async () => {
    const folder = folderOf({
      "room.tank": 'room "R"\n  units temperature F\ntank dam\n  volume 100 L\n',
    });
    const { out } = await standpipe([
      "work",
      "free-ammonia",
      "total=1",
      "pH=8",
      "temperature=77 deg",
      "--tank",
      "dam",
      "--log",
      folder,
      "--json",
    ]);
    expect(workReport.parse(JSON.parse(out)).inputs[2]).toMatchObject({ text: "25 C" });
  });

  test("says what it was given wrongly: a tank, a stray word, a calculation there is not", async () => {
    const err = async (...args: string[]) => (await standpipe(["work", ...args])).err;
    expect(await err("free-amonia")).toBe(
      "standpipe: there is no calculation “free-amonia”; did you mean “free-ammonia”?; standpipe work --list names them\n",
    );
    expect(await err("free-ammonia", "much", "total=1")).toContain("“much” belongs to no input");
    expect(await err("free-ammonia", "--tank", "damm", "--log", cellar)).toContain("did you mean “dam”?");
    expect(await err("free-ammonia", "--log", cellar)).toContain("--log and --as-of go with --tank NAME");
    expect(await err("--page")).toContain("which calculation?");
  });

  test("lists every calculation by groups, with what it takes if asked", async () => {
    const short = await atDesk(["work"], { columns: 100, isTTY: false });
    const long = await atDesk(["work", "--list"], { columns: 100, isTTY: false });
    for (const { name, inputs } of calculations) {
      expect(short.out).toContain(`  ${name} `);
      for (const input of Object.keys(inputs)) expect(long.out, name).toContain(`      ${input}=`);
    }
    for (const line of [...short.out.split("\n"), ...long.out.split("\n")])
      expect(line.length).toBeLessThanOrEqual(100);
    const { out } = await standpipe(["work", "--list", "--json"]);
    expect(workListReport.parse(JSON.parse(out)).calculations).toHaveLength(calculations.length);
  });

  test("prints the page of a calculation", async () => {
    const { out } = await standpipe(["work", "free-ammonia", "--page"]);
    expect(out).toContain("# Free ammonia\n");
    expect(out).toContain("## Worked example");
  });
});
