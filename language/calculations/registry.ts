import { didYouMean, nearest } from "../quantity/nearest.ts";
import { ammoniaChange } from "./ammonia/ammonia-change.ts";
import { ammoniaCriteria } from "./ammonia/ammonia-criteria.ts";
import { freeAmmonia } from "./ammonia/free-ammonia.ts";
import { nitriteChloride } from "./ammonia/nitrite-chloride.ts";
import { nitrogenUnits } from "./ammonia/nitrogen-units.ts";
import { degreeDays } from "./animals/degree-days.ts";
import { development } from "./animals/development.ts";
import { feedAmmonia } from "./animals/feed-ammonia.ts";
import { growth } from "./animals/growth.ts";
import { haul } from "./animals/haul.ts";
import { ration } from "./animals/ration.ts";
import { stocking } from "./animals/stocking.ts";
import type { Calculation } from "./calculation.ts";
import { change } from "./changes/change.ts";
import { changeToReach, nitrateChange } from "./changes/change-to-reach.ts";
import { dilution } from "./changes/dilution.ts";
import { evaporation } from "./changes/evaporation.ts";
import { flowThrough } from "./changes/flow-through.ts";
import { limitDay } from "./changes/limit-day.ts";
import { hotAndCold, mixTemperature } from "./changes/mix-temperature.ts";
import { steady } from "./changes/steady.ts";
import { steadyFlow } from "./changes/steady-flow.ts";
import { topUp } from "./changes/top-up.ts";
import { washout } from "./changes/washout.ts";
import { copperSulfate } from "./doses/copper-sulfate.ts";
import { course } from "./doses/course.ts";
import { dose } from "./doses/dose.ts";
import { doseReached } from "./doses/dose-reached.ts";
import { drop } from "./doses/drop.ts";
import { fixative } from "./doses/fixative.ts";
import { formalin } from "./doses/formalin.ts";
import { redose } from "./doses/redose.ts";
import { saltBath } from "./doses/salt-bath.ts";
import { stock } from "./doses/stock.ts";
import { aeratedPH } from "./gases/aerated-ph.ts";
import { bag } from "./gases/bag.ts";
import { carbonDioxide } from "./gases/carbon-dioxide.ts";
import { oxygen } from "./gases/oxygen.ts";
import { blend } from "./salts/blend.ts";
import { chlorine } from "./salts/chlorine.ts";
import { copperCriterion } from "./salts/copper-criterion.ts";
import { fertiliser } from "./salts/fertiliser.ts";
import { fertiliserLevel } from "./salts/fertiliser-level.ts";
import { hardness } from "./salts/hardness.ts";
import { hardnessUnits } from "./salts/hardness-units.ts";
import { recipe } from "./salts/recipe.ts";
import { salinity } from "./salts/salinity.ts";
import { saltContent } from "./salts/salt-content.ts";
import { saltForHardness } from "./salts/salt-for-hardness.ts";
import { attackRate } from "./statistics/attack-rate.ts";
import { beforeAfter } from "./statistics/before-after.ts";
import { belowDetection } from "./statistics/below-detection.ts";
import { controlChart } from "./statistics/control-chart.ts";
import { cusum } from "./statistics/cusum.ts";
import { proportion } from "./statistics/proportion.ts";
import { rate } from "./statistics/rate.ts";
import { rateRatio } from "./statistics/rate-ratio.ts";
import { sampleSize } from "./statistics/sample-size.ts";
import { survival } from "./statistics/survival.ts";
import { trend } from "./statistics/trend.ts";
import { fillHeight } from "./vessels/fill-height.ts";
import { partsOfVolume } from "./vessels/parts-of-volume.ts";
import { volume } from "./vessels/volume.ts";

/** Every calculation, by groups in the order a list shows them. */
export const calculations: readonly Calculation[] = [
  freeAmmonia,
  ammoniaCriteria,
  ammoniaChange,
  nitrogenUnits,
  nitriteChloride,
  oxygen,
  carbonDioxide,
  aeratedPH,
  bag,
  hardness,
  hardnessUnits,
  saltForHardness,
  saltContent,
  recipe,
  blend,
  chlorine,
  fertiliser,
  fertiliserLevel,
  copperCriterion,
  salinity,
  change,
  changeToReach,
  nitrateChange,
  dilution,
  steady,
  steadyFlow,
  limitDay,
  flowThrough,
  washout,
  mixTemperature,
  hotAndCold,
  topUp,
  evaporation,
  dose,
  doseReached,
  stock,
  redose,
  course,
  saltBath,
  formalin,
  copperSulfate,
  drop,
  fixative,
  volume,
  fillHeight,
  partsOfVolume,
  ration,
  feedAmmonia,
  growth,
  degreeDays,
  development,
  stocking,
  haul,
  trend,
  beforeAfter,
  controlChart,
  proportion,
  rate,
  rateRatio,
  cusum,
  attackRate,
  survival,
  belowDetection,
  sampleSize,
];

const byName = new Map(calculations.map((each) => [each.name, each]));

export function calculationOf(name: string): Calculation | undefined {
  return byName.get(name);
}

/** Says that there is no calculation of that name, with the nearest. */
export function noCalculation(name: string): string {
  const near = didYouMean(nearest(name, byName.keys()));
  return `there is no calculation “${name}”${near}`;
}
