import { isoOf } from "../book/dates.ts";
import { Source } from "../book/source.ts";
import { sheetForDue } from "./actions/sheets.ts";
import { type DayStart, startDay, startToday } from "./actions/start-day.ts";
import { dueText } from "./completing/day.ts";
import { literal } from "./completing/offer.ts";
import { blocksOn } from "./definition.ts";
import { type DueEntry, dueEntries } from "./due-entries.ts";
import { laidOut } from "./format.ts";
import { lineEndOf } from "./lines.ts";
import { type Location, locationOf, type Span, type View } from "./view.ts";

/** Writing into today: where it goes, and what, with places to fill in. */
export interface DayWriting {
  readonly path: string;
  readonly isNewFile: boolean;
  /** What has to be done before the snippet can be put in: the day itself. */
  readonly edits: readonly (Span & { readonly text: string })[];
  /** Where the snippet goes, in the text after the edits. */
  readonly cursor: number;
  /** As the editor takes it: `${1}` are places to fill in. */
  readonly snippet: string;
}

/** Today's block, begun if it is not, with the cursor on a new line of it. */
export function writeToday(view: View): DayWriting {
  return writing(view, startToday(view), ["  "]);
}

/** A sheet for the tests that are due, laid out, its cells to be filled in; undefined if none is. */
export function writeSheet(view: View): DayWriting | undefined {
  const today = view.checked.logbook.today(view.worldDay);
  const [fresh] = new Source("", `${isoOf(today)}\n`).blocks;
  const sheet = sheetForDue(view, blocksOn(view, today).at(-1) ?? fresh!);
  if (sheet === undefined) return undefined;
  const [, ...lines] = laidOut([isoOf(today), ...sheet.lines].join("\n")).split("\n");
  let place = 0;
  const filled = lines.map((line) => literal(line).replace(/(?<= )-(?= |$)/g, () => `\${${++place}:-}`));
  return writing(view, placeFor(view, today), filled);
}

/** What is due, as it is offered in a list. */
export interface DueOffer {
  readonly entry: DueEntry;
  /** Where it is stated. */
  readonly at: Location;
  /** The line that does it, as a snippet. */
  readonly line: string;
}

export function dueOffers(view: View): DueOffer[] {
  view.checked.refresh();
  const today = view.checked.logbook.today(view.worldDay);
  return dueEntries(view, today).flatMap((entry) => {
    const place = entry.duties[0]?.duty.place ?? entry.dose?.remedy.place;
    if (place === undefined) return [];
    return [{ entry, at: locationOf(place), line: `${literal(entry.target)} ${dueText(entry)}` }];
  });
}

/** One line into today. @param line a snippet, without indentation */
export function writeLine(view: View, line: string): DayWriting {
  return writing(view, placeFor(view, view.checked.logbook.today(view.worldDay)), [`  ${line}`]);
}

/** Today's block, whatever comes after it; else a new one. */
function placeFor(view: View, today: number): DayStart | Location {
  const block = blocksOn(view, today).at(-1);
  if (block === undefined) return startDay(view, today);
  const end = block.start + block.text.trimEnd().length;
  return { path: block.file.path, start: end, end };
}

function writing(
  { checked, source }: View,
  place: DayStart | Location,
  lines: readonly string[],
): DayWriting {
  const end = lineEndOf((checked.logbook.sources.get(place.path) ?? source).text);
  const text = lines.join(end);
  if ("cursor" in place) {
    const { path, isNewFile, edits, cursor } = place;
    return { path, isNewFile, edits, cursor, snippet: text };
  }
  return { path: place.path, isNewFile: false, edits: [], cursor: place.start, snippet: end + text };
}
