/**
 * The normal distribution to double precision: the table and the short approximation in common libraries are
 * good to four digits, not enough to agree with published intervals.
 */

const LOG_SQRT_2PI = 0.9189385332046727;

/**
 * P(Z <= z). Marsaglia 2004, Evaluating the Normal Distribution, J. Stat. Software 11(4): the series of cPhi.
 */
export function normalCdf(z: number): number {
  if (z < -8) return upperTail(-z);
  if (z > 8) return 1 - upperTail(z);
  let sum = z;
  let term = z;
  for (let i = 3; ; i += 2) {
    term *= (z * z) / i;
    const next = sum + term;
    if (next === sum) break;
    sum = next;
  }
  const p = 0.5 + sum * Math.exp(-0.5 * z * z - LOG_SQRT_2PI);
  // Far below the mean the series cancels; the continued fraction does not.
  return z < -3 ? upperTail(-z) : p;
}

/** P(Z > z) for z > 3 by Laplace's continued fraction (Abramowitz & Stegun 1964, 26.2.14). */
function upperTail(z: number): number {
  let fraction = z;
  for (let k = 60; k >= 1; k--) fraction = z + k / fraction;
  return Math.exp(-0.5 * z * z - LOG_SQRT_2PI) / fraction;
}

/**
 * The z below which a share p lies: Abramowitz & Stegun 1964, 26.2.23 (error below 4.5e-4), then Newton steps
 * on `normalCdf`. Infinite at 0 and 1.
 */
export function normalQuantile(p: number): number {
  if (p <= 0) return p === 0 ? -Infinity : Number.NaN;
  if (p >= 1) return p === 1 ? Infinity : Number.NaN;
  if (p > 0.5) return -normalQuantile(1 - p);
  const t = Math.sqrt(-2 * Math.log(p));
  const start =
    t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
  let z = -start;
  for (let step = 0; step < 4; step++) {
    z -= (normalCdf(z) - p) / Math.exp(-0.5 * z * z - LOG_SQRT_2PI);
  }
  return z;
}

/** z of a two-sided confidence: 1.959964 for 0.95. */
export function twoSidedZ(confidence: number): number {
  return normalQuantile((1 + confidence) / 2);
}

/**
 * Student's quantile from the normal one of the same probability (Abramowitz & Stegun 1964, 26.7.5, three terms):
 * to 0.003 of itself from ten degrees of freedom, 1 % low at five, 7 % at two.
 */
export function studentT(z: number, freedom: number): number {
  const first = (z ** 3 + z) / 4;
  const second = (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96;
  const third = (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / 384;
  return z + first / freedom + second / freedom ** 2 + third / freedom ** 3;
}
