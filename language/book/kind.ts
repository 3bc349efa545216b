import type { Signature } from "./slots.ts";

/** What a kind of entry is: one file a kind in `entries/`, listed in `entries/registry.ts`. */
export interface EntryKind extends Signature {
  /** One line for completion and hover. */
  readonly title: string;
  /** A sentence or two: what it records and what follows from it. */
  readonly doc: string;
  /** Whole lines as a keeper writes them, without the target; each is run as a test. */
  readonly examples: readonly string[];
  /** What was written last time is likely what is written again. Never said of what is measured, counted or seen. */
  readonly usual?: boolean;
  /** `tank` if only a tank can be its target, `water` if a tank or a system; anything where nothing is said. */
  readonly target?: "tank" | "water";
  /** May be the act of a duty (`every 7 d change`). */
  readonly duty: boolean;
  /** A theme icon for outlines and completion: what sort of thing it is. */
  readonly sort: "water" | "care" | "animals" | "health" | "breeding" | "plants" | "prose";
}

export function entryKind(kind: EntryKind): EntryKind {
  return kind;
}

/** Whether an entry of a kind may have such a station as its target. */
export function mayTarget({ target }: EntryKind, station: "room" | "system" | "tank" | "gear"): boolean {
  return target === undefined || station === "tank" || (target === "water" && station === "system");
}
