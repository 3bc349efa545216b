import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { dutyOn } from "../../language/room/due.ts";
import { type DutyRecord, dutyRecords } from "../../language/room/duty-record.ts";
import { exceededIn } from "../../language/room/exceeded.ts";
import { purchases } from "../../language/room/spending.ts";
import { turnedTrends } from "../../language/room/turned-trends.ts";
import { waterUsed } from "../../language/room/water-used.ts";
import { Room } from "../support/room.ts";

/** What became of a period: duties, water, tests, trends, purchases. */

const period = (from: string, to: string) => ({ from: dayOf(from), to: dayOf(to) });
const march = period("2026-03-08", "2026-03-31");

const told = ({ duty, doneDays, inTime, late, open, daysOff }: DutyRecord): string =>
  [
    `${duty.act}: done ${doneDays.length}, in time ${inTime}`,
    ...late.map(({ due, done }) => `due ${isoOf(due).slice(5)} done ${isoOf(done).slice(5)}`),
    ...(open === undefined ? [] : [`open since ${isoOf(open.due).slice(5)}, ${open.late} late`]),
    ...(daysOff > 0 ? [`off on ${daysOff}`] : []),
  ].join("; ");

describe("duties of a period", () => {
  const records = (duties: string, log: string, of = march): string[] =>
    dutyRecords(
      new Room(`tank dam\n  volume 100 L\n  ${duties}\nfood flake\n  kind dry\n${log}`).checked.logbook,
      of,
    ).map(told);
  const done = (...days: string[]): string =>
    days.map((day) => `2026-03-${day}\n  dam change 30 %\n`).join("");

  it("are done in time, late, or not at all", () => {
    expect(
      records("every 7 d change 30 %", `${done("01", "08", "14", "23")}2026-03-31\n  dam note "x"`),
    ).toEqual(["change 30 %: done 3, in time 2; due 03-21 done 03-23; open since 03-30, 1 late"]);
  });

  it("that were due before are of the period in which they are done, and of each in which they are not", () => {
    const log = `${done("01")}2026-03-20\n  dam change 30 %`;
    expect(records("every 7 d change 30 %", log, period("2026-03-09", "2026-03-15"))).toEqual([
      "change 30 %: done 0, in time 0; open since 03-08, 7 late",
    ]);
    expect(records("every 7 d change 30 %", log, period("2026-03-16", "2026-03-22"))).toEqual([
      "change 30 %: done 1, in time 0; due 03-08 done 03-20",
    ]);
  });

  it("that fall due on the last day are open; too little does not count, twice a day is once", () => {
    expect(
      records(
        "every 7 d change 30 %",
        `${done("01")}2026-03-08\n  dam change 10 %`,
        period("2026-03-02", "2026-03-08"),
      ),
    ).toEqual(["change 30 %: done 0, in time 0; open since 03-08, 0 late"]);
    expect(
      records(
        "every 7 d change 30 %",
        `${done("01")}2026-03-08\n  dam change 30 %\n  dam change 30 %`,
        period("2026-03-02", "2026-03-08"),
      ),
    ).toEqual(["change 30 %: done 1, in time 1"]);
  });

  it("are not owed of a tank that is out of service", () => {
    expect(
      records("every 7 d change 30 %\n  until 2026-03-20", `${done("01")}2026-03-31\n  room note "x"`),
    ).toEqual(["change 30 %: done 0, in time 0"]);
  });

  it("of so many times are short, or over, on days", () => {
    const feeds =
      '2026-03-01\n  dam feed flake\n2026-03-02\n  dam feed flake\n2026-03-03\n  dam feed flake\n2026-03-31\n  dam note "x"';
    expect(records("at most 2 per 7 d feed dry", feeds, period("2026-03-01", "2026-03-07"))).toEqual([
      "feed dry: done 3, in time 3; off on 1",
    ]);
    // Two within a week were there up to 8 March; from the 10th on it is late.
    expect(records("at least 2 per 7 d feed dry", feeds, period("2026-03-08", "2026-03-14"))).toEqual([
      "feed dry: done 0, in time 0; off on 5",
    ]);
  });

  it("stand at the end of any period as they stand on its last day, and each day done is in time or late", () => {
    const acts = ["dam change 30 %", "dam change 10 %", "dam clean", "dam feed flake", 'dam note "x"'];
    const days = fc.array(fc.record({ day: fc.nat(40), act: fc.constantFrom(...acts) }), { maxLength: 25 });
    const room =
      "tank dam\n  volume 100 L\n  every 5 d change 20 %\n  every 1 d clean\n  at least 2 per 6 d feed dry\n  at most 1 per 3 d feed dry\nfood flake\n  kind dry\n";
    fc.assert(
      fc.property(days, fc.nat(30), fc.nat(12), (entries, first, length) => {
        const start = dayOf("2026-03-01");
        const log = entries.map(({ day, act }) => `${isoOf(start + day)}\n  ${act}\n`).join("");
        const { checked } = new Room(`${room}${log}2026-04-30\n  room note "x"\n`);
        const of = { from: start + first, to: start + first + length };
        for (const record of dutyRecords(checked.logbook, of)) {
          const { duty, doneDays, inTime, late, open, lateDays } = record;
          const ledger = checked.logbook.ledgerOf(duty.station);
          const last = dutyOn(ledger, duty, of.to);
          expect(inTime + late.length).toBe(doneDays.length);
          for (const each of late) expect(each.done).toBeGreaterThan(each.due);
          expect(lateDays.includes(of.to)).toBe(last.late > 0);
          if (duty.form.when === "every") {
            expect(open?.late).toBe(last.late >= 0 ? last.late : undefined);
            // A day that is late is followed by the day it is done late, or by the end.
            if (lateDays.length > 0) expect(late.length + Number(open !== undefined)).toBeGreaterThan(0);
          }
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe("water of a period", () => {
  const room = `water tap
  content nitrate 5 mg/L
water ro
tank dam
  volume 100 L
tank pail
system rack
  sump 20 L
tank r1
  volume 30 L
  system rack
tank r2
  volume 50 L
  system rack
group r = r1, r2
`;
  const uses = (log: string) =>
    waterUsed(new Room(`${room}2026-03-10\n${log}`).checked.logbook, march).map(
      ({ station, source, how, litres }) => `${station.name} ${source} ${how} ${litres}`,
    );

  it("is in litres by source and method, of fractions of what they are a fraction of", () => {
    expect(
      uses(
        "  dam change 30 %\n  dam change 10..20 L flow from ro\n  dam top-up 500 mL from ro\n  rack change 10 %\n  dam change 5 L from r1\n",
      ),
    ).toEqual([
      "dam tap batch 30",
      "dam ro flow 15",
      "dam ro top-up 0.5",
      "rack tap batch 10",
      "dam r1 batch 5",
    ]);
  });

  it("of a group is that of each of its tanks, and not known where a volume is not", () => {
    expect(uses("  @r change 50 %\n  @r change 4 L\n  pail change 30 %\n  pail change 3 L\n")).toEqual([
      "r1 tap batch 15",
      "r2 tap batch 25",
      "r1 tap batch 4",
      "r2 tap batch 4",
      "pail tap batch NaN",
      "pail tap batch 3",
    ]);
  });
});

describe("tests outside limits", () => {
  const room = "tank dam\n  volume 100 L\n  limits nitrate <= 25 mg/L\nremedy salt\n  target 100 mg/L\n";
  const exceeded = (log: string, today = "2026-03-31") =>
    exceededIn(new Room(room + log).checked.logbook, march, dayOf(today)).map(
      ({ is, changes, doses, next }) => ({
        is,
        changed: changes.days.map((day) => isoOf(day).slice(5)),
        fraction: Number(changes.fraction.toFixed(3)),
        doses: doses.map(({ day }) => isoOf(day).slice(5)),
        next: next === undefined ? undefined : `${next.low} ${next.against}`,
      }),
    );

  it("are told with what was done until the next test, of the day itself what stands below", () => {
    expect(
      exceeded(`2026-03-10
  dam change 20 %
  dam test nitrate 40
  dam change 50 %
2026-03-12
  dam change 50 %
  dam dose salt 1 g
2026-03-14
  dam test nitrate 12
  dam change 30 %
`),
    ).toEqual([
      { is: "above", changed: ["03-10", "03-12"], fraction: 0.75, doses: ["03-12"], next: "12 within" },
    ]);
  });

  it("without a test after, and at the limit: within", () => {
    expect(exceeded("2026-03-10\n  dam test nitrate 25\n2026-03-30\n  dam test nitrate >30\n")).toEqual([
      { is: "above", changed: [], fraction: 0, doses: [], next: undefined },
    ]);
  });
});

describe("trends that turned", () => {
  const tests = (values: readonly number[], from: number): string =>
    values
      .map((value, at) => `2026-03-${String(from + at).padStart(2, "0")}\n  dam test nitrate ${value}\n`)
      .join("");
  const turns = (before: readonly number[], now: readonly number[]) => {
    const log = `tank dam\n  volume 100 L\n${tests(before, 1)}${tests(now, 1 + before.length)}`;
    const days = now.length;
    return turnedTrends(new Room(log).checked.logbook, {
      from: dayOf("2026-03-01") + before.length,
      to: dayOf("2026-03-01") + before.length + days - 1,
    });
  };

  it("are those whose intervals do not meet", () => {
    const { turned, compared } = turns([10, 11, 12.1, 13, 14, 15.1, 16], [16, 15, 14.1, 13, 12, 10.9, 10]);
    expect(compared).toBe(1);
    expect(turned).toHaveLength(1);
    expect(turned[0]!.before.low).toBeGreaterThan(0);
    expect(turned[0]!.now.high).toBeLessThan(0);
  });

  it("are none where they may as well go on", () => {
    const { turned, compared, tested } = turns(
      [10, 11, 12.1, 13, 14, 15.1, 16],
      [17, 18.2, 19, 20, 21.1, 22, 23],
    );
    expect([turned.length, compared, tested]).toEqual([0, 1, 1]);
  });

  it("cannot be told of few tests", () => {
    const { turned, compared, tested } = turns([10, 12, 14], [14, 10, 6]);
    expect([turned.length, compared, tested]).toEqual([0, 0, 1]);
  });
});

it("purchases have the price and currency that are written, or none", () => {
  const { checked } = new Room(`food flake
  kind dry
remedy salt
  target 100 mg/L
2026-03-10
  room buy flake 100 g price 8 EUR
  room buy flake 50 g price 3..5 USD
  room buy salt 1 kg price 4
  room buy salt 1 kg
`);
  expect(
    purchases(checked.logbook, march).map(
      ({ name, is, price, currency }) => `${name} ${is} ${price} ${currency}`,
    ),
  ).toEqual(["flake food 8 EUR", "flake food 4 USD", "salt remedy 4 ", "salt remedy NaN "]);
});
