import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { dailyDeaths } from "../../language/room/daily-deaths.ts";
import { daysToAlarm, isEnough, meanAnimals, rateOf, roomTest } from "../../language/room/loss-baseline.ts";
import { deathsOf } from "../../language/room/mortality.ts";
import { roomChart, spreadOf } from "../../language/room/room-losses.ts";
import { stockBook } from "../../language/room/stock-book.ts";
import { arbitraryLog, filesOfLog } from "../support/arbitrary-log.ts";
import { poisson, random } from "../support/random.ts";
import { Room } from "../support/room.ts";

/** What the room usually loses, and when it loses more. */

const definitions = `species praecox
tank dam
  volume 300 L
tank hill
  volume 300 L
`;
const arrivals = `2025-06-01
  dam arrive praecox 100
  hill arrive praecox 100
`;

/** Deaths, `2025-07-20 dam 1`, as a log. */
const lost = (...deaths: string[]): string =>
  deaths
    .map((death) => {
      const [day, tank, animals, how = "found"] = death.split(" ");
      return `${day}\n  ${tank} lose praecox ${animals} ${how}\n`;
    })
    .join("");

const usual = [
  "2025-07-20 dam 1",
  "2025-08-11 hill 1",
  "2025-09-14 dam 1",
  "2025-10-02 hill 1",
  "2025-11-05 dam 1",
];
const chartOf = (deaths: readonly string[], today: string, stock = arrivals) => {
  const room = new Room(`${definitions}${stock}${lost(...deaths)}${today}\n  dam note "looked"\n`, today);
  return roomChart(room.checked.logbook, room.today);
};
const outbreaksOf = (deaths: readonly string[], today: string) =>
  chartOf(deaths, today).outbreaks.map(({ alarms }) => alarms.map(({ day }) => isoOf(day)));

describe("what the room usually loses", () => {
  it("is the same after a slip in a year, which makes no chart of centuries", () => {
    const day = dayOf("2025-12-20");
    const known = chartOf(usual, "2025-12-20").baselineAt(day);
    for (const slip of ["0025-06-01", "9025-06-01"]) {
      const slipped = `${slip}\n  dam arrive praecox 7\n  dam lose praecox 7\n${arrivals}`;
      const chart = chartOf(usual, "2025-12-20", slipped);
      expect(chart.baselineAt(day)).toEqual(known);
      expect(chart.daily.died.length).toBeLessThan(51 * 365);
    }
    // What came then is there still.
    const early = chartOf(usual, "2025-12-20", `0025-06-01\n  dam arrive praecox 10\n${arrivals}`);
    expect(early.baselineAt(day).animalDays).toBeCloseTo(known.animalDays + 10 * 180, 9);
  });

  it("is of the 180 days that end 14 days before: deaths over animals times days", () => {
    const chart = chartOf(usual, "2025-12-20");
    const baseline = chart.baselineAt(dayOf("2025-12-20"));
    expect([isoOf(baseline.from), isoOf(baseline.to)]).toEqual(["2025-06-09", "2025-12-05"]);
    expect(baseline.days).toBe(180);
    expect(baseline.deaths).toBe(5);
    // 200 animals on 180 days, less those that died on the day they did: of 20 July 139 days to the end of 5 December, and so on.
    const gone = [139, 117, 83, 65, 31].reduce((sum, days) => sum + days, 0);
    expect(baseline.animalDays).toBeCloseTo(200 * 180 - gone, 9);
    expect(rateOf(baseline) * meanAnimals(baseline)).toBeCloseTo(5 / 180, 9);
  });

  it("is not told from fewer than 5 deaths, or fewer than 90 days", () => {
    const few = chartOf(usual.slice(1), "2025-12-20");
    expect(isEnough(few.baselineAt(dayOf("2025-12-20")))).toBe(false);
    expect(few.dayAt(dayOf("2025-12-20"))!.sum).toBe(0);
    const quick = ["2025-06-10 dam 1", "2025-06-20 hill 1", "2025-07-01 dam 2", "2025-07-12 hill 1"];
    const early = chartOf(quick, "2025-09-14");
    // 14 days before 13 September is 30 August, of which the reference does not know: 1 June to 29 August are 90 days.
    expect([12, 13].map((date) => isEnough(early.baselineAt(dayOf(`2025-09-${date}`))))).toEqual([
      false,
      true,
    ]);
  });

  it("knows nothing before the first animal, nor of a room without any", () => {
    expect(chartOf([], "2026-01-01", "").dayAt(dayOf("2026-01-01"))).toBeUndefined();
    expect(chartOf(usual, "2026-01-01").baselineAt(dayOf("2025-01-01"))).toMatchObject({
      days: 0,
      deaths: 0,
    });
  });

  it("leaves out culls, what is missing, and what the book did not know of", () => {
    const more = ["2025-10-10 dam 9 culled", "2025-10-11 dam 9 missing"];
    expect(chartOf([...usual, ...more], "2025-12-20").baselineAt(dayOf("2025-12-20")).deaths).toBe(5);
    const unknown = new Room(`${definitions}${lost("2025-10-10 dam 3")}`);
    const daily = dailyDeaths(unknown.checked.logbook, unknown.today);
    expect([daily.deaths.length, daily.unknown]).toEqual([0, 3]);
  });

  it("tells deaths that come in bunches from those that come one by one", () => {
    const today = "2025-12-20";
    const bunched = chartOf(["2025-08-11 hill 3", "2025-10-02 hill 3"], today);
    const single = chartOf(usual, today);
    const spread = (chart: typeof single) => spreadOf(chart, chart.baselineAt(dayOf(today)));
    // Five of 180 days: (5 (1 - 1/36)^2 + 175 / 36^2) x 36 / 179, nearly; of 6 on two days thrice that.
    expect(spread(single)).toBeCloseTo(((5 * (35 / 36) ** 2 + 175 / 36 ** 2) * 36) / 179, 1);
    expect(spread(bunched)).toBeGreaterThan(2.5);
  });
});

describe("when the room loses more", () => {
  const many = ["2025-12-20 dam 1", "2025-12-21 hill 1", "2025-12-22 dam 1"];

  it("by hand: three deaths on three days, where one in 36 is usual", () => {
    const chart = chartOf([...usual, ...many], "2025-12-22");
    const [first] = chart.outbreaks;
    const { k, h, sum, from, deaths, expected } = first!.first;
    // k about 5/180 x 2 / ln 3 = 0.0506; three less three times that are 2.85.
    expect(k).toBeCloseTo((5 / 180) * (2 / Math.log(3)), 2);
    expect(sum).toBeCloseTo(3 - 3 * k, 2);
    expect(sum).toBeGreaterThanOrEqual(h);
    expect(isoOf(from)).toBe("2025-12-20");
    expect(deaths.map(({ tank }) => tank.name)).toEqual(["dam", "hill", "dam"]);
    expect(expected).toBeCloseTo(3 * (5 / 180), 2);
  });

  it("is told at the day that does it, not the day before", () => {
    expect(outbreaksOf([...usual, ...many], "2025-12-22")).toEqual([["2025-12-22"]]);
    expect(outbreaksOf([...usual, ...many.slice(0, 2)], "2025-12-22")).toEqual([]);
  });

  it("as of a day knows nothing of what came later", () => {
    const room = new Room(`${definitions}${arrivals}${lost(...usual, ...many)}`);
    expect(roomChart(room.checked.logbook, dayOf("2025-12-21")).outbreaks).toEqual([]);
    expect(roomChart(room.checked.logbook, dayOf("2025-12-22")).outbreaks).toHaveLength(1);
  });

  it("is not told of as many where forty times the animals are", () => {
    // The expected of a day, and k, go with its animals.
    const more = "2025-12-10\n  dam arrive praecox 8000\n";
    const outbreaks = (arrived: string) => {
      const room = new Room(`${definitions}${arrivals}${lost(...usual)}${arrived}${lost(...many)}`);
      return roomChart(room.checked.logbook, room.today).outbreaks.length;
    };
    expect([outbreaks(""), outbreaks(more)]).toEqual([1, 0]);
  });

  it("is one outbreak until two weeks go by without an alarm; then it is another", () => {
    const going = [...many, "2025-12-28 hill 3", "2026-01-09 dam 3"];
    expect(outbreaksOf([...usual, ...going], "2026-01-31")).toEqual([
      ["2025-12-22", "2025-12-28", "2026-01-09"],
    ]);
    const again = [...many, "2026-01-05 hill 3"];
    expect(outbreaksOf([...usual, ...again], "2026-01-31")).toEqual([["2025-12-22"], ["2026-01-05"]]);
  });

  it("does not take an outbreak for what is usual", () => {
    const chart = chartOf([...usual, "2025-12-20 dam 30"], "2026-02-20");
    const baseline = chart.baselineAt(dayOf("2026-02-20"));
    const isOut = (before: string) => chart.isOut(dayOf("2025-12-20"), dayOf(before));
    expect([isOut("2025-12-20"), isOut("2025-12-21")]).toEqual([false, true]);
    // It ends on 5 February and begins on 10 August: the death of 20 July is before it.
    expect([baseline.deaths, baseline.days]).toEqual([4, 179]);
  });

  it("the false alarms that it states are those of the least threshold that keeps them to 1000 days", () => {
    const baseline = chartOf(usual, "2025-12-20").baselineAt(dayOf("2025-12-20"));
    const [usually, thrice] = [daysToAlarm(baseline, 1), daysToAlarm(baseline, roomTest.ratio)];
    expect(usually).toBeGreaterThanOrEqual(roomTest.runDays);
    expect(usually).toBeLessThan(1.35 * roomTest.runDays);
    expect(thrice).toBeLessThan(90);
  });
});

/** Rooms in which nothing happens but chance, and rooms in which something begins, by the chart itself. */
describe("rooms by chance", () => {
  const first = dayOf("2015-01-01");
  const roomOf = (seed: number, days: number, aDay: (day: number) => number) => {
    const uniform = random(seed);
    const lines = [`${definitions}2015-01-01\n  dam arrive praecox 100000\n`];
    for (let day = 1; day < days; day++) {
      const died = poisson(aDay(day), uniform);
      if (died > 0) lines.push(`${isoOf(first + day)}\n  dam lose praecox ${died} found\n`);
    }
    const room = new Room(lines.join(""));
    return roomChart(room.checked.logbook, first + days - 1);
  };

  it.each([0.1, 1])("at an even %f a day an alarm comes once in 500 to 1400 days, or nearly so", (aDay) => {
    // By a known rate it would be 1000 at least. The usual rate is estimated from 180 days, and where it comes out low alarms come oftener.
    const days = 3650;
    let [alarms, watched] = [0, 0];
    for (let seed = 1; seed <= 12; seed++) {
      const chart = roomOf(seed, days, () => aDay);
      for (const { alarms: told } of chart.outbreaks) alarms += told.length;
      for (let day = first; day < first + days; day++) if (chart.dayAt(day)!.h > 0) watched++;
    }
    expect(watched).toBeGreaterThan(12 * 3000);
    expect(watched / alarms).toBeGreaterThan(380);
    expect(watched / alarms).toBeLessThan(1500);
  });

  it("ten times as many are told within a week, nearly always", () => {
    const begins = 400;
    let told = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const chart = roomOf(seed, begins + 8, (day) => (day < begins ? 0.2 : 2));
      if (chart.outbreaks.some(({ alarms }) => alarms.some(({ day }) => day >= first + begins))) told++;
    }
    expect(told).toBeGreaterThan(36);
  });
});

describe("whatever a log says", () => {
  it("the days add up to what the book of the stock has", () => {
    fc.assert(
      fc.property(arbitraryLog, (log) => {
        const room = new Room("");
        for (const [path, text] of filesOfLog(log)) room.checked.set(path, text);
        const { logbook } = room.checked;
        const last = logbook.dayGroups.at(-1)?.day;
        if (last === undefined) return;
        const until = last + 3;
        const { first, animalDays, died, unknown, deaths } = dailyDeaths(logbook, until);
        const rows = stockBook(logbook, { from: first, to: until });
        const sum = (of: Iterable<number>) => [...of].reduce((all, each) => all + each, 0);
        expect(sum(animalDays)).toBeCloseTo(sum(rows.map(({ sums }) => sums.animalDays)), 6);
        expect(sum(died) + unknown).toBeCloseTo(sum(rows.map(({ sums }) => deathsOf(sums))), 9);
        expect(sum(died)).toBeCloseTo(sum(deaths.map(({ animals }) => animals)), 9);
      }),
      { numRuns: 60 },
    );
  });
});
