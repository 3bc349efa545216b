import { expect, test } from "vitest";
import { type Layout, layOut, margin, type Plot } from "../../../extension/views/shared/chart/plot.ts";

const nothing: Plot = {
  from: 0,
  to: 100,
  now: 80,
  readings: [],
  limit: null,
  target: null,
  course: [],
  ahead: [],
  changes: [],
  doses: [],
};
const width = 400;
const height = 100;
const drawn = (plot: Partial<Plot>): Layout => layOut({ ...nothing, ...plot }, width, height);
const looks = ({ shapes }: Layout): string[] => shapes.map(({ look }) => look);
const shape = ({ shapes }: Layout, look: string): string => {
  const found = shapes.find((each) => each.look === look);
  if (found === undefined || !("d" in found)) throw new Error(`nothing looks like ${look}`);
  return found.d;
};
/** The numbers of a path. */
const numbers = (d: string): number[] => d.match(/-?[\d.]+/g)!.map(Number);

test("a plain reading is a dot at its day and value", () => {
  const layout = drawn({
    readings: [
      { time: 50, low: 20, high: 20, isOutside: false },
      { time: 60, low: 40, high: 40, isOutside: false },
    ],
  });
  const [x, y] = numbers(shape(layout, "reading"));
  expect(x! + 3).toBeCloseTo(layout.x(50), 0);
  expect(y).toBeCloseTo(layout.y(20), 0);
});

test("a reading outside its limit has another shape, not only another colour", () => {
  const limit = { low: null, high: 40 };
  const inside = drawn({ limit, readings: [{ time: 50, low: 30, high: 30, isOutside: false }] });
  const outside = drawn({ limit, readings: [{ time: 50, low: 50, high: 50, isOutside: true }] });
  expect(shape(inside, "reading")).toContain("a");
  expect(shape(outside, "reading outside")).not.toContain("a");
});

test("a reading below what the test can tell covers all that it may be", () => {
  const layout = drawn({
    readings: [
      { time: 50, low: 0, high: 5, isOutside: false },
      { time: 60, low: 10, high: 10, isOutside: false },
    ],
  });
  const [, top, , bottom] = numbers(shape(layout, "reading may-be"));
  expect(top).toBeCloseTo(layout.y(5), 0);
  expect(bottom).toBeCloseTo(layout.y(0), 0);
});

test("one above what the test can tell reaches to the edge, with an arrow", () => {
  const layout = drawn({
    readings: [
      { time: 50, low: 100, high: null, isOutside: false },
      { time: 60, low: 10, high: 10, isOutside: false },
    ],
  });
  const [, top, , bottom] = numbers(shape(layout, "reading may-be"));
  expect(top).toBeCloseTo(margin.top, 0);
  expect(bottom).toBeCloseTo(layout.y(100), 0);
});

test("limits are always in sight, with their figures beside them", () => {
  const layout = drawn({
    limit: { low: 18, high: 28 },
    readings: [{ time: 50, low: 24.8, high: 24.8, isOutside: false }],
  });
  expect(layout.y(28)).toBeGreaterThan(margin.top);
  expect(layout.y(18)).toBeLessThan(height - margin.bottom);
  const words = layout.shapes.flatMap((each) =>
    "text" in each && each.look === "bound-text" ? [each.text] : [],
  );
  expect(words).toEqual(["18", "28"]);
  expect(looks(layout).filter((look) => look === "beyond")).toHaveLength(2);
});

test("figures beside a chart do not stand on one another", () => {
  for (const high of [0.3, 0.5, 1, 7.8, 27, 40, 49.5, 50]) {
    const layout = drawn({
      limit: { low: null, high },
      readings: [{ time: 1, low: 0, high: 0, isOutside: false }],
    });
    const ys = layout.shapes.flatMap((each) => ("text" in each ? [each.y] : [])).sort((a, b) => a - b);
    for (let at = 1; at < ys.length; at++) expect(ys[at]! - ys[at - 1]!).toBeGreaterThanOrEqual(12);
    expect(ys.length).toBeGreaterThanOrEqual(2);
  }
});

test("what lies outside the stretch of time is left out; a course enters at the edge where it was", () => {
  const layout = drawn({
    from: 50,
    readings: [
      { time: 10, low: 999, high: 999, isOutside: false },
      { time: 60, low: 20, high: 20, isOutside: false },
    ],
    course: [
      { time: 40, value: 10 },
      { time: 60, value: 20 },
    ],
  });
  const [x, y] = numbers(shape(layout, "course"));
  expect(x).toBeCloseTo(layout.x(50), 0);
  expect(y).toBeCloseTo(layout.y(15), 0);
  expect(looks(layout).filter((look) => look === "reading")).toHaveLength(1);
});

test("the way ahead begins today and is drawn with its interval, to the edge", () => {
  const layout = drawn({
    ahead: [
      { time: 80, best: 20, low: 18, high: 22 },
      { time: 120, best: 40, low: 30, high: 50 },
    ],
  });
  const [x, y, endX, endY] = numbers(shape(layout, "ahead"));
  expect([x, y]).toEqual([layout.x(80), layout.y(20)].map((each) => Math.round(each * 10) / 10));
  expect(endX).toBeCloseTo(layout.x(100), 0);
  expect(endY).toBeCloseTo(layout.y(30), 0);
  expect(looks(layout)).toContain("ahead-span");
});

test("a change of water is a tick as tall as its share", () => {
  const layout = drawn({
    changes: [
      { time: 10, fraction: 0.5 },
      { time: 20, fraction: 0 },
    ],
  });
  const [, , up] = numbers(shape(layout, "change"));
  expect(up).toBe(-10);
  expect(shape(layout, "change").match(/M/g)).toHaveLength(1);
});

test("a remedy shows its target as a band, its ceiling as a limit, each dose as a mark", () => {
  const layout = drawn({
    target: { low: 1, high: 3 },
    limit: { low: null, high: 5 },
    doses: [
      { time: 10, after: 2 },
      { time: 20, after: null },
    ],
  });
  expect(looks(layout)).toEqual(
    expect.arrayContaining(["target", "limit", "beyond", "dose", "dose unknown"]),
  );
});

test("what is still to come of a course is told apart: a hollow dose, a broken change", () => {
  const layout = drawn({
    doses: [
      { time: 10, after: 2 },
      { time: 20, after: 2, isPlanned: true },
      { time: 25, after: null, isPlanned: true },
    ],
    changes: [
      { time: 10, fraction: 0.5 },
      { time: 20, fraction: 0.25, isPlanned: true },
    ],
    ahead: [
      { time: 15, best: 2, low: 2, high: 2 },
      { time: 20, best: 1.5, low: 1.5, high: 1.5 },
      { time: 20, best: 2, low: 2, high: 2 },
    ],
  });
  expect(looks(layout)).toEqual(
    expect.arrayContaining(["dose", "dose planned", "dose unknown", "change", "change planned", "ahead"]),
  );
  expect(shape(layout, "change").match(/M/g)).toHaveLength(1);
  expect(shape(layout, "ahead").match(/[ML]/g)).toHaveLength(3);
});

test("readings are joined where no course is computed between them", () => {
  const readings = [10, 20, 30].map((time) => ({ time, low: 7, high: 7, isOutside: false }));
  expect(looks(drawn({ readings }))).toContain("joined");
  const course = [
    { time: 10, value: 7 },
    { time: 30, value: 7 },
  ];
  expect(looks(drawn({ readings, course }))).not.toContain("joined");
});

test("a chart without any figure is drawn all the same", () => {
  expect(() => drawn({})).not.toThrow();
  expect(JSON.stringify(drawn({}).shapes)).not.toMatch(/NaN|Infinity|null/);
});

test("counts are columns as wide as their days from zero up, with whole figures beside them", () => {
  const layout = drawn({
    from: 0,
    to: 10,
    now: 80,
    columns: [
      { day: 2, value: 1 },
      { day: 3, value: 0 },
      { day: 12, value: 9 },
    ],
  });
  const columns = layout.shapes.filter(({ look }) => look === "column");
  expect(columns).toHaveLength(1);
  const [left, top, right, bottom] = numbers((columns[0] as { d: string }).d);
  expect(left).toBeGreaterThan(layout.x(2));
  expect(right).toBeLessThan(layout.x(3));
  expect([top, bottom]).toEqual([layout.y(1), layout.y(0)].map((y) => Math.round(y * 10) / 10));
  const words = layout.shapes.flatMap((each) => ("text" in each ? [each.text] : []));
  expect(words).toEqual(["0", "1"]);
  // Today is past the end of the stretch: nothing marks it.
  expect(looks(layout)).not.toContain("now");
});
