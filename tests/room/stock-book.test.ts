import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import {
  addedUp,
  allLost,
  lotBook,
  type StockRow,
  stockAt,
  stockBook,
} from "../../language/room/stock-book.ts";
import { logbookOf } from "../support/marked.ts";

/** Every animal came from somewhere and went somewhere, over any period. */

const room = `room "Cellar"
species praecox
species horn
system rack
tank dam
  volume 300 L
tank r1
  volume 20 L; system rack
tank r2
  volume 20 L; system rack
group both = r1, r2
`;
const first = dayOf("2026-03-01");
const tanks = ["dam", "r1", "r2"] as const;
const groups: Readonly<Record<string, readonly string[]>> = { "@both": ["r1", "r2"] };

interface Act {
  readonly is: "arrive" | "hatch" | "lose" | "sell" | "ship" | "move" | "count";
  readonly target: string;
  readonly species: string;
  readonly animals: number;
  readonly to: string;
  readonly day: number;
  readonly file: number;
}

const act: fc.Arbitrary<Act> = fc.record({
  is: fc.constantFrom("arrive", "hatch", "lose", "sell", "ship", "move", "move", "count"),
  target: fc.constantFrom(...tanks, "@both"),
  species: fc.constantFrom("praecox", "horn"),
  animals: fc.nat(12),
  to: fc.constantFrom(...tanks, "nowhere"),
  day: fc.nat(9),
  file: fc.nat(2),
});

/** Acts in order of time: each has a minute of its own, so that the order of the files says nothing. */
const acts = fc
  .array(act, { maxLength: 40 })
  .map((list) => [...list].sort((a, b) => a.day - b.day).map((each, at) => ({ ...each, minute: at })));

const clock = (minute: number) =>
  `${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;

function filesOf(list: readonly (Act & { minute: number })[]): Map<string, string> {
  const files = new Map([["room.tank", room]]);
  for (const { is, target, species, animals, to, day, file, minute } of list) {
    const name = `${"cab"[file]}.tank`;
    const line = `  ${clock(minute)} ${target} ${is} ${species} ${animals}${is === "move" ? ` -> ${to}` : ""}`;
    files.set(name, `${files.get(name) ?? ""}${isoOf(first + day)}\n${line}\n`);
  }
  return files;
}

/** The same told by hand, one animal's way after the other: no ledger, no series. */
function byHand(list: readonly Act[], untilDay: number) {
  const there = new Map<string, number>();
  const flows = new Map<string, { came: number; went: number; found: number; gone: number }>();
  const flowOf = (species: string) => {
    const known = flows.get(species) ?? { came: 0, went: 0, found: 0, gone: 0 };
    flows.set(species, known);
    return known;
  };
  const add = (tank: string, species: string, animals: number) =>
    there.set(`${tank} ${species}`, (there.get(`${tank} ${species}`) ?? 0) + animals);
  for (const { is, target, species, animals, to, day } of list) {
    if (day > untilDay) continue;
    const flow = flowOf(species);
    for (const tank of groups[target] ?? [target]) {
      const before = there.get(`${tank} ${species}`) ?? 0;
      if (is === "arrive" || is === "hatch") {
        flow.came += animals;
        add(tank, species, animals);
      } else if (is === "count") {
        flow.found += Math.max(0, animals - before);
        flow.gone += Math.max(0, before - animals);
        there.set(`${tank} ${species}`, animals);
      } else if (is !== "move" || (to !== "nowhere" && to !== tank)) {
        // What leaves and was not there was found first.
        flow.found += Math.max(0, animals - before);
        there.set(`${tank} ${species}`, Math.max(0, before - animals));
        if (is === "move") add(to, species, animals);
        else flow.went += animals;
      }
    }
  }
  return { there, flows };
}

function read(files: ReadonlyMap<string, string>): CheckedLogbook {
  const checked = new CheckedLogbook();
  for (const [path, text] of files) checked.set(path, text);
  return checked;
}

const present = (rows: readonly { tank: { name: string }; species: string; animals: number }[]) =>
  Object.fromEntries(rows.map(({ tank, species, animals }) => [`${tank.name} ${species}`, animals]));
const alive = (there: ReadonlyMap<string, number>) =>
  Object.fromEntries([...there].filter(([, animals]) => animals > 0));

describe("conservation", () => {
  it("for every species and date the animals that came and were found are those that went, are missed, and are there", () => {
    fc.assert(
      fc.property(acts, fc.nat(9), (list, day) => {
        const { logbook } = read(filesOf(list));
        const { there, flows } = byHand(list, day);
        expect(present(stockAt(logbook, first + day))).toEqual(alive(there));
        const book = stockBook(logbook, { from: first - 1, to: first + day });
        for (const [species, { came, went, found, gone }] of flows) {
          const sums = addedUp(book.filter((row) => row.species === species));
          expect([sums.arrived + sums.born, allLost(sums) + sums.sold + sums.shipped]).toEqual([came, went]);
          expect([sums.found, sums.unaccounted]).toEqual([found, gone]);
          expect(sums.movedIn).toBe(sums.movedOut);
          expect(came + found).toBe(went + gone + sums.closing);
        }
      }),
      { numRuns: 300 },
    );
  });

  it("whatever order the files come in, and however they are edited", () => {
    fc.assert(
      fc.property(acts, fc.array(fc.nat(3)), (list, order) => {
        const files = [...filesOf(list)];
        const other = [...files];
        for (const at of order) other.push(...other.splice(at % other.length, 1));
        const text = (rows: readonly StockRow[]) =>
          rows.map(({ tank, species, sums }) => JSON.stringify([tank.name, species, sums]));
        const period = { from: first, to: first + 9 };
        const one = read(new Map(files));
        const two = read(new Map(other));
        // A file is taken out and put back: the ledgers go back and forth.
        const [path, content] = other[0]!;
        two.remove(path);
        stockBook(two.logbook, period);
        two.set(path, content);
        expect(text(stockBook(two.logbook, period))).toEqual(text(stockBook(one.logbook, period)));
      }),
      { numRuns: 150 },
    );
  });

  it("a period begins with what the one before it left", () => {
    fc.assert(
      fc.property(acts, fc.nat(8), (list, day) => {
        const { logbook } = read(filesOf(list));
        const early = addedUp(stockBook(logbook, { from: first, to: first + day }));
        const late = addedUp(stockBook(logbook, { from: first + day + 1, to: first + 9 }));
        const whole = addedUp(stockBook(logbook, { from: first, to: first + 9 }));
        expect(late.opening).toBe(early.closing);
        expect(whole.closing).toBe(late.closing);
        expect(early.animalDays + late.animalDays).toBeCloseTo(whole.animalDays, 6);
      }),
    );
  });
});

describe("a book over a period", () => {
  const rowOf = (rows: readonly StockRow[], tank: string) => rows.find((row) => row.tank.name === tank)!;

  it("tells each way to come and go apart", () => {
    const { logbook } = logbookOf(`${room}2026-02-20
  dam arrive praecox 20
2026-03-01
  dam arrive praecox 4 dead 1
  dam hatch praecox 10
2026-03-02
  dam lose praecox 1 found
  dam lose praecox 1 jumped
  dam lose praecox 2 culled
  dam lose praecox 1
  dam move praecox 5 -> r1
  dam sell praecox 3
  dam ship praecox 2
2026-03-03
  dam count praecox 17`);
    const { sums } = rowOf(stockBook(logbook, { from: first, to: first + 9 }), "dam");
    expect(sums).toMatchObject({
      opening: 20,
      arrived: 4,
      born: 10,
      movedIn: 0,
      lost: { found: 1, missing: 0, jumped: 1, culled: 2, euthanised: 0, lost: 1 },
      movedOut: 5,
      sold: 3,
      shipped: 2,
      found: 0,
      unaccounted: 2,
      closing: 17,
    });
  });

  it("counts animals times days", () => {
    const { logbook } = logbookOf(`${room}2026-03-01
  dam arrive praecox 10
2026-03-05
  dam lose praecox 4 found
2026-03-10
  dam count praecox 6`);
    const { sums } = rowOf(stockBook(logbook, { from: first, to: first + 9 }), "dam");
    expect(sums.animalDays).toBe(10 * 4 + 6 * 6);
  });
});

describe("lots", () => {
  it("are where the entries that name them put them; others are about the species at large", () => {
    const { logbook } = logbookOf(`${room}2026-03-01
  dam arrive praecox 10 lot a1
  dam arrive praecox 6 lot b2
  dam lose praecox 1 found
2026-03-02
  dam move praecox 4 -> r1 lot a1
  r1 lose praecox 1 found lot a1
  r1 sell praecox 2 lot a1`);
    const rows = lotBook(logbook, { from: first, to: first + 9 });
    expect(rows.map(({ tank, lot, sums }) => [tank.name, lot, sums.closing])).toEqual([
      ["dam", "a1", 6],
      ["dam", "b2", 6],
      ["r1", "a1", 1],
    ]);
    expect(present(stockAt(logbook, first + 9))).toEqual({ "dam praecox": 11, "r1 praecox": 1 });
  });

  it("counted alone change the species by what they are short of", () => {
    const { logbook } = logbookOf(`${room}2026-03-01
  dam arrive praecox 10 lot a1
  dam arrive praecox 6
2026-03-02
  dam count praecox 8 lot a1`);
    expect(present(stockAt(logbook, first + 9))).toEqual({ "dam praecox": 14 });
  });

  it("that are told apart by a count are of those that are there", () => {
    const { logbook } = logbookOf(`${room}lot blue-1
  species praecox
2026-03-01
  dam arrive praecox 10
  dam count praecox 1 lot blue-1
  dam move praecox 1 -> r1 lot blue-1`);
    expect(present(stockAt(logbook, first + 9))).toEqual({ "dam praecox": 9, "r1 praecox": 1 });
  });
});
