import fc from "fast-check";
import { expect, test } from "vitest";
import { dayTicks, scale, span, ticks, tickText } from "../../../extension/views/shared/chart/scale.ts";
import { dayOf } from "../../../language/book/dates.ts";

test("round figures: 1, 2 or 5 times a power of ten", () => {
  expect(ticks(0, 40, 4)).toEqual([0, 10, 20, 30, 40]);
  expect(ticks(23, 27, 3)).toEqual([24, 26]);
  expect(ticks(0, 0.5, 3)).toEqual([0, 0.2, 0.4]);
  expect(ticks(7.4, 7.7, 3)).toEqual([7.4, 7.5, 7.6, 7.7]);
});

test("figures beside a chart have as many places as their step", () => {
  expect(tickText(0.2, 0.1)).toBe("0.2");
  expect(tickText(20, 10)).toBe("20");
  expect(tickText(1, 0.25)).toBe("1.0");
});

test("round figures lie within the chart and are apart by one step", () => {
  const figure = fc.double({ min: -1e6, max: 1e6, noNaN: true });
  fc.assert(
    fc.property(
      figure,
      fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
      fc.integer({ min: 1, max: 12 }),
      (low, width, count) => {
        fc.pre(low + width > low);
        const found = ticks(low, low + width, count);
        // A figure is known to its last binary digit only, however narrow the chart.
        const slack = width * 1e-6 + 2 * Number.EPSILON * Math.max(Math.abs(low), Math.abs(low + width));
        for (const tick of found) expect(tick >= low - slack && tick <= low + width + slack).toBe(true);
        expect(found.length).toBeLessThanOrEqual(count + 1);
      },
    ),
  );
});

test("a chart spans its figures; zero is on it where it costs little", () => {
  expect(span([5, 10])).toEqual([0, 11]);
  const [low, high] = span([24.6, 25]);
  expect(low).toBeGreaterThan(24);
  expect(high).toBeGreaterThan(25);
  expect(span([])).toEqual([0, 1]);
  expect(span([7, 7])[0]).toBeLessThan(7);
  expect(span([1, Number.POSITIVE_INFINITY])[1]).toBeLessThan(2);
});

test("a scale puts figures on paper, upside down as paper is", () => {
  const y = scale(0, 40, 100, 0);
  expect(y(0)).toBe(100);
  expect(y(40)).toBe(0);
  expect(y(10)).toBe(75);
});

test("days of an axis: days, Mondays, months, a year named in January", () => {
  const from = dayOf("2026-03-01");
  expect(dayTicks(from, from + 3, 5).map(({ text }) => text)).toEqual(["1 Mar", "2 Mar", "3 Mar", "4 Mar"]);
  expect(dayTicks(from, from + 28, 5).map(({ text }) => text)).toEqual([
    "2 Mar",
    "9 Mar",
    "16 Mar",
    "23 Mar",
  ]);
  const year = dayTicks(dayOf("2025-10-15"), dayOf("2026-03-15"), 6);
  expect(year.map(({ text }) => text)).toEqual(["Nov", "Dec", "2026", "Feb", "Mar"]);
  expect(year.every(({ isMonth }) => isMonth)).toBe(true);
  expect(dayTicks(dayOf("2025-01-01"), dayOf("2026-01-01"), 5).map(({ text }) => text)).toEqual([
    "2025",
    "Apr",
    "Jul",
    "Oct",
    "2026",
  ]);
});
