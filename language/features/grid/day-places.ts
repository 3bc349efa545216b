import { isoOf } from "../../book/dates.ts";
import type { Block, Source } from "../../book/source.ts";
import { isParted, monthly } from "../actions/start-day.ts";
import { lineEndOf, ownEnd } from "../lines.ts";
import type { Edit, View } from "../view.ts";
import { cutBlock } from "./cut.ts";
import { linesOfBlock } from "./lines.ts";

/** Where lines of a day go: its block, or a new one in the file it belongs to, in the order of days. */
export class DayPlaces {
  private readonly view: View;
  private readonly byDay = new Map<number, Block[]>();
  private readonly days: readonly number[];
  private readonly files = new Map<string, string>();

  constructor(view: View) {
    this.view = view;
    for (const block of view.checked.logbook.blocks()) {
      if (Number.isNaN(block.day)) continue;
      const known = this.byDay.get(block.day);
      if (known === undefined) this.byDay.set(block.day, [block]);
      else known.push(block);
    }
    this.days = [...this.byDay.keys()].sort((a, b) => a - b);
  }

  /** The block of a day, of several that of a file, else the last; undefined where the day has none. */
  blockOf(day: number, file?: Source): Block | undefined {
    const blocks = this.byDay.get(day) ?? [];
    return blocks.findLast((block) => block.file === file) ?? blocks.at(-1);
  }

  blocksOf(day: number): readonly Block[] {
    return this.byDay.get(day) ?? [];
  }

  /** New days with their lines, as edits in the order of files and days. */
  newDays(lines: ReadonlyMap<number, readonly string[]>): { edits: Edit[]; newFiles: string[] } {
    const made = new Map<string, { path: string; at: number; blocks: string[] }>();
    for (const day of [...lines.keys()].sort((a, b) => a - b)) {
      const path = this.fileOf(day);
      const source = this.view.checked.logbook.sources.get(path);
      const next = source?.blocks.find((block) => block.kind === "day" && block.day > day);
      const at = next?.start ?? source?.text.length ?? 0;
      const key = `${path}\n${at}`;
      const known = made.get(key) ?? { path, at, blocks: [] };
      known.blocks.push([isoOf(day), ...lines.get(day)!].join("\n"));
      made.set(key, known);
    }
    const newFiles = new Set<string>();
    const edits = [...made.values()].map(({ path, at, blocks }): Edit => {
      const source = this.view.checked.logbook.sources.get(path);
      if (source === undefined) newFiles.add(path);
      return { path, start: at, end: at, text: blockText(source, at, blocks) };
    });
    return { edits, newFiles: [...newFiles] };
  }

  /** As where a day is begun: the file of its month, of its own name where a log has a file a month, else that of the latest day before. */
  private fileOf(day: number): string {
    const month = isoOf(day).slice(0, 7);
    const known = this.files.get(month);
    if (known !== undefined) return known;
    const { days, byDay, view } = this;
    const fileAt = (at: number | undefined): Source | undefined =>
      at === undefined ? undefined : byDay.get(at)!.at(-1)!.file;
    const own = fileAt(days.findLast((each) => isoOf(each).startsWith(month)));
    const latest = days.findLast((each) => each < day) ?? days.at(-1);
    const newest = fileAt(latest);
    const path =
      own?.path ??
      (latest === undefined || newest === undefined
        ? view.source.path
        : (monthly(newest, isoOf(latest).slice(0, 7), month) ?? newest.path));
    this.files.set(month, path);
    return path;
  }
}

/** Blocks of days as they are put in at an offset, parted by blank lines where the file parts its days. */
function blockText(source: Source | undefined, at: number, blocks: readonly string[]): string {
  const eol = lineEndOf(source?.text ?? "");
  const gap = source === undefined || isParted(source) ? eol : "";
  const text = blocks.map((block) => `${block.replaceAll("\n", eol)}${eol}`).join(gap);
  if (source === undefined || source.text === "") return text;
  const before = source.text.slice(0, at);
  const isOpenLine = before !== "" && !/[\r\n]$/.test(before);
  if (at < source.text.length) return text + gap;
  const isBlankBefore = /(?:^|\r\n|\n|\r)[ \t]*(?:\r\n|\n|\r)$/.test(before);
  // A file that ends in a blank line goes on ending in one.
  return `${isOpenLine ? eol : ""}${isBlankBefore ? "" : gap}${text}${isBlankBefore ? eol : ""}`;
}

/**
 * The line of a day block behind which a new line goes: the last of its own, or, with a time, the one before the first entry that is written
 * with a later one. No line then counts at another time than before.
 */
export function placeInDay(block: Block, minute: number): number {
  const { starts } = linesOfBlock(block);
  const end = ownEnd(block.text);
  let last = 0;
  while (last + 1 < starts.length && starts[last + 1]! < end) last++;
  if (Number.isNaN(minute)) return last;
  const lines = cutBlock(block);
  for (let at = 1; at <= last; at++) {
    const line = lines[at]!;
    if (!(line.minute > minute)) continue;
    // A sheet is not cut in two.
    return line.is === "row" ? last : at - 1;
  }
  return last;
}
