import { describe, expect, test } from "vitest";
import { todayReport } from "../../language/cli/schema.ts";
import { atDesk, folderOf } from "./support.ts";

/** Days away, what to do before them, and what is to be replaced, as the report of the day tells them. 2026-04-11 is a Saturday. */

const log = `room "Shed"
  capacity  4 tanks, 200 L
  capacity  2 tanks on saturday
  off       sunday
  away      from 2026-04-15 until 2026-04-21 "at the sea" covered feed
tank dam
  volume  100 L
  from    2026-01-01
  every   7 d change 30 %
  every   20 d clean glass
  every   2 d feed
  every   2 d test pH
  every   11 d count
tank r1
  volume  20 L
  from    2026-01-01
  every   3 d clean
species praecox
remedy prazi
  target 2 mg/L; repeat 3 times every 7 d
order o-1
  wants praecox 2; due 2026-04-20
gear ph-kit
  kind kit; expires 2026-04-20
gear gh-kit
  kind kit; expires 2026-03-01
gear lamp-1
  kind lamp; on dam; from 2026-01-01; lasts 100 d
2026-03-31
  dam clean front-glass, back-glass, side-glass
2026-04-10
  dam feed
  dam count praecox 10
  dam dose prazi 2 mg/L
  dam test pH 7
`;

async function dayOf(asOf: string, more = "") {
  const cwd = folderOf({ "room.tank": log + more });
  const { out } = await atDesk(["today", "--json", "--as-of", asOf], { cwd });
  return todayReport.parse(JSON.parse(out)).days[0]!;
}
const shown = async (asOf: string): Promise<string> => {
  const cwd = folderOf({ "room.tank": log });
  return (await atDesk(["today", "--as-of", asOf], { cwd, columns: 100, env: { NO_COLOR: "1" } })).out;
};

describe("the last days before an absence", () => {
  test("tell what falls due in it, by its day, and what nobody does meanwhile", async () => {
    const { before } = await dayOf("2026-04-13");
    expect(before).toHaveLength(1);
    const { from, until, why, covered, days, meanwhile, doses, orders } = before[0]!;
    expect([from, until, why, covered]).toEqual(["2026-04-15", "2026-04-21", "at the sea", ["feed"]]);
    expect(days.map(({ day, work }) => [day, ...work.map(({ act }) => act)])).toEqual([
      ["2026-04-20", "clean glass"],
      ["2026-04-21", "count"],
    ]);
    expect(meanwhile.map(({ at, act, days: every }) => `${at} ${act} ${every}`)).toEqual([
      "dam test pH 2",
      "r1 clean 3",
    ]);
    expect(doses).toEqual([{ at: "dam", remedy: "prazi", number: 2, of: 3, due: "2026-04-17" }]);
    expect(orders).toEqual([{ order: "o-1", due: "2026-04-20" }]);
  });
  test("tell what comes whoever is there: eggs, live foods, a quarantine that ends, a result that is awaited", async () => {
    const more = `tank q1
  volume 50 L; role quarantine
food nauplii
  kind live; ready 20..28 h
food worms
  kind live; ready 10 d
2026-03-25
  q1 arrive praecox 4
2026-04-09
  dam test temperature 25
  dam spawn praecox 60 eggs lot p7
  q1 sick praecox 1 of 4 signs "flashing" case c-1
  q1 sample gill 1 case c-1
  q1 send c-1 to "state laboratory"
  r1 start worms
2026-04-14
  r1 start nauplii
`;
    const cwd = folderOf({
      "room.tank":
        log
          .replace("away      from", "quarantine 24 d; clear 5 d\n  away      from")
          .replace("species praecox", "species praecox\n  hatches 7..10 d at 25 C") + more,
    });
    const report = async (asOf: string) =>
      todayReport.parse(JSON.parse((await atDesk(["today", "--json", "--as-of", asOf], { cwd })).out))
        .days[0]!.before;
    const [before] = await report("2026-04-14");
    expect(before!.hatches).toMatchObject([
      { brood: "p7", at: "dam", stage: "hatch", earliest: "2026-04-16", latest: "2026-04-19" },
    ]);
    expect(before!.cultures.map(({ food, at, from, until }) => [food, at, from, until])).toEqual([
      ["worms", "r1", "2026-04-19", null],
      ["nauplii", "r1", "2026-04-14", "2026-04-15"],
    ]);
    expect(before!.quarantines).toEqual([
      { at: ["q1"], end: "2026-04-19", text: "quarantine of q1 not before 19 April" },
    ]);
    expect(before!.results).toEqual([
      {
        case: "c-1",
        laboratory: "state laboratory",
        left: "2026-04-09",
        text: "result of c-1 from state laboratory awaited since 9 April",
      },
    ]);
    const text = (
      await atDesk(["today", "--as-of", "2026-04-14"], { cwd, columns: 100, env: { NO_COLOR: "1" } })
    ).out;
    expect(text).toContain("  p7 (praecox, dam) to hatch about 18 April (16 to 19 April)\n");
    expect(text).toContain("  nauplii in r1 ready ");
    // On the day before a weekday off a clock and a letter can wait.
    const [off] = await report("2026-04-11");
    expect([off!.from, off!.quarantines, off!.results]).toEqual(["2026-04-12", [], []]);
    // With its result it is awaited no more; who harvests tells of no culture.
    const told = `${log.replace("covered feed", "covered feed, harvest")}${more}  q1 result c-1 negative\n`;
    const answered = folderOf({ "room.tank": told });
    const { out } = await atDesk(["today", "--json", "--as-of", "2026-04-14"], { cwd: answered });
    const [later] = todayReport.parse(JSON.parse(out)).days[0]!.before;
    expect([later!.results, later!.cultures]).toEqual([[], []]);
  });

  test("are three of a long absence, and one of a weekday off, of which only what can be done before is told", async () => {
    const spans = async (day: string): Promise<string[]> =>
      (await dayOf(day)).before.map(({ from, until }) => `${from}..${until}`);
    expect(await spans("2026-04-10")).toEqual([]);
    expect(await spans("2026-04-11")).toEqual(["2026-04-12..2026-04-12", "2026-04-15..2026-04-21"]);
    expect(await spans("2026-04-12")).toEqual([]);
    expect(await spans("2026-04-14")).toEqual(["2026-04-15..2026-04-21"]);
    expect((await dayOf("2026-04-11")).before[0]!.meanwhile).toEqual([]);
  });
  test("in text have a section of their own", async () => {
    const text = await shown("2026-04-14");
    expect(text).toMatch(/Before you go +15 April to 21 April, at the sea, feed by someone else\n/);
    expect(text).toContain("  Mon 20 Apr  dam clean\n");
    expect(text).toContain("  dam  dose 2 of 3 of prazi is due on 17 April\n");
    expect(text).toContain("  order o-1 is due on 20 April\n");
    expect(text).toMatch(
      /nobody does meanwhile, unless you ask someone \(covered\): dam test pH every 2 days;/,
    );
  });
});

describe("a day away", () => {
  test("says so, and owes what someone else does", async () => {
    const { away, round } = await dayOf("2026-04-17");
    expect(away).toEqual({ from: "2026-04-15", until: "2026-04-21", why: "at the sea", covered: ["feed"] });
    const acts = round.flatMap(({ work }) => work.map(({ act }) => act));
    expect(acts).toContain("feed");
    expect(acts).not.toContain("clean glass");
    expect(await shown("2026-04-17")).toContain(
      "Away until 21 April: at the sea. Someone else does feed; all else is due on the first day back.",
    );
    expect(await shown("2026-04-19")).toContain("Away until 21 April");
    expect(await shown("2026-04-21")).toContain("Today is the last day away: at the sea.");
  });
  test("is over on the first day back, which says what fell into it", async () => {
    const { away, round } = await dayOf("2026-04-22");
    expect(away).toBeNull();
    const clean = round.flatMap(({ work }) => work).find(({ act }) => act === "clean glass");
    expect(clean).toMatchObject({
      due: "2026-04-22",
      late: 0,
      note: "due on 20 April, in the absence until 21 April",
    });
    expect(await shown("2026-04-22")).toContain("      due on 20 April, in the absence until 21 April\n");
  });
  test("stands among the days that come, each with what it holds", async () => {
    const { coming, capacity } = await dayOf("2026-04-09");
    expect(capacity.tanks).toBe(4);
    expect(coming.map(({ day, away, capacity: { tanks } }) => [day, away, tanks]).slice(1, 6)).toEqual([
      ["2026-04-11", null, 2],
      ["2026-04-12", "day off", 4],
      ["2026-04-13", null, 4],
      ["2026-04-14", null, 4],
      ["2026-04-15", "at the sea", 4],
    ]);
    expect((await dayOf("2026-04-11")).capacity.tanks).toBe(2);
  });
});

describe("what is to be replaced", () => {
  test("is told with its day; what is due for its age stands in the round", async () => {
    const { expiring } = await dayOf("2026-04-13");
    expect(expiring.map(({ name, sort, day, late, by }) => [name, sort, day, late, by])).toEqual([
      ["gh-kit", "gear", "2026-03-01", 43, "expires"],
      ["lamp-1", "gear", "2026-04-11", 2, "lasts"],
      ["ph-kit", "gear", "2026-04-20", -7, "expires"],
    ]);
    const text = await shown("2026-04-13");
    expect(text).toContain("  gh-kit (gear)  good until 1 March by its pack, 43 days ago\n");
    expect(text).toContain("  ph-kit (gear)  good until 20 April by its pack, in 7 days\n");
    expect(text).toMatch(/service lamp-1 replaced +2 days late/);
    expect(text).not.toContain("lamp-1 (gear)");
  });
});
