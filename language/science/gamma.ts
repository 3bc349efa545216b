/** Regularised incomplete gamma functions, for exact intervals of counts. */
import { gammaln } from "simple-statistics";

/**
 * P(a, x): the series below x = a + 1, Lentz's continued fraction above (Abramowitz & Stegun 1964, 6.5.29 and
 * 6.5.31). P(a, x) is the probability of at least `a` events of a Poisson count with mean x, for whole a.
 */
export function gammaP(a: number, x: number): number {
  if (x <= 0) return 0;
  const scale = Math.exp(-x + a * Math.log(x) - gammaln(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n < 10_000 && Math.abs(term) > 1e-17 * Math.abs(sum); n++) {
      term *= x / (a + n);
      sum += term;
    }
    return sum * scale;
  }
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < 10_000; n++) {
    const an = -n * (n - a);
    b += 2;
    d = 1 / (an * d + b);
    c = b + an / c;
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return 1 - scale * fraction;
}

/** The x with P(a, x) = p, by halving. */
export function gammaPInverse(a: number, p: number): number {
  let low = 0;
  let high = a + 1;
  while (gammaP(a, high) < p) high *= 2;
  for (let step = 0; step < 200 && low < high; step++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (gammaP(a, middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
