import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nameOf } from "../../language/book/interner.ts";
import { formatNumber } from "../../language/quantity/format.ts";
import { sharesOf } from "../../language/room/brood-course.ts";
import { type Brood, broodsUntil } from "../../language/room/broods.ts";
import { partyOf } from "../../language/room/party.ts";
import { Room } from "../support/room.ts";

const tanks = `tank b1
  volume 40 L
tank b6
  volume 20 L
tank r2
  volume 60 L
species praecox
  hatches 7..10 d at 25 C; swims 1..2 d at 25 C; base 10 C
`;

const room = (days: string, today?: string): Room => new Room(`${tanks}${days}`, today);

/** What a brood came to, in a line. */
function told({ tally, name, among }: Brood): string {
  const counted = ({ count, isAbout }: { count: number; isAbout: boolean }): string =>
    Number.isNaN(count) ? "?" : `${isAbout ? "~" : ""}${count}`;
  const { laid, fertile, alive, hatched, swimming, living, state } = tally;
  const where = [...living].map(([tank, count]) => `${counted(count)} in ${tank.name}`).join(", ");
  const numbers = [laid, fertile, alive, hatched, swimming].map(counted).join(" ");
  return `${name}: ${numbers}, ${state}${where === "" ? "" : `, ${where}`}${among > 0 ? `, among ${among}` : ""}`;
}

const broods = (log: Room): string[] => broodsUntil(log.checked.logbook, log.today).map(told);

describe("a brood with a name", () => {
  it("is followed from tank to tank, from its eggs on", () => {
    const log = room(`2026-03-01
  b1 spawn praecox 120 eggs lot p7
2026-03-03
  b6 eggs praecox 100 lot p7
2026-03-05
  b6 eggs praecox 90 lot p7
2026-03-09
  b6 hatch praecox 40 lot p7
2026-03-10
  b6 hatch praecox 30 lot p7
2026-03-11
  b6 swim praecox ~60 lot p7
  b6 lose praecox 5 found lot p7
2026-03-20
  b6 lose praecox 4 culled lot p7
  b6 move praecox 20 -> r2 lot p7
2026-03-25
  r2 count praecox 18 lot p7
  r2 sell praecox 3 lot p7`);
    expect(broods(log)).toEqual(["p7: 120 100 90 70 ~60, swimming, 41 in b6, 15 in r2"]);
    const [brood] = broodsUntil(log.checked.logbook, log.today);
    expect(brood!.tally).toMatchObject({ lost: 5, culled: 4, left: 3, unaccounted: 2 });
  });

  it("is the same brood whatever files its entries stand in", () => {
    const log = room(`--- b.tank ---
2026-03-09
  b6 hatch praecox 40 lot p7
--- a.tank ---
2026-03-01
  b1 spawn praecox 120 eggs lot p7`);
    expect(broods(log)).toEqual(["p7: 120 ? ? 40 ?, hatched, 40 in b6"]);
  });

  it("is lost where no egg is alive, and gone where the last was sold", () => {
    const log = room(`2026-03-01
  b1 spawn praecox 20 eggs lot p7
  b1 spawn praecox 20 eggs lot p8
2026-03-04
  b1 eggs praecox 0 lot p7
2026-03-09
  b1 hatch praecox 6 lot p8
2026-03-20
  b1 ship praecox 6 lot p8`);
    expect(broods(log)).toEqual(["p7: 20 0 0 ? ?, lost", "p8: 20 ? ? 6 ?, gone"]);
  });

  it("is no brood if it came from elsewhere", () => {
    expect(broods(room("2026-03-01\n  b1 arrive praecox 10 lot a17\n  b1 lose praecox 1 lot a17"))).toEqual(
      [],
    );
  });

  it("knows on a day what was written up to it", () => {
    const log = room(`2026-03-01
  b1 spawn praecox 120 eggs lot p7
2026-03-09
  b6 hatch praecox 40 lot p7`);
    expect(broodsUntil(log.checked.logbook, log.today - 1).map(told)).toEqual(["p7: 120 ? ? ? ?, eggs"]);
  });
});

describe("a brood without a name", () => {
  it("takes the hatch that can be of no other spawning", () => {
    const log = room(`2026-03-01
  b1 spawn praecox 120 eggs
2026-03-09
  b1 hatch praecox 40`);
    expect(broods(log)).toEqual(["praecox in b1, 2026-03-01: 120 ? ? 40 ?, hatched, 40 in b1"]);
  });

  it("is not guessed where there are two it may be of", () => {
    const log = room(`2026-03-01
  b1 spawn praecox 120 eggs
2026-03-04
  b1 spawn praecox 60 eggs
2026-03-09
  b1 hatch praecox 40`);
    expect(broods(log)).toEqual([
      "praecox in b1, 2026-03-01: 120 ? ? ? ?, eggs",
      "praecox in b1, 2026-03-04: 60 ? ? ? ?, eggs",
      "praecox in b1, 2026-03-09: ? ? ? 40 ?, hatched, 40 in b1, among 2",
    ]);
  });

  it("is a birth where nothing was laid, each for itself", () => {
    const log = room("2026-03-01\n  b1 hatch wingei 9\n2026-03-10\n  b1 hatch wingei 7");
    expect(broods(log)).toEqual([
      "wingei in b1, 2026-03-01: ? ? ? 9 ?, hatched, 9 in b1",
      "wingei in b1, 2026-03-10: ? ? ? 7 ?, hatched, 7 in b1",
    ]);
  });
});

describe("survival by stage", () => {
  const shares = (log: Room): string[] => {
    const percent = (value: number): string => formatNumber(value * 100, 3);
    const [brood] = broodsUntil(log.checked.logbook, log.today);
    return sharesOf(brood!, log.today).map(
      ({ what, count, outOf, isAbout, low, high }) =>
        `${what}: ${isAbout ? "~" : ""}${count}/${outOf} (${percent(low)} to ${percent(high)})`,
    );
  };

  // Wilson 1927; 81 of 263 is the worked example of Newcombe 1998, Stat. Med. 17:857-872, table I, method 3 (recalled): 0.2553 to 0.3662.
  it("has the interval that Newcombe prints", () => {
    const log = room(
      "2026-03-01\n  b1 spawn praecox 263 eggs lot p7\n2026-03-09\n  b1 hatch praecox 81 lot p7",
    );
    expect(shares(log)).toEqual(["hatched of laid: 81/263 (25.5 to 36.6)"]);
  });

  it("is told for the thirtieth day with culls and without, the sold left out", () => {
    const log = room(`2026-03-01
  b1 spawn praecox 100 eggs lot p7
2026-03-09
  b1 hatch praecox 80 lot p7
2026-03-20
  b1 lose praecox 10 found lot p7
  b1 lose praecox 20 culled lot p7
  b1 sell praecox 10 lot p7
2026-04-20
  b1 lose praecox 5 found lot p7`);
    expect(shares(log).slice(1)).toEqual([
      "alive after 30 days: 40/70 (45.5 to 68.1)",
      "alive after 30 days, culls left out: 40/50 (67 to 88.8)",
    ]);
  });

  it("says nothing of day thirty before it has come", () => {
    const log = room('2026-03-01\n  b1 hatch praecox 80 lot p7\n2026-03-30\n  b1 note "well"');
    expect(shares(log)).toEqual([]);
  });

  it("has no share where more hatched than were laid", () => {
    const log = room(
      "2026-03-01\n  b1 spawn praecox 10 eggs lot p7\n2026-03-09\n  b1 hatch praecox 12 lot p7",
    );
    expect(shares(log)).toEqual(["hatched of laid: 12/10 (? to ?)"]);
  });
});

describe("any log", () => {
  const anyEntry = fc.record({
    day: fc.integer({ min: 1, max: 28 }),
    tank: fc.constantFrom("b1", "b6", "r2"),
    is: fc.constantFrom("hatch", "lose", "cull", "move", "sell", "count"),
    animals: fc.integer({ min: 0, max: 30 }),
    mark: fc.constantFrom("", "~"),
    to: fc.constantFrom("b1", "b6", "r2"),
  });

  it("has as many of a brood in each tank as the book of its lot", () => {
    fc.assert(
      fc.property(fc.array(anyEntry, { maxLength: 25 }), (entries) => {
        const lines = entries
          .sort((a, b) => a.day - b.day)
          .map(({ day, tank, is, animals, mark, to }) => {
            const count = `praecox ${mark}${animals}`;
            const act =
              is === "move"
                ? `move ${count} -> ${to}`
                : is === "cull"
                  ? `lose ${count} culled`
                  : `${is} ${count}`;
            return `2026-03-${String(day).padStart(2, "0")}\n  ${tank} ${act} lot p7`;
          });
        const log = room(`2026-02-20\n  b1 hatch praecox 50 lot p7\n${lines.join("\n")}`);
        const [brood] = broodsUntil(log.checked.logbook, log.today);
        const party = partyOf(nameOf("praecox"), nameOf("p7"));
        for (const tank of log.checked.book.tanks) {
          const known = log.ledger(tank.name).lotStock.known(tank.id, party)?.animals ?? 0;
          const living = brood!.tally.living.get(tank)?.count ?? 0;
          expect(living).toBe(Number.isNaN(known) ? 0 : known);
        }
      }),
    );
  });
});
