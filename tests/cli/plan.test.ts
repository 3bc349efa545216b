import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { planReport } from "../../language/cli/schema.ts";
import { atDesk, cellar, folderOf, standpipe } from "./support.ts";

const room = (capacity: string, more = ""): string => `room "Shed"
  capacity  ${capacity}
  takes     change 10 min, clean 20 min
${more}
tank dam "Rainbow dam"
  volume  300 L
  every   7 d change 30..40 %
  every   7 d clean

tank r1
  volume  20 L
  every   3 d clean
`;
const log = `2026-03-01
  dam change 30 %
  dam clean
  r1 clean
`;
const plainDesk = { columns: 80, env: { NO_COLOR: "1" }, day: "2026-03-06" };

describe("plan", () => {
  test("tells whether the room fits, the days, and each day's round", async () => {
    const { status, out } = await atDesk(["plan", "--days", "4"], {
      ...plainDesk,
      cwd: folderOf({ "shed.tank": room("2 tanks, 120 L, 60 min") + log }),
    });
    expect(status).toBe(0);
    expect(out).toContain("Plan\nShed, 4 days from 6 March 2026\n");
    expect(out).toContain("The room fits: nothing is late at the end of any of these days.");
    expect(out).toMatch(/tanks: at least 0\.476 tanks a day on average +of 2 tanks/);
    expect(out).toMatch(/litres: 12\.9 L a day on average +of 120 L/);
    expect(out).toMatch(/Day +Tanks of 2 +Litres of 120 +Minutes of 60 +Left owed/);
    expect(out).toMatch(/8 March +1 +90 to 120 +30/);
    expect(out).toContain("r1: clean (2 days late)");
    expect(out).toMatch(/dam: change 30\.\.40 %, clean|dam: clean, change 30\.\.40 %/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  test("says plainly when the room does not fit, by how much, and what would do", async () => {
    const cwd = folderOf({ "shed.tank": room("1 tanks, 10 L") + log });
    const { out } = await atDesk(["plan"], { ...plainDesk, cwd });
    const flat = out.replace(/\s+/g, " ");
    expect(flat).toContain(
      "The room does not fit its keeper: 12.9 L a day of 10 L, 2.86 L too many (20 L a week), every day, for good.",
    );
    expect(flat).toContain("would do: 12.9 L on each day with work");
    expect(flat).toContain("would do: 20 L more on one day of each week");
    expect(flat).toContain("would do: all intervals 1.29 times as long");
    expect(flat).toContain("would do: those of dam alone 1.29 times as long");
    expect(flat).toContain("dam change 30..40 %: more than any day holds; it stays owed");
  });

  test("has nothing on days away, with what they leave", async () => {
    const away = '  away      from 2026-03-07 until 2026-03-09 "at the <sea>"\n';
    const cwd = folderOf({ "shed.tank": room("2 tanks", away) + log });
    const { out } = await atDesk(["plan"], { ...plainDesk, cwd });
    expect(out).toMatch(/7 March +away/);
    const { out: page } = await atDesk(["plan", "--format", "html"], { ...plainDesk, cwd });
    expect(page).toMatch(/^<!DOCTYPE html>/);
    expect(page).not.toContain("<sea>");
    const { out: markdown } = await atDesk(["plan", "--format", "markdown"], { ...plainDesk, cwd });
    expect(markdown).toMatch(/^# Plan\n/);
  });

  test("is the same as JSON", async () => {
    const cwd = folderOf({ "shed.tank": room("1 tanks, 10 L") + log });
    const { out } = await standpipe(["plan", "--json", "--as-of", "2026-03-06", "--days", "3"], { cwd });
    const [one] = planReport.parse(JSON.parse(out)).logbooks;
    expect(one).toMatchObject({ title: "Shed", day: "2026-03-06", fits: false });
    expect(one?.days.map(({ day }) => day)).toEqual(["2026-03-06", "2026-03-07", "2026-03-08"]);
    expect(one?.days[0]?.stops).toMatchObject([
      {
        at: "r1",
        stage: "healthy",
        work: [{ act: "clean", every: 3, late: 2, minutes: 20, minutesBy: "stated" }],
      },
    ]);
    expect(one?.demands.find(({ of }) => of === "litres")?.fixes.map(({ is, at }) => [is, at])).toEqual([
      ["capacity", null],
      ["one day", null],
      ["all intervals", null],
      ["intervals of", "dam"],
    ]);
    expect(one?.tooLarge).toEqual([
      { at: "dam", of: "dam", act: "change 30..40 %", every: 7, isFixed: false },
    ]);
  });

  test("of the sample keeps within its 7 tanks and 420 L on every day", async () => {
    const { out } = await standpipe(["plan", cellar, "--json"]);
    const [one] = planReport.parse(JSON.parse(out)).logbooks;
    expect(one?.days).toHaveLength(14);
    expect(one?.fits).toBe(true);
    for (const { tanks, litres } of one!.days) {
      expect(tanks).toBeLessThanOrEqual(7);
      expect(litres.low).toBeLessThanOrEqual(420);
    }
    expect(one!.bound).toBeLessThanOrEqual(one!.cost);
    // What is late is made good by 3 April, and then nothing is left for more than a day; on the last one before the keeper is away nothing.
    const owed = one!.days.slice(3, 11).map((each) => each.owed.map(({ at, act }) => `${at} ${act}`));
    expect(owed[0]).toEqual([]);
    for (let day = 1; day < owed.length; day++) {
      expect(owed[day]!.length).toBeLessThanOrEqual(1);
      expect(owed[day]!.filter((each) => owed[day - 1]!.includes(each))).toEqual([]);
    }
    expect(one!.days[10]!.owed).toEqual([]);
    // Orders keep the days on which they leave.
    const packed = one!.days.flatMap(({ day, stops }) =>
      stops.flatMap(({ work }) => work.filter(({ isFixed }) => isFixed).map(({ act }) => `${day} ${act}`)),
    );
    expect(packed).toEqual(["2026-04-02 pack o-26", "2026-04-02 pack o-27", "2026-04-08 pack o-25"]);
    expect(one!.days.findIndex(({ away }) => away)).toBe(11);
  });

  test("says what is missing where nothing is stated, and what is wrong with a call", async () => {
    const { out: none } = await atDesk(["plan", "-"], { ...plainDesk, input: "tank dam\n  volume 10 L\n" });
    expect(none).toContain("No duty is owed.");
    const input = `tank dam\n  volume 10 L\n  every 7 d clean\n2026-03-01\n  dam clean\n`;
    const { out: free } = await atDesk(["plan", "-"], { ...plainDesk, input });
    expect(free.replace(/\s+/g, " ")).toContain(
      "The room states no capacity, so nothing binds but days away",
    );
    for (const days of ["0", "61", "x"]) {
      const { status, err } = await atDesk(["plan", "-", "--days", days], { ...plainDesk, input });
      expect([status, err]).toEqual([2, `standpipe: --days takes 1 to 60 days, not “${days}”\n`]);
    }
  });

  test("of several rooms names each", async () => {
    const cwd = folderOf({
      "a/room.tank": room("2 tanks") + log,
      "b/room.tank": (room("2 tanks") + log).replace("Shed", "Attic"),
    });
    const { out } = await atDesk(["plan"], { ...plainDesk, cwd });
    expect(out).toContain("Shed: Does it fit");
    expect(out).toContain("Attic: Does it fit");
  });
});

const anyLine = fc.constantFrom(
  "2026-03-01",
  "2026-03-03",
  "2026-03-06",
  "  dam change 30 %",
  "  10:00 dam clean",
  "  10:20 r1 clean",
  "  dam clean glass",
  "  r1 clean all",
  "  b3 clean",
  "  dam sick praecox 2 of 9 case w-1",
);

test("any log is planned in every form, with nothing that a terminal would obey", async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(anyLine, { maxLength: 16 }),
      fc.constantFrom("1 tanks", "5 L, 10 min", "0 tanks", "3 tanks, 400 L"),
      fc.constantFrom(
        "",
        '  away from 2026-03-05 until 2026-04-20 "水\u001b[31m <i>"\n',
        "  away from 2026-03-06\n",
      ),
      async (lines, capacity, away) => {
        const input = `${room(capacity, away)}\n2026-02-27\n${lines.join("\n")}\n`;
        const { status, out } = await atDesk(["plan", "-"], { ...plainDesk, columns: 60, input });
        expect(status).toBe(0);
        for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(60);
        expect(out).not.toContain("\u001b");
        expect(out).not.toMatch(/NaN|undefined|Infinity/);
        const { out: json } = await atDesk(["plan", "-", "--json"], { ...plainDesk, input });
        planReport.parse(JSON.parse(json));
        const { out: page } = await atDesk(["plan", "-", "--format", "html"], { ...plainDesk, input });
        expect(page).not.toContain("<i>");
      },
    ),
    { numRuns: 60 },
  );
});
