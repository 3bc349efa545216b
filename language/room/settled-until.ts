import type { Before } from "./feeds.ts";
import type { Ledger } from "./ledger.ts";
import { settledTime } from "./water.ts";

/** A time as the series of a ledger have it, so that what stands above an entry about animals counts and the entry does not. */
export function settledUntil({ animals }: Ledger, { time, block, row }: Before): number {
  if (block === undefined || row === undefined) return time;
  const id = block.ids === undefined ? row : block.ids[row]!;
  const index = animals.find(time, block, id);
  return index < 0 ? time : settledTime(animals, index);
}
