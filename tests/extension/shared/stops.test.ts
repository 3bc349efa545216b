import { expect, test } from "vitest";
import {
  nearestStop,
  type Stop,
  stopAfterKey,
  stopWords,
} from "../../../extension/views/shared/chart/stops.ts";
import { dayOf } from "../../../language/book/dates.ts";

const line = {
  uri: "file:///log.tank",
  range: { start: { line: 1, character: 2 }, end: { line: 1, character: 9 } },
};
const stop = (iso: string, text: string, more: Partial<Stop> = {}): Stop => ({
  time: dayOf(iso) + 0.4,
  value: 1,
  text,
  remark: "",
  at: line,
  ...more,
});
const now = dayOf("2026-03-31") + 1;
const stops = [
  stop("2026-03-01", "20 mg/L"),
  stop("2026-03-15", "45 mg/L", { remark: "outside the limit" }),
  stop("2026-03-31", "39 mg/L", { remark: "computed for today", at: null }),
];

test("a stop is said with its day, its value and what there is to remark", () => {
  expect(stopWords(stops[1]!, now)).toBe("15 March: 45 mg/L, outside the limit");
  expect(stopWords(stop("2025-12-01", "<5 mg/L"), now)).toBe("1 December 2025: <5 mg/L");
});

test("an arrow key begins at the last reading and goes from stop to stop", () => {
  expect(stopAfterKey("ArrowLeft", undefined, stops, now)).toBe(1);
  expect(stopAfterKey("ArrowLeft", 1, stops, now)).toBe(0);
  expect(stopAfterKey("ArrowLeft", 0, stops, now)).toBe(0);
  expect(stopAfterKey("ArrowRight", 1, stops, now)).toBe(2);
  expect(stopAfterKey("ArrowRight", 2, stops, now)).toBe(2);
});

test("Home and End go to the ends, PageUp and PageDown by ten; other keys are the page's", () => {
  expect(stopAfterKey("Home", 2, stops, now)).toBe(0);
  expect(stopAfterKey("End", undefined, stops, now)).toBe(2);
  expect(stopAfterKey("PageUp", 2, stops, now)).toBe(0);
  expect(stopAfterKey("Tab", 1, stops, now)).toBeUndefined();
  expect(stopAfterKey("ArrowLeft", undefined, [], now)).toBeUndefined();
});

test("the pointer finds the stop nearest in time", () => {
  expect(nearestStop(stops, dayOf("2026-03-10"))).toBe(1);
  expect(nearestStop([], 3)).toBe(-1);
});
