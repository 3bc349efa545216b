import { parameterOf } from "../book/parameters.ts";
import { freeAmmonia } from "../calculations/ammonia/free-ammonia.ts";
import { formatNumber } from "../quantity/format.ts";
import { rebase } from "../quantity/quantity.ts";
import type { Ledger } from "../room/ledger.ts";
import { figureNamed, type RoundFigure, roundFigure, roundReading, whyRound } from "../room/round.ts";
import { levelSince, sourceLevel } from "../room/water.ts";
import { unionisedFraction } from "../science/ammonia.ts";
import { chronicAmmoniaMgLN } from "../science/criteria.ts";
import { fractionToReach } from "../science/dilution.ts";
import { isOutside } from "../science/result.ts";
import { threshold } from "../science/thresholds.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";
import { atEndOfDay } from "./offers.ts";
import { percent } from "./words.ts";

/** What total ammonia, pH and temperature of one round say together. */

export const ammoniaPages = [
  page({
    code: "water/free-ammonia",
    severity: "warning",
    since: "0.2",
    title: "Free ammonia",
    says: "Of the total ammonia that was read so much is free at this pH and temperature that farmed fish were under stress: 0.02 mg/L NH3. Total ammonia alone does not show it: the same total that is little at pH 7 is ten times as harmful at pH 8.",
    whatToDo:
      "Change water, at a pH that is not higher than the tank's: raising the pH makes it worse. Feed nothing, look for what has died, leave the filter alone. The message says what change would bring it back if the pH stays.",
    raises: `tank dam
  volume 100 L
2026-03-01
  dam test ammonia 0.5 mg/L, pH 8.2, temperature 26
#                  ^^^^^^^^ water/free-ammonia`,
    fine: `tank dam
  volume 100 L
2026-03-01
  dam test ammonia 0.5 mg/L, pH 7.2, temperature 26`,
    source:
      "Share: Emerson and others 1975, J. Fish. Res. Board Can. 32:2379. Stress from 0.02 mg/L: NRAC Bulletin 111-1993 (Bowser & Buttner). Your animals' own needs come first.",
  }),
  page({
    code: "water/free-ammonia-unsure",
    severity: "hint",
    since: "0.2",
    title: "The test cannot tell whether there is free ammonia",
    says: "The reading of total ammonia is below what the test can tell, or has a coarse step; at this pH and temperature that may still be 0.02 mg/L of free ammonia. A reading of nought by colour is no nought.",
    whatToDo:
      "Use a finer test while the pH is high, or bring the pH down slowly; do not take the reading as none.",
    raises: `tank dam
  volume 100 L
2026-03-01
  dam test ammonia <0.5 mg/L, pH 8.2, temperature 26
#                  ^^^^^^^^^ water/free-ammonia-unsure`,
    fine: `tank dam
  volume 100 L
2026-03-01
  dam test ammonia <0.1 mg/L, pH 8.2, temperature 26`,
    source: "As for water/free-ammonia.",
  }),
  page({
    code: "water/ammonia-criterion",
    severity: "warning",
    since: "0.2",
    title: "Above the chronic criterion for ammonia",
    says: "The total is above the thirty-day criterion for fresh water at this pH and temperature, though the free part alone would not be remarked on: at low pH the charged part counts too. Mussels and snails weigh heavily in it.",
    whatToDo:
      "Change water and find where it comes from. A criterion protects the animals of a river over a month; it is no target.",
    raises: `tank dam
  volume 100 L
2026-03-01
  dam test ammonia 2 mg/L, pH 6.8, temperature 25
#                  ^^^^^^ water/ammonia-criterion`,
    fine: `tank dam
  volume 100 L
2026-03-01
  dam test ammonia 1 mg/L, pH 6.8, temperature 25`,
    source: "US EPA 2013, Aquatic Life Ambient Water Quality Criteria for Ammonia, EPA 822-R-13-001.",
  }),
] as const;

const ammonia = parameterOf("ammonia");
const pH = parameterOf("pH");
const temperature = parameterOf("temperature");
const stress = threshold("NH3_stress")!;
/** Total as N that would hold the stress level even if all of it were free. */
const leastTotalMgLN = rebase(stress.value, "NH3", "N")!;

/** The findings of a ledger's rounds. Only those that may be one are worked out: a log holds thousands that are not. */
export function ammoniaFindings(ledger: Ledger): RowFinding[] {
  const series = ledger.readings[ammonia.id];
  if (series === undefined) return [];
  const findings: RowFinding[] = [];
  for (let index = 0; index < series.length; index++) {
    if (!mayMatter(ledger, index, series.second[index]!)) continue;
    const round = roundFigure(ledger, freeAmmonia, ammonia, index);
    const finding = round === undefined ? undefined : findingOf(ledger, round, index);
    if (finding !== undefined) findings.push(finding);
  }
  return findings;
}

/** A quick look, on the side of working it out. */
function mayMatter(ledger: Ledger, index: number, highMgLN: number): boolean {
  const half = (ledger.book.steps.get(ammonia.id) ?? 0) / 2;
  const total = highMgLN + half;
  if (total < leastTotalMgLN) return false;
  const acid = roundReading(ledger, ammonia, index, pH);
  const warm = roundReading(ledger, ammonia, index, temperature);
  if (acid === undefined || warm === undefined) return false;
  const share = unionisedFraction(acid.high, warm.high);
  const criterion = chronicAmmoniaMgLN(acid.high, warm.high);
  return isOutside(share) || total * share >= leastTotalMgLN || isOutside(criterion) || total > criterion;
}

function findingOf(ledger: Ledger, round: RoundFigure, index: number): RowFinding | undefined {
  const series = ledger.readings[ammonia.id]!;
  const free = figureNamed(round, "free");
  const chronic = figureNamed(round, "chronic");
  if (free === undefined) return undefined;
  const lowMgLN = series.first[index]!;
  const isFree = free.low >= stress.value || (free.best ?? 0) >= stress.value;
  const isOver = chronic !== undefined && lowMgLN > (chronic.best ?? chronic.high);
  if (!isFree && !isOver && free.high < stress.value) return undefined;
  const share = figureNamed(round, "share");
  // Water that was changed since has answered it.
  const left = levelSince(ledger, ammonia, index);
  if (isFree && share !== undefined && left * ((share.best ?? share.high) / 100) < leastTotalMgLN)
    return undefined;
  if (!isFree && isOver && left <= (chronic?.best ?? chronic?.high ?? 0)) return undefined;
  const station = ledger.book.stations[series.tag[index]!];
  const isLatest = (): boolean => index === (ledger.readings[ammonia.id]?.length ?? 0) - 1;
  const where = `in ${station?.name ?? ledger.body?.name ?? ""}`;
  const said = `free ammonia ${free.text} ${where}`;
  const code = isFree
    ? "water/free-ammonia"
    : isOver
      ? "water/ammonia-criterion"
      : "water/free-ammonia-unsure";
  const change = isFree ? changeBack(ledger, round, lowMgLN) : undefined;
  return {
    code,
    block: series.block[index]!,
    row: series.row[index]!,
    slots: ["reading"],
    severity: () => (code !== "water/free-ammonia-unsure" && isLatest() ? "warning" : "hint"),
    message: () => {
      if (code === "water/ammonia-criterion")
        return `total ammonia ${where} is above the chronic criterion of ${chronic?.text ?? ""} at this pH and temperature`;
      if (code === "water/free-ammonia-unsure")
        return `${said}: this reading cannot exclude the ${stress.value} ${stress.unit} from which fish are under stress`;
      const acute = figureNamed(round, "acute");
      const isAcute = acute !== undefined && lowMgLN > (acute.best ?? acute.high);
      const criterion = isAcute ? `; the total is above the acute criterion of ${acute.text}` : "";
      return `${said}; fish are under stress from ${stress.value}${criterion}${changeText(ledger, change)}; raising the pH makes it worse`;
    },
    fixes: () =>
      change === undefined || change > mostAtOnce || station === undefined
        ? []
        : [atEndOfDay(series.block[index]!, `${station.name} change ${Math.ceil(change * 100)} %`)],
    why: () => whyRound(round, "free"),
    ...(station === undefined ? {} : { about: station }),
  };
}

/** A change that leaves next to nothing of the old water is no change any more. */
const mostAtOnce = 0.9;

/** The change that brings free ammonia back at this pH and temperature; undefined where the new water cannot. */
function changeBack(ledger: Ledger, round: RoundFigure, totalMgLN: number): number | undefined {
  const share = figureNamed(round, "share");
  if (share === undefined) return undefined;
  const target = leastTotalMgLN / ((share.best ?? share.high) / 100);
  const fraction = fractionToReach(totalMgLN, sourceLevel(ledger.book.waters[0], ammonia), target);
  return isOutside(fraction) || fraction <= 0 ? undefined : fraction;
}

function changeText(ledger: Ledger, change: number | undefined): string {
  if (change === undefined) return "";
  const source = ledger.book.waters[0];
  const content = source?.content.get(pH.id);
  const last = ledger.readings[pH.id];
  const own = last === undefined ? Number.NaN : last.first[last.length - 1]!;
  const isHigher = content !== undefined && content > own;
  const warning = isHigher
    ? `, but ${source?.name ?? "the new water"} stands at pH ${formatNumber(content)} and may make more of it free`
    : "";
  if (change <= mostAtOnce)
    return `; ${percent(Math.ceil(change * 100) / 100)} of new water would bring it back at this pH${warning}`;
  return `; no single change would bring it back at this pH${warning}`;
}
