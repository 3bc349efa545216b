/** Regularised incomplete beta function, for exact intervals of shares. */
import { gammaln } from "simple-statistics";

/**
 * I_x(a, b) by the continued fraction of Abramowitz & Stegun 1964, 26.5.8, in Lentz's form. It is the probability
 * of at least `a` in a + b - 1 trials of chance x (26.5.24), for whole a and b.
 */
export function betaI(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  // The fraction converges fast below the mean only; above it the other tail does.
  if (x > (a + 1) / (a + b + 2)) return 1 - betaI(1 - x, b, a);
  const scale = Math.exp(
    a * Math.log(x) + b * Math.log1p(-x) + gammaln(a + b) - gammaln(a) - gammaln(b) - Math.log(a),
  );
  const tiny = 1e-300;
  let c = 1;
  let d = 1 / notNought(1 - ((a + b) * x) / (a + 1), tiny);
  let fraction = d;
  for (let m = 1; m < 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    let change = 1;
    for (const step of [even, odd]) {
      d = 1 / notNought(1 + step * d, tiny);
      c = notNought(1 + step / c, tiny);
      change = d * c;
      fraction *= change;
    }
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return scale * fraction;
}

/** The x with I_x(a, b) = p, by halving. */
export function betaInverse(p: number, a: number, b: number): number {
  let low = 0;
  let high = 1;
  for (let step = 0; step < 1100; step++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (betaI(middle, a, b) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const notNought = (value: number, instead: number): number => (Math.abs(value) < instead ? instead : value);
