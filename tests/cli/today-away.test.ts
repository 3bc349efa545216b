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
