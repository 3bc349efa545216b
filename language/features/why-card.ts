import type { Location } from "./view.ts";

/** Why a figure is what it is, in the form of the cards. */
export interface WhyCard {
  readonly what: string;
  readonly value: string;
  readonly formula: string;
  readonly source: string;
  readonly at: Location | null;
  readonly from: readonly WhyCard[];
}
