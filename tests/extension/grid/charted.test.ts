import { expect, test } from "vitest";
import { plotOf, spanOf, stopOf } from "../../../extension/views/grid/charted.ts";
import type { GridCharted } from "../../../extension/views/grid/messages.ts";
import { layOut } from "../../../extension/views/shared/chart/plot.ts";
import { stopWords } from "../../../extension/views/shared/chart/stops.ts";
import { dayOf } from "../../../language/book/dates.ts";

const column = (...points: Partial<GridCharted["columns"][number]["points"][number]>[]) => ({
  id: "test nitrate",
  title: "nitrate",
  unit: "mg/L",
  limit: null,
  points: points.map((point, at) => ({
    row: `round dam ${at}`,
    at,
    low: 1,
    high: 1,
    text: "1 mg/L",
    state: "" as const,
    detail: "",
    limit: null,
    ...point,
  })),
});
const of = (each: GridCharted["columns"][number], names: GridCharted["names"] = null): GridCharted => ({
  names,
  today: dayOf("2026-03-31"),
  columns: [each],
  left: [],
  rows: [],
  skipped: 0,
});
const looksOf = (each: GridCharted["columns"][number], names: GridCharted["names"] = null): string[] =>
  layOut(plotOf(each, names, spanOf(of(each, names))), 400, 96).shapes.map(({ look }) => look);

test("a censored reading is all that it may be, one out of its limit another shape", () => {
  const looks = looksOf(
    column({ low: 0, high: 5 }, { low: 100, high: null }, { low: null, high: 20 }, { state: "above" }),
  );
  expect(looks.filter((look) => look === "reading may-be")).toHaveLength(3);
  expect(looks.filter((look) => look === "reading outside")).toHaveLength(1);
  expect(looks).toContain("joined");
});

test("side by side nothing is joined, no month and no day is drawn, and each place has its own limit", () => {
  const limit = { low: null, high: 25, text: "at most 25 mg/L" };
  const looks = looksOf(column({ limit }, { limit: { ...limit, high: 40 } }), ["dam", "q1"]);
  expect(looks.filter((look) => look === "limit own")).toHaveLength(2);
  for (const look of ["joined", "month", "now"]) expect(looks).not.toContain(look);
});

test("what is spoken at a point: the day or the place, the figure, how it stands, when", () => {
  const [point] = column({
    at: dayOf("2026-03-08") + 540 / 1440,
    text: "44 mg/L",
    state: "above",
    limit: { low: null, high: 40, text: "at most 40 mg/L" },
  }).points;
  expect(stopWords(stopOf(point!, null), dayOf("2026-03-31"))).toBe(
    "8 March: 44 mg/L, above its limit, at most 40 mg/L, 09:00",
  );
  expect(stopWords(stopOf({ ...point!, at: 0 }, ["q1"]), 0)).toMatch(/^q1: 44 mg\/L, above its limit/);
});

test("one day alone has a stretch of time around it", () => {
  const day = dayOf("2026-03-08");
  expect(spanOf(of(column({ at: day }, { at: day })))).toMatchObject({ from: day - 0.5, to: day + 0.5 });
});
