import { exposureCard } from "../exposure-card.ts";
import type { SheetScope } from "./scope.ts";

/** What else may have it, and where it may have come from, by the contacts that are written. */
export interface SheetExposed {
  /** `30 days before and after`; empty where there is nothing to begin at. */
  readonly window: string;
  /** Tanks to hold, without those that showed signs. */
  readonly hold: readonly {
    readonly tank: string;
    readonly by: string;
    readonly since: number;
    readonly text: string;
  }[];
  /** The latest contact first. */
  readonly back: readonly { readonly name: string; readonly last: number; readonly text: string }[];
}

export function sheetExposed({ checked, story, day, logbook }: SheetScope): SheetExposed {
  const asOf = logbook.today(day);
  const card = exposureCard(checked, { is: "thread", thread: story }, asOf);
  if (card === undefined) return { window: "", hold: [], back: [] };
  return {
    window: card.windowText,
    hold: card.hold
      .filter(({ isOrigin }) => !isOrigin)
      .map(({ tank, kind, since, why }) => ({ tank, by: kind, since: Math.floor(since), text: why })),
    back: card.back
      .filter(({ isOrigin }) => !isOrigin)
      .map(({ name, time, steps }) => ({
        name,
        last: Math.floor(time),
        text: steps.map(({ text }) => text).join("; "),
      })),
  };
}
