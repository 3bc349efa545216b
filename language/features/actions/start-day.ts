import { isoOf } from "../../book/dates.ts";
import { Source } from "../../book/source.ts";
import { blocksOn } from "../definition.ts";
import { laidOut } from "../format.ts";
import { lineEndOf, ownEnd } from "../lines.ts";
import type { Location, View } from "../view.ts";
import { laidEdits, type TextEdit } from "./laid-edits.ts";

/** A block for a day, at its place in the file it belongs to. */
export interface DayStart {
  readonly path: string;
  readonly edits: readonly TextEdit[];
  /** The file is to be made first. */
  readonly isNewFile: boolean;
  /** Where the next entry is written, in the text after the edits. */
  readonly cursor: number;
  /** What is put before the head of the day: an end of line, a blank line, or nothing. */
  readonly before: string;
}

/** The day to begin: today, or the next one where today is the last day of the log and has its block. Undefined if today is begun. */
export function dayToStart(view: View): number | undefined {
  const { logbook } = view.checked;
  const today = logbook.today(view.worldDay);
  if (blocksOn(view, today).length === 0) return today;
  return logbook.book.asOf === "last-entry" ? today + 1 : undefined;
}

/** Where today's entries go: its block if it has one, else a place for a new one. */
export function startToday(view: View): DayStart | Location {
  const today = view.checked.logbook.today(view.worldDay);
  const block = blocksOn(view, today).at(-1);
  const day = dayToStart(view);
  if (day !== undefined || block === undefined) return startDay(view, day ?? today);
  const end = block.start + ownEnd(block.text);
  return { path: block.file.path, start: end, end };
}

/**
 * A new block for a day, with lines below its head. It goes to the file of its month; where a log has a file a month and this is the first day of a
 * month, to a new file; else to the file of the latest day before it.
 */
export function startDay(view: View, day: number, lines: readonly string[] = []): DayStart {
  const place = fileFor(view, day);
  if (place.source === undefined) {
    const text = laidOut(`${[isoOf(day), ...lines].join("\n")}\n`);
    return {
      path: place.path,
      edits: laidEdits(new Source(place.path, ""), [{ start: 0, end: 0, text }]),
      isNewFile: true,
      cursor: text.length,
      before: "",
    };
  }
  const { source } = place;
  const { text } = source;
  const end = lineEndOf(text);
  const block = laidOut(`${[isoOf(day), ...lines].join(end)}${end}`);
  const days = source.blocks.filter((each) => each.kind === "day");
  const next = days.find((each) => each.day > day);
  const gap = isParted(source) ? end : "";
  const at = next === undefined ? text.length : next.start;
  const before = beforeDay(text, at, end, gap);
  const put = before + block + (next === undefined ? "" : gap);
  const edits = laidEdits(source, [{ start: at, end: at, text: put }]);
  return { path: source.path, edits, isNewFile: false, cursor: at + before.length + block.length, before };
}

/**
 * What is put before a new day at a place: the end of a line that has none, and a blank line where there is none.
 * @param gap what parts the days of the file; empty where nothing does
 */
export function beforeDay(text: string, at: number, end: string, gap: string): string {
  if (at === 0) return "";
  const isOpenLine = at === text.length && !/[\r\n]$/.test(text);
  return `${isOpenLine ? end : ""}${gap === "" || endsInBlank(text.slice(Math.max(0, at - 200), at)) ? "" : gap}`;
}

// A CR LF is one end, not two.
const endsInBlank = (text: string): boolean => /(\r\n|\n|\r(?!\n))[ \t]*(\r\n|\n|\r)$/.test(text);

/** Whether the blocks of a file are parted by blank lines; of a file without two days they are. */
export function isParted(source: Source): boolean {
  const days = source.blocks.filter((block, at) => block.kind === "day" && at < source.blocks.length - 1);
  return days.length === 0 || days.some((block) => endsInBlank(block.text));
}

/** The file that a day belongs to: known, or one to be made. */
function fileFor(view: View, day: number): { readonly source?: Source; readonly path: string } {
  const { sources, dayGroups } = view.checked.logbook;
  const month = isoOf(day).slice(0, 7);
  const ofMonth = [...dayGroups].reverse().find((group) => isoOf(group.day).startsWith(month));
  const own = ofMonth?.blocks.at(-1)?.file;
  if (own !== undefined) return { source: own, path: own.path };
  const latest = [...dayGroups].reverse().find((group) => group.day < day) ?? dayGroups.at(-1);
  const newest = latest?.blocks.at(-1)?.file;
  if (latest === undefined || newest === undefined) return { source: view.source, path: view.source.path };
  const named = monthly(newest, isoOf(latest.day).slice(0, 7), month);
  if (named === undefined) return { source: newest, path: newest.path };
  const made = sources.get(named);
  return made === undefined ? { path: named } : { source: made, path: named };
}

/** What a file of another month would be called, if a file has its month in its name and holds no other; else undefined. */
export function monthly({ path, blocks }: Source, has: string, month: string): string | undefined {
  const slash = path.lastIndexOf("/") + 1;
  const name = path.slice(slash);
  if (!name.includes(has)) return undefined;
  const isOne = blocks.every((block) => Number.isNaN(block.day) || isoOf(block.day).startsWith(has));
  return isOne ? path.slice(0, slash) + name.replace(has, month) : undefined;
}
