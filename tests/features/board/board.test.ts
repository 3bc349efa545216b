import { describe, expect, test } from "vitest";
import { boardCard } from "../../../language/features/board/board.ts";
import type { BoardCard, BoardTask } from "../../../language/features/board/board-card.ts";
import { logLines } from "../../../language/features/board/log-lines.ts";
import { edited, viewOf } from "../../support/cursor.ts";

const boardOf = (log: string, today?: string): BoardCard => boardCard(viewOf(log, undefined, today));

/** A task as its line would be: blanks as `_`. */
const line = ({ target, ways: [way] }: BoardTask): string =>
  `${target} ${way!.words}${way!.blanks.map(({ before }) => `${before}_`).join("")}${way!.end}`;
const lines = (tasks: readonly BoardTask[]): string[] => tasks.map(line);
const section = (card: BoardCard, is: string): string[] =>
  card.notices.find((each) => each.is === is)?.lines.map(({ name, text }) => `${name}: ${text}`) ?? [];

const rooms = `room "Shed"
  capacity 4 tanks, 200 L, 90 min
  takes    change 10 min, clean 12 min
species horn
species praecox
`;

describe("the board's stops", () => {
  const log = `${rooms}tank q "Arrivals"
  volume 50 L; role quarantine
  every  7 d change 40 %
tank dam "Rainbow dam"
  volume 100 L
  limits nitrate <= 50 mg/L
  every  7 d change 30..50 %
  every  7 d test nitrate, pH
  every  7 d clean front-glass, gravel
  every  14 d count praecox
gear canister
  on dam; kind filter
  every 28 d service
2026-03-01
  q   change 40 %
  q   arrive horn 5
  dam change 35 %
  dam test nitrate 20, pH 7.2
  dam clean front-glass, gravel
  dam count praecox 14
  dam service canister rinsed
2026-03-08
  dam change 35 %
  dam clean front-glass, gravel, lid
2026-03-15
  dam change 40 L flow
`;

  test("stand in the order of hands; a task is a line as it was written the last times, blanks where it is measured or seen", () => {
    const card = boardOf(log, "2026-03-29");
    expect(card.stops.map(({ at, stage }) => `${at} ${stage}`)).toEqual(["dam healthy", "q quarantine"]);
    const [dam, q] = card.stops;
    expect(lines(dam!.tasks)).toEqual([
      "dam change 35 %",
      "dam clean front-glass, gravel, lid",
      "dam service canister rinsed",
      "dam test nitrate _, pH _",
      "dam count praecox _",
    ]);
    expect(dam!.before).toBe("");
    expect(q!.before).toMatch(/^disinfect hands and tools first/);
    expect(lines(q!.tasks)).toEqual(["q change 40 %"]);
  });

  test("offer the other ways, and say how late, when last, how much water, and what was read last", () => {
    const [change, , , round, count] = boardOf(log, "2026-03-29").stops[0]!.tasks;
    expect(change).toMatchObject({
      late: 7,
      when: "7 days late",
      last: "done 15 March",
      litres: "30 to 50 L",
    });
    expect(change!.ways.map(({ words }) => words)).toEqual(["change 35 %", "change 40 L flow"]);
    expect(round!.ways[0]!.blanks).toEqual([
      { before: " nitrate ", label: "nitrate, mg/L", last: "20 on 1 March" },
      { before: ", pH ", label: "pH", last: "7.2 on 1 March" },
    ]);
    expect(count!.ways[0]!.blanks).toEqual([
      { before: " praecox ", label: "praecox", last: "14 by the book" },
    ]);
  });

  test("what is logged as usual is due no more, and stands among what was done", () => {
    const view = viewOf(log, undefined, "2026-03-29");
    const tasks = boardCard(view).stops.flatMap((stop) => stop.tasks);
    const whole = tasks.filter(({ ways }) => ways[0]!.blanks.length === 0);
    const made = logLines(view, whole.map(line));
    if ("refused" in made) throw new Error(JSON.stringify(made.refused));
    const after = boardOf(edited(view.source.text, made.edits), "2026-03-29");
    expect(after.stops.flatMap((stop) => lines(stop.tasks))).toEqual([
      "dam test nitrate _, pH _",
      "dam count praecox _",
    ]);
    expect(after.done.map((each) => each.line).reverse()).toEqual(whole.map(line));
    expect(after.load.map(({ text }) => text)).toEqual([
      "2 of 4 tanks done, 0 to do",
      "55 of 200 L of new water done, 0 to do",
      "32 of 90 min done, 0 to do",
    ]);
  });

  test("a room with nothing due, and one without tanks, are empty and say so", () => {
    expect(boardOf(`${rooms}tank dam\n  volume 100 L\n`, "2026-03-01")).toMatchObject({
      tanks: 1,
      stops: [],
      feeds: [],
      notices: [],
    });
    expect(boardOf(rooms, "2026-03-01")).toMatchObject({
      tanks: 0,
      stops: [],
      fit: [],
      coming: expect.any(Array),
    });
  });

  test("a day away says why", () => {
    const log = rooms.replace("capacity", 'away from 2026-03-10 until 2026-03-11 "at the sea"\n  capacity');
    expect(boardOf(log, "2026-03-10").away).toBe("at the sea");
    expect(boardOf(log, "2026-03-12").away).toBeNull();
  });
});

describe("why a task matters", () => {
  const weekly = (readings: readonly number[]): string =>
    readings
      .map(
        (nitrate, at) =>
          `2026-0${at < 4 ? 2 : 3}-${String(1 + 7 * (at % 4)).padStart(2, "0")}\n  dam test nitrate ${nitrate}\n  dam change 10 %\n`,
      )
      .join("");
  const dam = (limit: string): string => `tank dam
  volume 100 L
  limits nitrate <= ${limit}
  every  7 d change 10 %
  every  7 d test nitrate
`;

  test("of a change: the limit that is crossed, or would be without it", () => {
    const days = weekly([15, 20.5, 25.4, 29.9, 33.9, 37.5, 40.8]);
    const due = (log: string): BoardTask =>
      boardOf(log, "2026-03-23").stops[0]!.tasks.find(({ kind }) => kind === "change")!;
    expect(due(dam("50 mg/L") + days).why).toMatch(
      /^without it nitrate meets 50 mg\/L about \d+ (March|April)$/,
    );
    expect(due(dam("40 mg/L") + days).why).toBe("nitrate 40.8 mg/L, limit at most 40 mg/L");
  });

  test("of a test: where the water stands by reckoning", () => {
    const card = boardOf(dam("50 mg/L") + weekly([15, 20.5, 25.4, 29.9, 33.9, 37.5, 40.8]), "2026-03-29");
    expect(card.stops[0]!.tasks.find(({ kind }) => kind === "test")!.why).toMatch(
      /^by reckoning now nitrate \d+(\.\d+)?\.\.\d+(\.\d+)? mg\/L$/,
    );
  });

  test("of what has become rare: how often it is done, against how often is stated", () => {
    const days = ["01", "11", "21"].map((day) => `2026-03-${day}\n  dam clean\n`).join("");
    const card = boardOf(
      `tank dam\n  volume 100 L\n  every 7 d clean\n2026-02-19\n  dam clean\n${days}`,
      "2026-03-30",
    );
    expect(card.stops[0]!.tasks[0]!.why).toBe("of late every 10 days, stated 7 days");
  });

  test("water that meets its limit before the next change stands before other water", () => {
    const card = boardOf(
      dam("42 mg/L").replace("every  7 d change", "every 28 d change") +
        weekly([15, 20.5, 25.4, 29.9, 33.9, 37.5, 40.8]),
      "2026-03-16",
    );
    expect(section(card, "water")).toEqual([
      expect.stringMatching(
        /^dam nitrate: meets at most 42 mg\/L .*; that may be before the next change, due 12 April/,
      ),
    ]);
    expect(card.notices[0]!.lines[0]!.tone).toBe("bad");
  });
});

describe("feedings", () => {
  const tanks = `${rooms}food flake
  kind dry
food cyclops
  kind frozen
species shy
  needs frozen at least 2 per 7 d, dry at most 3 per 7 d
tank r1
  volume 24 L
tank r2
  volume 24 L
group rack = r1, r2
`;
  const fed = (log: string, today: string): string[] =>
    boardOf(tanks + log, today).feeds.map(
      (task) => `${line(task)}${task.when === "" ? "" : ` (${task.when})`}`,
    );

  test("offer what is fed most and was not for long; who was fed today is done", () => {
    const log = `2026-03-01
  @rack feed flake 1 pinch
2026-03-02
  @rack feed cyclops 1 cube
2026-03-03
  @rack feed flake 1 pinch
2026-03-04
  @rack feed flake 1 pinch
2026-03-05
  r1 feed cyclops 1 cube
`;
    expect(fed(log, "2026-03-05")).toEqual(["r2 feed flake 1 pinch"]);
    const next = `${log}2026-03-06\n  @rack feed flake 1 pinch\n`;
    expect(fed(next, "2026-03-07")).toEqual(["r1 feed flake 1 pinch", "r2 feed cyclops 1 cube"]);
  });

  test("offer what the animals need first, and what they had enough of last", () => {
    const log = `2026-03-01
  r1 arrive shy 5
  r1 feed flake 1 pinch
  r1 feed cyclops 1 cube
2026-03-02
  r1 feed flake 1 pinch
2026-03-03
  r1 feed flake 1 pinch
`;
    const [task] = boardOf(tanks + log, "2026-03-09").feeds;
    expect(line(task!)).toBe("r1 feed cyclops 1 cube");
    expect(task!.when).toBe("frozen 0 of 2 in 7 days");
    const [early] = boardOf(tanks + log, "2026-03-04").feeds;
    expect(early!.ways.map(({ words }) => words)).toEqual(["feed cyclops 1 cube", "feed flake 1 pinch"]);
  });

  test("who is packed fasted is offered no food first", () => {
    const order = `order o-1 "a neighbour"
  wants horn 2; placed 2026-03-01; due 2026-03-06
2026-03-01
  r1 arrive horn 5
  r1 feed flake 1 pinch
2026-03-04
  r1 feed flake 1 pinch
`;
    const [task] = boardOf(
      tanks.replace('room "Shed"', 'room "Shed"\n  fasting 24..48 h') + order,
      "2026-03-05",
    ).feeds;
    expect(line(task!)).toBe('r1 feed none "fasting"');
    expect(task!.why).toBe("o-1 is packed from it fasted: do not feed");
  });
});

describe("what to know", () => {
  test("animals that nobody counted for a month, with the count to write", () => {
    const log = `${rooms}tank dam
  volume 100 L
tank r1
  volume 24 L
2026-02-01
  dam count horn 5
  r1 count praecox 9
2026-02-20
  r1 arrive praecox 3
`;
    const card = boardOf(log, "2026-03-14");
    expect(section(card, "unseen")).toEqual(["dam: 5 horn: not seen for 41 days, last on 1 February"]);
    expect(line(card.notices[0]!.lines[0]!.task!)).toBe("dam count horn _");
    expect(section(boardOf(log, "2026-02-28"), "unseen")).toEqual([]);
  });

  test("a dose that is due stands at its tank, behind the change it owes, with the caution", () => {
    const log = `${rooms}remedy prazi
  target 2 mg/L; repeat 3 times every 7 d; change-before 30 %
tank q
  volume 50 L
2026-03-01
  q sick horn 1 of 4 signs "flashing" case c-1
  q dose prazi 100 mg
`;
    const card = boardOf(log, "2026-03-08");
    expect(lines(card.stops[0]!.tasks)).toEqual(["q change 30 %", "q dose prazi 30 mg"]);
    expect(card.stops[0]!.tasks[1]!.why).toMatch(/^dose 2 of 3, 2 mg\/L in the water, target 2 mg\/L/);
    expect(card.stops[0]!.tasks[1]!.caution).not.toBe("");
    expect(section(card, "cases")).toEqual([expect.stringMatching(/^c-1: in q; open, day 8/)]);
    expect(section(card, "remedies")).toEqual([expect.stringMatching(/^q prazi: 2 mg\/L in the water/)]);
  });

  test("an order on the day it goes, with a line for each tank that something goes from; packing takes minutes", () => {
    const log = `${rooms.replace("clean 12 min", "clean 12 min, ship 20 min")}tank r1
  volume 24 L
tank r2
  volume 24 L
order o-1 "a neighbour"
  wants horn 2, praecox 7; placed 2026-03-01; due 2026-03-06
2026-03-01
  r1 arrive horn 5
  r1 arrive praecox 4
  r2 arrive praecox 5
`;
    const packed = (card: BoardCard): string[] =>
      card.notices
        .find(({ is }) => is === "orders")
        ?.lines.flatMap(({ task }) => (task === null ? [] : line(task))) ?? [];
    expect(packed(boardOf(log, "2026-03-05"))).toEqual([]);
    const card = boardOf(log, "2026-03-06");
    expect(packed(card)).toEqual([
      "r1 ship horn 2 order o-1",
      "r2 ship praecox 5 order o-1",
      "r1 ship praecox 2 order o-1",
    ]);
    expect(card.load.map(({ text }) => text)).toEqual(["0 of 90 min done, 20 to do"]);
    const some = `${log}2026-03-06\n  r1 ship horn 2 order o-1\n  r2 ship praecox 5 order o-1\n`;
    expect(packed(boardOf(some, "2026-03-06"))).toEqual(["r1 ship praecox 2 order o-1"]);
    const all = boardOf(`${some}  r1 ship praecox 2 order o-1\n`, "2026-03-06");
    expect(section(all, "orders")).toEqual([]);
    expect(all.load.map(({ text }) => text)).toEqual(["20 of 90 min done, 0 to do"]);
    // What leaves on a day away is packed before it.
    const away = log.replace("capacity", "away 2026-03-06\n  capacity");
    expect(packed(boardOf(away, "2026-03-05"))).toHaveLength(3);
  });

  test("a brood about to hatch with how many to write, and a case with how many show signs", () => {
    const log = `${rooms.replace("species horn", "species horn\n  kind snail").replace("species praecox", "species praecox\n  hatches 7..10 d at 25 C")}tank q
  volume 50 L
2026-03-01
  q test temperature 25
  q arrive praecox 4
  q spawn praecox 100 eggs lot p7
  q sick praecox 1 of 4 signs "flashing" case c-1
`;
    const told = (card: BoardCard): string[] =>
      card.notices.flatMap(({ lines: some }) =>
        some.flatMap(({ task }) => (task === null ? [] : line(task))),
      );
    expect(told(boardOf(log, "2026-03-02"))).toEqual(["q sick praecox _ case c-1"]);
    expect(told(boardOf(log, "2026-03-10"))).toEqual([
      "q sick praecox _ case c-1",
      "q hatch praecox _ lot p7",
    ]);
    // Of several kinds of animals nobody can say which is meant.
    expect(told(boardOf(`${log}  q sick horn 1 case c-1\n`, "2026-03-02"))).toEqual([]);
  });

  test("a lamp that lasts no longer, with the line that says it was replaced, and the caution for what hangs on a socket", () => {
    const log = `${rooms}tank dam
  volume 100 L
gear lamp "Tube of the dam"
  kind lamp; on dam; from 2025-03-01; lasts 365 d
food flake
  kind dry; expires 2026-03-05
2026-03-01
  dam feed flake
`;
    const card = boardOf(log, "2026-03-02");
    expect(section(card, "expiry")).toEqual([
      expect.stringMatching(/^lamp \(Tube of the dam\): 1 day past its day: lasts 365 d/),
      "flake: good until 5 March by its pack",
    ]);
    const [lamp, flake] = card.notices.find(({ is }) => is === "expiry")!.lines;
    expect(line(lamp!.task!)).toBe("dam service lamp replaced");
    expect(lamp!.task!.caution).toMatch(/pull the plug/);
    expect(flake!.task).toBeNull();
  });

  test("what is due in the middle of an absence says so", () => {
    const log = `${rooms.replace("capacity", 'away from 2026-03-07 until 2026-03-09 "at the sea"\n  capacity')}tank dam
  volume 100 L
  every 7 d clean front-glass, gravel
2026-03-01
  dam clean
2026-03-10
  dam clean gravel
`;
    const [task] = boardOf(log, "2026-03-10").stops[0]!.tasks;
    expect(task!.why).toMatch(/in the absence until 9 March/);
  });

  test("on the last days before an absence what falls into it, and while it lasts who does what", () => {
    const log = `${rooms.replace("capacity", 'away from 2026-03-07 until 2026-03-09 "at the sea" covered feed\n  capacity')}tank dam
  volume 100 L
  every 7 d clean
  every 1 d feed
2026-03-01
  dam clean
  dam feed flake
`;
    expect(section(boardOf(log, "2026-03-06"), "absence")).toEqual([
      "7 March to 9 March, at the sea: before: dam clean; feed is done by someone else",
    ]);
    expect(section(boardOf(log, "2026-03-08"), "absence")).toEqual([
      "7 March to 9 March, at the sea: feed is done by someone else until 9 March 2026",
    ]);
    expect(section(boardOf(log, "2026-03-02"), "absence")).toEqual([]);
  });
});
