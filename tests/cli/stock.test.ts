import { describe, expect, test } from "vitest";
import { stockRegisterReport, stockReport } from "../../language/cli/schema.ts";
import { atDesk, cellar, folderOf } from "./support.ts";

const desk = { columns: 80, env: { NO_COLOR: "1" } };
const room = `room "Shed"
  as-of last-entry

species praecox "Melanotaenia praecox"
  weight 2.5 g
tank dam
  volume 100 L; holds 50 g
tank r1
  volume 20 L

2026-02-01
  dam  arrive praecox 20 from "river nursery" by courier lot a17 dead 1
2026-03-01
  dam  lose praecox 2 found "tail rot"
  dam  lose praecox 1 culled lot a17
  dam  move praecox 4 -> r1 lot a17
2026-03-10
  r1   sell praecox 3 lot a17 to "a neighbour"
  dam  count praecox 12
`;

describe("standpipe stock", () => {
  test("tells what was there, came, went and is there", async () => {
    const { status, out } = await atDesk(["stock", "-", "--from", "2026-02-01"], { ...desk, input: room });
    expect(status).toBe(0);
    expect(out).toMatch(/\n {2}tank {2}species {2}first {2}came +went +last\n/);
    expect(out).toMatch(
      /\n {2}dam +praecox +0 {2}arrived 20 {2}died 2, culled 1, moved out 4, short 1 +12\n/,
    );
    expect(out).toMatch(/\n {2}r1 +praecox +0 {2}moved in 4 +sold 3 +1\n/);
    expect(out).toContain("In all 0 at first; came: arrived 20; went: died 2, culled 1, sold 3, short 1;");
    expect(out).toMatch(/\n {2}dam +praecox +2 +10 % +11 % +2\.9 \(0\.352 to 10\.5\)/);
    expect(out).toMatch(/\n {2}supplier river nursery +21 +1 +4\.76 %/);
    expect(out).toMatch(/\n {2}dam +30 g +0\.3 +50 g\n/);
  });

  test("adds up in JSON, for the room and for each line", async () => {
    for (const by of ["tank", "species", "lot", "supplier"]) {
      const { out } = await atDesk(["stock", "--json", "--by", by, "--from", "2025-04-01"], { cwd: cellar });
      const { logbooks } = stockReport.parse(JSON.parse(out));
      const [{ lines, total }] = logbooks as [(typeof logbooks)[number]];
      expect(lines.length).toBeGreaterThan(0);
      for (const each of [...lines, total]) {
        const lost = Object.values(each.lost).reduce((sum, animals) => sum + animals, 0);
        const came = each.opening + each.arrived + each.born + each.movedIn + each.found;
        expect(came - lost - each.movedOut - each.sold - each.shipped - each.unaccounted).toBe(each.closing);
      }
      expect(total.movedIn).toBe(total.movedOut);
    }
  });

  test("as of a day knows nothing of what came later", async () => {
    const { out } = await atDesk(["stock", "-", "--json", "--as-of", "2026-03-05"], { ...desk, input: room });
    const { logbooks } = stockReport.parse(JSON.parse(out));
    expect([logbooks[0]!.to, logbooks[0]!.total.closing, logbooks[0]!.total.sold]).toEqual([
      "2026-03-05",
      17,
      0,
    ]);
  });

  test.each(["text", "markdown", "html"])("says so where there is nothing, as %s", async (form) => {
    const input = 'room "Shed"\n  as-of 2026-03-01\ntank dam\n  volume 100 L\n';
    const { status, out } = await atDesk(["stock", "-", "--format", form], { ...desk, input });
    expect(status).toBe(0);
    expect(out).toContain("No animals in this time");
    expect((await atDesk(["stock", "-", "--register", "--format", form], { ...desk, input })).out).toContain(
      "None in this time",
    );
  });

  test.each([
    [["--from", "2026-03-05", "--to", "2026-03-01"], "--from 2026-03-05 is after --to 2026-03-01"],
    [["--to", "2026-04-01"], "--to 2026-04-01 is after today, which is 2026-03-10 in stdin"],
    [["--from", "2026-04-01"], "--from 2026-04-01 is after the last day, 2026-03-10, in stdin"],
    [["--from", "March"], "--from: “March” is no day; a day is written like 2026-03-01"],
    [["--register", "--by", "lot"], "--register lists entries; --by goes without it"],
  ])("%j is refused in words", async (words, message) => {
    expect(await atDesk(["stock", "-", ...words], { ...desk, input: room })).toEqual({
      status: 2,
      out: "",
      err: `standpipe: ${message}\n`,
    });
  });

  test("of several logbooks names each", async () => {
    const cwd = folderOf({ "a/room.tank": room, "b/room.tank": room.replace("Shed", "Attic") });
    const { out } = await atDesk(["stock"], { ...desk, cwd });
    expect(out).toContain("Shed: The book");
    expect(out).toContain("Attic: The book");
  });
});

describe("the register", () => {
  test("lists arrivals with their supplier, deaths, and sales with their buyer, and adds up", async () => {
    const { out } = await atDesk(["stock", "-", "--register"], { ...desk, columns: 100, input: room });
    expect(out).toMatch(/2026-02-01 .*praecox +20 +a17 +river nursery +courier +1/);
    expect(out).toMatch(/2026-03-01 .*praecox +2 +found +tail rot/);
    expect(out).toMatch(/2026-03-10 .*praecox +3 +a17 +a neighbour/);
    const json = (await atDesk(["stock", "-", "--register", "--json"], { ...desk, input: room })).out;
    const [shed] = stockRegisterReport.parse(JSON.parse(json)).register;
    for (const { opening, arrived, born, died, sold, adjusted, closing } of shed!.list)
      expect(opening + arrived + born - died - sold + adjusted).toBe(closing);
    expect(out.match(/Take care/g)).toHaveLength(1);
  });
});
