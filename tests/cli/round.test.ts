import { describe, expect, test } from "vitest";
import { todayReport } from "../../language/cli/schema.ts";
import { atDesk, cellar, folderOf, standpipe } from "./support.ts";

const plainDesk = { columns: 80, env: { NO_COLOR: "1" } };

describe("standpipe round", () => {
  test("tells the sample in the order of today, to tick off", async () => {
    const { status, out } = await atDesk(["round", cellar], plainDesk);
    expect(status).toBe(0);
    expect(out).toContain("b6: [ ] change 20..45 % (8 to 18 L)");
    expect(out).toContain("q1: nothing due  quarantine day 32 of 49");
    expect(out).toContain("SICK: case tuft-1 is open");
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
    const { out: json } = await standpipe(["today", cellar, "--json"]);
    const { round } = todayReport.parse(JSON.parse(json)).days[0]!;
    const at = round.map((stop) => out.indexOf(`\n  ${stop.at}: [ ]`));
    expect(at.every((place) => place >= 0)).toBe(true);
    expect(at).toEqual([...at].sort((a, b) => a - b));
  });

  test("is a page of its own to print, and Markdown", async () => {
    const { out: page } = await standpipe(["round", cellar, "--format", "html"]);
    expect(page).toMatch(/^<!DOCTYPE html>/);
    expect(page).toContain("@page { size: A4;");
    expect(page.match(/<tr style=/g)!.length).toBeGreaterThan(24);
    const { out: markdown } = await standpipe(["round", cellar, "--format", "markdown"]);
    expect(markdown).toMatch(/^# Round sheet\n/);
    expect(markdown).toContain("| rack-water |");
  });

  test("as of a day, of several rooms, and of none", async () => {
    const tank = "tank dam\n  every 7 d clean\n2026-03-01\n  dam clean\n";
    const cwd = folderOf({ "a/room.tank": `room "A"\n${tank}`, "b/room.tank": `room "B"\n${tank}` });
    const { out } = await atDesk(["round", "--as-of", "2026-03-08"], { ...plainDesk, cwd });
    expect(out).toContain("A: The round");
    expect(out).toContain("B: The round");
    expect(out).toContain("dam: [ ] clean");
    const { out: early } = await atDesk(["round", "--as-of", "2026-03-02"], { ...plainDesk, cwd });
    expect(early).toContain("dam: nothing due");
    const { out: none } = await atDesk(["round", "-"], { ...plainDesk, input: "" });
    expect(none).toContain("No tank is defined yet.");
  });
});
