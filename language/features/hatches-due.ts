import type { Logbook } from "../room/logbook.ts";
import { broodCard, openBroods } from "./brood-card.ts";
import type { BroodCard, BroodExpectedCard } from "./brood-cards.ts";

/** A brood that is to hatch, or to swim, about a day. */
export interface HatchDue {
  readonly brood: BroodCard;
  readonly expected: BroodExpectedCard & { readonly is: "due" | "late"; readonly latest: number };
}

/** What is past due is told for so long after its window. */
const toldDays = 14;

/** Within their window, or past it of late, the late first. Without a name only within it. */
export function hatchesDue(logbook: Logbook, day: number): HatchDue[] {
  return openBroods(logbook, day)
    .map((brood) => broodCard(logbook, brood, day))
    .flatMap((brood): HatchDue[] => {
      const { expected, lot } = brood;
      if (expected === null || expected.is === "ahead" || expected.latest === null) return [];
      if (expected.is === "late" && (lot === "" || day - expected.latest > toldDays)) return [];
      const { is, latest } = expected;
      return [{ brood, expected: { ...expected, is, latest } }];
    })
    .sort((a, b) => Number(b.expected.is === "late") - Number(a.expected.is === "late"));
}
