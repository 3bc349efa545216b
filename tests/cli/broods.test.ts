import { describe, expect, test } from "vitest";
import { broodsReport, todayReport } from "../../language/cli/schema.ts";
import { atDesk, cellar, folderOf, standpipe } from "./support.ts";

const plainDesk = { columns: 80, env: { NO_COLOR: "1" } };

const room = `room "Shed"
  as-of  last-entry
tank b1
  volume  40 L
species praecox
  hatches  7..10 d at 25 C; base 10 C
`;
const log = `2026-03-01
  b1 test temperature 25
  b1 spawn praecox 120 eggs lot p7 father blue-1 mother gold-2
2026-03-09
  b1 test temperature 25
`;

describe("standpipe broods", () => {
  test("tells of the sample room what is to come, where it is, survival and pairs", async () => {
    const { status, out } = await atDesk(["broods", cellar], plainDesk);
    expect(status).toBe(0);
    expect(out).toContain("pb-3 (praecox): late: hatch about 24 March (23 to 25 March)");
    expect(out).toMatch(/\nSurvival by stage\n {2}Brood +Alive % +Hatched % +Swimming % +Day 30 %\n/);
    expect(out).toMatch(/\n {2}steel-b1 +75 \(51\.\.90\) +56 \(33\.\.77\)/);
    expect(out).toContain("cannot be told apart by their young at a");
    expect(out).toContain("Take care: Young are counted by eye");
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  test("tells of one brood its course, its ancestors and where its inbreeding comes from", async () => {
    const { out } = await atDesk(["broods", cellar, "pb-1"], plainDesk);
    expect(out).toMatch(/^pb-1, Spring brood\npraecox, line “blue band”, F3/);
    expect(out).toContain("Inbreeding 37.5 %.");
    expect(out).toContain("torn-fin - broad - gold-2 - lemon - short-gold  + 0.03125");
    expect(out).toContain("father's father: broad, Son of the first pair");
  });

  test("tells of a parent its young", async () => {
    const { out } = await atDesk(["broods", cellar, "freckle"], plainDesk);
    expect(out).toMatch(/\nYoung\n {2}Brood +Now\n {2}steel-b1 /);
  });

  test("is the same as JSON, and as Markdown and a page", async () => {
    const { out } = await standpipe(["broods", "samples/cellar", "--json"]);
    const report = broodsReport.parse(JSON.parse(out));
    const [book] = report.logbooks;
    expect(book).toMatchObject({ folder: "samples/cellar", day: "2026-03-31", lot: null });
    expect(book?.broods.find(({ lot }) => lot === "steel-b2")?.inbreeding).toMatchObject({
      low: 0.25,
      high: 0.25,
    });
    const { out: one } = await standpipe(["broods", "samples/cellar", "steel-b2", "--json"]);
    const [asked] = broodsReport.parse(JSON.parse(one)).logbooks;
    expect(asked?.broods.map(({ name }) => name)).toEqual(["steel-b2"]);
    expect(asked?.lot?.ancestors[0]).toMatchObject({ as: "father", name: "steel-3" });
    const { out: markdown } = await standpipe(["broods", "samples/cellar", "--format", "markdown"]);
    expect(markdown).toMatch(/^# Broods\n/);
    const { out: html } = await standpipe(["broods", "samples/cellar", "pb-2", "--format", "html"]);
    expect(html).toMatch(/^<!DOCTYPE html>/);
  });

  test("knows no entry after the day it is asked for", async () => {
    const { out } = await standpipe(["broods", "samples/cellar", "pb-1", "--json", "--as-of", "2025-04-16"]);
    const [book] = broodsReport.parse(JSON.parse(out)).logbooks;
    expect(book?.broods[0]).toMatchObject({ state: "eggs", expected: { stage: "hatch", is: "ahead" } });
  });

  test("takes a word alone as a folder where there is one, else as a brood of this one", async () => {
    const cwd = folderOf({ "room.tank": room, "log.tank": log });
    const { out } = await atDesk(["broods", "p7"], { ...plainDesk, cwd });
    expect(out).toContain("hatch about 10 March (8 to 11 March)");
    const { status, err } = await atDesk(["broods", "p8"], { ...plainDesk, cwd });
    expect(status).toBe(2);
    expect(err).toContain("no brood, and no parent, is called “p8”; did you mean “p7”?");
  });

  test("says how a brood is written where there is none, and names each of several rooms", async () => {
    const cwd = folderOf({
      "a/room.tank": room,
      "b/room.tank": room.replace("Shed", "Attic"),
      "b/log.tank": log,
    });
    const { out } = await atDesk(["broods"], { ...plainDesk, cwd });
    expect(out).toContain("Shed: Broods");
    expect(out).toContain("No brood is written. Under a day: r2 spawn praecox 120 eggs lot p7");
    expect(out).toContain("Attic: To come");
  });
});

describe("standpipe today", () => {
  test("lists what is to hatch", async () => {
    const cwd = folderOf({ "room.tank": room, "log.tank": log });
    const { out } = await atDesk(["today"], { ...plainDesk, cwd });
    expect(out).toContain("Broods\n  p7 (praecox, b1): due to hatch, about 10 March (8 to 11 March)\n");
    const { out: json } = await standpipe(["today", "--json"], { cwd });
    expect(todayReport.parse(JSON.parse(json)).days[0]?.hatches).toMatchObject([
      { brood: "p7", stage: "hatch", is: "due", earliest: "2026-03-08", latest: "2026-03-11" },
    ]);
  });
});
