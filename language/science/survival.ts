/** Survival of animals followed from a day on, some of them sold or moved before they died. */
import { negative } from "./given.ts";
import { type Limits, noConfidence, zOf } from "./interval.ts";
import { type Figure, isOutside, type Outside, outside } from "./result.ts";

export interface Survival {
  readonly survival: number;
  /** Greenwood 1926. */
  readonly standardError: number;
  readonly deaths: number;
  /** Still followed after that time. */
  readonly left: number;
}

/**
 * Survival at a time: Kaplan & Meier 1958, J. Am. Stat. Assoc. 53:457-481, with Greenwood's standard error.
 * An animal that left (sold, moved) at a time was still at risk at it.
 * @param died whether the time is that of a death; false: last seen alive
 * @returns a reason past the last animal seen alive, where the curve is not known
 */
export function kaplanMeier(
  times: readonly number[],
  died: readonly boolean[],
  at: number,
): Survival | Outside {
  const steps = curve(times, died);
  const refused = isOutside(steps) ? steps : notATime(at);
  if (refused !== undefined || isOutside(steps)) return refused as Outside;
  const step = steps.findLast(({ time }) => time <= at) ?? start(times.length);
  const last = steps.at(-1)!.time;
  if (step.survival > 0 && at > last) return outside(`nobody was followed beyond ${last}`);
  const { survival, sum, deaths, left } = step;
  return { survival, standardError: survival * Math.sqrt(sum), deaths, left };
}

/**
 * The time by which half have died: the first at which survival is a half or less (Kaplan & Meier 1958).
 * @returns a reason where more than half lived on
 */
export function medianSurvival(times: readonly number[], died: readonly boolean[]): Figure {
  const steps = curve(times, died);
  if (isOutside(steps)) return steps;
  // A half reached by a product of fractions may miss it by its last bit.
  const half = steps.find(({ survival }) => survival <= 0.5 + 1e-12);
  return half?.time ?? outside("more than half lived on when last seen");
}

/**
 * Interval of a survival that stays within 0 and 1: S^exp(+/- z se/(S ln S)), the plain interval of ln(-ln S)
 * (Kalbfleisch & Prentice 1980, The Statistical Analysis of Failure Time Data, recalled).
 */
export function survivalLimits(survival: number, standardError: number, confidence = 0.95): Limits | Outside {
  const refused = noConfidence(confidence) ?? negative("standard error", standardError);
  if (refused !== undefined) return refused;
  if (survival === 1) return outside("nobody had died by then");
  if (survival === 0) return outside("nobody was alive then");
  if (!(survival > 0 && survival < 1)) return outside(`survival ${survival} is no share`);
  const power = Math.exp((zOf(confidence, 2) * standardError) / (survival * -Math.log(survival)));
  return { low: survival ** power, high: survival ** (1 / power) };
}

/** The curve from a time on. */
interface Step {
  readonly time: number;
  readonly survival: number;
  /** Greenwood's sum of d/(n(n-d)). */
  readonly sum: number;
  readonly deaths: number;
  readonly left: number;
}

const start = (left: number): Step => ({ time: 0, survival: 1, sum: 0, deaths: 0, left });

/** A step for each time, in order. */
function curve(times: readonly number[], died: readonly boolean[]): readonly Step[] | Outside {
  if (times.length === 0) return outside("no animal was followed");
  if (times.length !== died.length) return outside("each time needs to say whether it is that of a death");
  const wrong = times.map(notATime).find(isOutside);
  if (wrong !== undefined) return wrong;
  const here = new Map<number, { all: number; dead: number }>();
  times.forEach((time, i) => {
    const { all, dead } = here.get(time) ?? { all: 0, dead: 0 };
    here.set(time, { all: all + 1, dead: dead + (died[i] === true ? 1 : 0) });
  });
  const steps: Step[] = [];
  let { survival, sum, deaths, left } = start(times.length);
  for (const [time, { all, dead }] of [...here].sort(([one], [other]) => one - other)) {
    survival *= 1 - dead / left;
    if (dead < left) sum += dead / (left * (left - dead));
    deaths += dead;
    left -= all;
    steps.push({ time, survival, sum, deaths, left });
  }
  return steps;
}

function notATime(time: number): Outside | undefined {
  if (negative("time", time) === undefined) return undefined;
  return outside(`a time of ${time} is none to follow an animal to`);
}
