import { applySpaces, formatText } from "../../features/format.ts";
import type { FileItem, LogHead, LogItem } from "./log-items.ts";

/**
 * The files of a logbook from its items, laid out: by path the text. Read is what is `written`, and no values.
 * @param problem is told of an item that stands before the first file
 */
export function logOfItems(
  items: Iterable<LogItem>,
  problem: (item: LogItem) => void = () => {},
): Map<string, string> {
  const files = new Map<string, string[]>();
  let lines: string[] | undefined;
  for (const item of items) {
    if (item.is === "log") continue;
    if (item.is === "file") {
      lines = files.get(item.path) ?? [];
      files.set(item.path, lines);
    } else if (lines === undefined) problem(item);
    else {
      if (item.is === "day" || item.is === "definition") partFrom(lines);
      lines.push(lineOf(item));
    }
  }
  return new Map([...files].map(([path, each]) => [path, laidOut(`${each.join("\n")}\n`)]));
}

/** A blank line before a head, and before the comments in column 0 that stand above it. */
function partFrom(lines: string[]): void {
  let at = lines.length;
  while (at > 0 && lines[at - 1]!.startsWith("#")) at--;
  if (at > 0) lines.splice(at, 0, "");
}

function lineOf(item: Exclude<LogItem, LogHead | FileItem>): string {
  if ("text" in item) return item.text;
  const behind = item.comment === undefined ? "" : `  ${item.comment}`;
  switch (item.is) {
    case "day":
    case "definition":
      return item.written + behind;
    case "property":
      return `  ${item.written}${behind}`;
    case "sheet":
      return `  ${join(item.time, "sheet", item.written)}${behind}`;
    case "row":
      return `    ${join(item.time, item.at, item.written)}${behind}`;
    case "entry":
      return `  ${join(item.time, item.at, item.entry, item.written)}${behind}`;
  }
}

const join = (...parts: readonly (string | undefined)[]): string =>
  parts.filter((part) => part !== undefined && part !== "").join(" ");

function laidOut(text: string): string {
  return applySpaces(text, formatText(text));
}
