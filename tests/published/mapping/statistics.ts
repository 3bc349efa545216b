import { mean } from "simple-statistics";
import {
  kendallNormalP,
  kendallScore,
  kendallVariance,
  kendallZ,
  tieGroups,
} from "../../../language/science/kendall.ts";
import { isOutside } from "../../../language/science/result.ts";
import {
  attackRatePercent,
  ewma,
  ewmaLimits,
  incidenceRate,
  individualsLimits,
  kaplanMeier,
  meanMovingRange,
  poissonExact,
  poissonScore,
  wilson,
} from "../../../language/science/statistics.ts";
import { theilSen } from "../../../language/science/trend.ts";
import type { Inputs } from "../inputs.ts";
import type { Calculations } from "../mapping.ts";

const score = (given: Inputs) => kendallScore(given.series("x"));
const variance = (given: Inputs) => kendallVariance(given.series("x").length, tieGroups(given.series("x")));
const confidence = (given: Inputs) => given.number("conf", 0.95);
const proportion = (given: Inputs) => wilson(given.number("x"), given.number("n"), confidence(given));
const counted = (given: Inputs) =>
  poissonExact(given.number("x"), given.number("exposure", 1), confidence(given));
const scored = (given: Inputs) =>
  poissonScore(given.number("x"), given.number("exposure", 1), confidence(given));
const average = (given: Inputs) =>
  ewmaLimits(given.number("center"), given.number("s"), given.number("lambda"), given.number("k", 3));
const survival = (given: Inputs) =>
  kaplanMeier(
    given.series("t"),
    given.series("event").map((event) => event === 1),
    given.number("at"),
  );
const individuals = (given: Inputs) =>
  individualsLimits(mean(given.series("x")), meanMovingRange(given.series("x")), given.number("d2", 1.128));
const fromSummary = (given: Inputs) =>
  individualsLimits(given.number("mean"), given.number("mrbar"), given.number("d2", 1.128));

/** File 11. */
export const statistics: Calculations = {
  mann_kendall_S: score,
  mann_kendall_var: variance,
  mann_kendall_Z: (given) => kendallZ(score(given), variance(given)),
  // The published p is the normal one at n = 10 too; the log uses the exact distribution there.
  mann_kendall_p_two_sided: (given) => kendallNormalP(score(given), variance(given)),
  sen_slope: (given) => {
    const x = given.series("x");
    const slope = theilSen(given.has("t") ? given.series("t") : x.map((_, i) => i), x);
    return isOutside(slope) ? slope : slope.perDay;
  },
  ewma: (given) =>
    ewma(given.series("x"), given.number("lambda"), given.number("z0"))[given.number("i") - 1] ?? Number.NaN,
  ewma_ucl_asymptotic: (given) => average(given).high,
  ewma_lcl_asymptotic: (given) => average(given).low,
  individuals_mean: (given) => mean(given.series("x")),
  individuals_mrbar: (given) => meanMovingRange(given.series("x")),
  individuals_ucl: (given) => individuals(given).high,
  individuals_lcl: (given) => individuals(given).low,
  individuals_ucl_from_summary: (given) => fromSummary(given).high,
  individuals_lcl_from_summary: (given) => fromSummary(given).low,
  wilson_lower: (given) => proportion(given).low,
  wilson_upper: (given) => proportion(given).high,
  poisson_exact_lower: (given) => counted(given).low,
  poisson_exact_upper: (given) => counted(given).high,
  poisson_score_lower: (given) => scored(given).low,
  poisson_score_upper: (given) => scored(given).high,
  kaplan_meier_S: (given) => survival(given).survival,
  kaplan_meier_SE_greenwood: (given) => survival(given).standardError,
  attack_rate: (given) => attackRatePercent(given.number("ill"), given.number("exposed")),
  incidence_rate: (given) => incidenceRate(given.number("cases"), given.number("animal_days")),
};
