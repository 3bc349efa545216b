import { mean } from "simple-statistics";
import { below, figure } from "../../../language/science/censored.ts";
import {
  ewma,
  ewmaLimits,
  individualsLimits,
  meanMovingRange,
} from "../../../language/science/control-charts.ts";
import {
  animalsToExamine,
  animalsToExamineInMany,
  diseasedAtLeast,
} from "../../../language/science/detection.ts";
import type { Limits, Sides } from "../../../language/science/interval.ts";
import {
  kendallNormalP,
  kendallP,
  kendallScore,
  kendallTail,
  kendallVariance,
  kendallZ,
  tieGroups,
} from "../../../language/science/kendall.ts";
import { belowDetection } from "../../../language/science/nondetects.ts";
import { attackRatePercent, wilson } from "../../../language/science/proportion.ts";
import {
  compareRates,
  incidenceRate,
  poissonExact,
  poissonScore,
  type RateRatio,
} from "../../../language/science/rates.ts";
import { type Figure, type Outside, outside } from "../../../language/science/result.ts";
import { kaplanMeier, medianSurvival, survivalLimits } from "../../../language/science/survival.ts";
import { mannKendall, type Slope, theilSen } from "../../../language/science/trend.ts";
import { type Calculation, type Calculations, chain, gives, named } from "../calculation.ts";
import { type Inputs, MissingInput } from "../inputs.ts";

const SERIES = ["x", "y", "values"];
const series = (given: Inputs) => given.series(SERIES);
const count = (given: Inputs) => given.number(["x", "count", "events"]);
const confidence = (given: Inputs) =>
  given.has("alpha")
    ? 1 - given.number("alpha")
    : given.share(["conf", "confidence", "level"], ["conf_percent", "confidence_percent"], 0.95);

/** One of the ends of an interval under its name: `wilson_lower`, `wilson_upper_one_sided`. */
function interval(
  name: string,
  unit: string,
  of: (given: Inputs, sides: Sides) => Limits | Outside,
): Calculations {
  const end = (which: "low" | "high", sides: Sides) =>
    gives(unit, (given) => chain(of(given, sidesOf(given, sides)), (limits) => limits[which]));
  return {
    [`${name}_lower`]: end("low", 2),
    [`${name}_upper`]: end("high", 2),
    ...named([`${name}_lower_one_sided`, `${name}_one_sided_lower`], end("low", 1)),
    ...named([`${name}_upper_one_sided`, `${name}_one_sided_upper`], end("high", 1)),
  };
}

function sidesOf(given: Inputs, otherwise: Sides): Sides {
  if (!given.has("sides")) return otherwise;
  const sides = given.text("sides");
  if (sides === "1" || sides === "one") return 1;
  if (sides === "2" || sides === "two") return 2;
  throw new MissingInput(`sides=${sides}`);
}

function limits(name: string, ends: (given: Inputs) => Limits | Outside): Calculations {
  return {
    ...named(
      [`${name}_ucl`, `${name}_upper`],
      gives("as x", (given) => chain(ends(given), ({ high }) => high)),
    ),
    ...named(
      [`${name}_lcl`, `${name}_lower`],
      gives("as x", (given) => chain(ends(given), ({ low }) => low)),
    ),
  };
}

/** An `event` of 1 is a death. */
function died(given: Inputs): boolean[] {
  return given.series(["event", "events", "died", "status"]).map((event) => {
    if (event !== 0 && event !== 1) throw new MissingInput(`event=${event} is neither 0 nor 1`);
    return event === 1;
  });
}
const TIMES = ["t", "times", "days"];
const survival = (given: Inputs) =>
  kaplanMeier(given.series(TIMES), died(given), given.number(["at", "at_t", "t_at"]));
const survivalEnd = (which: "low" | "high") =>
  gives("fraction", (given) =>
    chain(survival(given), (each) =>
      chain(survivalLimits(each.survival, each.standardError, confidence(given)), (ends) => ends[which]),
    ),
  );
const ratio = (of: (found: RateRatio) => Figure, unit = "ratio"): Calculation =>
  gives(unit, (given) => {
    const side = (at: 1 | 2) => ({
      count: given.number([`x${at}`, `count${at}`]),
      exposure: given.number([`exposure${at}`, `n${at}`]),
    });
    return chain(compareRates(side(1), side(2), confidence(given), given.number("ratio_null", 1)), of);
  });
/** A `below` of 1 is a reading below the figure. */
const readings = (given: Inputs) => {
  const marks = given.series(["below", "censored"]);
  return given.series(SERIES).map((value, i) => (marks[i] === 1 ? below(value) : figure(value)));
};
const toExamine = (given: Inputs): Figure => {
  const share = given.share(["prevalence", "p"], ["prevalence_percent", "percent"]);
  const found = given.share(["sensitivity", "Se"], ["sensitivity_percent"], 1);
  if (!given.has("N")) return animalsToExamineInMany(share, confidence(given), found);
  const animals = given.number("N");
  return chain(diseasedAtLeast(animals, share), (diseased) =>
    animalsToExamine(animals, diseased, confidence(given), found),
  );
};
const ranges = (given: Inputs, of: (centre: number, range: number) => Limits | Outside) =>
  meanMovingRangeOf(series(given), (range) => of(mean(series(given)), range));
function meanMovingRangeOf(values: number[], next: (range: number) => Limits | Outside): Limits | Outside {
  const range = meanMovingRange(values);
  return typeof range === "number" ? next(range) : range;
}
const d2 = (given: Inputs) => given.number("d2", 1.128);

const averageLimits = (after: (given: Inputs) => number) => (given: Inputs) =>
  ewmaLimits(
    given.number(["center", "centre", "mu0", "mean"]),
    given.number(["s", "sigma", "sd"]),
    given.number(["lambda", "weight"]),
    given.number(["k", "L"], 3),
    after(given),
  );

const kendall = (of: (score: number, values: number[]) => Figure, unit = "count"): Calculation =>
  gives(unit, (given) => {
    const values = series(given);
    return chain(mannKendall(values), ({ score }) => of(score, values));
  });
const varianceOf = (values: number[]) => kendallVariance(values.length, tieGroups(values));
/** S and n may stand for the series. */
const exact = (given: Inputs, tail: (n: number, score: number) => number): Figure => {
  if (!given.has(SERIES)) {
    const [n, score] = [given.number("n"), given.number("S")];
    const pairs = (n * (n - 1)) / 2;
    const isScore = Number.isInteger(n) && n > 1 && Math.abs(score) <= pairs && (pairs - score) % 2 === 0;
    return isScore ? tail(n, score) : outside(`no series of ${n} values without ties has the score ${score}`);
  }
  const values = series(given);
  if (tieGroups(values).length > 0) return outside("the exact distribution is that of values without ties");
  return tail(values.length, kendallScore(values));
};
const tails = (n: number, score: number) => Math.min(1, 2 * kendallTail(n, Math.abs(score)));

const slope = (of: (slope: Slope) => Figure, unit = "per step"): Calculation =>
  gives(unit, (given) => {
    const values = series(given);
    const times = given.has("t") ? given.series("t") : values.map((_, i) => i + 1);
    return chain(theilSen(times, values, confidence(given)), of);
  });

/** File 11. */
export const statistics: Calculations = {
  mann_kendall_S: kendall((score) => score),
  mann_kendall_var: kendall((_, values) => varianceOf(values)),
  mann_kendall_Z: kendall((score, values) => kendallZ(score, varianceOf(values)), "z"),
  ...named(
    ["mann_kendall_tau", "kendall_tau"],
    gives("tau", (given) => chain(mannKendall(series(given)), ({ tau }) => tau)),
  ),
  // The published p is the normal one at n = 10 too; the log uses the exact distribution there.
  ...named(
    ["mann_kendall_p_two_sided", "mann_kendall_p_normal", "mann_kendall_p"],
    kendall((score, values) => kendallNormalP(score, varianceOf(values)), "fraction"),
  ),
  mann_kendall_p_as_logged: kendall(
    (score, values) => kendallP(score, values.length, tieGroups(values)),
    "fraction",
  ),
  ...named(
    ["mann_kendall_p_exact", "mann_kendall_p_exact_two_sided", "mann_kendall_p_two_sided_exact"],
    gives("fraction", (given) => exact(given, tails)),
  ),
  // The tables give P(S >= |s|).
  ...named(
    ["mann_kendall_p_exact_one_sided", "mann_kendall_p_one_sided_exact", "mann_kendall_table_p"],
    gives("fraction", (given) => exact(given, (n, score) => kendallTail(n, Math.abs(score)))),
  ),
  mann_kendall_p_one_sided: kendall(
    (score, values) => kendallNormalP(score, varianceOf(values)) / 2,
    "fraction",
  ),
  ...named(
    ["sen_slope", "theil_sen_slope"],
    slope(({ perDay }) => perDay),
  ),
  ...named(
    ["sen_intercept", "theil_sen_intercept"],
    slope(({ intercept }) => intercept, "as x"),
  ),
  ...named(
    ["sen_slope_lower", "theil_sen_lower"],
    slope(({ interval: ends }) => chain(ends, ({ low }) => low)),
  ),
  ...named(
    ["sen_slope_upper", "theil_sen_upper"],
    slope(({ interval: ends }) => chain(ends, ({ high }) => high)),
  ),
  ewma: gives("as x", (given) => {
    const levels = ewma(
      given.series("x"),
      given.number(["lambda", "weight"]),
      given.number(["z0", "center", "mu0"]),
    );
    return chain(levels, (all) => {
      const level = all[given.number("i", all.length) - 1];
      if (level === undefined)
        throw new MissingInput(`i=${given.text("i")} is not one of ${all.length} values`);
      return level;
    });
  }),
  ...limits(
    "ewma",
    averageLimits((given) => given.number("i", Infinity)),
  ),
  ewma_ucl_asymptotic: limits(
    "e",
    averageLimits(() => Infinity),
  ).e_ucl!,
  ewma_lcl_asymptotic: limits(
    "e",
    averageLimits(() => Infinity),
  ).e_lcl!,
  individuals_mean: gives("as x", (given) => mean(series(given))),
  ...named(
    ["individuals_mrbar", "individuals_mr_bar"],
    gives("as x", (given) => meanMovingRange(series(given))),
  ),
  individuals_sigma: gives("as x", (given) =>
    chain(meanMovingRange(series(given)), (range) => range / d2(given)),
  ),
  ...limits("individuals", (given) =>
    ranges(given, (centre, range) => individualsLimits(centre, range, d2(given))),
  ),
  individuals_ucl_from_summary: limits("i", fromSummary).i_ucl!,
  individuals_lcl_from_summary: limits("i", fromSummary).i_lcl!,
  ...interval("wilson", "fraction", (given, sides) =>
    wilson(count(given), given.number(["n", "outOf", "total"]), confidence(given), sides),
  ),
  ...interval("poisson_exact", "rate", (given, sides) =>
    poissonExact(count(given), given.number("exposure", 1), confidence(given), sides),
  ),
  ...interval("poisson_score", "rate", (given, sides) =>
    poissonScore(count(given), given.number("exposure", 1), confidence(given), sides),
  ),
  ...named(
    ["kaplan_meier_S", "kaplan_meier_survival"],
    gives("fraction", (given) => chain(survival(given), (each) => each.survival)),
  ),
  ...named(
    ["kaplan_meier_SE_greenwood", "kaplan_meier_SE", "greenwood_SE"],
    gives("fraction", (given) => chain(survival(given), (each) => each.standardError)),
  ),
  kaplan_meier_loglog_lower: survivalEnd("low"),
  kaplan_meier_loglog_upper: survivalEnd("high"),
  ...named(
    ["kaplan_meier_median", "median_survival"],
    gives("as t", (given) => medianSurvival(given.series(TIMES), died(given))),
  ),
  rate_ratio: ratio((found) => found.ratio),
  ...named(
    ["rate_ratio_p", "rate_ratio_p_two_sided"],
    ratio(({ p }) => p, "fraction"),
  ),
  rate_ratio_p_greater: ratio(({ asMany }) => asMany, "fraction"),
  rate_ratio_p_less: ratio(({ asFew }) => asFew, "fraction"),
  rate_ratio_lower: ratio(({ interval: { low } }) => low),
  rate_ratio_upper: ratio(({ interval: { high } }) => high),
  left_censored_median: gives("as x", (given) =>
    chain(belowDetection(readings(given)), ({ median }) => median),
  ),
  left_censored_mean: gives("as x", (given) =>
    chain(belowDetection(readings(given)), ({ mean: of }) => of.most),
  ),
  ...named(["detection_sample_size", "sample_size_to_detect"], gives("count", toExamine)),
  attack_rate: gives("percent", (given) =>
    attackRatePercent(given.number(["ill", "cases", "x"]), given.number(["exposed", "n"])),
  ),
  incidence_rate: gives("rate", (given) =>
    incidenceRate(
      given.number(["cases", "x"]),
      given.number(["animal_days", "animal_time", "person_time", "exposure"]),
    ),
  ),
};

function fromSummary(given: Inputs): Limits | Outside {
  return individualsLimits(given.number("mean"), given.number(["mrbar", "MRbar"]), d2(given));
}
