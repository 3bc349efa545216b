import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { lastMonth, lastWeek, monthUpTo } from "../../language/cli/period/calendar-periods.ts";
import { periodReport } from "../../language/cli/schema.ts";
import { atDesk, cellar, folderOf, standpipe } from "./support.ts";

const plainDesk = { columns: 88, env: { NO_COLOR: "1" } };

const room = `room "Shed"
  as-of last-entry
species praecox
  hatches 7..9 d at 25 C
water tap
water ro
tank dam
  volume 100 L
  limits nitrate <= 25 mg/L
  every 7 d change 30 %
  every 7 d test nitrate
  at most 1 per 7 d feed dry
tank q1
  volume 40 L
food flake
  kind dry
remedy prazi
  target 2 mg/L
gear lamp
  on dam
  every 30 d service
order o-1
  wants praecox 3
  due 2026-03-20
`;
const log = `2026-02-01
  dam arrive praecox 30
  dam change 30 %
  dam test nitrate 10
2026-03-02
  dam change 40 L
  dam test nitrate 40
  room buy flake 100 g price 8 EUR
  room buy flake 50 g price 3 USD
  lamp service repaired "new fuse"
2026-03-04
  dam change 50 % flow from ro
  q1 top-up 500 mL from ro
  dam lose praecox 2 found
  dam feed flake
  dam spawn praecox 40 lot p1
2026-03-06
  dam feed flake
  dam test nitrate 12
  dam sick praecox 3 of 28 signs "flashing" case fl-1
  q1 dose prazi 80 mg
  room buy prazi 10 g
  room note "quiet, <b>all</b> eat"
2026-03-07
  dam ship praecox 3 order o-1 by express
2026-03-10
  room doa praecox 1 order o-1
  dam close fl-1 recovered
2026-03-12
  dam note "x"
`;
const shed = { "room.tank": room, "log.tank": log };
const json = async (files: Readonly<Record<string, string>>, ...more: string[]) => {
  const { status, out, err } = await atDesk(["report", "--json", ...more], { cwd: folderOf(files) });
  expect([status, err]).toEqual([0, ""]);
  return periodReport.parse(JSON.parse(out)).logbooks;
};

describe("standpipe report", () => {
  test("tells the last whole week before today", async () => {
    const [book] = await json(shed);
    // 12 March 2026 is a Thursday.
    expect(book).toMatchObject({ from: "2026-03-02", to: "2026-03-08", day: "2026-03-12" });
    expect(book?.log).toMatchObject({ days: 4, begins: "2026-02-01", text: "" });
    expect(book?.work.total).toEqual({ done: 5, inTime: 3, late: 2, lateDays: 22, open: 0, off: 1 });
    expect(book?.work.missed.map(({ place, act, text }) => `${place} ${act}: ${text}`)).toEqual([
      "dam change 30 %: 22 days late on 2 March",
      "dam test nitrate: 22 days late on 2 March",
      "dam feed dry: more often than once on 1 day",
    ]);
    expect(book?.water).toMatchObject({ litres: 90.5, before: 0, unknown: 0 });
    expect(book?.water.sources).toMatchObject([
      { source: "ro", flow: 50, topUp: 0.5 },
      { source: "tap", batch: 40 },
    ]);
    expect(book?.tests).toMatchObject([
      {
        place: "dam",
        reading: "40 mg/L",
        limit: "at most 25 mg/L",
        done: "39.3 % new water on 4 March",
        next: "12 mg/L on 6 March, within",
        at: { file: "log.tank", line: 7 },
      },
    ]);
    expect(book?.cases.opened).toMatchObject([{ name: "fl-1", closed: null, places: ["dam"] }]);
    expect(book?.cases.open).toHaveLength(1);
    expect(book?.remedies).toMatchObject([
      { remedy: "prazi", doses: 1, amounts: [{ unit: "g" }], unknown: 0 },
    ]);
    expect(book?.broods).toMatchObject([{ species: "praecox", spawnings: 1, laid: 40, hatches: 0 }]);
    // What the buyer reports after the week is told of the shipment.
    expect(book?.orders).toMatchObject([{ order: "o-1", how: "ship", animals: 3, dead: 1 }]);
    expect(book?.spending.sums).toEqual([
      { currency: "EUR", is: "food", amount: 8, purchases: 1 },
      { currency: "USD", is: "food", amount: 3, purchases: 1 },
    ]);
    expect(book?.spending.unpriced.map(({ name }) => name)).toEqual(["prazi"]);
    expect(book?.gear).toMatchObject([{ gear: "lamp", text: "repaired", repaired: ["2026-03-02"] }]);
    expect(book?.notes).toMatchObject([{ place: "room", text: "quiet, <b>all</b> eat" }]);
    const { total } = book!.stock;
    expect([total.opening, total.lost.found, total.shipped, total.closing]).toEqual([30, 2, 3, 25]);
    expect(total.mortality).toMatchObject({ deaths: 2, ofAll: 2 / 30 });
    expect(book?.daily.map(({ died }) => died)).toEqual([0, 0, 2, 0, 0, 0, 0]);
  });

  test("says the same in words, as they are written and within the width", async () => {
    const { status, out } = await atDesk(["report"], { ...plainDesk, cwd: folderOf(shed) });
    expect(status).toBe(0);
    expect(out).toContain("Shed, 2026-03-02 to 2026-03-08");
    expect(out).toContain("Work: 5 done, 3 in time, 2 late by 22 days in the mean");
    expect(out).toContain("Currencies are not added to one another.");
    expect(out).toContain("Without a price: prazi (6 March). They are in no sum.");
    expect(out).toContain("Failed and repaired: lamp (2 March).");
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(88);
  });

  test("is a page and Markdown with pictures, what the log says escaped", async () => {
    const cwd = folderOf(shed);
    const { out: page } = await atDesk(["report", "--format", "html"], { cwd });
    expect(page).toMatch(/^<!DOCTYPE html>/);
    expect(page).toContain('src="data:image/svg+xml,');
    expect(page).not.toContain("<b>all</b>");
    const { out: markdown } = await atDesk(["report", "--format", "markdown"], { cwd });
    expect(markdown).toMatch(/^# Report\n/);
    expect(markdown).toContain("](data:image/svg+xml;base64,");
    expect(markdown).not.toContain("<b>");
  });

  test("takes a month, and days of one's own", async () => {
    const of = async (...more: string[]): Promise<string> => {
      const [book] = await json(shed, ...more);
      return `${book!.from} ${book!.to}`;
    };
    expect(await of("--period", "month")).toBe("2026-02-01 2026-02-28");
    expect(await of("--from", "2026-03-05")).toBe("2026-03-05 2026-03-12");
    expect(await of("--to", "2026-03-05")).toBe("2026-02-27 2026-03-05");
    expect(await of("--to", "2026-03-05", "--period", "month")).toBe("2026-02-06 2026-03-05");
    expect(await of("--from", "2026-03-05", "--to", "2026-03-05")).toBe("2026-03-05 2026-03-05");
    expect(await of("--as-of", "2026-03-08")).toBe("2026-02-23 2026-03-01");
  });

  test("knows nothing of what comes after the day it is told as of", async () => {
    const [book] = await json(shed, "--from", "2026-03-02", "--as-of", "2026-03-08");
    expect(book?.orders).toMatchObject([{ order: "o-1", dead: null }]);
    expect(book?.cases.closed).toEqual([]);
  });

  test("closes cases with how they ended", async () => {
    const [book] = await json(shed, "--from", "2026-03-09");
    expect(book?.cases).toMatchObject({
      opened: [],
      open: [],
      closed: [{ name: "fl-1", outcome: "recovered" }],
    });
  });

  test("says plainly where the log begins, and that nothing was written", async () => {
    const head = async (...more: string[]): Promise<string> =>
      (await atDesk(["report", ...more], { ...plainDesk, cwd: folderOf(shed) })).out.replace(/\s+/g, " ");
    expect(await head("--from", "2026-01-20", "--to", "2026-02-10")).toContain(
      "The log begins within this time, on 1 February 2026: what was before is not known",
    );
    expect(await head("--from", "2026-02-03", "--to", "2026-02-10")).toContain(
      "The log begins on 1 February 2026: it has a part only of the days before",
    );
    const before = await head("--from", "2026-01-01", "--to", "2026-01-10");
    expect(before).toContain("The log begins after this, on 1 February 2026.");
    expect(before).not.toContain("Work");
    expect(await head("--from", "2026-02-16", "--to", "2026-02-22")).toContain(
      "Nothing was written in this time. What was due is told all the same.",
    );
    const { out } = await atDesk(["report"], { ...plainDesk, cwd: folderOf({ "room.tank": room }) });
    expect(out).toContain("The log has no entry up to");
  });

  test("says what is wrong with a call", async () => {
    const cwd = folderOf(shed);
    const wrong = async (...words: string[]): Promise<string> => {
      const { status, err } = await atDesk(["report", ...words], { ...plainDesk, cwd });
      expect(status).toBe(2);
      return err.replace(/^standpipe: /, "").trim();
    };
    expect(await wrong("--from", "2026-03-05", "--to", "2026-03-04")).toBe(
      "--from 2026-03-05 is after --to 2026-03-04",
    );
    expect(await wrong("--to", "2026-03-13")).toBe(
      "--to 2026-03-13 is after today, which is 2026-03-12 in .",
    );
    expect(await wrong("--from", "2026-03-13")).toBe(
      "--from 2026-03-13 is after today, which is 2026-03-12 in .",
    );
    expect(await wrong("--from", "2026-03-01", "--period", "week")).toBe(
      "--period and --from both say where it begins; give one of them",
    );
    expect(await wrong("--from", "2010-01-01")).toBe("a report is of 3660 days at most");
    expect(await wrong("--from", "yesterday")).toBe(
      "--from: “yesterday” is no day; a day is written like 2026-03-01",
    );
    expect(await wrong("--period", "year")).toContain("--period takes week, month, not “year”");
  });

  test("tells of places of which the same is to tell in one line, and of tests with nothing between as such", async () => {
    const files = {
      "room.tank":
        'room "Shed"\n  as-of last-entry\ntank a\n  volume 50 L\n  limits nitrate <= 25 mg/L\n  every 3 d clean\ntank b\n  volume 50 L\n  every 3 d clean\n',
      "log.tank":
        "2026-03-01\n  a clean\n  b clean\n2026-03-03\n  a test nitrate 40\n  a test nitrate 50\n2026-03-09\n  a clean\n  b clean\n",
    };
    const { out } = await atDesk(["report", "--from", "2026-03-02"], { ...plainDesk, cwd: folderOf(files) });
    expect(out).toMatch(/a, b +clean +every 3 days +5 days late on 9 March/);
    const [book] = await json(files, "--from", "2026-03-02");
    expect(book?.work.missed.map(({ place }) => place)).toEqual(["a", "b"]);
    expect(book?.tests.map(({ done, next }) => `${done}; ${next}`)).toEqual([
      "nothing before the next test; 50 mg/L on 3 March, still above",
      "nothing is written up to 9 March; ",
    ]);
  });

  test("of several rooms names each", async () => {
    const files = {
      "a/room.tank": room,
      "a/log.tank": log,
      "b/room.tank": room.replace("Shed", "Attic"),
      "b/log.tank": log,
    };
    const { out } = await atDesk(["report"], { ...plainDesk, cwd: folderOf(files) });
    expect(out).toContain("Shed: Work");
    expect(out).toContain("Attic: Water");
  });

  test("of the sample room adds up, in March", async () => {
    const { status, out } = await standpipe([
      "report",
      cellar,
      "--from",
      "2026-03-01",
      "--to",
      "2026-03-31",
      "--json",
    ]);
    expect(status).toBe(0);
    const [book] = periodReport.parse(JSON.parse(out)).logbooks;
    const { water, work, daily } = book!;
    const sum = (figures: readonly number[]): number => figures.reduce((all, each) => all + each, 0);
    expect(sum(water.places.map(({ litres }) => litres))).toBeCloseTo(water.litres, 6);
    expect(sum(water.sources.map(({ litres }) => litres))).toBeCloseTo(water.litres, 6);
    expect(sum(daily.map(({ litres }) => litres))).toBeCloseTo(water.litres, 6);
    expect(sum(work.acts.map(({ done }) => done))).toBe(work.total.done);
    expect(sum(work.places.map(({ done }) => done))).toBe(work.total.done);
    expect(sum(daily.map(({ done }) => done))).toBe(work.total.done);
    expect(sum(daily.map(({ died }) => died))).toBe(book!.stock.total.mortality.deaths);
  });
});

describe("weeks and months", () => {
  const said = ({ from, to }: { from: number; to: number }): string => `${isoOf(from)} ${isoOf(to)}`;

  test("are those of the calendar", () => {
    expect(said(lastWeek(dayOf("2026-03-09")))).toBe("2026-03-02 2026-03-08");
    expect(said(lastWeek(dayOf("2026-03-08")))).toBe("2026-02-23 2026-03-01");
    expect(said(lastMonth(dayOf("2026-03-31")))).toBe("2026-02-01 2026-02-28");
    expect(said(lastMonth(dayOf("2026-01-01")))).toBe("2025-12-01 2025-12-31");
    expect(said(monthUpTo(dayOf("2026-02-28")))).toBe("2026-02-01 2026-02-28");
    expect(said(monthUpTo(dayOf("2026-03-30")))).toBe("2026-03-01 2026-03-30");
  });

  test("end before the day, and have as many days as they should, on any day", () => {
    fc.assert(
      fc.property(fc.integer({ min: -20_000, max: 40_000 }), (day) => {
        const week = lastWeek(day);
        expect(week.to - week.from).toBe(6);
        expect(new Date(week.from * 86_400_000).getUTCDay()).toBe(1);
        expect(day - week.to).toBeGreaterThanOrEqual(1);
        expect(day - week.to).toBeLessThanOrEqual(7);
        const month = lastMonth(day);
        expect(isoOf(month.from)).toMatch(/-01$/);
        expect(isoOf(month.to + 1).slice(0, 7)).toBe(isoOf(day).slice(0, 7));
        const upTo = monthUpTo(day);
        expect(upTo.to - upTo.from).toBeGreaterThanOrEqual(27);
        expect(upTo.to - upTo.from).toBeLessThanOrEqual(31);
      }),
    );
  });
});

const anyLine = fc.constantFrom(
  "2026-03-01",
  "2026-03-04",
  "2026-03-09",
  "  dam change 30 %",
  "  q1 change 5 L flow from dam",
  "  dam top-up ~2 L from ro",
  "  dam test nitrate >50",
  "  dam test nitrate 10..30",
  "  dam arrive praecox ~9",
  "  dam lose praecox 2 culled",
  "  dam lose praecox 20",
  "  dam count praecox 3..5",
  "  dam move praecox 2 -> q1",
  "  dam spawn praecox",
  "  dam hatch praecox 4 lot p1",
  "  dam feed flake",
  "  dam sick praecox 1",
  "  q1 sick praecox 0 case c1",
  "  q1 close c1",
  "  q1 dose prazi 3 drops",
  "  q1 bath praecox 1 with prazi 5 mg/L for 10 min",
  '  dam sell praecox 1 to "水\u001b[31m <i>"',
  "  dam ship praecox 2 order o-1",
  "  room doa none order o-1",
  "  room buy flake 1 g price 3",
  "  room buy nothing 1 g",
  "  dam service sponge",
  "  lamp service",
  '  room note "水\u001b[31m <i>|`x`"',
);

test("any log is told in every form, without a fault and with nothing that a terminal would obey", async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(anyLine, { maxLength: 30, size: "max" }),
      fc.constantFrom([], ["--from", "2026-03-01"], ["--period", "month"]),
      async (lines, asked) => {
        const input = `${room}2026-02-28\n${lines.join("\n")}\n`;
        const call = ["report", "-", ...asked];
        const { status, out } = await atDesk(call, { ...plainDesk, columns: 60, input, day: "2026-03-20" });
        // The days asked for may be after the last that is written.
        if (status === 2) return;
        expect(out).not.toContain("\u001b");
        expect(out).not.toMatch(/NaN|undefined|Infinity/);
        for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(60);
        const { out: told } = await atDesk([...call, "--json"], { ...plainDesk, input });
        periodReport.parse(JSON.parse(told));
        const { out: page } = await atDesk([...call, "--format", "html"], { ...plainDesk, input });
        expect(page).not.toContain("<i>");
        expect(page).not.toMatch(/NaN|undefined/);
      },
    ),
    { numRuns: 60 },
  );
});
