import { describe, expect, it } from "vitest";
import { dayOf } from "../../../language/book/dates.ts";
import { gridChart } from "../../../language/features/grid/chart.ts";
import type { Face } from "../../../language/features/grid/grid-model.ts";
import { gridSummary } from "../../../language/features/grid/summary.ts";
import { viewOf } from "../../support/cursor.ts";
import { rowsOf } from "./support.ts";

/** Columns of figures, drawn. */

const log = `room "Cellar"
  units  temperature C, ammonia mg/L N
tank dam
  volume 100 L
  limits nitrate <= 25 mg/L, temperature 23..27 C
tank q1
  volume 48 L
  limits nitrate <= 40 mg/L
tank r1

2026-03-01
  dam  test nitrate 18, ammonia 0.5, pH 7.6, temperature <20
  q1   test nitrate 44
  dam  count praecox 14
2026-03-08
  09:00 sheet  temperature (F)  nitrate
          dam  76.3             <5
          q1   -                >100
  @all test nitrate 3
2026-03-15
  dam  test nitrate 0.03 g/L, pH 7.6, ammonia 0.4
group all = dam, r1
`;
const dam: Face = { is: "rounds", of: "tank", name: "dam" };
const chartOf = (face: Face, ...columns: string[]) => {
  const view = viewOf(log);
  const ids = rowsOf(view, face).map(({ id }) => id);
  return gridChart(view, face, ids, columns);
};

describe("charts of columns", () => {
  it("of a tank go over time, in the unit of the column, censored readings as what they may be, with the limit", () => {
    const { names, columns, today } = chartOf(dam, "test nitrate");
    expect([names, today]).toEqual([null, dayOf("2026-03-15")]);
    const [nitrate] = columns;
    expect(nitrate).toMatchObject({
      title: "nitrate",
      unit: "mg/L",
      limit: { low: null, high: 25, text: "at most 25 mg/L" },
    });
    const points = nitrate!.points.map(({ at, low, high, text, state }) => [at, low, high, text, state]);
    expect(points).toEqual([
      [dayOf("2026-03-01"), 18, 18, "18 mg/L", "within"],
      [dayOf("2026-03-08") + 540 / 1440, 0, 5, "<5 mg/L", "within"],
      [dayOf("2026-03-08") + 540 / 1440, 3, 3, "3 mg/L", "within"],
      [dayOf("2026-03-15"), 30, 30, "0.03 g/L", "above"],
    ]);
  });

  it("know what the head of a sheet says its numbers are in; of a temperature nobody knows how low it may be", () => {
    const [temperature] = chartOf(dam, "test temperature").columns;
    expect(
      temperature!.points.map(({ low, high, text }) => [low, high && Math.round(high * 100) / 100, text]),
    ).toEqual([
      [null, 20, "<20 C"],
      [expect.closeTo(24.611, 3), 24.61, "76.3 F"],
    ]);
    const view = viewOf(log);
    const ids = rowsOf(view, dam).map(({ id }) => id);
    expect(gridSummary(view, dam, ids.slice(1), ["test temperature"])).toMatchObject({
      mean: { high: 76.3 },
      unit: "F",
    });
  });

  it("of a day stand side by side, each tank with its own limit", () => {
    const { names, columns } = chartOf({ is: "rounds", of: "day", day: dayOf("2026-03-08") }, "test nitrate");
    expect(names).toEqual(["dam", "dam", "q1", "r1"]);
    expect(columns[0]!.limit).toBeNull();
    expect(
      columns[0]!.points.map(({ at, low, high, limit }) => [at, low, high, limit?.high ?? null]),
    ).toEqual([
      [0, 0, 5, 25],
      [1, 3, 3, 25],
      [2, 100, null, 40],
      [3, 3, 3, null],
    ]);
  });

  it("of what is reckoned have what it is reckoned from", () => {
    const { columns } = chartOf(dam, "figure free-ammonia", "change nitrate");
    expect(columns[0]).toMatchObject({ title: "free ammonia", unit: "mg/L NH3", limit: null });
    expect(columns[0]!.points).toHaveLength(1);
    expect(columns[0]!.points[0]!.detail).not.toBe("");
    // 18 to <5: by 13 to 18 less.
    expect(columns[1]!.points[0]).toMatchObject({ low: -18, high: -13 });
    expect(columns[1]!.points.at(-1)).toMatchObject({ low: 27, high: 27, text: "+27 mg/L" });
  });

  it("of definitions have their names, and columns without numbers are told", () => {
    const { names, columns, left } = chartOf(
      { is: "definitions", of: "tank" },
      "property volume",
      "title",
      "property limits",
    );
    expect(names).toEqual(["dam", "q1", "r1"]);
    expect(columns.map(({ points }) => points.map(({ at, low }) => [at, low]))).toEqual([
      [
        [0, 100],
        [1, 48],
      ],
    ]);
    expect(left.map(({ title }) => title)).toEqual(["Title", "limits"]);
  });

  it("of units that do not go together are not drawn", () => {
    const view = viewOf("tank dam\n  volume 100 L\n2026-03-01\n  dam change 30 %\n  dam change 20 L\n");
    const face: Face = { is: "entries", kind: "change" };
    const ids = rowsOf(view, face).map(({ id }) => id);
    expect(gridChart(view, face, ids, ["slot amount"]).left).toEqual([
      { title: "amount", why: "these cells are of different units" },
    ]);
  });
});
