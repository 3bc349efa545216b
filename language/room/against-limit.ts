import type { Limit } from "../book/stations.ts";

/** How a reading stands to a limit: a censored or wide one may reach over it and not tell. */
export type Against = "within" | "above" | "below" | "unsure";

/** @param low @param high canonical; the ends of what the reading may be */
export function againstLimit(limit: Pick<Limit, "low" | "high">, low: number, high: number): Against {
  if (low > limit.high + tiny(limit.high)) return "above";
  if (high < limit.low - tiny(limit.low)) return "below";
  // A censored reading whose bound is the limit is inside.
  return low >= limit.low - tiny(limit.low) && high <= limit.high + tiny(limit.high) ? "within" : "unsure";
}

/** A reading that is the limit is within it, whatever a conversion did to its last digit. */
const tiny = (limit: number): number => (Number.isFinite(limit) ? 1e-9 * Math.max(1, Math.abs(limit)) : 0);
