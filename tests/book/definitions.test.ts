import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { namesBetween } from "../../language/book/bind-groups.ts";
import { compile } from "../../language/book/compile.ts";
import { dayOf, isoOf, spokenDay } from "../../language/book/dates.ts";
import { definitionKinds } from "../../language/book/definitions/registry.ts";
import { entryKinds } from "../../language/book/entries/registry.ts";
import { Matcher } from "../../language/book/match.ts";
import { quote, unquote } from "../../language/book/reading.ts";
import { nearest } from "../../language/quantity/nearest.ts";
import { expectMarks } from "../support/marked.ts";
import { Room } from "../support/room.ts";

/** What is defined, and what a name stands for. */

describe("a name", () => {
  it("is defined once in a logbook, whatever it names; the first counts", () => {
    const log = `tank dam
  volume 100 L
tank dam
#    ^^^ name/twice
  volume 9 L
water dam
#     ^^^ name/twice
species dam
#       ^^^ name/twice`;
    expectMarks(log);
    const { book } = new Room(log).checked;
    expect([book.tanks.map(({ volumeL }) => volumeL), book.waters.length, book.species.size]).toEqual([
      [100],
      0,
      0,
    ]);
  });

  it("is no word of the format", () => {
    const log = `tank room
#    ^^^^ name/reserved
  volume 9 L
species none
#       ^^^^ name/reserved
2026-03-01
  room note "x"`;
    expectMarks(log);
    expect(new Room(log).checked.book.tanks).toEqual([]);
  });

  it("may be of any script", () => {
    expectMarks(
      "tank becken-ä\n  volume 9 L\ntank 水槽\n  volume 9 L\n2026-03-01\n  becken-ä clean\n  水槽 change 30 %",
    );
  });

  it("that is missing takes nothing with it", () => {
    expectMarks(
      "tank\n#^^^ definition/name\n  volume 9 L\nremedy 5\n#      ^ definition/name\n  target 2 mg/L",
    );
  });
});

describe("a group", () => {
  const tanks = "tank r1\n  volume 9 L\ntank r2\n  volume 9 L\ntank r10\n  volume 9 L\n";
  const members = (group: string): string[] =>
    new Room(`${tanks}group g = ${group}`).checked.book.groups.get("g")!.tanks.map(({ name }) => name);

  it("has each of its tanks once, in the order in which it names them", () => {
    expect(members("r10, r1 .. r2, r1")).toEqual(["r10", "r1", "r2"]);
    expect(members("r2")).toEqual(["r2"]);
  });

  it("that names what is no tank says so once", () => {
    expectMarks(`${tanks}group g = r1 .. r5
#         ^^^^^^^^ name/target
group h = r3
#         ^^ name/target
group i = r2 .. r1
#         ^^^^^^^^ definition/members
group j = r1 .. dam
#         ^^^^^^^^^ definition/members`);
  });

  it("counts the number at the end of its names", () => {
    expect(namesBetween("r1", "r3")).toEqual(["r1", "r2", "r3"]);
    expect(namesBetween("r08", "r11")).toEqual(["r08", "r09", "r10", "r11"]);
    expect(namesBetween("a2-r1", "a2-r2")).toEqual(["a2-r1", "a2-r2"]);
    expect(namesBetween("r3", "r1")).toEqual([]);
    expect(namesBetween("r1", "q3")).toEqual([]);
    expect(namesBetween("dam", "q")).toEqual([]);
    expect(namesBetween("r1", "r99999999")).toEqual([]);
  });
});

describe("definitions", () => {
  it("may stand in any order and file, below the days that name them", () => {
    const room = new Room(`--- a.tank ---
2026-03-01
  @g change 30 %
--- b.tank ---
group g = r1
tank r1
  volume 9 L
  system s
system s
  sump 9 L`);
    expect(room.findings("name/", "definition/")).toEqual([]);
    expect(room.changes("r1")).toEqual([0.15]);
  });

  it("of a system that is not there leave the tank its own water", () => {
    const room = new Room("tank r1\n  volume 9 L\n  system rak\nsystem rack\n2026-03-01\n  r1 change 3 L");
    expect(room.findings("name/system")).toEqual([
      "name/system: no system is called “rak”; did you mean “rack”?",
    ]);
    expect(room.changes("r1")).toEqual([expect.closeTo(1 / 3, 12)]);
  });

  it("of a second room are another's", () => {
    expectMarks('room "A"\n  quarantine 28 d\nroom "B"\n#^^^ definition/room\n  quarantine 3 d');
    expect(
      new Room('room "A"\n  quarantine 28 d\nroom "B"\n  quarantine 3 d').checked.book.quarantineDays,
    ).toBe(28);
  });

  it("say a property once, and some more than once", () => {
    expectMarks(`tank dam
  volume 9 L; volume 10 L
#             ^^^^^^ definition/twice
  note "a"; note "b"
  limits pH 6..7
  limits nitrate <= 9`);
  });

  it("take several properties on a line, and a text behind one", () => {
    const { book } = new Room(
      'remedy r\n  target 2 mg/L; harms snail, scaleless "the label says more"; half-life 3 d',
    ).checked;
    expect(book.remedies[0]).toMatchObject({ targetLow: 2, harms: ["snail", "scaleless"], halfLifeDays: 3 });
  });
});

describe("declarations", () => {
  it("have no more slots than the matcher has room for, and none without a way to be filled", () => {
    const signatures = [...entryKinds, ...Object.values(definitionKinds).flatMap((kind) => kind.properties)];
    for (const signature of signatures) {
      expect(signature.slots.length, signature.word).toBeLessThanOrEqual(12);
      const { leads, choices, names, numbers, texts, destination, date, lengths } = compile(signature);
      const ways = [
        ...leads.values(),
        ...[...choices.values()].map(([slot]) => slot),
        ...names,
        ...numbers,
        ...texts,
        destination,
        date,
        lengths,
      ];
      signature.slots.forEach((slot, at) => {
        expect(ways, `${signature.word}: ${slot.name}`).toContain(at);
      });
      // Two slots without a lead that are filled by the same thing could not be told apart.
      for (const same of [names, texts]) expect(same.length, signature.word).toBeLessThanOrEqual(1);
    }
    expect(new Matcher().items).toBe(0);
  });
});

describe("a text", () => {
  it("is what was quoted", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme" }), (text) => {
        const line = text.replace(/[\r\n]+/g, " ");
        expect(unquote(quote(text))).toBe(line);
      }),
    );
  });
});

describe("a day", () => {
  it("is a number that leads back to its date", () => {
    fc.assert(
      fc.property(fc.integer({ min: -200_000, max: 200_000 }), (day) => {
        expect(dayOf(isoOf(day))).toBe(day);
      }),
    );
  });

  it("is none that is not in the calendar", () => {
    for (const date of ["2026-02-29", "2026-04-31", "2026-13-01", "2026-00-10", "2026-01-00", "2100-02-29"])
      expect(dayOf(date), date).toBeNaN();
    expect(dayOf("2024-02-29")).toBe(19_782);
    expect(dayOf("1970-01-01")).toBe(0);
  });

  it("is spoken with its year where that is another", () => {
    expect(spokenDay(dayOf("2026-03-03"))).toBe("3 March 2026");
    expect(spokenDay(dayOf("2026-03-03"), dayOf("2026-12-31"))).toBe("3 March");
    expect(spokenDay(dayOf("2025-12-03"), dayOf("2026-01-01"))).toBe("3 December 2025");
  });
});

describe("the nearest words", () => {
  it("are those with a slip or two, not any short word", () => {
    expect(nearest("chnage", ["change", "clean", "count"])).toEqual(["change"]);
    expect(nearest("pramecox", ["praecox", "horn"])).toEqual(["praecox"]);
    expect(nearest("xyz", ["dam", "q1"])).toEqual([]);
    expect(nearest("d", ["q"])).toEqual([]);
  });
});
