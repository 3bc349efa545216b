import { formatNumber } from "../../quantity/format.ts";
import { type Outside, outside } from "../../science/result.ts";
import { quantity, type Result, words } from "../calculation.ts";

/** What doses have in common. */

export const MEDICINE =
  "Arithmetic, and no advice: the label, the law of the place and a veterinarian go before it. Reckon with the net volume and the active part, weigh twice, watch the animals. Shrimp, snails, scaleless fish, fry, plants and the filter may die of what other fish stand.";

export const MASS_IN_WATER =
  "mass in a volume of water: Masser & Jensen 1991, Calculating Treatments for Ponds and Tanks, SRAC Publication 410, whose factor in litres and mg is 1";

export const volumeInput = quantity("net volume", "L", [0, 1e9], { isAbove: true, from: "volume" });

/** No liquid that is dosed is as heavy as that, so none holds so much. */
export const MOST_G_PER_L = 2000;

export const activeInput = quantity("active part of what is weighed", "%", [0, 100], {
  otherwise: "100 %",
  isAbove: true,
});

/** The name of a remedy of the log, for the entry that follows. */
export const remedyInput = words("remedy of the log, for the entry", "praziquantel", { optional: true });

/** A reason where a name cannot stand in a log. */
export function remedyProblem(remedy: string | undefined): Outside | undefined {
  if (remedy === undefined || /^[\p{L}\p{N}][\p{L}\p{N}_-]*$/u.test(remedy)) return undefined;
  return outside(`remedy: “${remedy}” is no name of a log: letters, digits and hyphens, no blanks`);
}

/** `dose NAME 96 mg` of one of the results; nothing without a name or an amount. */
export function doseEntry(
  remedy: string | undefined,
  results: readonly Result[],
  name: string,
): string | undefined {
  const found = results.find((each) => each.name === name);
  if (remedy === undefined || typeof found?.value !== "number" || found.value <= 0) return undefined;
  return `dose ${remedy} ${formatNumber(found.value)} ${found.unit}`;
}
