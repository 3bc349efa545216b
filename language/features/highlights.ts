import { nameAt, usesOf } from "./names.ts";
import type { Span, View } from "./view.ts";

/** A place of the name at the cursor. */
export interface Highlight extends Span {
  /** `write` where the name is given. */
  readonly is: "read" | "write";
}

/** The places, in the file, of the name at an offset. */
export function highlightsAt(view: View, offset: number): Highlight[] {
  const named = nameAt(view, offset);
  if (named === undefined) return [];
  return usesOf(view.checked, named, view.source).map((use) => ({
    start: use.block.start + use.start,
    end: use.block.start + use.end,
    is: use.is === "definition" ? "write" : "read",
  }));
}
