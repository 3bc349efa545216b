import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isoOf } from "../../language/book/dates.ts";
import { Room } from "../support/room.ts";

/** What is due: one mechanism for changing, cleaning, testing, feeding and service. */

const tank = (duties: string): string =>
  `tank dam\n  volume 100 L\n  ${duties}\nfood cyclops\n  kind frozen\nfood flake\n  kind dry\n`;
/** Days late; minus for days to go; `-` where nothing is owed. */
const late = (room: Room, act: string, on?: string, station = "dam"): number | "-" => {
  const due = room.duty(station, act, on);
  return Number.isFinite(due.late) ? due.late : "-";
};

describe("every so many days", () => {
  const log = `${tank("every 7 d change 25..35 %")}2026-03-01\n  21:30 dam change 30 %\n2026-03-20\n  dam note "x"`;

  it("is due so many days after it was last done, whatever the hour; due today is not late", () => {
    const room = new Room(log);
    expect(late(room, "change", "2026-03-01")).toBe(-7);
    expect(late(room, "change", "2026-03-07")).toBe(-1);
    expect(late(room, "change", "2026-03-08")).toBe(0);
    expect(late(room, "change", "2026-03-09")).toBe(1);
  });

  it("says nothing on the day, informs a little later, warns when it is late by a quarter of its interval", () => {
    const severities = (day: string): string[] =>
      new Room(log).checked
        .findings(new Room(log, day).today)
        .map(({ code, severity }) => `${code} ${severity}`);
    expect(severities("2026-03-08")).toEqual([]);
    expect(severities("2026-03-09")).toEqual(["duty/overdue information"]);
    expect(severities("2026-03-10")).toEqual(["duty/overdue warning"]);
  });

  it("counts from the first day in service, or the first entry, until it was done", () => {
    const stated = tank("every 7 d change 30 %\n  from 2026-03-01");
    expect(late(new Room(`${stated}2026-03-05\n  dam note "x"`), "change", "2026-03-09")).toBe(1);
    const seen = tank("every 7 d change 30 %");
    expect(late(new Room(`${seen}2026-03-05\n  dam note "x"`), "change", "2026-03-12")).toBe(0);
    expect(late(new Room(`${seen}2026-03-05\n  room note "x"`), "change", "2026-06-01")).toBe("-");
  });

  it("is not owed before the tank is in service or after", () => {
    const stated = tank("every 7 d change 30 %\n  from 2026-03-01\n  until 2026-03-31");
    const room = new Room(`${stated}2026-03-05\n  dam note "x"`);
    expect(late(room, "change", "2026-02-20")).toBe("-");
    expect(late(room, "change", "2026-03-31")).toBe(23);
    expect(late(room, "change", "2026-04-01")).toBe("-");
  });

  it.each([
    ["change 30 %", 0],
    ["change 50 %", 0],
    ["change 25 L", 0],
    ["change 20..30 %", 0],
    ["change 20 %", 3],
    ["change 24 L", 3],
    ["top-up 30 L", 3],
  ])("is done by as much or more, not by less: %s", (entry, days) => {
    const log = `${tank("every 7 d change 25..35 %")}2026-02-26\n  dam change 30 %\n2026-03-01\n  dam ${entry}`;
    expect(late(new Room(log), "change", "2026-03-08")).toBe(days);
  });

  it("may be stated in litres, and in gallons as the room declares them", () => {
    const gallons = `room "Shed"\n  units gallon US\n${tank("every 7 d change 10 gal")}`;
    const of = (entry: string) =>
      new Room(`${gallons}2026-02-26\n  dam change 90 %\n2026-03-01\n  dam ${entry}`);
    expect(of("change 40 %").duty("dam", "change").duty.least).toBeCloseTo(37.85411784, 9);
    expect(late(of("change 40 %"), "change", "2026-03-08")).toBe(0);
    expect(late(of("change 35 %"), "change", "2026-03-08")).toBe(3);
    expect(new Room(tank("every 7 d change 10 gal")).findings("unit/ambiguous")).toHaveLength(1);
  });

  it("is stated in whole days", () => {
    expect(new Room(tank("every 2 w clean")).duty("dam", "clean").duty.form.periodDays).toBe(14);
    expect(new Room(tank("every 48 h clean")).duty("dam", "clean").duty.form.periodDays).toBe(2);
    expect(new Room(tank("every 36 h clean")).findings("duty/form")).toHaveLength(1);
  });
});

describe("the thing a duty names", () => {
  it("is a test each, where it names several", () => {
    const room = new Room(
      `${tank("every 7 d test nitrate, KH")}2026-03-01\n  dam test nitrate 5, KH 4\n2026-03-06\n  dam test KH 4`,
    );
    expect(late(room, "test nitrate", "2026-03-09")).toBe(1);
    expect(late(room, "test KH", "2026-03-09")).toBe(-4);
  });

  it("is a cell of a sheet, too", () => {
    const room = new Room(
      `${tank("every 7 d test nitrate, KH")}2026-03-01\n  sheet nitrate KH\n    dam 5 -\n2026-03-08\n  dam note "x"`,
    );
    expect(late(room, "test nitrate")).toBe(0);
    expect(late(room, "test KH")).toBe(0);
    expect(room.ledger("dam").duties.done(room.duty("dam", "test KH").duty).length).toBe(0);
  });

  it("may be a food or its kind", () => {
    const log = `${tank("every 3 d feed frozen\n  every 3 d feed flake")}2026-03-01\n  dam feed cyclops\n2026-03-04\n  dam feed flake`;
    const room = new Room(log);
    expect(late(room, "feed frozen")).toBe(0);
    expect(late(room, "feed flake")).toBe(-3);
  });

  it("may be a part of the tank; a clean that names none, or all, is of each", () => {
    const done = (entry: string): number =>
      new Room(
        `${tank("every 7 d clean gravel")}2026-02-20\n  dam clean gravel\n2026-03-01\n  dam ${entry}`,
      ).duty("dam", "clean").late;
    for (const entry of ["clean gravel", "clean", "clean all", "clean glass, gravel"])
      expect(done(entry), entry).toBe(-7);
    expect(done("clean glass")).toBe(2);
  });

  it("may be a gear, by its name or its kind, told at the tank or at the gear", () => {
    const gear = `${tank("every 28 d service canister\n  every 28 d service filter")}gear canister\n  kind filter\n  on dam\n  every 14 d service\n`;
    for (const entry of ["dam service canister", "canister service rinsed", "canister service canister"]) {
      const room = new Room(`${gear}2026-03-01\n  ${entry}`);
      expect([late(room, "service canister"), late(room, "service filter")], entry).toEqual([-28, -28]);
      expect(late(room, "service", undefined, "canister"), entry).toBe(-14);
      expect(room.ledger("canister").duties.done(room.duty("canister", "service").duty).length, entry).toBe(
        1,
      );
    }
  });

  it("of a gear counts from its first day in use", () => {
    const gear = `${tank("role show")}gear canister\n  on dam\n  from 2026-03-01\n  every 14 d service\n2026-03-02\n  dam note "x"`;
    expect(late(new Room(gear), "service", "2026-03-16", "canister")).toBe(1);
  });
});

describe("at least so many times", () => {
  const fed = (...days: number[]): string =>
    tank("at least 3 per 7 d feed frozen\n  from 2026-02-01") +
    days.map((day) => `2026-03-${String(day).padStart(2, "0")}\n  dam feed cyclops\n`).join("");

  it("is owed on the day on which there are too few in the days up to it", () => {
    const room = new Room(fed(1, 3, 5));
    expect(room.duty("dam", "feed", "2026-03-07")).toMatchObject({ times: 3, late: -1 });
    // On the eighth the first is seven days ago: one more is due that day, and missing from the next.
    expect(room.duty("dam", "feed", "2026-03-08")).toMatchObject({ times: 2, late: 0 });
    expect(room.duty("dam", "feed", "2026-03-09")).toMatchObject({ times: 2, late: 1 });
    expect(new Room(fed(1, 3, 5), "2026-03-08").findings("duty/short")).toEqual([]);
    expect(new Room(fed(1, 3, 5), "2026-03-09").findings("duty/short")).toEqual([
      "duty/short: dam: feed frozen 2 of 3 times in the last 7 days",
    ]);
  });

  it("counts each entry, also two of one day, and one entry once", () => {
    const log = `${fed()}2026-03-01\n  dam feed cyclops\n  dam feed cyclops 1 cube, cyclops 2 cubes\n`;
    expect(new Room(log).duty("dam", "feed").times).toBe(2);
  });

  it("has the same verdict as counting the days by hand", () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 1, max: 31 }), { maxLength: 12 }),
        fc.integer({ min: 8, max: 31 }),
        (days, on) => {
          const room = new Room(fed(...days), `2026-03-${String(on).padStart(2, "0")}`);
          const inPeriod = (last: number): number =>
            days.filter((day) => day <= last && day > last - 7).length;
          // The first day of the days without a break on which there were too few, long before the month if there never were enough.
          let since = on + 1;
          while (since > -7 && inPeriod(since - 1) < 3) since--;
          const { times, late: lateDays } = room.duty("dam", "feed");
          expect(times).toBe(inPeriod(on));
          expect(Math.max(0, lateDays)).toBe(since > -7 ? Math.max(0, on - since) : lateDays);
        },
      ),
    );
  });
});

describe("at most so many times", () => {
  const fed = (...days: string[]): string[] =>
    new Room(
      tank("at most 2 per 7 d feed dry") +
        days.map((day) => `${day.slice(0, 10)}\n  ${day.slice(11)} dam feed flake\n`).join(""),
    ).findings("duty/too-often");

  it("is found at the entry that is one too many in any so many days", () => {
    expect(fed("2026-03-01", "2026-03-04", "2026-03-07")).toEqual([
      "duty/too-often: feed dry in dam: 3 times in 7 days, at most 2 stated in tank dam",
    ]);
  });

  it("counts days, not hours: what is seven days ago no longer counts, whatever the hour", () => {
    expect(fed("2026-03-01 20:00", "2026-03-04 08:00", "2026-03-08 07:00")).toEqual([]);
    expect(fed("2026-03-01 07:00", "2026-03-04 08:00", "2026-03-07 23:00")).toHaveLength(1);
  });

  it("is never owed", () => {
    const room = new Room(`${tank("at most 2 per 7 d feed dry")}2026-03-01\n  dam feed flake`);
    expect(room.duty("dam", "feed", "2026-05-01")).toMatchObject({
      late: Number.NEGATIVE_INFINITY,
      times: 0,
    });
  });
});

describe("who a duty is for", () => {
  const base = `room "Cellar"
  every 30 d test KH
  every 90 d service air
system rack-water
  sump 90 L
  every 3 d change 30 %
tank r1
  volume 24 L
  system rack-water
tank r2
  volume 24 L
  system rack-water
  every 14 d test KH
tank dam
  volume 300 L
group all = r1, r2, dam
  every 7 d clean
group low = r1, dam
  every 5 d clean
`;
  const duties = (log: string): string[] => {
    const { book } = new Room(log).checked;
    return book.duties.map(({ station, form, act }) => `${station.name} ${form.periodDays} ${act}`).sort();
  };

  it("is each tank, of what the room or a group states; the narrower takes the place of the wider, of two groups the later", () => {
    expect(duties(base)).toEqual([
      "dam 30 test KH",
      "dam 5 clean",
      "r1 30 test KH",
      "r1 5 clean",
      "r2 14 test KH",
      "r2 7 clean",
      "rack-water 3 change 30 %",
      "room 90 service air",
    ]);
  });

  it("keeps several of one act that are stated together", () => {
    const several = "tank dam\n  volume 100 L\n  every 7 d change 25 %\n  every 28 d change 50 %\n";
    expect(duties(`room "C"\n  every 3 d change 10 %\n${several}`)).toEqual([
      "dam 28 change 50 %",
      "dam 7 change 25 %",
    ]);
  });

  it("in shared water a test of one tank is a test for all, and a change of the system a change of each", () => {
    const tested = new Room(`${base}2026-03-01\n  r1 test KH 5\n  dam note "x"`);
    expect(late(tested, "test", undefined, "r2")).toBe(-14);
    expect(late(tested, "test", undefined, "dam")).toBe(-30);
    const own = base.replace("every 14 d test KH", "every 4 d change 25 %");
    const changed = (entry: string): number | "-" =>
      late(new Room(`${own}2026-02-27\n  r2 change 50 %\n2026-03-01\n  ${entry}`), "change", undefined, "r2");
    expect(changed("rack-water change 30 %")).toBe(-4);
    expect(changed("rack-water change 20 %")).toBe(-2);
    expect(changed("r1 change 90 %")).toBe(-2);
    expect(changed("@all change 30 %")).toBe(-4);
  });

  it("about animals is each tank's, also where a system states it", () => {
    const log = base.replace("every 3 d change 30 %", "every 7 d count cherry");
    expect(duties(`${log}species cherry\n`).filter((each) => each.includes("count"))).toEqual([
      "r1 7 count cherry",
      "r2 7 count cherry",
    ]);
  });
});

describe("any duty at all", () => {
  it("that is done on the day is not late on it", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 20_500, max: 20_600 }),
        (period, day) => {
          const log = `${tank(`every ${period} d clean\n  at least 1 per ${period} d feed`)}${isoOf(day - 100)}\n  dam note "x"\n${isoOf(day)}\n  dam clean\n  dam feed cyclops`;
          const room = new Room(log);
          expect(room.duty("dam", "clean").late).toBe(-period);
          expect(room.duty("dam", "feed").late).toBe(-period);
        },
      ),
      { numRuns: 30 },
    );
  });
});
