import { expect, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { parameterOf } from "../../language/book/parameters.ts";
import { type WaterTrend, waterTrend } from "../../language/room/water.ts";
import { levelAhead, levelCourse } from "../../language/room/water-course.ts";
import { lastDay, logbookOf } from "../support/marked.ts";

/** Two mg/L a day are made; half of the water is changed each week with water that holds none. The steady state before a change is 28. */
const weeks = ["03-01", "03-08", "03-15", "03-22", "03-29"];
const log = `room "Shed"
  as-of last-entry
water ro
  content nitrate 0 mg/L
tank dam
  volume 100 L
  limits nitrate <= 40 mg/L
  every 7 d change 50 %
${weeks.map((day) => `2026-${day}\n  dam test nitrate 28\n  dam change 50 %`).join("\n")}
2026-03-31
  dam note "today"
`;

function trendOf(text: string): { trend: WaterTrend; day: number } {
  const checked = logbookOf(text);
  const day = lastDay(checked);
  const tank = checked.book.tank("dam")!;
  const trend = waterTrend(checked.logbook.ledgerOf(tank), parameterOf("nitrate"), tank, day);
  return { trend: trend!, day };
}

test("the course falls at each change by its share and rises by what is made", () => {
  const { trend, day } = trendOf(log);
  const course = levelCourse(trend, day);
  const march22 = dayOf("2026-03-22");
  const around = course.filter(({ timeDays }) => Math.abs(timeDays - march22) < 0.001).map(({ mgL }) => mgL);
  expect(Math.max(...around)).toBeCloseTo(28, 3);
  expect(Math.min(...around)).toBeCloseTo(14, 3);
});

test("the course ends at the level of today", () => {
  const { trend, day } = trendOf(log);
  const last = levelCourse(trend, day).at(-1)!;
  expect(last.timeDays).toBe(day + 1);
  expect(last.mgL).toBe(trend.level!.best);
  expect(last.mgL).toBeCloseTo(14 + 2 * 3, 3);
});

test("ahead it goes on so: changes when they are due, and two a day between", () => {
  const { trend, day } = trendOf(log);
  const ahead = levelAhead(trend, day, 20);
  expect(ahead[0]).toMatchObject({ timeDays: day + 1, best: trend.level!.best });
  const due = dayOf("2026-04-05");
  const around = ahead.filter(({ timeDays }) => Math.abs(timeDays - due) < 0.001).map(({ best }) => best);
  expect(around).toHaveLength(2);
  expect(around[0]).toBeCloseTo(28, 3);
  expect(around[1]).toBeCloseTo(14, 3);
  expect(ahead.at(-1)!.timeDays).toBe(day + 21);
  for (const { best, low, high } of ahead) expect(low <= best && best <= high).toBe(true);
});

test("a change that is overdue comes at once, but is not done yet", () => {
  const { trend, day } = trendOf(log.replace("2026-03-31", "2026-04-09"));
  const [now, then] = levelAhead(trend, day, 20);
  expect(now!.best).toBeCloseTo(trend.level!.best, 9);
  expect(then!.best).toBeCloseTo(trend.level!.best / 2, 3);
});

test("without a duty nothing is changed ahead", () => {
  const { trend, day } = trendOf(log.replace("  every 7 d change 50 %\n", ""));
  const ahead = levelAhead(trend, day, 20);
  expect(ahead).toHaveLength(2);
  expect(ahead[1]!.best - ahead[0]!.best).toBeCloseTo(2 * 20, 2);
});

test("without a production there is neither course nor way ahead", () => {
  const { trend, day } = trendOf("tank dam\n  volume 100 L\n2026-03-01\n  dam test nitrate 5\n");
  expect(levelCourse(trend, day)).toEqual([]);
  expect(levelAhead(trend, day, 20)).toEqual([]);
});
