import { describe, expect, test } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { casesUntil } from "../../language/room/cases.ts";
import type { Contact } from "../../language/room/contact.ts";
import { nodesOf } from "../../language/room/contact-nodes.ts";
import { exposedTanks, isHeld } from "../../language/room/exposed-tanks.ts";
import { earliest, linksOf, type Way } from "../../language/room/exposure.ts";
import {
  allReached,
  type Exposure,
  exposureOf,
  isOpenOn,
  resultOf,
  signsOf,
} from "../../language/room/exposure-of-case.ts";
import type { Logbook } from "../../language/room/logbook.ts";
import { lastDay, logbookOf } from "../support/marked.ts";

const room = `room "Cellar"
  trace 30 d
species praecox
system rack-water
  sump 20 L
tank a
  volume 100 L
tank b
  volume 60 L
tank c
  volume 60 L
tank d
  volume 60 L
tank r1
  volume 20 L
  system rack-water
tank r2
  volume 20 L
  system rack-water
group low = b, c
`;
const sickInA = `2026-03-20
  a sick praecox 2 of 9 case w-1
`;

interface Asked {
  readonly case?: string;
  readonly by?: "result";
  readonly days?: number;
  readonly until?: string;
}

function traced(log: string, asked: Asked = {}): { logbook: Logbook; exposure: Exposure } {
  const { logbook } = logbookOf(room + log);
  const until = asked.until === undefined ? lastDay(logbookOf(room + log)) : dayOf(asked.until);
  const known = casesUntil(logbook, until).find(({ name }) => name === (asked.case ?? "w-1"))!;
  const { first, later } = asked.by === "result" ? { first: resultOf(known), later: [] } : signsOf(known);
  return { logbook, exposure: exposureOf(logbook, first, later, { days: asked.days ?? Number.NaN, until }) };
}

function nameAt(logbook: Logbook, node: number): string {
  const at = nodesOf(logbook.book).at(node);
  switch (at.is) {
    case "water":
      return at.body.name;
    case "consignment":
      return at.lot === "" ? `from ${at.supplier || "nobody named"}` : `lot ${at.lot}`;
    default:
      return at.name;
  }
}

/** `q1 2026-03-02: a > net > q1`, in the order in which they were reached. */
function waysOf(logbook: Logbook, ways: Iterable<Way>, isBack: boolean): string[] {
  return [...ways].map((way) => {
    const links = linksOf(way, isBack) as Contact[];
    const nodes = [links[0]?.from ?? way.node, ...links.map(({ to }) => to)];
    return `${nameAt(logbook, way.node)} ${isoOf(Math.floor(way.time))}: ${nodes.map((node) => nameAt(logbook, node)).join(" > ")}`;
  });
}

const forward = (log: string, asked?: Asked): string[] => {
  const { logbook, exposure } = traced(log, asked);
  return waysOf(logbook, earliest(allReached(exposure)).values(), false);
};
const back = (log: string, asked?: Asked): string[] => {
  const { logbook, exposure } = traced(log, asked);
  return waysOf(logbook, exposure.back.values(), true);
};
const held = (log: string, asked?: Asked): string[] => {
  const { logbook, exposure } = traced(log, asked);
  return exposedTanks(logbook.book, exposure)
    .filter((each) => isHeld(each, exposure))
    .map(({ tank }) => tank.name);
};

describe("forward from a case", () => {
  test("follows moves of moves, in the order of the log", () => {
    const log = `2026-03-10
  a move praecox 2 -> b
2026-03-12
  b move praecox 1 -> c
2026-03-11
  c move praecox 1 -> d
${sickInA}`;
    // What went from c to d left c before anything came into it.
    expect(forward(log)).toEqual(["a 2026-02-18: a", "b 2026-03-10: a > b", "c 2026-03-12: a > b > c"]);
  });

  test("an arrow from A to B exposes B and not A", () => {
    expect(forward(`2026-03-10\n  b move praecox 2 -> a\n${sickInA}`)).toEqual(["a 2026-02-18: a"]);
  });

  test("the order of lines within a minute counts", () => {
    const inOrder = "2026-03-10\n  a move praecox 2 -> b\n  b move praecox 1 -> c\n";
    const turned = "2026-03-10\n  b move praecox 1 -> c\n  a move praecox 2 -> b\n";
    expect(forward(inOrder + sickInA)).toContain("c 2026-03-10: a > b > c");
    expect(forward(turned + sickInA)).toEqual(["a 2026-02-18: a", "b 2026-03-10: a > b"]);
  });

  test("the time of day counts before the order of lines", () => {
    const log = "2026-03-10\n  18:00 b move praecox 1 -> c\n  09:00 a move praecox 2 -> b\n";
    expect(forward(log + sickInA)).toContain("c 2026-03-10: a > b > c");
  });

  test("goes to each tank of a group, and from each", () => {
    const log = `2026-03-10
  @low change 30 % from a
2026-03-11
  @low move praecox 1 -> d
${sickInA}`;
    expect(forward(log)).toEqual([
      "a 2026-02-18: a",
      "b 2026-03-10: a > b",
      "c 2026-03-10: a > c",
      "d 2026-03-11: a > b > d",
    ]);
  });

  test("reaches all tanks of one sump through any of them", () => {
    const log = `2026-03-10
  a move praecox 2 -> r1
2026-03-11
  r2 move praecox 1 -> b
${sickInA}`;
    expect(forward(log)).toEqual([
      "a 2026-02-18: a",
      "rack-water 2026-03-10: a > rack-water",
      "b 2026-03-11: a > rack-water > b",
    ]);
    expect(held(log)).toEqual(["a", "r1", "r2", "b"]);
  });

  test("a tool takes and gives until it is disinfected", () => {
    const log = (between: string) => `2026-03-10
  a clean gravel with siphon
${between}  b clean gravel with siphon
  c clean gravel with hose
${sickInA}`;
    expect(forward(log(""))).toEqual([
      "a 2026-02-18: a",
      "siphon 2026-03-10: a > siphon",
      "b 2026-03-10: a > siphon > b",
    ]);
    expect(forward(log('  room disinfect siphon with "chlorine, 30 min"\n'))).toEqual([
      "a 2026-02-18: a",
      "siphon 2026-03-10: a > siphon",
    ]);
    expect(forward(log("  room disinfect hose\n"))).toHaveLength(3);
  });

  test("the tool of a move was in both tanks, that of its source first", () => {
    const log = `2026-03-10
  a move praecox 2 -> b with net
  c clean with net
${sickInA}`;
    expect(forward(log)).toContain("c 2026-03-10: a > net > c");
    const backwards = "2026-03-10\n  b move praecox 2 -> a with net\n  c clean with net\n";
    // The net was in b before it was in a, and in c after.
    expect(forward(backwards + sickInA)).toEqual([
      "a 2026-02-18: a",
      "net 2026-03-10: a > net",
      "c 2026-03-10: a > net > c",
    ]);
  });

  test("plants, wood and water that went over are contacts, and what came from outside is none of a tank", () => {
    const log = `2026-03-10
  b plant fern 2 from a
  a carry wood, sponge -> c
  d change 10 L from a
  r1 plant moss from "a friend"
${sickInA}`;
    expect(forward(log)).toEqual([
      "a 2026-02-18: a",
      "b 2026-03-10: a > b",
      "c 2026-03-10: a > c",
      "d 2026-03-10: a > d",
    ]);
  });

  test("a tool that is carried over is exposed too", () => {
    const log = "2026-03-10\n  a carry net -> b\n2026-03-11\n  c clean with net\n";
    expect(forward(log + sickInA)).toContain("c 2026-03-11: a > net > c");
  });

  test("animals that came back bring it back", () => {
    const log = `2026-03-10
  a sell praecox 2 to "a neighbour"
2026-03-15
  c arrive praecox 1 from "a neighbour"
  d arrive praecox 1 from "river nursery"
${sickInA}`;
    expect(forward(log)).toEqual([
      "a 2026-02-18: a",
      "a neighbour 2026-03-10: a > a neighbour",
      "from a neighbour 2026-03-15: a > a neighbour > from a neighbour",
      "c 2026-03-15: a > a neighbour > from a neighbour > c",
    ]);
  });

  test("what names no defined tank, or goes to where it is, does not count", () => {
    const log =
      "2026-03-10\n  a move praecox 2 -> nowhere with net\n  a move praecox 2 -> a\n  b clean with net\n";
    expect(forward(log + sickInA)).toEqual(["a 2026-02-18: a"]);
  });

  test("takes the way of the fewest links of those that came first", () => {
    const log = `2026-03-10
  a move praecox 2 -> b
  b move praecox 1 -> c
  a move praecox 2 -> c
${sickInA}`;
    expect(forward(log)).toContain("c 2026-03-10: a > c");
  });

  test("begins the days of the window before the first sign, on that day", () => {
    const moved = (day: string) => `${day}\n  a move praecox 2 -> b\n${sickInA}`;
    expect(forward(moved("2026-02-17"))).toHaveLength(1);
    expect(forward(moved("2026-02-18"))).toHaveLength(2);
    expect(forward(moved("2026-03-09"), { days: 10 })).toHaveLength(1);
    expect(forward(moved("2026-03-10"), { days: 10 })).toHaveLength(2);
  });

  test("ends on the day it is asked for", () => {
    const log = `${sickInA}2026-03-25\n  a move praecox 1 -> b\n`;
    expect(forward(log, { until: "2026-03-24" })).toHaveLength(1);
    expect(forward(log)).toHaveLength(2);
  });

  test("goes on for thirty days where the room states nothing", () => {
    const { logbook } = logbookOf(room.replace("  trace 30 d\n", "") + sickInA);
    const { first } = signsOf(casesUntil(logbook, dayOf("2026-03-20"))[0]!);
    const found = exposureOf(logbook, first, [], { days: Number.NaN, until: dayOf("2026-03-20") });
    expect([found.windowDays, found.isStated, isoOf(found.from)]).toEqual([30, false, "2026-02-18"]);
  });
});

describe("what is emptied or disinfected", () => {
  const moved = "2026-03-10\n  a move praecox 2 -> b\n";
  const on = "2026-03-16\n  b move praecox 1 -> c\n";

  test("passes nothing on once it was emptied without animals and filled anew", () => {
    const log = `${moved}2026-03-15\n  b lose praecox 2 culled\n  b change 100 %\n${on}${sickInA}`;
    expect(forward(log)).toEqual(["a 2026-02-18: a", "b 2026-03-10: a > b"]);
    expect(held(log)).toEqual(["a"]);
  });

  test("all of it in litres is all of it", () => {
    const log = (litres: string) =>
      `${moved}2026-03-15\n  b lose praecox 2 culled\n  b change ${litres}\n${on}${sickInA}`;
    expect(forward(log("60 L"))).toHaveLength(2);
    expect(forward(log("59 L"))).toHaveLength(3);
    expect(forward(log("60 L flow"))).toHaveLength(3);
  });

  test("goes on with animals in it, whatever of the water is changed", () => {
    expect(forward(`${moved}2026-03-15\n  b change 100 %\n${on}${sickInA}`)).toHaveLength(3);
    // They were taken out only after.
    const after = `${moved}2026-03-15\n  b change 100 %\n  b lose praecox 2 culled\n${on}${sickInA}`;
    expect(forward(after)).toHaveLength(3);
  });

  test("goes on where the book knows nothing and some were sick", () => {
    const log =
      "2026-03-19\n  a sick praecox 1 case w-1\n  a change 100 %\n2026-03-20\n  a move praecox 1 -> b\n";
    expect(forward(log)).toContain("b 2026-03-20: a > b");
  });

  test("what was planted in it is there still", () => {
    const log = `2026-03-10\n  b plant fern 1 from a\n2026-03-15\n  b change 100 %\n${on}${sickInA}`;
    expect(forward(log)).toContain("c 2026-03-16: a > b > c");
    expect(held(log)).toEqual(["a", "b", "c"]);
  });

  test("one tank of shared water cannot be emptied or disinfected alone", () => {
    const log = (line: string) =>
      `2026-03-10\n  a change 10 % barrel x\n  r1 change 10 L from a\n2026-03-15\n  ${line}\n2026-03-16\n  r1 move praecox 1 -> c\n${sickInA}`;
    expect(forward(log("r1 change 100 %"))).toHaveLength(3);
    expect(forward(log("r1 disinfect"))).toHaveLength(3);
    expect(forward(log("rack-water disinfect"))).toHaveLength(2);
  });

  test("a disinfected tank passes nothing on of what it had", () => {
    const log = (first: string) =>
      `${moved}2026-03-15\n${first}  b disinfect with "chlorine"\n${on}${sickInA}`;
    expect(forward(log("  b lose praecox 2 culled\n"))).toHaveLength(2);
    // By the book they are in it.
    expect(forward(log(""))).toHaveLength(3);
  });

  test("sick animals are not disinfected with their tank", () => {
    const log = `${sickInA}2026-03-21\n  a disinfect with "chlorine"\n`;
    expect(held(log)).toEqual(["a"]);
    expect(held(`${sickInA}2026-03-21\n  a count praecox 0\n  a disinfect with "chlorine"\n`)).toEqual([]);
  });

  test("a siphon that drained it is exposed, and does not bring it back into the new water", () => {
    const log = `${moved}2026-03-15
  b lose praecox 2 culled
  b change 100 % with siphon
  d clean with siphon
${on}${sickInA}`;
    expect(forward(log)).toEqual([
      "a 2026-02-18: a",
      "b 2026-03-10: a > b",
      "siphon 2026-03-15: a > b > siphon",
      "d 2026-03-15: a > b > siphon > d",
    ]);
  });

  test("what was before it in the sick tank itself is not followed", () => {
    const log = `2026-03-10\n  a move praecox 2 -> b\n2026-03-12\n  a count praecox 0\n  a disinfect\n2026-03-13\n  a move praecox 2 -> c\n${sickInA}`;
    expect(forward(log)).toEqual(["a 2026-03-12: a", "c 2026-03-13: a > c"]);
  });

  test("signs after it begin anew", () => {
    const log = `${sickInA}2026-03-22\n  a count praecox 0\n  a disinfect\n2026-03-23\n  a move praecox 1 -> b\n2026-03-24\n  a sick praecox 1 case w-1\n2026-03-25\n  a move praecox 1 -> c\n`;
    expect(forward(log)).toEqual(["a 2026-02-18: a", "c 2026-03-25: a > c"]);
  });
});

describe("backward from a case", () => {
  test("finds what could have passed it on by the first sign, and no later than that", () => {
    const log = `2026-03-10
  c move praecox 1 -> b
2026-03-12
  b move praecox 1 -> a
2026-03-14
  c move praecox 1 -> b
2026-03-20
  a sick praecox 2 case w-1
  d move praecox 1 -> a
`;
    expect(back(log)).toEqual(["b 2026-03-12: b > a", "c 2026-03-10: c > b > a"]);
  });

  test("looks the days of the window back", () => {
    const log = (day: string) => `${day}\n  b move praecox 1 -> a\n${sickInA}`;
    expect(back(log("2026-02-17"))).toEqual([]);
    expect(back(log("2026-02-18"))).toEqual(["b 2026-02-18: b > a"]);
  });

  test("finds consignments, barrels and tools, and what else they reached", () => {
    const log = `2026-03-10
  a arrive praecox 4 from "river nursery"
  b arrive praecox 4 from "river nursery"
  c arrive praecox 4 from "hill farm"
2026-03-12
  a change 20 % barrel b-12
  d change 20 % barrel b-12
2026-03-13
  c clean with net
  a clean with net
${sickInA}`;
    const { logbook, exposure } = traced(log);
    expect(waysOf(logbook, exposure.back.values(), true)).toEqual([
      "net 2026-03-13: net > a",
      "c 2026-03-13: c > net > a",
      "b-12 2026-03-12: b-12 > a",
      "from hill farm 2026-03-10: from hill farm > c > net > a",
      "hill farm 2026-03-10: hill farm > from hill farm > c > net > a",
      "from river nursery 2026-03-10: from river nursery > a",
      "river nursery 2026-03-10: river nursery > from river nursery > a",
    ]);
    const beside = exposure.beside.map(({ source, reached }) => [
      nameAt(logbook, source),
      ...[...reached.keys()].map((node) => nameAt(logbook, node)),
    ]);
    expect(beside).toEqual([
      ["b-12", "d"],
      ["from river nursery", "b"],
    ]);
  });

  test("a lot is one consignment, whenever it came, and from where its definition says", () => {
    const log = `lot a17
  species praecox; from "river nursery"
2026-03-10
  b arrive praecox 4 lot a17
2026-03-12
  a arrive praecox 4 lot a17
${sickInA}`;
    expect(back(log)).toEqual([
      "lot a17 2026-03-12: lot a17 > a",
      "river nursery 2026-03-12: river nursery > lot a17 > a",
    ]);
    expect(traced(log).exposure.beside).toHaveLength(1);
  });

  test("does not go through a disinfection", () => {
    const log = `2026-03-10\n  b move praecox 1 -> a\n2026-03-11\n  a lose praecox 1 culled\n  a disinfect\n${sickInA}`;
    expect(back(log)).toEqual([]);
  });

  test("of two tanks with signs each is looked at from its own first sign", () => {
    const log = `2026-03-10
  a sick praecox 1 case w-1
2026-03-12
  a move praecox 1 -> b
2026-03-14
  c move praecox 1 -> a
2026-03-16
  b sick praecox 1 case w-1
  a sick praecox 0 of 9 case w-1
`;
    // What came into a after its first sign reached neither.
    expect(back(log)).toEqual(["a 2026-03-12: a > b"]);
  });
});

describe("from a result of a laboratory", () => {
  const log = `2026-03-05
  b move praecox 1 -> a
2026-03-08
  b move praecox 1 -> c
2026-03-10
  b sample gill 2 case w-1
2026-03-12
  d move praecox 1 -> b
2026-03-20
  a sick praecox 1 case w-1
  room result w-1 positive
`;

  test("a finding is true of the day and the place of its sample", () => {
    expect(forward(log, { by: "result" })).toEqual([
      "b 2026-02-08: b",
      "a 2026-03-05: b > a",
      "c 2026-03-08: b > c",
    ]);
    expect(back(log, { by: "result" })).toEqual([]);
    expect(back(log.replace("2026-03-12", "2026-03-09"), { by: "result" })).toEqual(["d 2026-03-09: d > b"]);
  });

  test("without a sample it is of the place of the result, and a negative one tells nothing", () => {
    const alone = log
      .replace("  b sample gill 2 case w-1\n", "  b note x\n")
      .replace("room result", "a result");
    const known = (text: string) => casesUntil(logbookOf(room + text).logbook, dayOf("2026-04-01"))[0]!;
    expect(resultOf(known(alone)).map(({ station, how }) => [station.name, how])).toEqual([["a", "result"]]);
    expect(resultOf(known(log.replace("positive", "negative")))).toEqual([]);
  });
});

describe("tanks that are held", () => {
  test("are so while a case is open, for the days of the window after they were reached", () => {
    const log = `2026-03-10\n  a move praecox 1 -> b\n${sickInA}`;
    expect(held(log, { until: "2026-04-09" })).toEqual(["a", "b"]);
    expect(held(log, { until: "2026-04-10" })).toEqual(["a"]);
  });

  test("are told by their closest way", () => {
    const log = `2026-03-10
  a clean with net
  b clean with net
2026-03-12
  a move praecox 1 -> b
${sickInA}`;
    const { logbook, exposure } = traced(log);
    const b = exposedTanks(logbook.book, exposure).find(({ tank }) => tank.name === "b")!;
    expect([isoOf(Math.floor(b.since)), b.first.rank, b.closest.rank, b.closest.hops.length]).toEqual([
      "2026-03-10",
      3,
      0,
      1,
    ]);
  });

  test("by animals, where on the same day fewer links lead there by a tool", () => {
    const log = `2026-03-10
  a move praecox 1 -> b
  b move praecox 1 -> c
  c move praecox 1 -> d
  a clean with net
  d clean with net
${sickInA}`;
    const { logbook, exposure } = traced(log);
    const d = exposedTanks(logbook.book, exposure).find(({ tank }) => tank.name === "d")!;
    expect([d.closest.rank, d.closest.hops.length]).toEqual([0, 3]);
  });

  test("a tank of shared water is reached by the water, unless something went into it itself", () => {
    const log = `2026-03-10\n  a move praecox 2 -> r1\n${sickInA}`;
    const { logbook, exposure } = traced(log);
    const told = exposedTanks(logbook.book, exposure).map(({ tank, closest }) => [
      tank.name,
      closest.rank,
      closest.hops.map(({ is }) => is).join(" "),
    ]);
    expect(told).toEqual([
      ["a", -1, ""],
      ["r1", 0, "contact"],
      ["r2", 1, "contact shared"],
    ]);
  });
});

describe("a case without a name", () => {
  test("is taken to be open for two weeks after its signs", () => {
    const { logbook } = logbookOf(`${room}2026-03-20\n  a sick praecox 1\n`);
    const [loose] = casesUntil(logbook, dayOf("2026-04-30"));
    expect([isOpenOn(loose!, dayOf("2026-04-02")), isOpenOn(loose!, dayOf("2026-04-03"))]).toEqual([
      true,
      false,
    ]);
  });
});
