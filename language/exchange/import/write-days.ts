import { isoOf } from "../../book/dates.ts";
import type { Block, Source } from "../../book/source.ts";
import { laidEdits, type TextEdit } from "../../features/actions/laid-edits.ts";
import { beforeDay, isParted, monthly } from "../../features/actions/start-day.ts";
import { laidOut } from "../../features/format.ts";
import { lineEndOf, linesOfText, ownEnd } from "../../features/lines.ts";
import type { Logbook } from "../../room/logbook.ts";
import { folderOfPath } from "../../room/logbooks.ts";
import type { NewDay, NewLine } from "./entry-lines.ts";

/** Days put into a log: into the block of the day where it has one, in order of time, else as a block of its own in the file of its month. */

/** `lines` is how many entries it adds. */
export type FileWriting = { readonly path: string; readonly lines: number } & (
  | { readonly isNew: true; readonly text: string }
  | { readonly isNew: false; readonly edits: readonly TextEdit[] }
);

export function writeDays(logbook: Logbook, days: readonly NewDay[]): FileWriting[] {
  const files = new FilesOfDays(logbook);
  const byPath = new Map<string, NewDay[]>();
  for (const day of days) {
    const path = files.pathFor(day.day);
    const known = byPath.get(path);
    if (known === undefined) byPath.set(path, [day]);
    else known.push(day);
  }
  return [...byPath].map(([path, own]) => {
    const source = logbook.sources.get(path);
    const lines = own.reduce((sum, day) => sum + day.lines.length, 0);
    if (source !== undefined) return { path, lines, isNew: false, edits: intoFile(source, own) };
    const text = own.map((day) => block(day, "\n")).join("\n");
    return { path, lines, isNew: true, text: laidOut(text) };
  });
}

/** Which file a day belongs to. */
class FilesOfDays {
  private readonly byDay = new Map<number, Block>();
  private readonly byMonth = new Map<string, Source>();
  private readonly newest: { readonly source: Source; readonly month: string } | undefined;
  private readonly folder: string;

  constructor(logbook: Logbook) {
    for (const { day, blocks } of logbook.dayGroups) {
      const last = blocks.at(-1);
      if (last === undefined) continue;
      this.byDay.set(day, last);
      const month = isoOf(day).slice(0, 7);
      this.byMonth.set(month, last.file);
      this.newest = { source: last.file, month };
    }
    const room = [...logbook.sources.values()].find(({ blocks }) =>
      blocks.some(({ definition }) => definition?.word === "room"),
    );
    const folder = folderOfPath((room ?? [...logbook.sources.values()][0])?.path ?? "");
    this.folder = folder === "" || folder.endsWith("/") ? folder : `${folder}/`;
  }

  pathFor(day: number): string {
    const own = this.byDay.get(day);
    if (own !== undefined) return own.file.path;
    const month = isoOf(day).slice(0, 7);
    const ofMonth = this.byMonth.get(month);
    if (ofMonth !== undefined) return ofMonth.path;
    if (this.newest === undefined) return `${this.folder}${month}.tank`;
    return monthly(this.newest.source, this.newest.month, month) ?? this.newest.source.path;
  }
}

function intoFile(source: Source, days: readonly NewDay[]): TextEdit[] {
  const { text, blocks } = source;
  const end = lineEndOf(text);
  const dated = blocks.filter((each) => each.kind === "day" && !Number.isNaN(each.day));
  const gap = isParted(source) ? end : "";
  const edits: TextEdit[] = [];
  const fresh = new Map<number, string[]>();
  for (const day of days) {
    const own = dated.findLast((each) => each.day === day.day);
    if (own !== undefined) {
      edits.push(...intoBlock(own, day, end));
      continue;
    }
    const next = dated.find((each) => each.day > day.day);
    const at = next === undefined ? text.length : next.start;
    fresh.set(at, [...(fresh.get(at) ?? []), block(day, end)]);
  }
  for (const [at, texts] of fresh) {
    const before = beforeDay(text, at, end, gap);
    edits.push({ start: at, end: at, text: before + texts.join(gap) + (at === text.length ? "" : gap) });
  }
  return laidEdits(source, edits);
}

function block({ day, comment, lines }: NewDay, end: string): string {
  const made = [
    isoOf(day),
    ...(comment === "" ? [] : [`  ${comment}`]),
    ...lines.map(({ text }) => `  ${text}`),
  ];
  return `${made.join(end)}${end}`;
}

/** Lines among those of a day: one without a time before all that have one, one with a time behind those of its time. */
function intoBlock(own: Block, { lines, comment }: NewDay, end: string): TextEdit[] {
  const places = timedLines(own);
  const byPlace = new Map<number, NewLine[]>();
  for (const line of lines) {
    const next = places.find(({ minute }) => (Number.isNaN(line.minute) ? true : minute > line.minute));
    const at = next?.start ?? -1;
    byPlace.set(at, [...(byPlace.get(at) ?? []), line]);
  }
  const endOfOwn = ownEnd(own.text);
  // The comment stands above the first of them, wherever that is.
  let said = comment;
  return [...byPlace]
    .sort(([a], [b]) => (a < 0 ? endOfOwn : a) - (b < 0 ? endOfOwn : b))
    .map(([place, put]) => {
      const texts = [
        ...(said === "" || own.text.includes(said) ? [] : [`  ${said}`]),
        ...put.map(({ text }) => `  ${text}`),
      ];
      said = "";
      const at = own.start + (place < 0 ? endOfOwn : place);
      return { start: at, end: at, text: place < 0 ? end + texts.join(end) : texts.join(end) + end };
    });
}

/** The entries of a day that have a time, with the comments right above them. */
function timedLines({ text }: Block): { readonly minute: number; readonly start: number }[] {
  const lines = linesOfText(text);
  const found: { minute: number; start: number }[] = [];
  lines.forEach((line, at) => {
    const time = at === 0 ? null : /^\s+(\d{1,2}):(\d{2})(?=\s)/.exec(line.text);
    if (time === null) return;
    let first = at;
    while (first > 1 && /^\s+#/.test(lines[first - 1]!.text)) first--;
    found.push({ minute: Number(time[1]) * 60 + Number(time[2]), start: lines[first]!.start });
  });
  return found;
}
