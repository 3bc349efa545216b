import { formatNumber } from "../quantity/format.ts";
import type { Ledger } from "../room/ledger.ts";
import { type LossRun, lossRuns, perThousand, runTest } from "../room/losses.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";

/** Losses that are more than chance. */

const prelude = `species praecox
tank dam
  volume 300 L
2026-01-01
  dam arrive praecox 40
`;

export const lossPages = [
  page({
    code: "loss/run",
    severity: "warning",
    since: "0.2",
    title: "A run of losses",
    says: "More animals of the species died in the tank in 14 days than the 90 days before let expect, by the conditional test of two Poisson rates per animal-day. As it is looked at on every day with a death, p must be below 0.0005: deaths that come by chance alone, at an even rate, then raise it in at most 4 of 100 years. Culled animals are left out, and what is missing: that is a count put right. A cause it does not name; animals that die together, as of a heater, are a run as well.",
    whatToDo:
      "Look at all animals of the tank and of what shares its water; test the water; stop sales and moves until it is clear why. Ask a veterinarian where more die or are sick; of some diseases the authority must be told at once.",
    raises: `${prelude}2026-04-15
  dam lose praecox 1 found
2026-04-18
  dam lose praecox 2 found
2026-04-20
  dam lose praecox 1 jumped
#                  ^ loss/run`,
    fine: `${prelude}2026-04-15
  dam lose praecox 1 found
2026-04-18
  dam lose praecox 1 found
2026-04-20
  dam lose praecox 4 missing`,
    source:
      "Przyborowski & Wilenski 1940, Homogeneity of results in testing samples from Poisson series, Biometrika 31:313-323. Windows and threshold: this tool's own; the rate of false alarms is simulated.",
  }),
] as const;

/** What the losses of a water tell. */
export function lossFindings(ledger: Ledger): RowFinding[] {
  return lossRuns(ledger).map(findingOf);
}

function findingOf(run: LossRun): RowFinding {
  const { at, tank, species, now, before, compared } = run;
  return {
    code: "loss/run",
    block: at.block,
    row: at.row,
    slots: ["animals"],
    severity: () => "warning",
    message: () =>
      `${now.count} ${species} died in ${tank.name} in ${runTest.windowDays} days, ${before.count} in the ${runTest.beforeDays} before: ` +
      `${formatNumber(perThousand(now))} against ${formatNumber(perThousand(before))} per 1000 animal-days, more than chance (conditional test of two rates, p ${chance(compared.asMany)})`,
    why: () => run.why,
    about: tank,
  };
}

const chance = (p: number): string => (p < 0.0001 ? "below 0.0001" : `= ${formatNumber(p, 2)}`);
