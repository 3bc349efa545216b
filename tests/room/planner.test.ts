import { describe, expect, test } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import { type RoomPlan, roomPlan } from "../../language/room/planner/plan.ts";

function planOf(text: string, day: string, days = 14): RoomPlan {
  const checked = new CheckedLogbook();
  checked.set("room.tank", text);
  return roomPlan(checked.logbook, dayOf(day), days);
}

/** Each day with work, or away: `2026-03-08: dam change 30 %`. */
const told = ({ days }: RoomPlan): string[] =>
  days
    .filter(({ stops, away }) => stops.length > 0 || away !== undefined)
    .map(({ day, away, stops }) => {
      const work = stops.map(({ at, work }) => `${at.name} ${work.map(({ job }) => job.act).join(", ")}`);
      return `${isoOf(day)}: ${away === undefined ? work.join("; ") : `away ${away}`}`;
    });

const tank = (name: string, litres: number, duties: string): string =>
  `tank ${name}\n  volume ${litres} L\n${duties}`;

describe("the plan of a room", () => {
  test("has each tank at its own interval, on the days it is due", () => {
    const text = `${tank("dam", 300, "  every 7 d change 30 %\n")}${tank("r1", 20, "  every 3 d clean\n")}2026-03-01
  dam change 30 %
  r1 clean
`;
    const plan = planOf(text, "2026-03-02", 10);
    expect(told(plan)).toEqual([
      "2026-03-04: r1 clean",
      "2026-03-07: r1 clean",
      "2026-03-08: dam change 30 %",
      "2026-03-10: r1 clean",
    ]);
    expect(plan).toMatchObject({ daysLate: 0, isBest: true, tooLarge: [], moved: [] });
    expect(plan.days[6]?.litres).toEqual({ low: 90, high: 90 });
  });

  test("keeps within tanks, litres and minutes a day, and tells what stays owed", () => {
    const room = 'room "Shed"\n  capacity 1 tanks, 100 L, 30 min\n  takes change 25 min\n';
    const two = ["a", "b", "c"].map((name) => tank(name, 100, "  every 7 d change 50 %\n")).join("");
    const log = `${room}${two}2026-03-01\n  a change 50 %\n  b change 50 %\n  c change 50 %\n`;
    // The day before one of the three is pulled forward.
    expect(told(planOf(log, "2026-03-07", 5))).toEqual([
      "2026-03-07: b change 50 %",
      "2026-03-08: a change 50 %",
      "2026-03-09: c change 50 %",
    ]);
    // It slipped: the others stay where they were, and it has no day that it could be moved from.
    const plan = planOf(log, "2026-03-08", 5);
    expect(told(plan)).toEqual([
      "2026-03-08: a change 50 %",
      "2026-03-09: c change 50 %",
      "2026-03-10: b change 50 %",
    ]);
    expect(plan.moved).toEqual([]);
    expect(plan.days.map(({ owed }) => owed.map(({ at }) => at.name))).toEqual([
      ["b", "c"],
      ["b"],
      [],
      [],
      [],
    ]);
    expect(plan.daysLate).toBe(3);
    expect(plan.days[0]).toMatchObject({ tanks: 1, minutes: 25, litres: { low: 50, high: 50 } });
  });

  test("a capacity that is not stated does not bind", () => {
    const many = Array.from({ length: 9 }, (_, at) => tank(`t${at}`, 500, "  every 7 d change 90 %\n")).join(
      "",
    );
    const done = Array.from({ length: 9 }, (_, at) => `  t${at} change 90 %\n`).join("");
    expect(planOf(`${many}2026-03-01\n${done}`, "2026-03-08", 1)).toMatchObject({
      daysLate: 0,
      days: [{ tanks: 9 }],
    });
  });

  test("has what was done on another day than planned at its own interval again", () => {
    const dam = tank("dam", 100, "  every 7 d change 30 %\n");
    // A day early: the plan of yesterday, made before it, had it on the 8th and the 15th.
    const log = "2026-03-01\n  dam change 30 %\n2026-03-07\n  dam change 30 %\n";
    expect(told(planOf(dam + log, "2026-03-08", 9))).toEqual(["2026-03-14: dam change 30 %"]);
  });

  test("pulls work forward before days away, also those that begin behind what is shown", () => {
    const text = (away: string): string =>
      `room "Shed"\n  away ${away}\n${tank("dam", 300, "  every 7 d change 30 %\n")}2026-03-01\n  dam change 30 %\n`;
    expect(told(planOf(text('from 2026-03-07 until 2026-03-09 "at the sea"'), "2026-03-02", 9))).toEqual([
      "2026-03-06: dam change 30 %",
      "2026-03-07: away at the sea",
      "2026-03-08: away at the sea",
      "2026-03-09: away at the sea",
    ]);
    expect(told(planOf(text("from 2026-03-07 until 2026-03-20"), "2026-03-02", 5))).toEqual([
      "2026-03-06: dam change 30 %",
    ]);
  });

  test("takes what was done today off what today holds, and counts it as done", () => {
    const room = 'room "Shed"\n  capacity 1 tanks\n';
    const both = `${tank("a", 50, "  every 7 d change 50 %\n")}${tank("b", 50, "  every 7 d clean\n")}`;
    const log = "2026-03-01\n  a change 50 %\n  b clean\n2026-03-08\n  a change 50 %\n";
    const plan = planOf(`${room}${both}${log}`, "2026-03-08", 3);
    expect(told(plan)).toEqual(["2026-03-09: b clean"]);
    expect(plan.doneTanks).toBe(1);
  });

  test("of a system and of gear: the water once, a gear at its tank", () => {
    const text = `system rack
  every 7 d change 25 %
${tank("r1", 20, "  system rack\n")}${tank("r2", 20, "  system rack\n")}gear canister
  on r1
  every 7 d service canister
2026-03-01
  rack change 25 %
  canister service
`;
    const plan = planOf(text, "2026-03-08", 1);
    expect(plan.days[0]?.litres.low).toBe(10);
    expect(plan.days[0]?.stops.map(({ at }) => at.name)).toEqual(["rack", "r1"]);
  });

  test("goes from the clean to the dirty within a day", () => {
    const text = `species praecox
${tank("q", 50, "  role hospital\n  every 7 d clean\n")}${tank("a", 50, "  every 7 d clean\n")}${tank("f", 50, "  role grow-out\n  every 7 d clean\n")}2026-03-01
  q clean
  a clean
  f clean
2026-03-07
  a sick praecox 1 of 2 signs "flashing" case x-1
`;
    const { stops } = planOf(text, "2026-03-08", 1).days[0]!;
    expect(stops.map(({ at, stage }) => `${at.name} ${stage}`)).toEqual(["f fry", "q hospital", "a sick"]);
  });

  test("names work that no day holds", () => {
    const text = `room "Shed"\n  capacity 50 L\n${tank("dam", 300, "  every 7 d change 30 %\n")}2026-03-01\n  dam change 30 %\n`;
    const plan = planOf(text, "2026-03-08", 3);
    expect(plan.tooLarge.map(({ at }) => at.name)).toEqual(["dam"]);
    expect(told(plan)).toEqual([]);
    expect(plan.daysLate).toBe(3);
  });

  test("without a duty that is owed there is nothing to plan", () => {
    expect(planOf("tank dam\n  volume 10 L\n", "2026-03-08")).toMatchObject({
      jobs: [],
      daysLate: 0,
      isBest: true,
    });
  });
});

describe("minutes of an act", () => {
  const times = (lines: string): string =>
    `room "Shed"\n  capacity 60 min\n${tank("a", 50, "  every 7 d clean\n")}${tank("b", 50, "  every 7 d clean\n")}${lines}`;
  const minutesOf = (text: string, day = "2026-03-20") =>
    planOf(text, day, 1).jobs.map(({ time }) => `${time.by} ${time.minutes} ${time.from}`);

  test("are the median of the whiles between entries of one kind that follow each other", () => {
    const day = (date: string, second: string): string =>
      `${date}\n  10:00 a clean\n  ${second} b clean\n  11:55 note-not\n`;
    const log = ["10:10", "10:12", "10:14", "10:12", "11:25"].map((second, at) =>
      day(`2026-03-0${at + 1}`, second),
    );
    // One pause of 85 minutes does not count for more than another time.
    expect(minutesOf(times(log.join("")))).toEqual(["room 12 5 times", "tank 12 5 times"]);
    expect(minutesOf(times(log.slice(1).join("")))).toEqual([
      "unknown NaN 4 of 5 times",
      "unknown NaN 4 of 5 times",
    ]);
  });

  test("are not learned where another act stands between, or several entries at one time", () => {
    const between = "  10:00 a clean\n  10:05 a test nitrate 5\n  10:20 b clean\n";
    const together = "  10:00 a clean\n  a count praecox 1\n  10:20 b clean\n";
    const log = [1, 2, 3, 4, 5, 6]
      .map((at) => `2026-03-0${at}\n${at % 2 === 0 ? between : together}`)
      .join("");
    expect(minutesOf(times(log))).toEqual(["unknown NaN 0 of 5 times", "unknown NaN 0 of 5 times"]);
  });

  test("are taken as stated: of the tank before its system, before the room", () => {
    const text = `room "Shed"
  takes clean 20 min, test 5 min
system rack
  takes clean 10 min
${tank("a", 50, "  takes clean 0.5 h\n  every 7 d clean\n")}${tank("r1", 20, "  system rack\n  every 7 d clean\n")}${tank("b", 50, "  every 7 d clean\n")}2026-03-01
  a clean
  b clean
  r1 clean
`;
    expect(minutesOf(text)).toEqual(["stated 30 a", "stated 10 rack", "stated 20 the room"]);
  });
});

describe("whether a room fits its keeper", () => {
  const room = (capacity: string): string => `room "Shed"
  capacity ${capacity}
  takes change 10 min
${tank("big", 100, "  every 2 d change 50 %\n")}${tank("small", 20, "  every 4 d change 50 %\n")}2026-03-01
  big change 50 %
  small change 50 %
`;
  const demands = (capacity: string) => planOf(room(capacity), "2026-03-02").fit.demands;

  test("is what its duties ask for on an average day against what a day holds", () => {
    const [tanks, litres, minutes] = demands("7 tanks, 100 L, 60 min");
    expect(tanks).toMatchObject({ perDay: 0.75, capacity: 7, fixes: [] });
    expect(litres).toMatchObject({ perDay: 27.5, capacity: 100, fixes: [] });
    expect(minutes).toMatchObject({ perDay: 7.5, fixes: [] });
    expect(minutes?.capacity).toBeCloseTo(60, 9);
  });

  test("tells by how much it does not, and what would do, each by itself", () => {
    const [, litres] = demands("20 L");
    expect(litres?.over).toBe(7.5);
    const [capacity, oneDay, all, alone] = litres!.fixes;
    expect(capacity).toEqual({ is: "capacity", needed: 27.5 });
    expect(oneDay).toEqual({ is: "one day", more: 7 * 7.5 });
    expect(all).toEqual({ is: "all intervals", times: 1.375 });
    // 25 L a day of the big tank become 17.5; the small one alone has not so much to give.
    expect(alone).toMatchObject({ is: "intervals of", at: { name: "big" }, times: 25 / 17.5 });
    expect(litres!.fixes).toHaveLength(4);
    // Each fix, put in, does: what is asked for is what a day holds.
    expect(27.5 / 1.375).toBeCloseTo(20, 9);
    expect(25 / (25 / 17.5) + 2.5).toBeCloseTo(20, 9);
  });
});

test("a plan that was kept to is the same the next day, and one slip moves little", () => {
  const names = Array.from({ length: 8 }, (_, at) => `t${at}`);
  const base = `room "Shed"\n  capacity 2 tanks\n${names.map((name, at) => tank(name, 50, `  every ${5 + (at % 3)} d change 40 %\n`)).join("")}`;
  const began = `2026-03-01\n${names.map((name) => `  ${name} change 40 %\n`).join("")}`;
  const first = planOf(base + began, "2026-03-06");
  const doneOn = (plan: RoomPlan): string[] =>
    plan.days[0]!.stops.flatMap(({ at, work }) => work.map(({ job }) => `  ${at.name} ${job.act}\n`));
  expect(doneOn(first).length).toBeGreaterThan(1);
  const kept = planOf(`${base}${began}2026-03-06\n${doneOn(first).join("")}`, "2026-03-07");
  expect(kept.moved).toEqual([]);
  const slipped = planOf(`${base}${began}2026-03-06\n${doneOn(first).slice(1).join("")}`, "2026-03-07");
  const all = slipped.days.reduce(
    (sum, { stops }) => sum + stops.reduce((n, { work }) => n + work.length, 0),
    0,
  );
  expect(slipped.moved.length).toBeLessThan(all / 2);
});
