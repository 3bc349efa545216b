import { describe, expect, it } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { nameOf } from "../../language/book/interner.ts";
import { measuredTrends } from "../../language/room/condition-trend.ts";
import { courses } from "../../language/room/course.ts";
import { type LotLife, lotLife } from "../../language/room/lot-life.ts";
import { measuredBefore } from "../../language/room/measured.ts";
import { mortality } from "../../language/room/mortality.ts";
import { sexesBefore } from "../../language/room/sexes.ts";
import { addedUp, stockBook } from "../../language/room/stock-book.ts";
import { isOutside } from "../../language/science/result.ts";
import { Room } from "../support/room.ts";

/** How long animals live, how many die, of which sex and size they are. */

const room = `species praecox
tank dam
  volume 300 L
tank r1
  volume 20 L
`;
const life = (log: string, day: string): LotLife => {
  const found = lotLife(new Room(`${room}${log}`).checked.logbook, "a1", dayOf(day));
  if (isOutside(found)) throw new Error(found.outside);
  return found;
};

describe("the life of a lot", () => {
  const log = `2026-01-01
  dam arrive praecox 10 lot a1
2026-01-06
  dam lose praecox 2 found lot a1
2026-01-11
  dam move praecox 4 -> r1 lot a1
2026-01-16
  r1 sell praecox 2 lot a1
2026-01-21
  dam lose praecox 1 jumped lot a1
  dam lose praecox 1 culled lot a1`;

  it("by hand: 1 - 2/10 after the first deaths, times 1 - 1/6 after the last, the sold having left", () => {
    const { table, animals, deaths, left, still } = life(log, "2026-02-28");
    expect([animals, deaths, left, still]).toEqual([10, 3, 3, 4]);
    const at = (days: number) => table.find((step) => step.days === days)!;
    expect(at(7).survival).toBeCloseTo(0.8, 12);
    expect(at(30).survival).toBeCloseTo(0.8 * (1 - 1 / 6), 12);
    expect(at(30).low!).toBeLessThan(at(30).survival);
    // Nobody was followed for longer.
    expect(table.at(-1)!.days).toBe(30);
  });

  it("as of a day knows nothing of what came later", () => {
    expect(life(log, "2026-01-10").deaths).toBe(2);
  });

  it("of which no entry tells is not told", () => {
    const { logbook } = new Room(
      `${room}2026-01-01\n  dam arrive praecox 10 lot a1\n2026-03-01\n  dam lose praecox 9 found`,
    ).checked;
    expect(lotLife(logbook, "a1", dayOf("2026-03-02"))).toEqual({
      outside: "no later entry names it",
    });
  });

  it("bred here has an age", () => {
    expect(
      life(`2026-01-01\n  dam hatch praecox 10 lot a1\n  dam count praecox 10 lot a1`, "2026-01-31").ageDays,
    ).toBe(30);
  });
});

describe("mortality", () => {
  it("is told by each of its denominators", () => {
    const { logbook } = new Room(`${room}2026-01-31
  dam arrive praecox 40
2026-02-11
  dam arrive praecox 10
2026-02-21
  dam lose praecox 5 found
2026-02-28
  dam lose praecox 1 missing`).checked;
    const [from, to] = [dayOf("2026-02-01"), dayOf("2026-02-28")];
    const now = addedUp(stockBook(logbook, { from, to }));
    const before = addedUp(stockBook(logbook, { from: from - 28, to: from - 1 }));
    const { deaths, ofAll, ofMean, perThousand, against } = mortality(now, 28, before);
    const animalDays = 40 * 10 + 50 * 10 + 45 * 7 + 44;
    expect([deaths, ofAll]).toEqual([5, 5 / 50]);
    expect(ofMean).toBeCloseTo(5 / (animalDays / 28), 12);
    expect(perThousand!.best).toBeCloseTo(5000 / animalDays, 12);
    // Garwood 1936: of a count of 5 from 1.623 to 11.668.
    expect(perThousand!.low * animalDays).toBeCloseTo(1623.49, 1);
    expect(perThousand!.high * animalDays).toBeCloseTo(11668.33, 1);
    expect(isOutside(against) ? undefined : against.ratio).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("sexes and sizes", () => {
  it("are those of the last entry that tells them", () => {
    const ledger = new Room(`${room}2026-01-01
  dam arrive praecox 3.5.2
2026-01-08
  dam count praecox 10`).ledger("dam");
    const sexes = sexesBefore(courses(ledger)[0]!, dayOf("2026-02-01"))!;
    expect([sexes.males, sexes.females, sexes.unsexed]).toEqual([3, 5, 2]);
    expect(sexes.share!.best).toBe(3 / 8);
  });

  it("grow by the median of all pairs", () => {
    const made = new Room(`${room}2026-01-01
  dam arrive praecox 3
  dam condition praecox length 3 cm
2026-01-11
  dam condition praecox 3 length 35 mm weight 1200 mg
2026-01-21
  dam condition praecox length 4 cm`);
    const trends = measuredTrends(
      measuredBefore(made.ledger("dam"), made.tank("dam"), nameOf("praecox"), dayOf("2026-02-01")),
    );
    const [score, length, weight] = ["score", "length", "weight"].map(
      (what) => trends.find((each) => each.what === what)!,
    );
    expect([score!.latest, length!.latest, weight!.latest]).toEqual([3, 4, 1.2]);
    expect(isOutside(length!.slope) ? 0 : length!.slope.perDay).toBeCloseTo(0.05, 12);
    expect(weight!.slope).toEqual({ outside: "a trend needs readings on two days at least" });
  });
});
