import { describe, expect, test } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { freeOf, promised } from "../../language/room/orders.ts";
import { releaseOn } from "../../language/room/release.ts";
import { Room } from "../support/room.ts";

const room = `room "Cellar"
  quarantine 28 d
  fasting 24..48 h
species praecox
species horn
  kind snail
remedy prazi
  target 2 mg/L
  half-life 1 d
  withdrawal 7 d
remedy salt
  target 1000 mg/L
system rack
  sump 10 L
tank dam
  volume 100 L
tank q1
  volume 50 L
  role quarantine
tank r1
  volume 20 L; system rack
tank r2
  volume 20 L; system rack
`;

/** What speaks against each holding on a day: `dam praecox 14: quarantine until 2026-03-29, fasting until 2026-03-02`. */
function told(log: string, today?: string): string[] {
  const { checked, today: day } = new Room(room + log, today);
  return releaseOn(checked.logbook, day).map(({ tank, species, animals, reasons, from }) => {
    const all = reasons.map(({ is, until, name }) =>
      [is, name, Number.isFinite(until) ? `until ${isoOf(until)}` : "for who knows how long"]
        .filter(Boolean)
        .join(" "),
    );
    const when = Number.isFinite(from) ? isoOf(from) : "?";
    return `${tank.name} ${species} ${animals}: ${all.join(", ") || "nothing"}; from ${when}`;
  });
}

describe("what speaks against letting animals go", () => {
  test("nothing, where nothing is known against it", () => {
    expect(told("2026-03-01\n  dam count praecox 14")).toEqual(["dam praecox 14: nothing; from 2026-03-01"]);
  });

  test("quarantine, from the last animal that came in", () => {
    const log = `2026-03-01
  q1 arrive praecox 8
2026-03-10
  r1 count praecox 3
  r1 move praecox 1 -> q1
`;
    expect(told(log)).toEqual([
      "q1 praecox 9: quarantine until 2026-04-07; from 2026-04-07",
      "r1 praecox 2: nothing; from 2026-03-10",
    ]);
    expect(told(log, "2026-04-07")[0]).toBe("q1 praecox 9: nothing; from 2026-04-07");
  });

  test("animals from outside in any other tank, for as long", () => {
    const log = `2026-03-01
  dam count praecox 8
  dam arrive horn 5 from "a neighbour"
`;
    expect(told(log)).toEqual([
      "dam praecox 8: arrival until 2026-03-29; from 2026-03-29",
      "dam horn 5: arrival until 2026-03-29; from 2026-03-29",
    ]);
  });

  test("a remedy in the water until it is next to none, then its withdrawal", () => {
    const log = `2026-03-01
  dam count praecox 8
  dam dose prazi 200 mg
`;
    // 2 mg/L halve each day; a hundredth of the target is passed after 6.6 days.
    expect(told(log)).toEqual(["dam praecox 8: remedy prazi until 2026-03-08; from 2026-03-08"]);
    expect(told(`${log}  dam change 100 %\n`)).toEqual([
      "dam praecox 8: withdrawal prazi until 2026-03-08; from 2026-03-08",
    ]);
    expect(told(log, "2026-03-08")).toEqual(["dam praecox 8: nothing; from 2026-03-08"]);
  });

  test("a remedy without a half-life, until water is changed", () => {
    const log = `2026-03-01
  dam count praecox 8
  dam dose salt 100 g
2026-03-09
  dam change 50 %
`;
    expect(told(log)).toEqual(["dam praecox 8: remedy salt for who knows how long; from ?"]);
  });

  test("an open case in the tank, or in its water, until it is closed", () => {
    const log = `2026-03-01
  r1 count praecox 8
  r2 count horn 5
  dam count horn 5
  r1 sick praecox 2 of 8 case flukes-1
`;
    expect(told(log)).toEqual([
      "dam horn 5: nothing; from 2026-03-01",
      "r1 praecox 8: case flukes-1 for who knows how long; from ?",
      "r2 horn 5: case flukes-1 for who knows how long; from ?",
    ]);
    expect(told(`${log}2026-03-05\n  room close flukes-1 recovered`)[1]).toBe(
      "r1 praecox 8: nothing; from 2026-03-05",
    );
  });

  test("a count that was short, until one agrees", () => {
    const log = `2026-03-01
  dam count praecox 14, horn 5
2026-03-03
  dam count praecox 12
`;
    expect(told(log)[0]).toBe("dam praecox 12: count praecox for who knows how long; from ?");
    expect(told(log)[1]).toBe("dam horn 5: nothing; from 2026-03-03");
    expect(told(`${log}2026-03-04\n  dam count praecox 12`)[0]).toBe(
      "dam praecox 12: nothing; from 2026-03-04",
    );
    expect(told(log.replace("14, horn", "~14, horn"))[0]).toBe("dam praecox 12: nothing; from 2026-03-03");
  });

  test("food, live food too, until the animals have fasted", () => {
    const log = `2026-03-01
  dam count praecox 14
2026-03-02
  20:00 dam feed nauplii 10 mL
`;
    expect(told(log)).toEqual(["dam praecox 14: fasting until 2026-03-03; from 2026-03-03"]);
    // Fasted by the evening: they may leave on that day, and not in its morning.
    expect(told(log, "2026-03-03")).toEqual(["dam praecox 14: fasting until 2026-03-03; from 2026-03-03"]);
    expect(told(log, "2026-03-04")).toEqual(["dam praecox 14: nothing; from 2026-03-04"]);
    expect(told(log.replace("nauplii 10 mL", "none"))).toEqual(["dam praecox 14: nothing; from 2026-03-02"]);
  });

  test("a tank that is out of service", () => {
    const log = `tank old
  volume 20 L; until 2026-03-01
2026-03-01
  old count praecox 3
`;
    expect(told(log, "2026-03-02")).toEqual(["old praecox 3: service for who knows how long; from ?"]);
  });

  test("is told as of a day: what is written for later does not count", () => {
    const log = `2026-03-01
  dam count praecox 14
2026-03-10
  dam arrive praecox 5
  dam feed flake
  dam sick praecox 1 case spot
`;
    expect(told(log, "2026-03-05")).toEqual(["dam praecox 14: nothing; from 2026-03-05"]);
  });

  test("every reason names the entries it follows from", () => {
    const { checked, today } = new Room(`${room}2026-03-01
  q1 arrive praecox 8
  q1 dose prazi 100 mg
  q1 sick praecox 1 case spot
2026-03-02
  q1 feed flake
  q1 count praecox 7
`);
    const [release] = releaseOn(checked.logbook, today);
    const all = release!.reasons.map(({ is, why }) => [
      is,
      JSON.stringify(why().from.map(({ what }) => what)),
    ]);
    expect(Object.fromEntries(all)).toEqual({
      quarantine: expect.stringContaining("2026-03-01 q1 arrive praecox 8"),
      remedy: expect.stringContaining("2026-03-01 q1 dose prazi 100 mg"),
      case: expect.stringContaining("2026-03-01 q1 sick praecox 1 case spot"),
      count: expect.stringContaining("2026-03-02 q1 count praecox 7"),
      fasting: expect.stringContaining("q1 feed flake"),
    });
  });
});

describe("what is free", () => {
  const log = `order o-1
  wants praecox 6; due 2026-03-10
order o-2
  wants praecox 4; due 2026-03-20
order o-9
  wants praecox 100; placed 2026-05-01
2026-03-01
  dam count praecox 10
  r1 count praecox 3
  q1 arrive praecox 8
`;
  test("is what is ready, less what is promised to others that no other tank has", () => {
    const { checked } = new Room(room + log);
    const { logbook } = checked;
    const day = dayOf("2026-03-01");
    const releases = releaseOn(logbook, day);
    const free = (except: string): number[] => {
      const sum = promised(logbook, "praecox", day, except).reduce((all, { animals }) => all + animals, 0);
      return releases.map((release) => freeOf(release, releases, sum));
    };
    // Ready are 10 in dam and 3 in r1; 10 are promised.
    expect(free("")).toEqual([3, 0, 3]);
    expect(free("o-1")).toEqual([9, 0, 3]);
    expect(free("o-2")).toEqual([7, 0, 3]);
  });
});
