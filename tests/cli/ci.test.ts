import { describe, expect, test } from "vitest";
import { sarif } from "./sarif-form.ts";
import { bad, cellar, folderOf, room, standpipe } from "./support.ts";

const hostile = 'a,b:c%\n"d" é.tank';

describe("for the log of a workflow", () => {
  test("each finding is a command of one line", async () => {
    const cwd = folderOf({ "room.tank": room, "log/2026-03.tank": bad });
    const { status, out, err } = await standpipe(["check", "--format", "github"], { cwd });
    expect(status).toBe(1);
    expect(out).toBe(
      "::warning file=log/2026-03.tank,line=2,endLine=2,col=21,endColumn=23,title=Above the limit (limit/above)::" +
        "nitrate 40 mg/L in dam is above its limit: at most 25 mg/L\n" +
        "::error file=log/2026-03.tank,line=3,endLine=3,col=8,endColumn=12,title=No such kind of entry (entry/kind)::" +
        "“tset” is no kind of entry; did you mean “test”?%0AWrite “test”\n",
    );
    expect(err).toBe("1 error, 1 warning in 2 files, 1 entry\n");
  });

  test("a file's name cannot end the command or begin another property", async () => {
    const cwd = folderOf({ [hostile]: room + bad });
    const { out } = await standpipe(["check", "--format", "github", "--severity", "error"], { cwd });
    expect(out).toContain('::error file=a%2Cb%3Ac%25%0A"d" é.tank,line=10,');
    expect(out.trimEnd().split("\n")).toHaveLength(1);
  });

  test("files are named from where the repository was checked out", async () => {
    const cwd = folderOf({ "fish/room.tank": room + bad });
    const { out } = await standpipe(["check", "--format", "github", "."], {
      cwd: `${cwd}/fish`,
      env: { GITHUB_WORKSPACE: cwd },
    });
    expect(out).toContain("file=fish/room.tank,");
  });

  test("what could not be read is an error of its file", async () => {
    const cwd = folderOf({ "room.tank": room, "b.tank": "\0" });
    const { status, out } = await standpipe(["check", "--format", "github"], { cwd });
    expect([status, out]).toEqual([2, "::error file=b.tank::b.tank: this is no text\n"]);
  });

  test("a hint is a notice, if it is asked for", async () => {
    const { out } = await standpipe(["check", "--format", "github", "--severity", "hint", cellar]);
    expect(out).toMatch(/^::notice file=samples\/cellar\/2025-06\.tank,.*limit\/above/m);
  });
});

describe("for code scanning", () => {
  const reportIn = async (cwd: string, ...args: string[]) => {
    const { out } = await standpipe(["check", "--format", "sarif", ...args], { cwd });
    return sarif.parse(JSON.parse(out)).runs[0]!;
  };

  test("the cellar's findings have the form of SARIF 2.1.0, each with its rule", async () => {
    const { results, tool, invocations } = await reportIn(cellar, "--severity", "hint");
    expect(results.length).toBeGreaterThan(10);
    for (const { ruleId, ruleIndex } of results) expect(tool.driver.rules[ruleIndex]?.id).toBe(ruleId);
    expect(invocations[0]).toEqual({ executionSuccessful: true, exitCode: 1 });
  });

  test("a fix replaces what is marked", async () => {
    const { results } = await reportIn(folderOf({ "room.tank": room + bad }));
    const { fixes, locations } = results.find(({ ruleId }) => ruleId === "entry/kind")!;
    expect(fixes).toEqual([
      {
        description: { text: "Write “test”" },
        artifactChanges: [
          {
            artifactLocation: { uri: "room.tank", uriBaseId: "%SRCROOT%" },
            replacements: [
              { deletedRegion: locations[0]!.physicalLocation.region, insertedContent: { text: "test" } },
            ],
          },
        ],
      },
    ]);
  });

  test("a file's name is written as a URI", async () => {
    const { results } = await reportIn(folderOf({ [hostile]: room + bad }));
    expect(results[0]?.locations[0]?.physicalLocation.artifactLocation.uri).toBe(
      "a%2Cb%3Ac%25%0A%22d%22%20%C3%A9.tank",
    );
  });

  test("what could not be read is told, and the run is no success", async () => {
    const { invocations } = await reportIn(folderOf({ "room.tank": room, "b.tank": "\0" }));
    expect(invocations[0]).toMatchObject({
      executionSuccessful: false,
      exitCode: 2,
      toolExecutionNotifications: [{ level: "error", message: { text: "b.tank: this is no text" } }],
    });
  });

  test("files outside the repository stand by their whole address", async () => {
    const cwd = folderOf({ "here/x.txt": "", "there/room.tank": room + bad });
    const { results } = await reportIn(`${cwd}/here`, "../there");
    const { artifactLocation } = results[0]!.locations[0]!.physicalLocation;
    expect(artifactLocation).toEqual({ uri: `file://${cwd}/there/room.tank` });
  });

  test("JSON and another form do not go together", async () => {
    const { status, err } = await standpipe(["check", "--json", "--format", "sarif"], { cwd: cellar });
    expect([status, err]).toEqual([2, "standpipe: --json and --format do not go together\n"]);
  });
});
