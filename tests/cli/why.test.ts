import { describe, expect, test } from "vitest";
import { whyReport } from "../../language/cli/schema.ts";
import { widthOf } from "../../language/cli/text.ts";
import { atDesk, bad, cellar, folderOf, room, standpipe } from "./support.ts";

const desk = { columns: 80, env: { NO_COLOR: "1" } };
const asked = async (...words: string[]): Promise<string> => (await atDesk(["why", ...words], desk)).out;

describe("why", () => {
  test("a level: the entries with their places, the formula and its source", async () => {
    const out = await asked("ford", "nitrate", "samples/cellar");
    expect(out).toMatch(/^nitrate today: [\d.]+ mg\/L \(/);
    expect(out).toContain("\n    formula: median over pairs of readings");
    expect(out).toContain("\n    source: Theil 1950; Sen 1968");
    expect(out).toMatch(/2026-03-30 ford test nitrate 35 {2}\S*2026-03\.tank:\d+:\d+\n/);
  });

  test("a place that check names", async () => {
    const cwd = folderOf({ "room.tank": room, "2026-03.tank": bad });
    const { out } = await standpipe(["why", "2026-03.tank:2:21"], { cwd });
    expect(out).toBe(
      "nitrate against its limit: 40 mg/L, at most 25 mg/L\n" +
        "  2026-03-01 dam test nitrate 40  2026-03.tank:2:3\n" +
        "  stated: nitrate <= 25 mg/L  room.tank:7:11\n",
    );
  });

  test("a finding, with the caution where it is about a remedy", async () => {
    const out = await asked("finding", "dose/above-ceiling", "h1", cellar);
    expect(out).toMatch(/^praziquantel in the water after this dose: 5\.73 mg\/L\n/);
    expect(out).toMatch(/veterinarian\.\n$/);
    expect(await asked("dam", "volume", cellar)).not.toContain("veterinarian");
  });

  test("as JSON", async () => {
    const { out } = await standpipe(["why", "b2", "gertrudae", cellar, "--json"]);
    const { question, answer } = whyReport.parse(JSON.parse(out));
    expect([question, answer.value]).toEqual(["b2 gertrudae", "14"]);
    expect(answer.from[0]?.place?.line).toBeGreaterThan(0);
  });

  test("on a day that is past", async () => {
    const { out } = await atDesk(["why", "h1", "praziquantel", cellar, "--as-of", "2025-10-15"], desk);
    expect(out).toContain("praziquantel in h1 on 15 October 2025");
    expect(out).not.toContain("2025-10-22");
  });

  test.each([24, 40, 80])("fits %i columns", async (columns) => {
    const { out } = await atDesk(["why", "ford", "nitrate", cellar], { ...desk, columns });
    expect(Math.max(...out.split("\n").map(widthOf))).toBeLessThanOrEqual(columns);
  });
});

describe("a question", () => {
  test("needs no folder where the call stands in it", async () => {
    const cwd = folderOf({ "room.tank": room });
    expect((await standpipe(["why", "dam", "volume"], { cwd })).out).toContain("100 L");
    expect((await standpipe(["why", "dam", "volume", "."], { cwd })).out).toContain("100 L");
  });

  test("may end in a folder that has no mark of one", async () => {
    const cwd = folderOf({ "shed/room.tank": room });
    expect((await standpipe(["why", "dam", "volume", "shed"], { cwd })).out).toContain("100 L");
  });

  test("may be asked of standard input", async () => {
    expect((await standpipe(["why", "dam", "volume", "-"], { input: room })).out).toContain("stdin:6:3");
  });

  test.each([
    [["why", "dm", "nitrate"], "no tank is called “dm”; did you mean “dam”?"],
    [
      ["why", "dam", "nitrat"],
      "“nitrat” is no parameter, remedy, species or duty of dam; did you mean “nitrate” or “nitrite”?",
    ],
    [["why", "dam", "nitrate"], "nitrate was never tested in dam"],
    [["why", "room.tank:1:1"], "room.tank:1:1: nothing is computed here"],
    [["why", "room.tank:99:1"], "room.tank:99:1: nothing is computed here"],
    [["why", "rom.tank:1:1"], "rom.tank: there is no such file or folder; did you mean “room.tank”?"],
  ] as const)("%j that has no answer ends with 2", async (words, message) => {
    const cwd = folderOf({ "room.tank": room });
    expect(await standpipe(words, { cwd })).toEqual({ status: 2, out: "", err: `standpipe: ${message}\n` });
  });

  test("that several logbooks can answer asks for one", async () => {
    const cwd = folderOf({ "a/room.tank": room, "b/room.tank": room });
    expect((await standpipe(["why", "dam", "volume"], { cwd })).err).toBe(
      "standpipe: several logbooks can answer; name one of a and b\n",
    );
  });
});
