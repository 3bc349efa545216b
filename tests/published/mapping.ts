/**
 * Which calculation gives each published quantity. One file of `mapping/` a field. A name may end in the
 * digits it is rounded to (`_2sf`) or in the unit it is said in (`_usgal`); a conversion is its own name.
 */
import { toSignificant } from "../../language/science/criteria.ts";
import { map } from "../../language/science/result.ts";
import { type Calculation, type Calculations, gives } from "./calculation.ts";
import { ammonia } from "./mapping/ammonia.ts";
import { asked } from "./mapping/asked.ts";
import { chlorine } from "./mapping/chlorine.ts";
import { conversionOf } from "./mapping/conversions.ts";
import { dilution } from "./mapping/dilution.ts";
import { dosing } from "./mapping/dosing.ts";
import { gases } from "./mapping/gases.ts";
import { livestock } from "./mapping/livestock.ts";
import { salts } from "./mapping/salts.ts";
import { seawater } from "./mapping/seawater.ts";
import { statistics } from "./mapping/statistics.ts";
import { thresholds } from "./mapping/thresholds.ts";
import { units } from "./mapping/units.ts";
import { convertedBetween, measureOf } from "./measure.ts";

export const CALCULATIONS: Calculations = {
  ...ammonia,
  ...chlorine,
  ...dilution,
  ...dosing,
  ...gases,
  ...livestock,
  ...salts,
  ...seawater,
  ...statistics,
  ...thresholds,
  ...units,
};

const folded = new Map(Object.entries(CALCULATIONS).map(([name, each]) => [name.toLowerCase(), each]));

/** The calculation of a quantity; undefined when there is none of that name. */
export function calculationOf(quantity: string): Calculation | undefined {
  return (
    folded.get(quantity.toLowerCase()) ??
    asked(quantity) ??
    conversionOf(quantity) ??
    rounded(quantity) ??
    said(quantity)
  );
}

function rounded(quantity: string): Calculation | undefined {
  const [, base, digits] = /^(.+)_([1-9])sf$/.exec(quantity) ?? [];
  const plain = base === undefined ? undefined : calculationOf(base);
  if (plain === undefined) return undefined;
  return gives(plain.unit, (given) =>
    map(plain.compute(given), (value) => toSignificant(value, Number(digits))),
  );
}

/** `tank_volume_rect_impgal`: the same in the unit of the name; of what is by the day, `daily_feed_lb` will do. */
function said(quantity: string): Calculation | undefined {
  for (const { index } of quantity.matchAll(/_/g)) {
    const plain = folded.get(quantity.slice(0, index).toLowerCase());
    const from = plain && measureOf(plain.unit);
    if (plain === undefined || from === undefined) continue;
    const suffix = quantity.slice(index + 1);
    for (const unit of [suffix, `${suffix}/day`]) {
      const to = measureOf(unit);
      if (to === undefined || convertedBetween(1, from, to) === undefined) continue;
      return gives(unit, (given) =>
        map(plain.compute(given), (value) => convertedBetween(value, from, to) ?? Number.NaN),
      );
    }
  }
  return undefined;
}
