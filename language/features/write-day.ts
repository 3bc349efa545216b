import { isoOf } from "../book/dates.ts";
import { Source } from "../book/source.ts";
import { placeOf } from "../room/due.ts";
import { type HandClass, handClasses, handRanks } from "../room/hand-order.ts";
import { handCases } from "../room/reached-by-cases.ts";
import { sheetForDue } from "./actions/sheets.ts";
import { type DayStart, startDay, startToday } from "./actions/start-day.ts";
import { dueText } from "./completing/day.ts";
import { literal } from "./completing/offer.ts";
import { withReminders } from "./day-round.ts";
import { blocksOn } from "./definition.ts";
import { type DueEntry, dueEntries } from "./due-entries.ts";
import { laidOut } from "./format.ts";
import { lineEndOf } from "./lines.ts";
import { aimOf } from "./recent.ts";
import { roundSheet } from "./round-sheet.ts";
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
  return writing(view, placeFor(view, today), toFill(today, sheet.lines));
}

/**
 * The round sheet as it is printed (`standpipe round`), to be typed in: its heads, its rows in their order, the empty boxes as places to
 * go through; undefined if nothing is tested anywhere. A row without a box has nothing to type.
 */
export function writeRound(view: View): DayWriting | undefined {
  const { checked, worldDay } = view;
  checked.refresh();
  const today = checked.logbook.today(worldDay);
  const { heads, rows } = roundSheet(checked, worldDay);
  const tested = rows.filter(({ boxes }) => boxes.some((box) => box !== undefined));
  if (tested.length === 0) return undefined;
  const lines = [
    `  sheet  ${heads.map(({ parameter }) => parameter.name).join("  ")}`,
    ...tested.map(({ at, boxes }) => `    ${at}  ${boxes.map(() => "-").join("  ")}`),
  ];
  const isBox = tested.flatMap(({ boxes }) => boxes.map((box) => box !== undefined));
  // Behind the last box the next line begins.
  return atOnce(writing(view, placeFor(view, today), [...toFill(today, lines, isBox), "  $0"]));
}

/** Lines of a day laid out, each dash a place to fill in. @param isPlace dash by dash, where some are not */
function toFill(day: number, lines: readonly string[], isPlace: readonly boolean[] = []): string[] {
  const [, ...laid] = laidOut([isoOf(day), ...lines].join("\n")).split("\n");
  let dash = 0;
  let place = 0;
  return laid.map((line) =>
    literal(line).replace(/(?<= )-(?= |$)/g, () => (isPlace[dash++] === false ? "-" : `\${${++place}:-}`)),
  );
}

/** The head of the day as part of the snippet where both go to one place: one undo takes back all of it. */
function atOnce(written: DayWriting): DayWriting {
  const { isNewFile, edits, cursor, snippet } = written;
  const [only, ...more] = edits;
  if (isNewFile || only === undefined || more.length > 0 || only.start !== only.end) return written;
  const at = cursor - only.start;
  const whole = literal(only.text.slice(0, at)) + snippet + literal(only.text.slice(at));
  return { ...written, edits: [], cursor: only.start, snippet: whole };
}

/** What is due, as it is offered in a list. */
export interface DueOffer {
  readonly entry: DueEntry;
  /** Whether its place is healthy, in quarantine, sick: of a group as its dirtiest tank is. */
  readonly stage: HandClass;
  /** What to do before the first of its stage; empty where it is no dirtier than what stands before. */
  readonly before: string;
  /** Where it is stated. */
  readonly at: Location;
  /** The line that does it, as a snippet. */
  readonly line: string;
}

/** In the order of hands, from the clean to the dirty; of one stage doses first, then the latest. */
export function dueOffers(view: View): DueOffer[] {
  view.checked.refresh();
  const { book, logbook } = view.checked;
  const today = logbook.today(view.worldDay);
  const rankOf = handRanks(logbook, today, handCases(logbook, today));
  const stageOf = ({ target }: DueEntry): HandClass =>
    aimOf(book, target)
      .stations.map((station) => rankOf(placeOf(book, station)).is)
      .reduce((dirtiest, each) => (isLater(each, dirtiest) ? each : dirtiest), handClasses[0]);
  const offers = dueEntries(view, today).flatMap((entry) => {
    const place = entry.duties[0]?.duty.place ?? entry.dose?.remedy.place;
    if (place === undefined) return [];
    const line = `${literal(entry.target)} ${dueText(entry)}`;
    return [{ entry, stage: stageOf(entry), at: locationOf(place), line }];
  });
  offers.sort((a, b) => handClasses.indexOf(a.stage) - handClasses.indexOf(b.stage));
  return withReminders(offers);
}

const isLater = (a: HandClass, b: HandClass): boolean => handClasses.indexOf(a) > handClasses.indexOf(b);

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
