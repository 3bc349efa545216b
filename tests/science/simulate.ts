/** A tank simulated for tests: noise from a seed, so that a test that passes always passes. */
import type { Exchange, Reading } from "../../language/science/mass-balance.ts";

/** Standard normal from uniforms (Box & Muller 1958). */
export function normal(uniform: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

export interface Tank {
  readonly rateMgLDay: number;
  readonly startMgL: number;
  /** What happens, in order of time. */
  readonly testDays: readonly number[];
  readonly exchanges: readonly Exchange[];
  /** What a test of the level reads; the level itself by default. */
  readonly read?: (levelMgL: number, index: number) => number | { lowMgL: number; highMgL: number };
}

/** The tests a keeper would have written, and the level at the end. */
export function simulate(tank: Tank): { readings: Reading[]; levelMgL: number } {
  let level = tank.startMgL;
  let now = tank.testDays[0] ?? 0;
  let next = 0;
  const readings: Reading[] = [];
  tank.testDays.forEach((day, index) => {
    for (; next < tank.exchanges.length && tank.exchanges[next]!.timeDays < day; next++) {
      const { timeDays, fraction, sourceMgL, addedMgL = 0 } = tank.exchanges[next]!;
      if (timeDays < now) continue;
      level = (level + tank.rateMgLDay * (timeDays - now)) * (1 - fraction) + sourceMgL * fraction + addedMgL;
      now = timeDays;
    }
    level += tank.rateMgLDay * (day - now);
    now = day;
    const read = tank.read?.(level, index) ?? level;
    readings.push({
      timeDays: day,
      ...(typeof read === "number" ? { lowMgL: read, highMgL: read } : read),
    });
  });
  return { readings, levelMgL: level };
}
