/** Shares of a count: so many of so many. */
import { notCounted } from "./given.ts";
import { type Limits, noConfidence, type Sides, zOf } from "./interval.ts";
import { type Figure, type Outside, outside } from "./result.ts";

/** Interval of a proportion: Wilson 1927, J. Am. Stat. Assoc. 22:209-212. */
export function wilson(count: number, outOf: number, confidence = 0.95, sides: Sides = 2): Limits | Outside {
  const refused =
    notCounted("count", count) ?? notCounted("number of all", outOf) ?? noConfidence(confidence);
  if (refused !== undefined) return refused;
  if (outOf === 0) return outside("a share of none is no share");
  if (count > outOf) return outside(`${count} of ${outOf} are more than all`);
  const z = zOf(confidence, sides);
  const p = count / outOf;
  const middle = p + z ** 2 / (2 * outOf);
  const half = z * Math.sqrt((p * (1 - p)) / outOf + z ** 2 / (4 * outOf ** 2));
  const scale = 1 + z ** 2 / outOf;
  // At none and at all the end is exact; there the last bit of the square root would miss it.
  return {
    low: count === 0 ? 0 : (middle - half) / scale,
    high: count === outOf ? 1 : (middle + half) / scale,
  };
}

/** Cases per hundred exposed. */
export function attackRatePercent(cases: number, exposed: number): Figure {
  const refused = notCounted("cases", cases) ?? notCounted("exposed", exposed);
  if (refused !== undefined) return refused;
  if (exposed === 0) return outside("nobody was exposed");
  return cases > exposed ? outside(`${cases} of ${exposed} are more than all`) : (cases / exposed) * 100;
}
