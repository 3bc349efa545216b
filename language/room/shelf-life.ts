import type { ShelfLife } from "../book/stations.ts";

/** How long what is kept on a shelf is good, by what is stated of it. */

export const storageSource =
  "Dry feed is stored cool, dry and dark, and not for more than three months: Storage and quality assessment of ingredients and formulated feeds (abstract, core.ac.uk 17597069).";
/** Three months. */
const dryKeepsDays = 92;

/** The last day it is good by when it was opened; of a dry food that states no time three months are taken. NaN where nobody can say. */
export function openedUntil({ opened, keepsDays }: ShelfLife, kind?: string): number {
  return opened + (Number.isNaN(keepsDays) && kind === "dry" ? dryKeepsDays : keepsDays);
}

/** The last day it is good, and which statement says so; of both the earlier. */
export function goodUntil(
  shelf: ShelfLife,
  kind?: string,
): { readonly day: number; readonly by: "expires" | "opened" } | undefined {
  const open = openedUntil(shelf, kind);
  if (Number.isNaN(open) && Number.isNaN(shelf.expires)) return undefined;
  return open < shelf.expires || Number.isNaN(shelf.expires)
    ? { day: open, by: "opened" }
    : { day: shelf.expires, by: "expires" };
}
