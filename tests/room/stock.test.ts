import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wordOf } from "../../language/book/interner.ts";
import { Room } from "../support/room.ts";

/** The book of animals: every one came from somewhere and went somewhere. */

const room = `room "Cellar"
  quarantine 28 d
species praecox
species horn
tank dam
  volume 300 L
tank b1
  volume 60 L
tank q1
  volume 50 L
  role quarantine
tank q2
  volume 50 L
  role quarantine
tank h1
  volume 20 L
  role hospital
group both = dam, b1
2026-03-01
`;

describe("animals by the book", () => {
  it("come by arrival, birth and move, and go by loss, move, sale and shipment", () => {
    const made = new Room(`${room}  dam arrive praecox 20 from "nursery" dead 2
  dam hatch praecox 15
  dam move praecox 5 -> b1
  dam lose praecox 1 found
  dam sell praecox 4 to "a neighbour"
  dam ship praecox 6, horn 0`);
    expect(made.animals("dam", "praecox")).toBe("19");
    expect(made.animals("b1", "praecox")).toBe("5");
    expect(made.findings("stock/more")).toEqual([]);
  });

  it("in a group are as many in each of its tanks; a move of a group takes as many from each", () => {
    const made = new Room(`${room}  @both arrive praecox 10\n  @both move praecox 3 -> q1`);
    expect([
      made.animals("dam", "praecox"),
      made.animals("b1", "praecox"),
      made.animals("q1", "praecox"),
    ]).toEqual(["7", "7", "6"]);
  });

  it("are not known where only leaving was written, and said so", () => {
    const made = new Room(`${room}  dam move praecox 3 -> b1`);
    expect([made.animals("dam", "praecox"), made.animals("b1", "praecox")]).toEqual(["?", "3"]);
    expect(made.findings("stock/")).toEqual([
      "stock/none-there: the book knows of no praecox in dam: write a count first, or check tank and species",
    ]);
  });

  it("are not fewer than none", () => {
    const made = new Room(`${room}  dam arrive praecox 1\n  dam lose praecox 3 missing`);
    expect(made.animals("dam", "praecox")).toBe("0");
    expect(made.findings("stock/")).toEqual([
      "stock/more-than-there: 3 praecox leave dam; by the book 1 is there",
    ]);
  });

  const tanks = ["dam", "b1", "q1"];
  const act = fc.oneof(
    fc.record({ is: fc.constantFrom("arrive", "hatch"), tank: fc.constantFrom(...tanks), n: fc.nat(30) }),
    fc.record({ is: fc.constantFrom("lose", "sell", "ship"), tank: fc.constantFrom(...tanks), n: fc.nat(9) }),
    fc.record({
      is: fc.constant("move"),
      tank: fc.constantFrom(...tanks),
      n: fc.nat(9),
      to: fc.constantFrom(...tanks),
    }),
  );

  it("are as many as came less those that went, whatever the log", () => {
    fc.assert(
      fc.property(fc.array(act, { maxLength: 25 }), (acts) => {
        // What the log says, kept by hand; more than are there do not leave.
        const by = new Map(tanks.map((tank) => [tank, 0]));
        let balance = 0;
        const lines: string[] = [];
        for (const each of acts) {
          const there = by.get(each.tank)!;
          if (each.is === "arrive" || each.is === "hatch") {
            by.set(each.tank, there + each.n);
            balance += each.n;
          } else {
            if (each.n > there) continue;
            by.set(each.tank, there - each.n);
            if ("to" in each) by.set(each.to, by.get(each.to)! + each.n);
            else balance -= each.n;
          }
          lines.push(`  ${each.tank} ${each.is} praecox ${each.n}${"to" in each ? ` -> ${each.to}` : ""}`);
        }
        const made = new Room(room + lines.join("\n"));
        const all = made.checked.logbook.ledgers.flatMap((ledger) => ledger.stock.in());
        expect(all.reduce((sum, holding) => sum + holding.animals, 0)).toBe(balance);
        for (const { tank, species, animals } of all) {
          expect(wordOf(species)).toBe("praecox");
          expect(animals).toBe(by.get(made.checked.book.stations[tank]!.name));
        }
        expect(made.findings("stock/more")).toEqual([]);
      }),
      { numRuns: 100 },
    );
  });
});

describe("a count", () => {
  /** Fourteen by the book, then a count: what is said, and what the book goes on with. */
  const counted = (count: string, before = "14"): [string[], string] => {
    const made = new Room(`${room}  dam arrive praecox ${before}\n2026-03-08\n  dam count praecox ${count}`);
    return [
      made.findings("stock/").map((text) => text.replace(/^stock\/count-differs: /, "")),
      made.animals("dam", "praecox"),
    ];
  };

  it("is held against the book, and the book goes on from it", () => {
    expect(counted("14")).toEqual([[], "14"]);
    expect(counted("12")).toEqual([["12 praecox counted in dam, 14 expected: 2 unaccounted"], "12"]);
    expect(counted("15")).toEqual([
      ["15 praecox counted in dam, 14 expected: 1 more than the book knows"],
      "15",
    ]);
  });

  it("of males, females and unsexed is their sum", () => {
    expect(counted("4.6.4")).toEqual([[], "14"]);
    expect(counted("4.6.2")[1]).toBe("12");
  });

  it("of some of so many leaves it at so many", () => {
    expect(counted("12 of 14")).toEqual([[], "14"]);
    expect(counted("12 of 13")).toEqual([["13 praecox counted in dam, 14 expected: 1 unaccounted"], "13"]);
  });

  it("by a range that holds the book leaves it, another is gone on with by its middle", () => {
    expect(counted("12..15")).toEqual([[], "14"]);
    expect(counted("10..13")).toEqual([["10..13 praecox counted in dam, 14 expected: 1 unaccounted"], "~11"]);
    expect(counted("16..18")).toEqual([
      ["16..18 praecox counted in dam, 14 expected: 2 more than the book knows"],
      "~17",
    ]);
  });

  it("about so many is a fifth either way, and two at least", () => {
    expect(counted("~12")).toEqual([[], "14"]);
    expect(counted("~11")[0]).toEqual(["about 11 praecox counted in dam, 14 expected: 3 unaccounted"]);
    expect(counted("~80", "100")).toEqual([[], "100"]);
    expect(counted("~79", "100")).toEqual([
      ["about 79 praecox counted in dam, 100 expected: 21 unaccounted"],
      "~79",
    ]);
    expect(counted("~125", "100")).toEqual([[], "100"]);
  });

  it("about so many follows a book that is an estimate itself", () => {
    expect(counted("~90", "~100")).toEqual([[], "~90"]);
    expect(counted("90", "~100")).toEqual([[], "90"]);
  });

  it("where the book knows nothing begins it", () => {
    const made = new Room(`${room}  dam count praecox 8..10, horn ~20`);
    expect([made.animals("dam", "praecox"), made.animals("dam", "horn")]).toEqual(["~9", "~20"]);
    expect(made.findings("stock/")).toEqual([]);
  });

  it("says since when", () => {
    const made = new Room(`${room}  dam count praecox 14\n2026-03-08\n  dam count praecox 13`);
    expect(made.findings("stock/")).toEqual([
      "stock/count-differs: 13 praecox counted in dam, 14 expected: 1 unaccounted since 1 March",
    ]);
  });
});

describe("quarantine", () => {
  const left = (entries: string): string[] =>
    new Room(`${room}  q1 arrive praecox 10\n${entries}`).findings("quarantine/early");

  it("is over when its days have passed since the last animal came, whatever the hour", () => {
    expect(left("2026-03-28\n  q1 move praecox 10 -> dam")).toEqual([
      "quarantine/early: praecox leave quarantine in q1 after 27 of 28 days: the last animals came on 1 March",
    ]);
    expect(left("2026-03-29\n  q1 move praecox 10 -> dam")).toEqual([]);
    expect(left("2026-03-10\n  q1 arrive horn 3\n2026-03-29\n  q1 move praecox 10 -> dam")).toHaveLength(1);
  });

  it("is for all ways out but death, and not for another quarantine or the hospital", () => {
    for (const out of ["sell praecox 2", "ship praecox 2", "move praecox 2 -> b1"])
      expect(left(`2026-03-10\n  q1 ${out}`), out).toHaveLength(1);
    for (const out of ["lose praecox 2 found", "move praecox 2 -> q2", "move praecox 2 -> h1"])
      expect(left(`2026-03-10\n  q1 ${out}`), out).toEqual([]);
  });

  it("begins anew for all when animals are moved in", () => {
    expect(left("2026-03-10\n  q1 move praecox 4 -> q2\n2026-03-29\n  q2 move praecox 4 -> dam")).toEqual([
      "quarantine/early: praecox leave quarantine in q2 after 19 of 28 days: the last animals came on 10 March",
    ]);
  });

  it("without days stated is not watched", () => {
    const log = `${room.replace("  quarantine 28 d\n", "")}  q1 arrive praecox 3\n2026-03-02\n  q1 move praecox 3 -> dam`;
    expect(new Room(log).findings("quarantine/")).toEqual([]);
  });
});

describe("an entry about animals where none can be", () => {
  it("does not count, and says so", () => {
    const log = `${room}  room count praecox 4\n  dam move praecox 1 -> nowhere`;
    expect(new Room(log).findings("entry/", "name/").map((text) => text.split(":")[0])).toEqual([
      "entry/misplaced",
      "name/destination",
    ]);
    const system = `system rack-water\n  sump 9 L\n${room}  rack-water move praecox 4 -> dam`;
    expect(new Room(system).animals("dam", "praecox")).toBe("?");
  });
});
