import { describe, expect, it, test } from "vitest";
import { dutiesAt } from "../../language/features/duty-entries.ts";
import { atCursor } from "../support/cursor.ts";
import { Room } from "../support/room.ts";

/** Tools, gear and tanks that are disinfected by a duty, as other work. */

const room = (ofRoom: string, ofGear = "", ofTank = ""): string => `room "Cellar"
  ${ofRoom === "" ? "altitude 10 m" : ofRoom}
tank q1
  volume 50 L
  ${ofTank === "" ? "role quarantine" : ofTank}
gear net-a "Net of the quarantine"
  kind net
  ${ofGear === "" ? "from 2026-03-01" : `from 2026-03-01\n  ${ofGear}`}
2026-03-01
  room note "begun"
  q1 note "begun"
  net-a note "new"
`;
/** Days late ten days after the beginning: 3 where it was not done, less where it was. */
const late = (log: string, station: string): number =>
  new Room(log).duty(station, "disinfect", "2026-03-11").late;
const done = (entry: string): string => `2026-03-09\n  ${entry}\n`;

describe("every 7 d disinfect", () => {
  it("is owed by the room for a tool, whether it is a gear or a word, and done wherever that is written", () => {
    for (const thing of ["net-a", "siphon"]) {
      const log = room(`every 7 d disinfect ${thing}`);
      expect(late(log, "room")).toBe(3);
      const ways = [`room disinfect ${thing}`, `q1 disinfect ${thing} with "chlorine, 30 min"`];
      if (thing === "net-a") ways.push("net-a disinfect");
      for (const way of ways) expect(late(log + done(way), "room"), way).toBe(-5);
      for (const way of ["room disinfect hose", "room disinfect", "q1 disinfect"])
        expect(late(log + done(way), "room"), way).toBe(3);
    }
  });

  it("is owed by a gear, with its own name or without", () => {
    for (const act of ["every 7 d disinfect", "every 7 d disinfect net-a"]) {
      const log = room("", act);
      expect(late(log, "net-a")).toBe(3);
      for (const way of ["net-a disinfect", "room disinfect net-a", "q1 disinfect siphon, net-a"])
        expect(late(log + done(way), "net-a"), `${act}: ${way}`).toBe(-5);
      for (const way of ["room disinfect siphon", "q1 disinfect", "room disinfect"])
        expect(late(log + done(way), "net-a"), `${act}: ${way}`).toBe(3);
    }
  });

  it("is owed by a tank for itself: a net in its line is not the tank", () => {
    const log = room("", "", "every 7 d disinfect");
    expect(late(log + done("q1 disinfect"), "q1")).toBe(-5);
    expect(late(log + done("q1 disinfect net-a"), "q1")).toBe(3);
  });

  it("names two things as two duties", () => {
    const log = `${room("every 7 d disinfect net-a, siphon")}${done("room disinfect siphon")}`;
    const made = new Room(log);
    expect(made.duty("room", "disinfect net-a", "2026-03-11").late).toBe(3);
    expect(made.duty("room", "disinfect siphon", "2026-03-11").late).toBe(-5);
  });

  it("is told when it is overdue, as other duties", () => {
    expect(new Room(room("every 7 d disinfect net-a"), "2026-03-20").findings("duty/")).toEqual([
      expect.stringMatching(/^duty\/overdue: .*disinfect net-a is 12 days late/),
    ]);
  });

  it("is the same when the entry is typed as when it is read anew", () => {
    for (const entry of ["net-a disinfect", "q1 disinfect net-a", "room disinfect net-a"]) {
      const log = `${room("every 7 d disinfect net-a", "every 7 d disinfect")}2026-03-09\n  q1 note "x"\n`;
      const made = new Room(log);
      const { checked } = made;
      made.findings();
      const source = checked.logbook.sources.get("log.tank")!;
      const at = source.text.length;
      checked.take(source.edit(at, at, `  ${entry}\n`));
      for (const station of ["room", "net-a"])
        expect(made.duty(station, "disinfect", "2026-03-11").late, `${station}: ${entry}`).toBe(-5);
      checked.take(source.edit(at, source.text.length, ""));
      for (const station of ["room", "net-a"])
        expect(made.duty(station, "disinfect", "2026-03-11").late, `${station}: gone`).toBe(3);
    }
  });
});

test("from an entry the editor finds the duty it does, be it the room's", () => {
  const log = room("every 7 d disinfect net-a");
  for (const entry of ["net-a dis¦infect", "q1 dis¦infect net-a", "room dis¦infect net-a"]) {
    const { view, offset } = atCursor(log + done(entry));
    expect(
      dutiesAt(view, offset).map(({ station, act }) => `${station.name} ${act}`),
      entry,
    ).toEqual(["room disinfect net-a"]);
  }
});
