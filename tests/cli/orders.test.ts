import { describe, expect, test } from "vitest";
import { ordersReport, packingReport, registerReport, todayReport } from "../../language/cli/schema.ts";
import { widthOf } from "../../language/cli/text.ts";
import { atDesk, cellar, folderOf } from "./support.ts";

const log = `room "Shed"
  as-of       last-entry
  quarantine  28 d
  fasting     24..48 h
species praecox "Melanotaenia praecox"
  weight 1.2 g
species cherry
  kind shrimp
remedy prazi
  target 2 mg/L
tank dam "Rainbowfish dam"
  volume 300 L
tank q1
  volume 50 L
  role quarantine
order o-1 "A breeder <b>up</b> the river"
  wants     praecox 13; placed 2026-03-01; due 2026-03-04
  carrier   "courier"; route "over the pass"; hours 24..36 h; temperature 20..24 C
order o-2
  wants cherry 50; placed 2026-03-01
`;
const days = `2026-03-01
  dam count praecox 40
  dam dose prazi 600 mg
  dam test pH 7.4, KH 5 dKH, temperature 24
  q1 arrive praecox 9 from "river nursery" by courier lot a17 dead 1
2026-03-02
  08:00 dam feed artemia
  dam sell praecox 2 to "a neighbour"
  q1 lose praecox 1 found
`;
/** The same without the remedy: they may go. */
const well = (log + days).replace("  dam dose prazi 600 mg\n", "");
const shed = (text = log + days): string => folderOf({ "shed.tank": text });
const desk = { columns: 80, env: { NO_COLOR: "1" } };
const json = async (args: readonly string[]): Promise<unknown> =>
  JSON.parse((await atDesk([...args, "--json"])).out);

describe("standpipe orders", () => {
  test("says what waits, what is free, what arrived dead", async () => {
    const { status, out } = await atDesk(["orders", shed()], desk);
    expect(status).toBe(0);
    expect(out).toMatch(/^Orders\nShed, 2 March 2026\n\nWaiting\n/);
    expect(out).toMatch(/ o-1 +A breeder .* 4 March +13 praecox +nobody can say\n/);
    expect(out).toMatch(/ o-2 .*50 cherry +50 too few\n/);
    expect(out).toMatch(/ dam +praecox +38 +0 +nobody can say\n/);
    expect(out).toContain("dam praecox: prazi in the water (2 mg/L)");
    // The one that was found dead ran the clock anew.
    expect(out).toContain("q1 praecox: quarantine until 30 March");
    expect(out).toContain("No buyer has reported");
  });

  test("is the same as JSON, every reason with its why", async () => {
    const report = ordersReport.parse(await json(["orders", shed()]));
    const [day] = report.days;
    expect(day!.open.map(({ name, missing }) => [name, missing])).toEqual([
      ["o-1", 13],
      ["o-2", 50],
    ]);
    const dam = day!.free.find(({ tank }) => tank === "dam")!;
    expect(dam.reasons.map(({ is }) => is)).toEqual(["remedy", "fasting"]);
    expect(JSON.stringify(dam.reasons[0]!.why)).toContain("dose prazi 600 mg");
    // One of ten came dead: Wilson 1927 gives 0.018 to 0.404. One of nine was lost in the week after.
    expect(day!.received[0]).toMatchObject({
      by: "all",
      animals: 10,
      dead: 1,
      best: 0.1,
      after: { lost: 1, alive: 9 },
    });
    expect(day!.received[0]!.low).toBeCloseTo(0.0179, 4);
    expect(day!.received[0]!.high).toBeCloseTo(0.4042, 4);
    expect(day!.received.find(({ by }) => by === "route")?.name).toBe("river nursery");
  });

  test("knows no entry after the day it is asked for", async () => {
    const report = ordersReport.parse(await json(["orders", shed(), "--as-of", "2026-03-01"]));
    expect(report.days[0]!.free[0]).toMatchObject({ tank: "dam", animals: 40 });
    expect(report.days[0]!.received[0]).toMatchObject({ after: { lost: 0 } });
  });

  test("says so where there is nothing", async () => {
    const { out } = await atDesk(
      ["orders", shed('tank dam\n  volume 30 L\n2026-03-01\n  dam note "empty"\n')],
      desk,
    );
    expect(out).toContain("No order waits on this day.");
    expect(out).toContain("The book has no animals");
    expect(out).toContain("Nothing has arrived");
  });

  test.each([40, 80, 120])("of the cellar fits %i columns", async (columns) => {
    const { out } = await atDesk(["orders", cellar], { columns, env: { NO_COLOR: "1" } });
    expect(Math.max(...out.split("\n").map(widthOf))).toBeLessThanOrEqual(columns);
  });
});

describe("the packing list of an order", () => {
  test("spreads the animals over bags and has a label for each", async () => {
    const report = packingReport.parse(
      await json(["orders", shed(well), "--pack", "o-1", "--water", "0.2 L"]),
    );
    expect(report.bag).toMatchObject({
      waterL: 0.2,
      gasL: 0.4,
      hours: 36,
      temperatureC: 24,
      mostLoadGPerL: 30,
    });
    // 30 g/L of 1.2 g in 0.2 L are 5 to a bag.
    expect(report.parts).toMatchObject([
      { species: "praecox", tank: "dam", animals: 13, most: 5, bags: [5, 4, 4] },
    ]);
    expect(report.labels.map(({ bag, of, animals }) => [bag, of, animals])).toEqual([
      [1, 3, 5],
      [2, 3, 4],
      [3, 3, 4],
    ]);
    expect(report.labels[0]).toMatchObject({
      order: "o-1",
      packed: "2026-03-02",
      fedText: "2 March 08:00",
    });
    expect(report.caution).toContain("no licence");
  });

  test("is a page to print on which a log can write no markup", async () => {
    const { out } = await atDesk(["orders", shed(well), "--pack", "o-1", "--format", "html"]);
    expect(out).toContain('<section class="label">');
    expect(out).toContain("LIVE ANIMALS");
    expect(out).not.toContain("<b>up</b>");
  });

  test("has no bag for what may not go, and says why", async () => {
    const report = packingReport.parse(await json(["orders", shed(), "--pack", "o-1"]));
    expect(report.labels).toEqual([]);
    expect(report.held.map(({ tank, animals, reasons }) => [tank, animals, reasons[0]!.is])).toEqual([
      ["q1", 8, "quarantine"],
      ["dam", 5, "remedy"],
    ]);
    const { out } = await atDesk(["orders", shed(), "--pack", "o-1"], desk);
    expect(out).toContain("Not to go yet:\n  8 praecox of q1: quarantine until 30 March");
  });

  test("of what is written down as shipped on the day is that", async () => {
    const sent = `${log}${days}2026-03-03\n  dam ship praecox 6 order o-1\n`;
    const report = packingReport.parse(await json(["orders", shed(sent), "--pack", "o-1", "--each", "3"]));
    expect(report.parts).toMatchObject([{ animals: 6, bags: [3, 3], isShipped: true, reasons: [] }]);
  });

  test("leaves open what cannot be reckoned, and says how to state it", async () => {
    const shrimps = `${well}  dam count cherry 60\n`;
    const { out } = await atDesk(["orders", shed(shrimps), "--pack", "o-2"], desk);
    expect(out).toMatch(/ cherry +dam +50 +\?/);
    expect(out).toContain("--each says how many go");
    const report = packingReport.parse(
      await json(["orders", shed(shrimps), "--pack", "o-2", "--each", "25"]),
    );
    expect(report.parts[0]).toMatchObject({ most: null, bags: [25, 25] });
  });

  test.each([
    [["--pack", "o-11"], "no order is called “o-11”; did you mean"],
    [["--pack", "o-1", "--water", "a lot"], "--water takes a figure in L, not “a lot”"],
    [["--pack", "o-1", "--water", "0.5 kg"], "--water takes a figure in L"],
    [["--pack", "o-1", "--each", "1.5"], "--each takes a whole number"],
    [["--water", "0.5"], "--water belongs to --pack ORDER"],
    [["--pack", "o-1", "--register"], "one at a time"],
    [["--from", "2026-01-01"], "--from belongs to --register"],
    [["--register", "--from", "2026-04-01"], "ends before it begins"],
    [["--register", "--from", "spring"], "“spring” is no day"],
  ])("%j is told what is wrong with it", async (args, message) => {
    const { status, err } = await atDesk(["orders", shed(), ...args]);
    expect(status).toBe(2);
    expect(err).toContain(message);
  });
});

test("the register says who got what, what it was treated with and when its quarantine ended", async () => {
  const report = registerReport.parse(await json(["orders", shed(), "--register"]));
  expect(report.registers[0]).toMatchObject({
    from: "2025-03-03",
    to: "2026-03-02",
    rows: [
      {
        day: "2026-03-02",
        how: "sell",
        buyer: "a neighbour",
        species: "praecox",
        animals: 2,
        tank: "dam",
        treatments: [{ remedy: "prazi", day: "2026-03-01" }],
        quarantineEnd: null,
      },
    ],
    totals: [{ species: "praecox", sold: 2, shipped: 0 }],
  });
  const { out } = await atDesk(["orders", shed(), "--register", "--to", "2026-03-01"], desk);
  expect(out).toContain("Nothing was sold or shipped in this time.");
});

test("today lists the orders to pack, and from when their tanks are not to be fed", async () => {
  const on = async (day: string) =>
    todayReport.parse(
      await json(["today", shed(`${log}${days}2026-03-03\n  dam change 100 %\n`), "--as-of", day]),
    );
  expect((await on("2026-03-02")).days[0]!.orders).toMatchObject([{ order: "o-1", late: -2, unfed: [] }]);
  expect((await on("2026-03-03")).days[0]!.orders).toMatchObject([
    { order: "o-1", late: -1, unfed: ["dam"] },
  ]);
});
