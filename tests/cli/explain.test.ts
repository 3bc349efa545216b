import { describe, expect, test } from "vitest";
import { codePages } from "../../language/checks/codes.ts";
import { explainReport, reports } from "../../language/cli/schema.ts";
import { atDesk, standpipe } from "./support.ts";

const desk = { columns: 80, env: { NO_COLOR: "1" } };

describe("explain", () => {
  test("lists every code with its severity and title", async () => {
    const { out } = await atDesk(["explain"], desk);
    expect(out.trimEnd().split("\n")).toHaveLength(codePages.length);
    expect(out).toMatch(/^dose\/above-ceiling +warning +Above the ceiling$/m);
  });

  test("prints the page of a code: what it says, what to do, a log that raises it and one that does not", async () => {
    const { out } = await atDesk(["explain", "value/impossible"], desk);
    expect(out).toMatch(/^A value that cannot be {2}error {2}value\/impossible, since 0\.1\n\n/);
    expect(out).toContain("What to do: Correct the number");
    expect(out).toMatch(/show where:\n {4}tank dam\n[\s\S]*\^\^ value\/impossible\n/);
    expect(out).toContain("This one just does not:\n    tank dam\n");
  });

  test("prints a family", async () => {
    const { out } = await atDesk(["explain", "quarantine", "trend/crosses"], desk);
    expect(out).toContain("quarantine/early");
    expect(out).toContain("Source: Production: Theil-Sen");
  });

  test("makes the manual, in which every code has its section", async () => {
    const { out } = await standpipe(["explain", "--all", "--markdown"]);
    expect(out).toMatch(/^# Findings\n/);
    expect(out.match(/^## /gm)).toHaveLength(codePages.length);
    for (const { code } of codePages) expect(out).toContain(`\`${code}\``);
    expect(out.match(/^```/gm)).toHaveLength(codePages.length * 4);
  });

  test("as JSON", async () => {
    const { out } = await standpipe(["explain", "--json"]);
    expect(explainReport.parse(JSON.parse(out)).pages.map(({ code }) => code)).toEqual(
      codePages.map(({ code }) => code),
    );
  });

  test("prints the form of all that --json prints", async () => {
    const { out } = await standpipe(["explain", "--schema"]);
    const schema = JSON.parse(out);
    expect(schema.$schema).toContain("2020-12");
    expect(schema.anyOf).toHaveLength(Object.keys(reports).length);
    expect(schema.$defs.logItem.oneOf ?? schema.$defs.logItem.anyOf).toHaveLength(9);
    for (const form of schema.anyOf) expect(form.properties.standpipe.const).toBe(1);
  });
});
