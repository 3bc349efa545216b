/** Growth, rations and what feed leaves in the water. */

/**
 * lb/in3 of one g/mm3, from the exact definitions; Piper et al. 1982, Fish Hatchery Management p. 61, print
 * 36.13.
 */
const ENGLISH_PER_METRIC_CONDITION = 25.4 ** 3 / 453.59237;

/** Weight by length: W = a L^b (Le Cren 1951). Condition factor K is `a` with b = 3. */
export function weightG(lengthMm: number, a: number, b = 3): number {
  return a * lengthMm ** b;
}

/** Condition factor in lb and inches from the one in g and mm. */
export function conditionEnglish(conditionMetric: number): number {
  return conditionMetric * ENGLISH_PER_METRIC_CONDITION;
}

/** Ration as a percentage of body weight. */
export function rationKg(biomassKg: number, percentPerDay: number): number {
  return (biomassKg * percentPerDay) / 100;
}

/** Biomass that a stocking density allows. */
export function biomassKg(densityKgPerM3: number, volumeM3: number): number {
  return densityKgPerM3 * volumeM3;
}

/**
 * Total ammonia nitrogen made from feed: feed * protein * 0.092 (Timmons & Ebeling, Recirculating
 * Aquaculture; recalled). A planning figure; the room's own nitrate says more.
 */
export function ammoniaFromFeedGN(feedG: number, proteinFraction: number): number {
  return feedG * proteinFraction * 0.092;
}

/** Raceway ammonia, ppm: lb of feed a day * factor / US gal per minute (Piper et al. 1982, p. 25). */
export function racewayAmmoniaPpm(feedLbPerDay: number, factor: number, flowGpm: number): number {
  return (feedLbPerDay * factor) / flowGpm;
}

/** Flow index scaled by the oxygen left to use: (DO - least)/(reference - least) (Piper et al. 1982). */
export function flowIndexAtOxygen(
  index: number,
  referenceMgL: number,
  oxygenMgL: number,
  leastMgL: number,
): number {
  return (index * (oxygenMgL - leastMgL)) / (referenceMgL - leastMgL);
}
