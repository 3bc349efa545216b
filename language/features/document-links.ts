import { dayOf } from "../book/dates.ts";
import type { Source } from "../book/source.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { datesIn } from "./dates-in-text.ts";
import { blocksOn, headOf } from "./definition.ts";
import type { Location, Span, View } from "./view.ts";

/** Words of prose that lead somewhere: a date to its day, the name of a file of the logbook to the file. */
export interface Link extends Span {
  readonly target: Location;
  /** What it leads to, in words. */
  readonly title: string;
}

/** The links of a file, in order. Dates and names of files count in texts and comments only; what has no day or file is no link. */
export function documentLinks(view: View): Link[] {
  const { checked, source } = view;
  return proseIn(source).flatMap(({ start, text }) => [
    ...dayLinks(view, text, start),
    ...fileLinks(checked, source, text, start),
  ]);
}

function dayLinks(view: View, text: string, from: number): Link[] {
  return datesIn(text, from).flatMap(({ iso, start, end }) => {
    const [block] = blocksOn(view, dayOf(iso));
    return block === undefined ? [] : [{ start, end, target: headOf(block), title: `Go to ${iso}` }];
  });
}

function fileLinks(checked: CheckedLogbook, source: Source, text: string, from: number): Link[] {
  const folder = source.path.slice(0, source.path.lastIndexOf("/") + 1);
  return [...text.matchAll(/[^\s"'()<>,;]+\.tank(?![\p{L}\p{N}])/gu)].flatMap((match) => {
    const named = match[0].replace(/^\.\//, "");
    const path = [named, encodeURI(named)]
      .map((name) => folder + name)
      .find((each) => checked.logbook.sources.has(each) && each !== source.path);
    if (path === undefined) return [];
    const start = from + match.index;
    const target = { path, start: 0, end: 0 };
    return [{ start, end: start + match[0].length, target, title: `Open ${named}` }];
  });
}

/** The texts in quotes and the comments of a file. */
function proseIn(source: Source): { readonly start: number; readonly text: string }[] {
  const prose = /"(?:[^"\\\r\n]|\\[^\r\n])*"?|(?<!\S)#[^\r\n]*/g;
  return [...source.text.matchAll(prose)].map((match) => ({ start: match.index, text: match[0] }));
}
