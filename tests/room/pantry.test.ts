import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { type PantryItem, pantryItem } from "../../language/room/pantry.ts";
import { whyOnHand } from "../../language/room/why-pantry.ts";
import { medianInterval } from "../../language/science/median-interval.ts";
import { Room } from "../support/room.ts";

/** What is on hand, and how long it lasts. */

const foods = `food cyclops
  kind frozen; portion 1 cube = 3.5 g
food flake
  kind dry; opened 2026-01-10; keeps 90 d; expires 2026-08-31
remedy blue
  strength 10 mg/mL; drop 0.05 mL; target 1..3 mg/L
tank dam
  volume 100 L
tank q1
  volume 50 L
group show = dam, q1
`;

function item(log: string, name: string, on?: string): PantryItem {
  const room = new Room(foods + log);
  return pantryItem(room.checked.logbook, name, on === undefined ? room.today : dayOf(on))!;
}

describe("what is on hand", () => {
  it("is the last weighing and what was bought since, less what was fed since, in each tank of a group", () => {
    const cyclops = item(
      `2026-03-01
  room buy cyclops 900 g
2026-03-02
  08:00 dam feed cyclops 9 cubes
  09:00 room left cyclops 100 g
  10:00 @show feed cyclops 2 cubes
2026-03-03
  room buy cyclops 20 cubes`,
      "cyclops",
    );
    expect(cyclops.onHand).toBeCloseTo(100 - 4 * 3.5 + 70, 12);
    expect(whyOnHand(cyclops).from.map(({ what }) => what)).toEqual([
      "2026-03-02 09:00 room left cyclops 100 g",
      "2026-03-03 room buy cyclops 20 cubes",
      "used since: 1 entry",
      "stated: cyclops",
    ]);
  });

  it("takes what says no amount as the usual one", () => {
    const cyclops = item(
      `2026-03-01
  room left cyclops 100 g
  dam feed cyclops 2 cubes
  dam feed cyclops`,
      "cyclops",
    );
    expect(cyclops.onHand).toBeCloseTo(86, 12);
    expect(cyclops.unwritten).toBe(1);
  });

  it("is not reckoned where a portion has no weight, or nothing was weighed", () => {
    expect(item("2026-03-01\n  room left flake 100 g\n  dam feed flake 1 pinch", "flake").unknown).toBe(
      "what a pinch of flake weighs is not stated: portion 1 pinch = ... g",
    );
    expect(item("2026-03-01\n  dam feed flake 1 g", "flake").unknown).toContain("neither weighed nor bought");
  });

  it("is counted in portions where it was bought in them", () => {
    const flake = item("2026-03-01\n  room left flake 20 pinches\n  @show feed flake 1 pinch", "flake");
    expect([flake.onHand, flake.unit]).toEqual([18, "pinch"]);
  });

  it("is as of a day: what comes later does not count", () => {
    const log = "2026-03-01\n  room left cyclops 100 g\n2026-03-04\n  dam feed cyclops 2 cubes";
    expect(item(log, "cyclops", "2026-03-03").onHand).toBe(100);
    expect(item(log, "cyclops").onHand).toBe(93);
  });

  it("of a remedy goes down with its doses, in drops and by what they make of the water", () => {
    const blue = item(
      `2026-03-01
  room buy blue 50 mL
  dam dose blue 40 drops
  q1 dose blue 1 mg/L`,
      "blue",
    );
    expect(blue.onHand).toBeCloseTo(50 - 2 - 5, 9);
    expect(blue.unit).toBe("mL");
  });

  it("is never less for buying more", () => {
    const amounts = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(amounts, fc.integer({ min: 1, max: 500 }), (fed, bought) => {
        const feeding = fed
          .map((cubes, at) => `${isoOf(dayOf("2026-03-02") + at)}\n  dam feed cyclops ${cubes} cubes\n`)
          .join("");
        const start = "2026-03-01\n  room left cyclops 400 g\n";
        const used = fed.reduce((sum, cubes) => sum + cubes * 3.5, 0);
        expect(item(start + feeding, "cyclops").onHand).toBeCloseTo(400 - used, 9);
        expect(item(`${start}  room buy cyclops ${bought} g\n${feeding}`, "cyclops").onHand).toBeCloseTo(
          400 - used + bought,
          9,
        );
      }),
      { numRuns: 50 },
    );
  });
});

describe("how long it lasts", () => {
  const weeks = (grams: readonly number[]): string =>
    grams
      .map((each, week) => `${isoOf(dayOf("2026-01-05") + 7 * week)}\n  dam feed cyclops ${each} g\n`)
      .join("");

  it("follows from the median week, with the weeks that bound it", () => {
    const log = `${weeks([70, 70, 77, 63, 70, 700, 84, 56])}2026-03-01\n  room left cyclops 100 g`;
    const { use, daysLeft, runsOut } = item(log, "cyclops");
    expect(use).toMatchObject({ aDay: 10, low: 9, high: 12, weeks: 8 });
    expect(use!.coverage).toBeCloseTo(1 - 18 / 256, 12);
    expect(daysLeft.best).toBeCloseTo(10, 12);
    expect(daysLeft.low).toBeCloseTo(100 / 12, 12);
    expect(isoOf(runsOut)).toBe("2026-03-11");
  });

  it("is not told of two weeks", () => {
    expect(item(`${weeks([70, 70])}2026-01-18\n  room left cyclops 100 g`, "cyclops").use).toBeUndefined();
  });
});

describe("the interval of a median", () => {
  it("covers what its two figures cover, by the binomial", () => {
    // By hand: 1 - 2 (1 + 8) / 2^8, 1 - 2 (1 + 10) / 2^10, 1 - 2 / 2^6.
    const up = (n: number): number[] => Array.from({ length: n }, (_, at) => at);
    expect(medianInterval(up(8), 0.9)).toMatchObject({ median: 3.5, low: 1, high: 6, coverage: 0.9296875 });
    expect(medianInterval(up(10), 0.95)!.coverage).toBeCloseTo(0.978515625, 12);
    expect(medianInterval(up(6), 0.95)).toMatchObject({ low: 0, high: 5, coverage: 0.96875 });
    expect(medianInterval([1], 0.9)).toBeUndefined();
  });
});
