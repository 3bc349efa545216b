/** Chance from a seed, so that a test that passes always passes. */

/** Uniform in [0, 1): Tommy Ettinger's mulberry32, public domain. */
export function random(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A count with a mean, by the product of uniforms (Knuth 1969, recalled). */
export function poisson(mean: number, uniform: () => number): number {
  let count = 0;
  for (let product = uniform(); product > Math.exp(-mean); product *= uniform()) count++;
  return count;
}
