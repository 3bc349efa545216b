import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { clockOf, isoOf } from "../../language/book/dates.ts";
import { isOutside } from "../../language/science/result.ts";
import { Room } from "../support/room.ts";

/**
 * Water through whole logs, against water that is carried from minute to minute: a tank drained and filled, run through drop by drop,
 * with what breaks down in it and what is made in it.
 */

const firstDay = 20_514; // 2026-03-02
/** A whole number of minutes as a time of day. */
const at = (time: number): string => `${isoOf(time)}\n  ${clockOf(time)}`;

/** Milligrams of one thing in some litres of water that is well mixed. */
class Vessel {
  mg = 0;
  litres: number;

  constructor(litres: number) {
    this.litres = litres;
  }

  /** Out with some, then in with as much of another water. */
  batch(litres: number, sourceMgL = 0): void {
    const full = this.litres;
    this.mg -= (this.mg / full) * litres;
    this.mg += sourceMgL * litres;
  }

  /** In and out at once, in steps so small that it does not matter (trapezoidal rule). */
  flow(litres: number, sourceMgL = 0): void {
    const steps = 4000;
    const share = litres / steps / this.litres;
    for (let step = 0; step < steps; step++)
      this.mg = (this.mg * (1 - share / 2) + sourceMgL * (litres / steps)) / (1 + share / 2);
  }

  /** Some days of breaking down, by a small share of it every few minutes. */
  decay(days: number, halfLifeDays: number): void {
    const steps = Math.max(1, Math.ceil(days * 500));
    const share = ((days / steps) * Math.LN2) / halfLifeDays;
    for (let step = 0; step < steps; step++) this.mg *= (1 - share / 2) / (1 + share / 2);
  }
}

type Act =
  | { readonly is: "dose"; readonly mg: number }
  | { readonly is: "batch" | "flow"; readonly litres: number }
  | { readonly is: "percent"; readonly percent: number }
  | { readonly is: "top-up"; readonly litres: number };

const act: fc.Arbitrary<Act> = fc.oneof(
  fc.record({ is: fc.constant("dose" as const), mg: fc.integer({ min: 1, max: 400 }) }),
  fc.record({ is: fc.constant("batch" as const), litres: fc.integer({ min: 1, max: 80 }) }),
  fc.record({ is: fc.constant("flow" as const), litres: fc.integer({ min: 1, max: 200 }) }),
  fc.record({ is: fc.constant("percent" as const), percent: fc.integer({ min: 1, max: 100 }) }),
  fc.record({ is: fc.constant("top-up" as const), litres: fc.integer({ min: 1, max: 9 }) }),
);

describe("a remedy in one tank", () => {
  it("is what fine steps make of it, after any doses, changes, flows, top-ups and days", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(act, fc.integer({ min: 1, max: 4000 })), { minLength: 1, maxLength: 12 }),
        fc.option(fc.integer({ min: 1, max: 20 }), { nil: undefined }),
        (acts, halfLifeDays) => {
          const tank = new Vessel(90);
          const lines: string[] = [];
          let minutes = 0;
          for (const [what, pause] of acts) {
            if (halfLifeDays !== undefined) tank.decay(pause / 1440, halfLifeDays);
            minutes += pause;
            const line = (text: string): number => lines.push(`${at(firstDay + minutes / 1440)} dam ${text}`);
            if (what.is === "dose") {
              tank.mg += what.mg;
              line(`dose r ${what.mg} mg`);
            } else if (what.is === "percent") {
              tank.batch((what.percent / 100) * 90);
              line(`change ${what.percent} %`);
            } else if (what.is === "top-up") line(`top-up ${what.litres} L`);
            else {
              tank[what.is](what.litres);
              line(`change ${what.litres} L ${what.is}`);
            }
          }
          const half = halfLifeDays === undefined ? "" : `  half-life ${halfLifeDays} d\n`;
          const room = new Room(`remedy r\n${half}tank dam\n  volume 90 L\n${lines.join("\n")}`);
          const course = room.ledger("dam").solutes!.all(firstDay + minutes / 1440)[0];
          expect(course?.concentration ?? 0).toBeCloseTo(tank.mg / 90, 5);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("is not thinned by a top-up, which replaces what evaporated", () => {
    const log = "remedy r\ntank dam\n  volume 100 L\n2026-03-01\n  dam dose r 200 mg\n  dam top-up 8 L\n";
    expect(new Room(log).remedy("dam", "r")).toBe(2);
  });

  it("is halved in each half-life, and asked twice is the same", () => {
    const room = new Room(
      'remedy r\n  half-life 3 d\ntank dam\n  volume 100 L\n2026-03-01\n  08:00 dam dose r 200 mg\n2026-03-10\n  dam note "x"',
    );
    expect(room.remedy("dam", "r", "2026-03-04 08:00")).toBeCloseTo(1, 12);
    expect(room.remedy("dam", "r", "2026-03-10 08:00")).toBeCloseTo(0.25, 12);
    expect(room.remedy("dam", "r", "2026-03-04 08:00")).toBeCloseTo(1, 12);
  });
});

describe("water that is shared", () => {
  const rack = `remedy r
system rack-water
  sump 90 L
${Array.from({ length: 12 }, (_, tank) => `tank r${tank + 1}\n  volume 24 L\n  system rack-water`).join("\n")}
tank dam
  volume 300 L
group rack = r1 .. r12
group some = r1 .. r3, dam
2026-03-01
`;
  const all = 90 + 12 * 24;

  it("is changed in one tank of twelve by that tank's share", () => {
    expect(new Room(`${rack}  r1 change 50 %`).changes("r1")).toEqual([12 / all]);
    expect(new Room(`${rack}  r1 change 12 L`).changes("r7")).toEqual([12 / all]);
  });

  it("is changed as a whole where the system is named", () => {
    expect(new Room(`${rack}  rack-water change 30 %`).changes("r1")).toEqual([0.3]);
    expect(new Room(`${rack}  rack-water change 126 L`).changes("r1")).toEqual([126 / all]);
  });

  it("is changed once by an entry for a group, by all its tanks together", () => {
    expect(new Room(`${rack}  @rack change 50 %`).changes("r1")).toEqual([(12 * 12) / all]);
    expect(new Room(`${rack}  @rack change 6 L`).changes("r1")).toEqual([(12 * 6) / all]);
    const some = new Room(`${rack}  @some change 50 %`);
    expect(some.changes("r1")).toEqual([(3 * 12) / all]);
    expect(some.changes("dam")).toEqual([0.5]);
  });

  it("is flowed through by its volume over all of it", () => {
    expect(new Room(`${rack}  r1 change ${all} L flow`).changes("r1")[0]).toBeCloseTo(1 - Math.exp(-1), 12);
  });

  it("is dosed by all tanks of a group together, once", () => {
    const room = new Room(`${rack}  @rack dose r 1 g`);
    expect(room.remedy("r5", "r")).toBeCloseTo(12_000 / all, 12);
    expect(room.ledger("r5").solutes!.all(room.today)[0]!.given).toBe(1);
    // A concentration is that of all the water, however many of its tanks are named.
    expect(new Room(`${rack}  @rack dose r 2 mg/L`).remedy("r5", "r")).toBeCloseTo(2, 12);
    expect(new Room(`${rack}  r5 dose r 378 mg`).remedy("r1", "r")).toBeCloseTo(1, 12);
  });

  it("is topped up by each tank of a group", () => {
    const { exchanges } = new Room(`${rack}  @rack top-up 2 L`).ledger("r1");
    expect([exchanges.length, exchanges.second[0]]).toEqual([1, 24]);
  });

  it("has one reading where a group is tested", () => {
    expect(new Room(`${rack}  @rack test nitrate 20`).readings("r1", "nitrate")).toEqual(["20"]);
  });

  it("is what fine steps make of it: twelve tanks and a sump, one pump", () => {
    // Between two acts the pump mixes all; an act is on one tank.
    const room = new Room(`${rack}  08:00 rack-water dose r 1 g
  09:00 r1 change 50 %
  10:00 @rack change 10 %
  11:00 rack-water change 100 L flow
  12:00 r12 change 24 L`);
    const system = new Vessel(all);
    system.mg = 1000;
    system.batch(12);
    system.batch(12 * 2.4);
    system.flow(100);
    system.batch(24);
    expect(room.remedy("r3", "r", "2026-03-01 13:00")).toBeCloseTo(system.mg / all, 6);
  });

  it("is not known while the volume of one of its tanks is not", () => {
    const room = new Room(`${rack.replace("tank r2\n  volume 24 L", "tank r2")}  r1 change 50 %`);
    expect(room.changes("r1")).toEqual([]);
    expect(room.findings("definition/volume")).toHaveLength(1);
  });
});

describe("without a volume", () => {
  it("a tank of its own is followed by fractions, and not by litres", () => {
    const log = "tank dam\n2026-03-01\n  dam change 30 %\n  dam change 30 L\n  dam change 50 % flow";
    const changes = new Room(log).changes("dam");
    expect(changes).toEqual([0.3, expect.closeTo(1 - Math.exp(-0.5), 12)]);
  });

  it("a top-up from a source that holds something leaves the trend as it is", () => {
    const days = [0, 7, 14, 21].map(
      (day) => `${isoOf(firstDay + day)}\n  dam test nitrate ${10 + day}\n  dam top-up 3 L`,
    );
    const { production } = new Room(
      `water tap\n  content nitrate 6 mg/L\ntank dam\n${days.join("\n")}`,
    ).trend("dam", "nitrate");
    expect(isOutside(production) ? production.outside : production.rateMgLDay).toBeCloseTo(1, 9);
  });
});

describe("what is produced", () => {
  /** A tank that makes `g` mg/L a day, changed and topped up with water that holds some itself, and tested now and then. */
  function logged(
    g: number,
    plan: readonly { days: number; percent: number; topUpL: number; first: boolean }[],
  ) {
    const source = 6;
    let level = 12;
    let day = firstDay;
    const lines: string[] = [];
    for (const { days, percent, topUpL, first } of plan) {
      level += g * days;
      day += days;
      const change = (): string => {
        level = level * (1 - percent / 100) + (source * percent) / 100;
        return `  dam change ${percent} %`;
      };
      const test = (): string => `  dam test nitrate ${level.toFixed(9)}`;
      // The order of lines is the order of time.
      const both = first ? [change(), test()] : [test(), change()];
      level += (source * topUpL) / 200;
      lines.push(isoOf(day), ...both, `  dam top-up ${topUpL} L`);
    }
    return { log: lines.join("\n"), level, day };
  }

  const plan = fc.array(
    fc.record({
      days: fc.integer({ min: 1, max: 12 }),
      percent: fc.integer({ min: 5, max: 60 }),
      topUpL: fc.integer({ min: 1, max: 5 }),
      first: fc.boolean(),
    }),
    { minLength: 4, maxLength: 9 },
  );
  const room = `water tap\n  content nitrate 6 mg/L\ntank dam\n  volume 200 L\n  limits nitrate <= 60 mg/L\n`;

  it("is found from any log with changes and top-ups in it, and so is the level of today", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.2, max: 2, noNaN: true }), plan, (g, steps) => {
        const { log, level } = logged(g, steps);
        const { production, level: today } = new Room(room + log).trend("dam", "nitrate");
        if (isOutside(production) || today === undefined) throw new Error("no production");
        expect(production.rateMgLDay).toBeCloseTo(g, 6);
        // The level at the end of the day.
        expect(today.best).toBeCloseTo(level + g, 5);
      }),
      { numRuns: 80 },
    );
  });

  it("leads to the limit on the day that walking on day by day leads to", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 3, noNaN: true }),
        plan,
        fc.integer({ min: 3, max: 14 }),
        fc.integer({ min: 5, max: 40 }),
        (g, steps, everyDays, percent) => {
          const { log, level } = logged(g, steps);
          const stated = room.replace("limits", `every ${everyDays} d change ${percent} %\n  limits`);
          const trend = new Room(stated + log).trend("dam", "nitrate");
          // The last change of the log was today; the next is due so many days after it.
          let walked = level + g;
          let days = Number.POSITIVE_INFINITY;
          const step = 1 / 64;
          for (let passed = 0; passed < 3000; passed += step) {
            if (walked > 60) {
              days = passed;
              break;
            }
            walked += g * step;
            const since = passed + step + 1;
            if (walked <= 60 && Math.abs(since % everyDays) < 1e-9)
              walked = walked * (1 - percent / 100) + (6 * percent) / 100;
          }
          if (Number.isFinite(days)) expect(Math.abs(trend.forecast!.days - days)).toBeLessThan(0.05);
          else expect(trend.forecast!.days).toBe(Number.POSITIVE_INFINITY);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("says what change would bring it back, and that change does", () => {
    const steps = [4, 4, 4, 4, 4].map((days) => ({ days, percent: 10, topUpL: 1, first: false }));
    const { log } = logged(6, steps);
    const { changeBack, level } = new Room(room + log).trend("dam", "nitrate");
    if (changeBack === undefined || isOutside(changeBack)) throw new Error("no change would do");
    expect(level!.best * (1 - changeBack) + 6 * changeBack).toBeCloseTo(60, 9);
  });

  it("downwards leads to the lower end of a range", () => {
    const weeks = [8, 7.4, 6.8, 6.2, 5.6].map(
      (kh, week) => `${isoOf(firstDay + 7 * week)}\n  dam test KH ${kh}`,
    );
    const trend = new Room(`tank dam\n  volume 100 L\n  limits KH 4..10 dKH\n${weeks.join("\n")}`).trend(
      "dam",
      "KH",
    );
    expect(trend.side).toBe("floor");
    // 0.6 degrees a week; at the end of the last day a seventh of that less than read.
    expect(trend.forecast!.days).toBeCloseTo((5.6 - 4) / (0.6 / 7) - 1, 6);
  });

  it("counts a censored reading for what it is", () => {
    const readings = ["<5", "<5", "7", "9", "11", "13"];
    const weeks = readings.map((value, week) => `${isoOf(firstDay + 7 * week)}\n  dam test nitrate ${value}`);
    const { production } = new Room(`tank dam\n  volume 100 L\n${weeks.join("\n")}`).trend("dam", "nitrate");
    if (isOutside(production)) throw new Error(production.outside);
    expect(production.rateMgLDay).toBeCloseTo(2 / 7, 2);
  });
});

describe("source water", () => {
  const waters =
    "water tap\n  content nitrate 6..8 mg/L\nwater ro\n  content nitrate 0 mg/L\ntank dam\n  volume 100 L\n2026-03-01\n";
  const sources = (entry: string): number[] =>
    new Room(`${waters}  dam test nitrate 20\n${entry}`)
      .trend("dam", "nitrate")
      .exchanges.map((each) => each.sourceMgL);

  it("is the one named, else the first defined; of a range it counts its middle", () => {
    expect(sources("  dam change 30 %")).toEqual([7]);
    expect(sources("  dam change 30 % from ro")).toEqual([0]);
    // What is not defined is computed as pure, and said so.
    expect(sources("  dam change 30 % from rain")).toEqual([0]);
  });

  it("defined twice is the first", () => {
    const log = `water tap\n  content nitrate 6 mg/L\nwater tap\n  content nitrate 9 mg/L\n${waters.slice(waters.indexOf("tank"))}  dam test nitrate 20\n  dam change 30 %`;
    expect(new Room(log).trend("dam", "nitrate").exchanges[0]!.sourceMgL).toBe(6);
  });
});
