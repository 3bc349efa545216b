import { isOutside, type Outside } from "../science/result.ts";
import { type Slope, theilSen } from "../science/trend.ts";
import type { Measured } from "./measured.ts";

/** Score, length and weight of a species in a tank over time: the median slope of all pairs (Theil-Sen). */
export interface MeasuredTrend {
  readonly what: "score" | "length" | "weight";
  readonly unit: "" | "cm" | "g";
  readonly latest: number;
  readonly latestAt: Measured;
  readonly entries: readonly Measured[];
  /** A day; a reason where it cannot be told. */
  readonly slope: Slope | Outside;
}

const kinds = [
  { what: "score", unit: "", column: "score" },
  { what: "length", unit: "cm", column: "lengthCm" },
  { what: "weight", unit: "g", column: "weightG" },
] as const;

/** A trend of two is a line through two points and says nothing. */
const fewest = 3;

/** What was measured, each by itself; what never was is left out. */
export function measuredTrends(measured: readonly Measured[]): MeasuredTrend[] {
  return kinds.flatMap(({ what, unit, column }) => {
    const entries = measured.filter((each) => !Number.isNaN(each[column]));
    const latestAt = entries.at(-1);
    if (latestAt === undefined) return [];
    const first = entries[0]!.time;
    const found = theilSen(
      entries.map(({ time }) => time - first),
      entries.map((each) => each[column]),
    );
    const slope: Slope | Outside =
      isOutside(found) || entries.length >= fewest
        ? found
        : { outside: `a trend needs ${fewest} measurements, not ${entries.length}` };
    return [{ what, unit, latest: latestAt[column], latestAt, entries, slope }];
  });
}
