import { describe, expect, test } from "vitest";
import { feedReport } from "../../language/cli/schema.ts";
import { atDesk, cellar, folderOf } from "./support.ts";

/** `standpipe feed`: what is missing, what was fed, what is on hand, what grows. */

const room = `room "Shed"
  as-of  last-entry
food cyclops
  kind frozen; portion 1 cube = 3.5 g
food flake
  kind dry; expires 2026-02-28
food nauplii
  kind live; ready 20..28 h
species praecox
  needs frozen at least 3 per 7 d
  weight 2 g
tank dam "Rainbowfish dam"
  volume 100 L
`;
const days = `2026-02-01
  dam arrive praecox 10
  room left cyclops 100 g
2026-03-01
  08:00 dam feed cyclops 2 cubes
  08:00 room start nauplii 2 g salt 40 g/L at 27 C
2026-03-02
  dam feed flake 1 pinch
2026-03-06
  dam feed cyclops 2 cubes
`;
const shed = () => folderOf({ "room.tank": room, "log.tank": days });

describe("feed", () => {
  test("says what is missing first, then the week, the rations, what is on hand and the cultures", async () => {
    const { status, out } = await atDesk(["feed", "--color", "never"], { cwd: shed(), columns: 100 });
    expect(status).toBe(0);
    expect(out).toContain("dam: frozen at least 3 in 7 days, got 2: overdue");
    expect(out).toMatch(/dam +1 +2 short +today cyclops 2 cubes/);
    expect(out).toMatch(/dam +>2 +20 +10/);
    expect(out).toMatch(/cyclops +frozen +86 g/);
    expect(out).toContain("flake: expired 28 February");
    expect(out).toMatch(/nauplii +room +1 March +never harvested +never/);
    expect(out).toContain("salt 40 g/L, published 5..35");
  });

  test("tells another day by what was written until then", async () => {
    const { out } = await atDesk(["feed", "--color", "never", "--as-of", "2026-03-02", "--days", "2"], {
      cwd: shed(),
      columns: 100,
    });
    expect(out).toContain("Fed in the last 2 days");
    expect(out).toMatch(/cyclops +frozen +93 g/);
    expect(out).toMatch(/nauplii +room +1 March +ready 2 March 04:00 to 12:00 +never/);
  });

  test("as JSON has its form, with reasons", async () => {
    const { out } = await atDesk(["feed", "--json"], { cwd: shed() });
    const report = feedReport.parse(JSON.parse(out));
    const [{ tanks, pantry, cultures }] = report.logbooks as [(typeof report.logbooks)[number]];
    expect(tanks[0]!.needs[0]).toMatchObject({ food: "frozen", times: 2, is: "late", species: ["praecox"] });
    expect(tanks[0]!.needs[0]!.why.from.map(({ place }) => place?.file)).toEqual([
      "log.tank",
      "log.tank",
      "room.tank",
    ]);
    expect(tanks[0]!.ration!.share).toBeCloseTo(14 / 7 / 20, 12);
    expect(pantry.find(({ name }) => name === "cyclops")).toMatchObject({ onHand: 86, unit: "g" });
    expect(cultures[0]).toMatchObject({ is: "missed", of: "room" });
  });

  test("as Markdown and as a page holds the same", async () => {
    const cwd = shed();
    const markdown = (await atDesk(["feed", "--format", "markdown"], { cwd })).out;
    expect(markdown).toContain("| dam |");
    expect(markdown.replaceAll("\\", "")).toContain("frozen at least 3 in 7 days, got 2: overdue");
    const html = (await atDesk(["feed", "--format", "html"], { cwd })).out;
    expect(html).toContain("<td>dam</td>");
    expect(html).not.toContain("<script");
  });

  test("of an empty room says what to write", async () => {
    const { out, status } = await atDesk(["feed", "-"], { input: 'room "Shed"\n', columns: 100 });
    expect(status).toBe(0);
    expect(out).toContain("No species here states what it needs");
    expect(out).toContain("Nothing was fed");
    expect(out).toContain("No food is defined");
  });

  test("refuses days that are none", async () => {
    for (const value of ["0", "x", "1.5", "9999"])
      expect((await atDesk(["feed", "--days", value], { cwd: shed() })).err).toContain(
        "--days takes a whole number",
      );
  });

  test("of several logbooks tells each under its name", async () => {
    const cwd = folderOf({
      "a/room.tank": room + days,
      "b/room.tank": `${room.replace("Shed", "Loft")}${days}`,
    });
    const { out } = await atDesk(["feed", "--color", "never"], { cwd, columns: 100 });
    expect(out).toContain("Shed: Missing today");
    expect(out).toContain("Loft: Missing today");
  });

  test("of the sample room is in its form", async () => {
    const { out } = await atDesk(["feed", cellar, "--json"]);
    const [card] = feedReport.parse(JSON.parse(out)).logbooks;
    expect(card!.tanks.length).toBeGreaterThan(10);
    expect(card!.kinds).toEqual(expect.arrayContaining(["dry", "frozen", "fresh"]));
  });
});
