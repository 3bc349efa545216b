import { parameterOf } from "../../book/parameters.ts";
import type { Water } from "../../book/stations.ts";
import { formatNumber } from "../../quantity/format.ts";
import type { Ledger } from "../../room/ledger.ts";
import { sourceLevel } from "../../room/water.ts";
import { type Why, whyStated } from "../../room/why.ts";
import { ammoniaReleasedMgLN, thiosulfateMg } from "../../science/chlorine.ts";
import { isOutside } from "../../science/result.ts";

/** The chlorine that new water brings, where its source states some, and what takes it up. */

const chlorine = parameterOf("chlorine");
const chloramine = parameterOf("chloramine");

/** New water of a change, by its place among the exchanges. */
interface NewWater {
  readonly ledger: Ledger;
  readonly index: number;
  readonly litres: number;
}

/** `60 mg chlorine`; empty where the source states none. */
export function chlorineText(change: NewWater): string {
  const { mg } = broughtBy(change);
  return mg > 0 ? `${formatNumber(mg, 2)} mg chlorine` : "";
}

/** What that chlorine needs, by the paths the reaction may go, and what it leaves. */
export function whyChlorine(change: NewWater): Why[] {
  const { mg, totalMgL, combinedMgL, water } = broughtBy(change);
  if (!(mg > 0) || water === undefined) return [];
  const most = thiosulfateMg(totalMgL, change.litres, "pentahydrate", "tetrathionate");
  const least = thiosulfateMg(totalMgL, change.litres, "pentahydrate", "sulfate");
  const fraction = change.ledger.exchanges.first[change.index]!;
  const left = combinedMgL > 0 ? ammoniaReleasedMgLN(combinedMgL, fraction) : 0;
  return [
    {
      what: "chlorine in the new water, to be taken up before the animals meet it",
      value: `${formatNumber(mg, 2)} mg`,
      formula: "total chlorine × litres of new water",
      from: [
        whyStated(water.place),
        ...(isOutside(most) || isOutside(least)
          ? []
          : [
              {
                what: "sodium thiosulfate, crystals (pentahydrate), by the path of the reaction",
                value: `${formatNumber(least / 1000, 2)} to ${formatNumber(most / 1000, 2)} g`,
                formula:
                  "to tetrathionate 7.00 mg for a mg of chlorine, the cautious figure; to sulfate 0.875",
                source: "stoichiometry, CIAAW 2021 weights; test total chlorine afterwards",
                from: [],
              },
            ]),
        ...(isOutside(left) || left === 0
          ? []
          : [
              {
                what: "total ammonia that its chloramine leaves in the tank",
                value: `${formatNumber(left, 2)} mg/L N`,
                formula: "combined chlorine × share of new water × 14.007 / 70.90",
                from: [],
              },
            ]),
      ],
    },
  ];
}

function broughtBy({ ledger, index, litres }: NewWater): {
  readonly mg: number;
  readonly totalMgL: number;
  readonly combinedMgL: number;
  readonly water: Water | undefined;
} {
  const water = ledger.book.waters[ledger.exchanges.tag[index]!];
  const combinedMgL = sourceLevel(water, chloramine);
  // The total holds the combined part; a water that states only that has at least as much in all.
  const totalMgL = Math.max(sourceLevel(water, chlorine), combinedMgL);
  return { mg: totalMgL * litres, totalMgL, combinedMgL, water };
}
