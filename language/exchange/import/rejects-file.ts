import { ourMark } from "./cutter.ts";
import type { Imported } from "./import-table.ts";
import { oneLine } from "./one-line.ts";

/**
 * The rows that were not taken, each as it stands, below a line that says where it stood and why. With its rows mended the file is imported by the same
 * mapping: the lines that begin with our mark are passed over.
 */
export function rejectsText({ rejects, rejectsDropped, top }: Imported, name: string): string {
  const lines = [
    `${ourMark}rejects of ${oneLine(name)}: mend the rows, and import this file with the same mapping`,
    ...top,
  ];
  let dateLine = top.at(-1) ?? "";
  for (const { line, raw, why, dateLine: date } of rejects) {
    if (date !== "" && date !== dateLine) lines.push(date);
    if (date !== "") dateLine = date;
    lines.push(`${ourMark}line ${line}: ${oneLine(why)}`, raw);
  }
  if (rejectsDropped > 0) lines.push(`${ourMark}and ${rejectsDropped} more, which are not copied`);
  return `${lines.join("\n")}\n`;
}

/** Whether a text is such a file: only then it is replaced. */
export const isRejects = (text: string): boolean => text.startsWith(`${ourMark}rejects of `);

/** What the file is called. @param name of the table */
export function rejectsName(name: string): string {
  const dot = name.lastIndexOf(".");
  return dot <= 0 ? `${name}.rejects` : `${name.slice(0, dot)}.rejects${name.slice(dot)}`;
}
