import { describe, expect, test } from "vitest";
import { spark } from "../../../language/features/pictures/spark.ts";

const nothing = { course: [], limitLow: null, limitHigh: null };

describe("a small picture of readings", () => {
  // 260 by 64 with a margin of 6: time 0 is at 6 and time 10 at 254; value 0 at 58, value 20 at 6, 10 between them at 32.
  test("readings are dots from the first to the last, the limit a dashed line", () => {
    const svg = spark({
      ...nothing,
      points: [
        { time: 0, low: 0, high: 0 },
        { time: 5, low: 10, high: 10 },
        { time: 10, low: 20, high: 20 },
      ],
      limitHigh: 10,
    });
    const dots = [...svg.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)"/g)].map(([, x, y]) => [
      Number(x),
      Number(y),
    ]);
    expect(dots).toEqual([
      [6, 58],
      [130, 32],
      [254, 6],
    ]);
    expect(svg).toMatch(/<path d="M6 32H254"[^>]*stroke-dasharray/);
  });

  test("what a reading leaves open is a line from end to end", () => {
    const svg = spark({
      ...nothing,
      points: [
        { time: 0, low: 0, high: 5 },
        { time: 10, low: 20, high: null },
        { time: 10, low: 0, high: 0 },
      ],
    });
    // `<5`: from 0 (58) to 5 (45); `>20`: from 20 (6) up to the margin.
    expect(svg).toContain('d="M6 58V45"');
    expect(svg).toContain('d="M254 6V6"');
  });

  test("the course is drawn below them", () => {
    const svg = spark({
      ...nothing,
      points: [{ time: 0, low: 0, high: 0 }],
      course: [
        { time: 0, value: 0 },
        { time: 10, value: 10 },
      ],
    });
    expect(svg.indexOf("M6 58L254 6")).toBeLessThan(svg.indexOf("<circle"));
  });

  test("one reading, or equal ones, are no division by nought", () => {
    expect(spark({ ...nothing, points: [{ time: 3, low: 7, high: 7 }] })).not.toMatch(/NaN|Infinity/);
    expect(spark({ ...nothing, points: [] })).toBe("");
  });

  test("its tones stand out by 3 to 1 from white and from near-black", () => {
    const svg = spark({
      ...nothing,
      points: [{ time: 0, low: 1, high: 1 }],
      course: [{ time: 0, value: 1 }],
      limitLow: 0,
    });
    const tones = new Set([...svg.matchAll(/#[\da-f]{6}/g)].map(([tone]) => tone));
    expect(tones.size).toBe(3);
    for (const tone of tones)
      for (const ground of ["#ffffff", "#1e1e1e"]) expect(contrast(tone, ground)).toBeGreaterThan(3);
  });
});

/** WCAG 2.2, contrast ratio. */
function contrast(a: string, b: string): number {
  const light = (tone: string): number => {
    const [red, green, blue] = [1, 3, 5].map((at) => {
      const part = Number.parseInt(tone.slice(at, at + 2), 16) / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
  };
  const [dark, bright] = [light(a), light(b)].sort((x, y) => x - y);
  return (bright! + 0.05) / (dark! + 0.05);
}
