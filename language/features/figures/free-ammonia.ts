import { type Parameter, parameterOf } from "../../book/parameters.ts";
import { formatNumber } from "../../quantity/format.ts";
import { rebase } from "../../quantity/quantity.ts";
import type { Ledger } from "../../room/ledger.ts";
import { settledTime } from "../../room/water.ts";
import { type Why, whyEntry, whyStated } from "../../room/why.ts";
import { unionisedFraction } from "../../science/ammonia.ts";
import { isOutside } from "../../science/result.ts";
import { threshold } from "../../science/thresholds.ts";
import { type Row, tankOf } from "./row.ts";

/** Un-ionised ammonia, where total ammonia, pH and temperature of one tank stand in one day. */

const ammonia = parameterOf("ammonia");
const pH = parameterOf("pH");
const temperature = parameterOf("temperature");
const salinity = parameterOf("salinity");

export interface FreeAmmonia {
  /** As NH3; the ends of what the reading leaves open. */
  readonly lowMgL: number;
  readonly highMgL: number;
  readonly label: string;
  readonly why: () => Why;
}

/** @param index the reading of total ammonia in the ledger's series of it */
export function freeAmmonia(ledger: Ledger, row: Row, index: number): FreeAmmonia | undefined {
  const total = ledger.readings[ammonia.id]!;
  const acid = nearest(ledger, pH, index);
  const warm = nearest(ledger, temperature, index);
  if (acid === undefined || warm === undefined) return undefined;
  const share = unionisedFraction(acid.value, warm.value, nearest(ledger, salinity, index)?.value ?? 0);
  if (isOutside(share)) return undefined;
  const asNH3 = (totalMgLN: number): number => rebase(totalMgLN * share, "N", "NH3")!;
  const [lowMgL, highMgL] = [asNH3(total.first[index]!), asNH3(total.second[index]!)];
  const stress = threshold("NH3_stress")!;
  const text = spanText(lowMgL, highMgL);
  const isStress = lowMgL >= stress.value;
  return {
    lowMgL,
    highMgL,
    label: `free ammonia ${text}${isStress ? `, stress from ${stress.value}` : ""}`,
    why: () => {
      const limit = tankOf(row, ledger)?.limits.get(ammonia.id);
      return {
        what: "free ammonia (NH3)",
        value: text,
        formula: `total ammonia as N × ${formatNumber(share, 3)} × 17.031 / 14.007, where the share is 1 / (1 + 10^(pKa - pH)) and pKa = 0.09018 + 2729.92 / T`,
        source: "Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32:2379",
        from: [
          whyEntry({ block: total.block[index]!, row: total.row[index]! }),
          { ...acid.why, value: `pH ${formatNumber(acid.value)}` },
          { ...warm.why, value: `${formatNumber(warm.value)} C` },
          {
            what: "stress in farmed warm-water fish from; your animals' own needs come first",
            value: `${stress.value} ${stress.unit}`,
            source: stress.source,
            from: [],
          },
          ...(limit === undefined ? [] : [whyStated(limit.place)]),
        ],
      };
    },
  };
}

function spanText(low: number, high: number): string {
  if (low === high) return `${formatNumber(low, 2)} mg/L NH3`;
  if (high === Number.POSITIVE_INFINITY) return `>${formatNumber(low, 2)} mg/L NH3`;
  if (low === 0) return `<${formatNumber(high, 2)} mg/L NH3`;
  return `${formatNumber(low, 2)}..${formatNumber(high, 2)} mg/L NH3`;
}

/** The reading of a parameter on the day of a reading of ammonia, in the same tank, nearest in time. */
function nearest(ledger: Ledger, parameter: Parameter, index: number) {
  const total = ledger.readings[ammonia.id]!;
  const series = ledger.readings[parameter.id];
  if (series === undefined) return undefined;
  // With the order of the lines: of two rounds at one time the nearer line is meant.
  const time = settledTime(total, index);
  const tag = total.tag[index]!;
  const day = Math.floor(time);
  const away = (at: number): number => Math.abs(settledTime(series, at) - time);
  let best = -1;
  for (let at = series.from(day); at < series.length && series.time[at]! < day + 1; at++) {
    if (series.tag[at] !== tag || series.first[at] !== series.second[at]) continue;
    if (best < 0 || away(at) < away(best)) best = at;
  }
  if (best < 0) return undefined;
  return {
    value: series.first[best]!,
    why: whyEntry({ block: series.block[best]!, row: series.row[best]! }),
  };
}
