import type { Block, Source } from "../book/source.ts";
import type { Place } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";

/** What an editor feature looks at: a file of a logbook, on a day. Offsets are offsets in the file's text. */
export interface View {
  readonly checked: CheckedLogbook;
  readonly source: Source;
  /** Today outside, as a number of days (`book/dates.ts`); what is today for the logbook follows from its room. */
  readonly worldDay: number;
}

/** A stretch of a file. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** A stretch of some file of the logbook. */
export interface Location extends Span {
  readonly path: string;
}

/** A replacement in some file of the logbook. */
export interface Edit extends Location {
  readonly text: string;
}

/** Where a place of a block stands in its file. */
export function locationOf(place: Place): Location {
  const { block, start, end } = place;
  return { path: block.file.path, start: block.start + start, end: block.start + end };
}

/** The block at an offset, with the offset in it. */
export function blockAt(
  view: View,
  offset: number,
): { readonly block: Block; readonly at: number } | undefined {
  const block = view.source.blockAt(offset);
  return block === undefined ? undefined : { block, at: offset - block.start };
}
