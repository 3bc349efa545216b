import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { gauge } from "../../language/cli/gauge.ts";
import { tankReport } from "../../language/cli/schema.ts";
import { Canvas } from "../../language/cli/tank/canvas.ts";
import { chartOf } from "../../language/cli/tank/chart.ts";
import { widthOf } from "../../language/cli/text.ts";
import type { WaterCard } from "../../language/features/cards.ts";
import { atDesk, cellar, folderOf, room, standpipe } from "./support.ts";

const plainDesk = { columns: 80, env: { NO_COLOR: "1" } };

describe("the card of a tank", () => {
  test("tells what it is, what it owes, its water, its animals and its findings", async () => {
    const { status, out } = await atDesk(["tank", "ford", cellar], plainDesk);
    expect(status).toBe(0);
    expect(out).toMatch(/^ford {2}Ford, by the stairs +31 March 2026\nshow · by the stairs · 199 L inside/);
    expect(out).toMatch(/\nDuties\n {2}change 20\.\.30 % +tomorrow +every 7 days, done 25 March\n/);
    expect(out).toMatch(/\n {2}nitrate {2}35 mg\/L on 30 March, limit at most 40 mg\/L {2}─+●─┃╌╌╌\n/);
    expect(out).toContain("\nAnimals, by the book\n");
    expect(out).toMatch(/\nFindings\n(.*\n)* {2}warning {2}30 March: nitrate in ford meets its limit/);
  });

  test("is the same as JSON, with places and days", async () => {
    const { out } = await standpipe(["tank", "q1", cellar, "--json"]);
    const card = tankReport.parse(JSON.parse(out));
    expect(card).toMatchObject({ name: "q1", role: "quarantine", day: "2026-03-31" });
    expect(card.at).toMatchObject({ file: expect.stringMatching(/tanks\.tank$/), column: 6 });
    expect(card.remedies[0]?.caution).toContain("veterinarian");
    expect(card.changes.length).toBeGreaterThan(10);
  });

  test("may be that of a system", async () => {
    const { out } = await atDesk(["tank", "rack-water", cellar], plainDesk);
    expect(out).toContain("water of r1 .. r12");
    const { out: member } = await atDesk(["tank", "r4", cellar], plainDesk);
    expect(member).toContain("on rack-water with 11 others");
  });

  test("knows no entry after the day it is asked for", async () => {
    const { out } = await standpipe(["tank", "h1", cellar, "--json", "--as-of", "2025-10-16"]);
    const { remedies, day } = tankReport.parse(JSON.parse(out));
    expect(day).toBe("2025-10-16");
    expect(remedies).toMatchObject([{ name: "praziquantel", doses: [{ time: "2025-10-15T20:10" }] }]);
  });

  test.each([24, 40, 60, 80, 200])("fits %i columns", async (columns) => {
    for (const name of ["ford", "q1", "b2", "rack-water"]) {
      const { out } = await atDesk(["tank", name, cellar], { columns, env: { NO_COLOR: "1" } });
      expect(Math.max(...out.split("\n").map(widthOf))).toBeLessThanOrEqual(columns);
    }
  });

  test("is drawn in ASCII if it is asked for", async () => {
    const { out } = await atDesk(["tank", "ford", "--ascii", cellar], plainDesk);
    expect(out.replace(/[“”]/g, '"')).toMatch(/^[\n -~]+$/);
    expect(out).toMatch(/\n +40 \|-+/);
  });

  test("is that of the nearest name, or of one of those there are", async () => {
    const cwd = folderOf({ "room.tank": room });
    expect((await standpipe(["tank", "dm"], { cwd })).err).toBe(
      "standpipe: no tank is called “dm”; did you mean “dam”?\n",
    );
    expect((await standpipe(["tank", "quarantine"], { cwd })).err).toBe(
      "standpipe: no tank is called “quarantine”; there are dam\n",
    );
  });

  test("is asked for by folder where several logbooks have such a tank", async () => {
    const cwd = folderOf({ "a/room.tank": room, "b/room.tank": room });
    const { status, err } = await standpipe(["tank", "dam"], { cwd });
    expect([status, err]).toEqual([
      2,
      "standpipe: several logbooks have a tank “dam”; name one of a and b\n",
    ]);
    expect((await standpipe(["tank", "dam", "b"], { cwd })).status).toBe(0);
  });
});

describe("a chart", () => {
  const chart = async (log: string, name = "nitrate"): Promise<string[]> => {
    const cwd = folderOf({ "room.tank": `${room.replace("7 d clean", "28 d clean")}${log}` });
    const { out } = await atDesk(["tank", "dam"], { cwd, columns: 60, env: { NO_COLOR: "1" } });
    const lines = out.split("\n");
    const begin = lines.findIndex((line) => line.includes(`${name}  `));
    const end = lines.findIndex((line, at) => at > begin && line.includes("└"));
    return lines.slice(begin, end + 2);
  };
  const weekly = (readings: readonly string[]): string =>
    readings
      .map(
        (reading, week) =>
          `2026-02-${String(1 + 7 * week).padStart(2, "0")}\n  dam test nitrate ${reading}\n`,
      )
      .join("");

  test("shows every reading above or below the limit it stands to", async () => {
    const lines = await chart(weekly(["10", "20", "40", "20"]));
    const limit = lines.findIndex((line) => / 25 ┤/.test(line));
    const rows = lines.flatMap((line, row) => [...line.slice(10).matchAll(/●/g)].map(() => row));
    expect(rows.filter((row) => row > 0)).toHaveLength(4);
    // The only one above the limit is 40.
    expect(rows.filter((row) => row > 0 && row < limit)).toHaveLength(1);
    expect(lines.at(-1)).toMatch(/^ +\d+ \w{3} .*today/);
  });

  test("shows a censored reading as what it may be", async () => {
    const lines = await chart(weekly(["<5", "<5", "8", ">30"]));
    expect(lines.join("").match(/▽/g)).toHaveLength(2);
    expect(lines.join("").match(/△/g)).toHaveLength(1);
  });

  test("is not drawn of one reading, nor without a limit", async () => {
    expect((await chart(weekly(["10"]))).join("")).not.toContain("┤");
    expect(
      (await chart("2026-02-01\n  dam test KH 4\n2026-02-08\n  dam test KH 5\n", "KH")).join(""),
    ).not.toContain("┤");
  });
});

test("a chart keeps its form whatever was measured", () => {
  const figure = fc.double({ min: -1e4, max: 1e6, noNaN: true });
  const bound = fc.option(figure, { nil: null });
  const reading = fc.record({
    time: fc.double({ min: 19_900, max: 20_000, noNaN: true }),
    low: figure,
    high: bound,
  });
  const water = fc.record({
    limit: fc.record({ low: bound, high: bound }),
    readings: fc.array(reading, { minLength: 2, maxLength: 12 }),
    ahead: fc.array(
      fc.record({ time: fc.integer({ min: 20_000, max: 20_028 }), best: figure, low: figure, high: figure }),
    ),
  });
  fc.assert(
    fc.property(water, fc.integer({ min: 20, max: 100 }), fc.boolean(), (drawn, columns, hasSigns) => {
      const course = drawn.readings.map(({ time, low }) => ({ time, value: low }));
      const lines = chartOf({ ...drawn, course } as unknown as WaterCard, { day: 20_000, columns, hasSigns });
      expect(lines).toHaveLength(10);
      // Figures of many digits may leave the picture no more than its least width.
      const left = lines[8]!.search(/[└+]/) + 1;
      for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(Math.max(columns, left + 12));
    }),
  );
});

describe("a gauge", () => {
  const at = (low: number, high: number | null, bounds: [number | null, number | null]): string =>
    gauge({ low, high, limits: { low: bounds[0], high: bounds[1] } }, 14, false);

  test("stands between its limits, or beyond them", () => {
    expect(at(25, 25, [23, 27])).toBe("..|----o---|..");
    expect(at(10, 10, [null, 40])).toBe("---o------|...");
    expect(at(60, 60, [null, 40])).toBe("----------|..o");
    expect(at(3, 3, [5, null])).toMatch(/^\.*o\.*\|-+$/);
  });

  test("is as long as a censored reading may be", () => {
    expect(at(0, 20, [null, 40])).toBe("oooooo----|...");
    expect(at(30, null, [null, 40])).toBe("-------ooooooo");
  });

  test("keeps its width whatever it shows", () => {
    for (const value of [-5, 0, 1e9]) expect(at(value, value, [null, 0])).toHaveLength(14);
  });
});

test("a canvas holds two by four dots a letter, or one", () => {
  const braille = new Canvas(2, 1, true);
  braille.set(0, 0);
  braille.set(3, 3);
  braille.set(99, 0);
  expect(braille.lines()).toEqual(["⠁⢀"]);
  const ascii = new Canvas(4, 2, false);
  ascii.line(0, 1, 3, 0);
  ascii.put(1, 1, "o");
  expect(ascii.lines()).toEqual([" ...", ".o  "]);
});
