import { ammoniaPages } from "./ammonia.ts";
import { bathPages } from "./baths.ts";
import { broodPages } from "./broods.ts";
import { casePages } from "./cases.ts";
import type { CodePage } from "./code.ts";
import { coursePages } from "./course-pages.ts";
import { arrivalPages } from "./dead-on-arrival.ts";
import { disinfectionPages } from "./disinfection.ts";
import { dosePages } from "./doses.ts";
import { doseTogetherPages } from "./doses-together.ts";
import { dutyPages } from "./duties.ts";
import { exposurePages } from "./exposure.ts";
import { feedingPages } from "./feeding.ts";
import { gasPages } from "./gases.ts";
import { limitPages } from "./limits.ts";
import { lossPages } from "./losses.ts";
import { lotPages } from "./lots.ts";
import { movePages } from "./moves.ts";
import { namePages } from "./names.ts";
import { orderPages } from "./orders.ts";
import { pantryPages } from "./pantry.ts";
import { pedigreePages } from "./pedigree.ts";
import { poisonPages } from "./poisons.ts";
import { quarantinePages } from "./quarantine-pages.ts";
import { roomLossPages } from "./room-losses.ts";
import { samplePages } from "./samples.ts";
import { servicePages } from "./service.ts";
import { shippingPages } from "./shipping.ts";
import { stockPages } from "./stock.ts";
import { stockingPages } from "./stocking.ts";
import { textPages } from "./text.ts";
import { trendPages } from "./trends.ts";

/** Every code of a finding with its page. The table only grows. */
export const codePages = [
  ...textPages,
  ...namePages,
  ...limitPages,
  ...trendPages,
  ...ammoniaPages,
  ...gasPages,
  ...poisonPages,
  ...dosePages,
  ...doseTogetherPages,
  ...coursePages,
  ...bathPages,
  ...dutyPages,
  ...stockPages,
  ...quarantinePages,
  ...movePages,
  ...servicePages,
  ...lotPages,
  ...stockingPages,
  ...lossPages,
  ...roomLossPages,
  ...feedingPages,
  ...pantryPages,
  ...shippingPages,
  ...orderPages,
  ...arrivalPages,
  ...broodPages,
  ...pedigreePages,
  ...samplePages,
  ...casePages,
  ...exposurePages,
  ...disinfectionPages,
] as const satisfies readonly CodePage[];

export type Code = (typeof codePages)[number]["code"];

/** The page of a code. Throws a RangeError for a code that is not in the table. */
export function pageOf(code: string): CodePage {
  const found = (codePages as readonly CodePage[]).find((each) => each.code === code);
  if (found === undefined) throw new RangeError(`no finding has the code ${code}`);
  return found;
}
