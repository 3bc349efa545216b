import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import {
  exposureHours,
  highestOn,
  lengthDays,
  levelOn,
  pointsOf,
  type Stretch,
  timesAbove,
  timesWithin,
} from "../../language/room/concentration-curve.ts";
import { treatmentsOf } from "../../language/room/treatments.ts";
import { Room } from "../support/room.ts";

const first = dayOf("2026-03-01");
const stretch = (from: number, to: number, level: number): Stretch => ({ from, to, level, isPlanned: false });

describe("worked by hand", () => {
  // 4 mg/L with a half-life of 2 days. After 4 days 4 x 2^(-4/2) = 1 mg/L. The area from 4 to 1 is (4 - 1) x h / ln 2 = 3 x 2 / 0.693147 =
  // 8.65617 mg d/L, times 24 h: 207.748 mg h/L.
  const falling = [stretch(0, 4, 4)];
  test("a level that halves in two days", () => {
    expect(levelOn(falling, 4, 2)).toBeCloseTo(1, 12);
    expect(exposureHours(falling, 2)).toBeCloseTo(207.748, 3);
  });

  // It crosses 2 mg/L after one half-life, on day 2; it is between 1.5 and 3 from 2 log2(4/3) = 0.83007 to 2 log2(4/1.5) = 2.83007.
  test("when it is within a band, and above a ceiling", () => {
    expect(timesAbove(falling, 2, 2)).toEqual([{ from: 0, to: 2 }]);
    const [within] = timesWithin(falling, 2, 1.5, 3);
    expect(within!.from).toBeCloseTo(0.83007, 5);
    expect(within!.to).toBeCloseTo(2.83007, 5);
  });

  // Without a half-life 2 mg/L for 3 days and, after half the water is new, 1 mg/L for 2 days: (2 x 3 + 1 x 2) x 24 = 192 mg h/L.
  const even = [stretch(0, 3, 2), stretch(3, 5, 1)];
  test("a level that stays", () => {
    expect(exposureHours(even, Number.NaN)).toBeCloseTo(192, 9);
    expect(lengthDays(timesWithin(even, Number.NaN, 1.5, 2.5))).toBe(3);
    // Both ends count, and what touches is one.
    expect(timesWithin(even, Number.NaN, 1, 2)).toEqual([{ from: 0, to: 5 }]);
    // As high as the ceiling is not above it.
    expect(timesAbove(even, Number.NaN, 2)).toEqual([]);
    expect(highestOn(even)).toEqual({ level: 2, time: 0 });
  });

  test("what is not known is within nothing, and leaves no figure", () => {
    const lost = [stretch(0, 1, 2), stretch(1, 2, Number.NaN)];
    expect(exposureHours(lost, 2)).toBeNaN();
    expect(timesWithin(lost, Number.NaN, 0, 9)).toEqual([{ from: 0, to: 1 }]);
    expect(highestOn(lost)).toEqual({ level: 2, time: 0 });
    expect(pointsOf(lost, Number.NaN).every(({ value }) => Number.isFinite(value))).toBe(true);
  });
});

// Published washout and dilution (reference set 08): the curve of a log against it.
describe("published dilution", () => {
  const room = (entries: string): Room =>
    new Room(
      `remedy r\n  target 40 mg/L\ntank q1\n  volume 90 L\n2026-03-01\n  q1 dose r 40 mg/L\n${entries}\n`,
    );
  const levelAfter = (entries: string): number => {
    const log = room(entries);
    const [course] = treatmentsOf(log.checked.logbook, log.ledger("q1"), log.today);
    return levelOn(course!.curve, log.today + 1, Number.NaN);
  };

  // Steffensen 1989, eq. 5, as DIL-015: 2 L/min for 20 min through 90 L replace 1 - exp(-40/90) = 0.3588 of it.
  test("DIL-015: a flow of 40 L through 90 L leaves 64.12 %", () => {
    expect(1 - levelAfter("2026-03-02\n  q1 change 40 L flow") / 40).toBeCloseTo(0.3588, 4);
  });
  // CDC 1994, MMWR 43(RR-13), Table S3-1, as DIL-001: one exchange an hour takes 90 % in 138 min, which is 138/60 volumes of flow.
  test("DIL-001: 138/60 volumes of flow leave 10 %", () => {
    expect(levelAfter(`2026-03-02\n  q1 change ${(138 / 60) * 90} L flow`) / 40).toBeCloseTo(0.1, 3);
  });
  // DIL-027: three changes of 30 % renew 1 - 0.7^3 = 0.657.
  test("DIL-027: three changes of 30 % renew 65.7 %", () => {
    const changes = ["02", "03", "04"].map((day) => `2026-03-${day}\n  q1 change 30 %`).join("\n");
    expect(1 - levelAfter(changes) / 40).toBeCloseTo(0.657, 6);
  });
});

interface Event {
  readonly minute: number;
  readonly is: "dose" | "batch" | "flow";
  readonly size: number;
}

const events = fc.uniqueArray(
  fc.record({
    minute: fc.integer({ min: 0, max: 8 * 1440 - 1 }),
    is: fc.constantFrom("dose" as const, "batch" as const, "flow" as const),
    size: fc.integer({ min: 1, max: 95 }),
  }),
  { minLength: 1, maxLength: 12, selector: ({ minute }) => minute },
);

/** The same by small steps of time, and of a flow by small steps of its litres: nothing of what is tested is used. */
function integrate(
  all: readonly Event[],
  halfLifeDays: number,
  end: number,
): { levels: Map<number, number>; area: number; within: number; above: number; most: number } {
  const decayPerMinute = Number.isNaN(halfLifeDays) ? 0 : Math.LN2 / (halfLifeDays * 1440);
  const levels = new Map<number, number>();
  let level = 0;
  let [area, within, above, most] = [0, 0, 0, 0];
  const begin = all.find(({ is }) => is === "dose")?.minute ?? end;
  for (let minute = begin; minute < end; minute++) {
    const event = all.find((each) => each.minute === minute);
    if (event?.is === "dose") level += event.size / 10;
    if (event?.is === "batch") level -= (level * event.size) / 100;
    if (event?.is === "flow") {
      // `size` litres through 50 L, in 20 thousand drops; each takes what the middle of its passing holds.
      const drop = event.size / 20_000 / 50;
      for (let each = 0; each < 20_000; each++) level -= (level - (level * drop) / 2) * drop;
    }
    levels.set(minute, level);
    most = Math.max(most, level);
    const next = level - decayPerMinute * (level - (decayPerMinute * level) / 2);
    const middle = (level + next) / 2;
    area += middle / 60;
    if (middle >= 1 && middle <= 4) within++;
    if (middle > 5) above++;
    level = next;
  }
  return { levels, area, within, above, most };
}

test("the curve is what small steps of time make, for any doses, changes and half-life", () => {
  const halfLife = fc.oneof(
    fc.constant(Number.NaN),
    fc.integer({ min: 6, max: 240 }).map((hours) => hours / 24),
  );
  fc.assert(
    fc.property(events, halfLife, (some, halfLifeDays) => {
      const all = [...some].sort((a, b) => a.minute - b.minute);
      const start = all.find(({ is }) => is === "dose")?.minute;
      fc.pre(start !== undefined);
      const text = (event: Event): string =>
        event.is === "dose"
          ? `dose r ${event.size / 10} mg/L`
          : event.is === "batch"
            ? `change ${event.size} %`
            : `change ${event.size} L flow`;
      const lines = all.map((event) => {
        const day = 1 + Math.floor(event.minute / 1440);
        const [hour, minute] = [Math.floor((event.minute % 1440) / 60), event.minute % 60];
        const clock = `${String(hour).padStart(2, "0")}:${String(minute).padStart(2, "0")}`;
        return `2026-03-${String(day).padStart(2, "0")}\n  ${clock} q1 ${text(event)}`;
      });
      const stated = Number.isNaN(halfLifeDays) ? "" : `  half-life ${halfLifeDays * 24} h\n`;
      const log = new Room(
        `remedy r\n  target 1..4 mg/L; ceiling 5 mg/L\n  repeat 99 times every 30 d\n${stated}tank q1\n  volume 50 L\n${lines.join("\n")}\n2026-03-08\n  q1 note "end"\n`,
      );
      const [course, more] = treatmentsOf(log.checked.logbook, log.ledger("q1"), log.today);
      expect(more).toBeUndefined();
      const curve = course!.curve.filter(({ isPlanned }) => !isPlanned);
      const end = 8 * 1440;
      const exact = integrate(all, halfLifeDays, end);
      for (const [minute, level] of exact.levels) {
        // A minute of an event holds the level before it and after it: half a minute later is told by the curve alone.
        if (minute % 97 !== 0 && !all.some((event) => event.minute === minute)) continue;
        const half = Number.isNaN(halfLifeDays) ? 1 : 2 ** (-1 / 2880 / halfLifeDays);
        expect(levelOn(curve, first + (minute + 0.5) / 1440, halfLifeDays)).toBeCloseTo(level * half, 4);
      }
      expect(exposureHours(curve, halfLifeDays) / Math.max(exact.area, 1e-9)).toBeCloseTo(1, 3);
      // A crossing falls within a minute: each may be a minute out.
      const minutes = (days: number): number => days * 1440;
      const slack = 2 * all.length + 2;
      expect(
        Math.abs(minutes(lengthDays(timesWithin(curve, halfLifeDays, 1, 4))) - exact.within),
      ).toBeLessThan(slack);
      expect(Math.abs(minutes(lengthDays(timesAbove(curve, halfLifeDays, 5))) - exact.above)).toBeLessThan(
        slack,
      );
      expect(highestOn(curve)!.level).toBeCloseTo(exact.most, 4);
    }),
    { numRuns: 60 },
  );
});
