import fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import { endOf } from "../../language/room/against.ts";
import { type Quarantine, quarantineAt } from "../../language/room/quarantine.ts";
import { whyQuarantine } from "../../language/room/why-quarantine.ts";
import { logbookOf } from "../support/marked.ts";
import { Room } from "../support/room.ts";

const room = `room "Cellar"
  quarantine 28 d
  clear 14 d
species praecox
species horn
remedy prazi
  target 2 mg/L
tank dam
  volume 300 L
tank q1
  volume 50 L
  role quarantine
tank q2
  volume 50 L
  role quarantine
tank h1
  volume 30 L
  role hospital
system q-rack
  sump 40 L
tank s1
  volume 50 L
  role quarantine
  system q-rack
tank s2
  volume 50 L
  role quarantine
  system q-rack
2026-03-01
  dam count praecox 40
`;
const unclear = room.replace("  clear 14 d\n", "");

function clock(log: string, day: string, tank = "q1"): Quarantine | undefined {
  const { logbook, book } = logbookOf(log);
  return quarantineAt(logbook, book.tank(tank)!, endOf(dayOf(day)));
}

/** The end, or `none`; with the cases of which signs last. */
function end(entries: string, day: string, tank = "q1", before = room): string {
  const found = clock(before + entries, day, tank);
  if (found === undefined) return "none";
  return [isoOf(found.end), ...found.signs].join(" ");
}

/** `arrive 2026-03-29`, `loss 2026-04-04`: what gave the clock its end and what put it off. */
const putOff = (entries: string, day: string, tank = "q1", before = room): string[] =>
  clock(before + entries, day, tank)!.putOff.map(({ by, name, to }) =>
    [by, name, isoOf(to)].filter(Boolean).join(" "),
  );

const arrived = "2026-03-01\n  q1 arrive praecox 8\n";

describe("the clock of a quarantine tank", () => {
  it("runs from the last animal in, for all of them", () => {
    expect(end(arrived, "2026-03-01")).toBe("2026-03-29");
    const more = `${arrived}2026-03-10\n  q1 arrive horn 4\n`;
    expect(end(more, "2026-03-09")).toBe("2026-03-29");
    expect(end(more, "2026-03-10")).toBe("2026-04-07");
    expect(end(`${arrived}2026-03-10\n  dam move praecox 4 -> q1\n`, "2026-03-10")).toBe("2026-04-07");
  });

  it("is told with each arrival's own", () => {
    const { arrivals, since } = clock(
      `${room}2026-03-01\n  q1 arrive praecox 8 from "river nursery" lot a17\n2026-03-10\n  dam move praecox 4 -> q1`,
      "2026-03-10",
    )!;
    expect(isoOf(since)).toBe("2026-03-01");
    expect(
      arrivals.map((each) => [each.how, each.animals, each.lot, each.from.join(), isoOf(each.end)]),
    ).toEqual([
      ["arrive", 8, "a17", "", "2026-03-29"],
      ["move", 4, "", "dam", "2026-04-07"],
    ]);
  });

  it("is over on its day, and told so as long as animals are there", () => {
    expect(end(arrived, "2026-04-20")).toBe("2026-03-29");
    expect(end(`${arrived}2026-04-01\n  q1 move praecox 8 -> dam\n`, "2026-04-20")).toBe("none");
    expect(end("", "2026-03-20")).toBe("none");
    expect(end("2026-03-02\n  q1 count praecox 4\n", "2026-03-20")).toBe("none");
  });

  it("does not run where the room states no days", () => {
    expect(end(arrived, "2026-03-02", "q1", room.replace("  quarantine 28 d\n", ""))).toBe("none");
  });
});

describe("the end is put off", () => {
  it("by a loss, to as many days as are to be clear", () => {
    const lost = (day: string, how = " found") => `${arrived}${day}\n  q1 lose praecox 1${how}\n`;
    // 10 March + 14 d is before 29 March; 20 March + 14 d is not.
    expect(putOff(lost("2026-03-10"), "2026-03-28")).toEqual(["arrive 2026-03-29"]);
    expect(putOff(lost("2026-03-20"), "2026-03-28")).toEqual(["arrive 2026-03-29", "loss 2026-04-03"]);
    expect(end(lost("2026-03-20", " euthanised"), "2026-03-28")).toBe("2026-04-03");
    expect(end(lost("2026-03-20", ""), "2026-03-28")).toBe("2026-04-03");
    for (const how of [" jumped", " culled", " missing"])
      expect(end(lost("2026-03-20", how), "2026-03-28"), how).toBe("2026-03-29");
  });

  it("by a loss, to the whole time anew where the room states no days clear", () => {
    const lost = `${arrived}2026-03-10\n  q1 lose praecox 1 found\n`;
    expect(end(lost, "2026-03-10", "q1", unclear)).toBe("2026-04-07");
  });

  it("by a dose and a bath only where days clear are stated", () => {
    const dosed = `${arrived}2026-03-20\n  q1 dose prazi 100 mg\n`;
    expect(putOff(dosed, "2026-03-20")).toEqual(["arrive 2026-03-29", "dose prazi 2026-04-03"]);
    expect(end(dosed, "2026-03-20", "q1", unclear)).toBe("2026-03-29");
    const bathed = `${arrived}2026-03-21\n  q1 bath praecox 3 with prazi 10 mg/L for 10 min\n`;
    expect(putOff(bathed, "2026-03-21")).toEqual(["arrive 2026-03-29", "bath prazi 2026-04-04"]);
    expect(end(bathed, "2026-03-21", "q1", unclear)).toBe("2026-03-29");
  });

  it("by signs of no case from their day", () => {
    const sick = `${arrived}2026-03-20\n  q1 sick praecox 1 of 8 signs "thin"\n`;
    expect(end(sick, "2026-03-28")).toBe("2026-04-03");
    expect(end(sick, "2026-03-28", "q1", unclear)).toBe("2026-04-17");
    expect(end(`${arrived}2026-03-20\n  q1 sick praecox 0 of 8\n`, "2026-03-28")).toBe("2026-03-29");
  });

  it("by signs of a case as long as they last", () => {
    const sick = `${arrived}2026-03-20\n  q1 sick praecox 1 of 8 case flukes-1\n`;
    expect(end(sick, "2026-03-20")).toBe("2026-04-03 flukes-1");
    // Nothing says that they are over: each day is at least as many clear days from its end.
    expect(end(sick, "2026-04-10")).toBe("2026-04-24 flukes-1");
    expect(end(`${sick}2026-04-12\n  q1 sick praecox 0 of 8 case flukes-1\n`, "2026-04-13")).toBe(
      "2026-04-26",
    );
    expect(putOff(`${sick}2026-04-12\n  dam close flukes-1 recovered\n`, "2026-04-13")).toEqual([
      "arrive 2026-03-29",
      "signs flukes-1 2026-04-03",
      "over flukes-1 2026-04-26",
    ]);
    expect(end(`${sick}2026-04-12\n  dam close flukes-1 recovered\n`, "2026-04-11")).toBe(
      "2026-04-25 flukes-1",
    );
  });

  it("by a case that is closed and opened again in one minute, in the order of the lines", () => {
    const log = `${arrived}2026-03-20\n  q1 sick praecox 1 of 8 case c-1\n2026-03-21\n  q1 close c-1 recovered\n  q1 sick praecox 2 of 8 case c-1\n`;
    expect(end(log, "2026-03-22")).toBe("2026-04-05 c-1");
    const shut = `${arrived}2026-03-20\n  q1 sick praecox 1 of 8 case c-1\n  q1 close c-1 recovered\n`;
    expect(end(shut, "2026-03-22")).toBe("2026-04-03");
  });

  it("only while it runs", () => {
    expect(end(`${arrived}2026-03-29\n  q1 lose praecox 1 found\n`, "2026-04-01")).toBe("2026-03-29");
    expect(end(`${arrived}2026-04-10\n  q1 sick praecox 1 case c-1\n`, "2026-04-12")).toBe("2026-03-29");
    // What comes in after it begins a clock of its own, in which the signs of those that stayed count.
    const again = `${arrived}2026-04-10\n  q1 sick praecox 1 case c-1\n2026-04-15\n  q1 arrive horn 3\n`;
    expect(end(again, "2026-04-14")).toBe("2026-03-29");
    expect(end(again, "2026-06-01")).toBe("2026-06-15 c-1");
    expect(clock(room + again, "2026-04-15")!.arrivals).toHaveLength(1);
  });

  it("not by what came before an emptied tank was filled again", () => {
    const log = `${arrived}2026-03-20\n  q1 sick praecox 2 case c-1\n2026-03-21\n  q1 move praecox 8 -> h1\n2026-03-22\n  q1 arrive horn 5\n`;
    expect(end(log, "2026-03-21")).toBe("none");
    expect(end(log, "2026-03-22")).toBe("2026-04-19");
  });
});

describe("water that quarantine tanks share has one clock", () => {
  it("from the last animal into any of them", () => {
    const log = "2026-03-01\n  s1 arrive praecox 8\n2026-03-10\n  s2 arrive horn 4\n";
    for (const tank of ["s1", "s2"]) expect(end(log, "2026-03-10", tank)).toBe("2026-04-07");
    expect(clock(room + log, "2026-03-10", "s1")!.tanks.map(({ name }) => name)).toEqual(["s1", "s2"]);
  });

  it("and who goes from one to the other is not new to it", () => {
    const log = "2026-03-01\n  s1 arrive praecox 8\n2026-03-10\n  s1 move praecox 8 -> s2\n";
    expect(end(log, "2026-03-10", "s2")).toBe("2026-03-29");
    expect(
      end("2026-03-01\n  q1 arrive praecox 8\n2026-03-10\n  q1 move praecox 8 -> q2\n", "2026-03-10", "q2"),
    ).toBe("2026-04-07");
  });

  it("with a tank of another role, by what comes into that too", () => {
    const mixed = room.replace("tank s2\n  volume 50 L\n  role quarantine", "tank s2\n  volume 50 L");
    const log = "2026-03-01\n  s1 arrive praecox 8\n2026-03-10\n  s2 arrive horn 4\n";
    expect(end(log, "2026-03-10", "s1", mixed)).toBe("2026-04-07");
    expect(end("2026-03-10\n  s2 arrive horn 4\n", "2026-03-11", "s1", mixed)).toBe("none");
    const moved = "2026-03-10\n  s2 arrive horn 4\n2026-03-12\n  s2 move horn 4 -> s1\n";
    expect(end(moved, "2026-03-12", "s1", mixed)).toBe("2026-04-09");
  });
});

test("the reason is told with what put it off and what the room states", () => {
  const log = `${room}${arrived}2026-03-20\n  q1 lose praecox 1 found`;
  const why = whyQuarantine(logbookOf(log).book, clock(log, "2026-03-20")!);
  expect(why.value).toBe("until 3 April 2026");
  expect(why.from.map(({ what }) => what)).toEqual([
    "2026-03-20 q1 lose praecox 1 found",
    "2026-03-01 q1 arrive praecox 8",
    "stated: quarantine 28 d",
    "stated: clear 14 d",
  ]);
});

describe("what is said of it", () => {
  const said = (entries: string, before = room): string[] =>
    new Room(before + entries).findings("quarantine/");

  it("names what put the end off where animals leave too early", () => {
    expect(
      said(`${arrived}2026-03-20\n  q1 lose praecox 1 found\n2026-03-30\n  q1 move praecox 7 -> dam`),
    ).toEqual([
      "quarantine/extended: a loss puts the end of quarantine in q1 off from 29 March to 3 April",
      "quarantine/early: praecox leave quarantine in q1 before 3 April: a loss on 20 March put its end off",
    ]);
    expect(
      said(`${arrived}2026-03-20\n  q1 sick praecox 1 case c-1\n2026-04-20\n  q1 sell praecox 2`),
    ).toEqual([
      "quarantine/extended: signs of case c-1 put the end of quarantine in q1 off from 29 March to 3 April, and further while case c-1 is open with signs",
      "quarantine/early: praecox leave quarantine in q1 while signs of case c-1 last; it ends on 4 May at the earliest",
    ]);
  });

  it("tells a consignment of several lines as one, and later animals as mixed", () => {
    const two = "2026-03-01\n  q1 arrive praecox 8\n  q1 arrive horn 4\n";
    expect(said(two)).toEqual([]);
    expect(said(`${two}2026-03-05\n  q1 arrive horn 2`)).toEqual([
      "quarantine/mixed: new animals come into quarantine in q1: the clock of all begins anew, until 2 April instead of 29 March",
    ]);
  });

  it("tells of arrivals that never were in it, once a day and tank", () => {
    expect(said("2026-03-05\n  dam arrive horn 4\n  dam arrive praecox 4")).toEqual([
      "quarantine/skipped: horn come from outside straight into dam, where others live; arrivals stay apart for 28 days in this room",
    ]);
    expect(said("2026-03-05\n  h1 arrive horn 4")).toEqual([]);
    expect(said("2026-03-05\n  dam arrive horn 4", room.replaceAll("  role quarantine\n", ""))).toEqual([]);
  });

  it("tells of nothing where no days are stated, but that the water is shared", () => {
    const bare = room.replace("  quarantine 28 d\n  clear 14 d\n", "  altitude 1 m\n");
    expect(said(`${arrived}2026-03-05\n  q1 move praecox 4 -> dam`, bare)).toEqual([]);
    expect(
      said(
        "",
        bare.replace("tank s2\n  volume 50 L\n  role quarantine", "tank s2\n  volume 50 L\n  role rack"),
      ),
    ).toEqual([
      "quarantine/shared-water: s1 is for quarantine, and shares its water with s2 (rack): its animals are not apart",
    ]);
  });
});

/** Entries of a few weeks about two quarantine tanks that are never emptied: 900 animals are there. */
const entry = fc.record({
  day: fc.integer({ min: 1, max: 70 }),
  text: fc.constantFrom(
    "q1 arrive praecox 3",
    "q1 arrive horn 2",
    "dam move praecox 1 -> q1",
    "q1 move horn 1 -> dam",
    "q1 lose praecox 1 found",
    "q1 lose praecox 1 jumped",
    "q1 dose prazi 100 mg",
    "q1 sick praecox 2 of 9 case c-1",
    "q1 sick praecox 0 of 9 case c-1",
    "q1 sick horn 1",
    "q1 close c-1 recovered",
    "q1 bath praecox 3 with prazi 10 mg/L for 10 min",
  ),
});
const entries = fc.array(entry, { maxLength: 14 });
const first = dayOf("2026-03-01");
const logOf = (all: readonly { day: number; text: string }[], before: string): string =>
  `${before}2026-03-01\n  q1 arrive praecox 900\n${[...all]
    .sort((a, b) => a.day - b.day)
    .map(({ day, text }) => `${isoOf(first + day)}\n  ${text}\n`)
    .join("")}`;
const at = (log: string, day: number): Quarantine | undefined => clock(log, isoOf(first + day));

describe("of every log", () => {
  const before = fc.constantFrom(room, unclear, room.replace("clear 14 d", "clear 40 d"));

  test("the clock never ends before the last animal's own", () => {
    fc.assert(
      fc.property(entries, before, fc.integer({ min: 0, max: 80 }), (all, stated, day) => {
        const found = at(logOf(all, stated), day)!;
        for (const arrival of found.arrivals) expect(found.end).toBeGreaterThanOrEqual(arrival.end);
        const ends = found.putOff.map(({ to }) => to);
        expect(ends).toEqual([...ends].sort((a, b) => a - b));
      }),
      { numRuns: 60 },
    );
  });

  test("one more death never brings the end forward", () => {
    fc.assert(
      fc.property(
        entries,
        before,
        fc.integer({ min: 0, max: 80 }),
        fc.integer({ min: 1, max: 70 }),
        (all, stated, day, on) => {
          const more = [...all, { day: on, text: "q1 lose praecox 1 found" }];
          expect(at(logOf(more, stated), day)!.end).toBeGreaterThanOrEqual(at(logOf(all, stated), day)!.end);
        },
      ),
      { numRuns: 60 },
    );
  });

  test("edited entry by entry it is what it is read anew", () => {
    fc.assert(
      fc.property(entries, entries, before, fc.integer({ min: 0, max: 80 }), (all, more, stated, day) => {
        const edited = new CheckedLogbook();
        edited.set("log.tank", logOf(all, stated));
        edited.set("more.tank", "");
        const told = (checked: CheckedLogbook): unknown => {
          const { logbook, book } = checked;
          const found = quarantineAt(logbook, book.tank("q1")!, endOf(first + day));
          return [
            found?.end,
            found?.signs,
            found?.putOff.map(({ by, name, from, to }) => [by, name, from, to]),
            found?.arrivals.map(({ species, animals, end: own }) => [species, animals, own]),
            checked
              .findings(first + 80)
              .filter(({ code }) => code.startsWith("quarantine/"))
              .map(({ code, message, start }) => [code, message, start]),
          ];
        };
        told(edited);
        let text = "";
        for (const { day: on, text: line } of more) {
          const source = edited.logbook.sources.get("more.tank")!;
          const added = `${isoOf(first + on)}\n  ${line}\n`;
          edited.take(source.edit(text.length, text.length, added));
          text += added;
          told(edited);
        }
        const anew = new CheckedLogbook();
        anew.set("log.tank", logOf(all, stated));
        anew.set("more.tank", text);
        expect(told(edited)).toEqual(told(anew));
      }),
      { numRuns: 40 },
    );
  });
});
