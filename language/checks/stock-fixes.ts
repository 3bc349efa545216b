import { clockOf } from "../book/dates.ts";
import { linesOf } from "../book/entry.ts";
import type { Block } from "../book/source.ts";
import type { CountSeen, Moment } from "../room/observer.ts";
import type { Fix } from "./finding.ts";

/** What a keeper may write where the book of animals and the tank disagree. */

interface Span {
  readonly start: number;
  readonly end: number;
}

/**
 * Of a count that differs: the loss that explains what is missing, the birth or arrival that explains what is over, each written above it,
 * or the count as the book has it.
 * @param place of the number that was counted @param off counted less expected
 */
export function countFixes(at: Moment, place: Span, count: CountSeen, off: number): Fix[] {
  const { tank, species, lot, expected } = count;
  const named = lot === "" ? "" : ` lot ${/^[\p{L}][\p{L}\p{N}_-]*$/u.test(lot) ? lot : JSON.stringify(lot)}`;
  const entries =
    off < 0
      ? [`lose ${species} ${-off} missing${named}`, `lose ${species} ${-off} found${named}`]
      : [`hatch ${species} ${off}${named}`, `arrive ${species} ${off}${named}`];
  return [
    ...entries.flatMap((entry) => above(at, place, `${tank.name} ${entry}`)),
    ...writing(at, place, expected),
  ];
}

/** Another number in the place of one; none where there is none to write. */
export function writing({ block }: Moment, { start, end }: Span, animals: number): Fix[] {
  if (!(animals > 0)) return [];
  return [
    {
      title: `Write ${animals} instead`,
      edits: [{ block, start, end, text: String(animals) }],
      isSure: false,
    },
  ];
}

/** An entry on a line of its own above another, of a sheet above its heads, so that it counts just before. */
export function above({ block, time }: Moment, place: Span, entry: string): Fix[] {
  const line = lineToGoAbove(block, place.start);
  if (line === undefined) return [];
  const eol = block.text.includes("\r\n") ? "\r\n" : "\n";
  const clock = line.isTimed ? `${clockOf(time)} ` : "";
  const title = `Write “${entry}” before it`;
  const text = `${clock}${entry}${eol}${line.indent}`;
  return [{ title, edits: [{ block, start: line.start, end: line.start, text }], isSure: false }];
}

function lineToGoAbove(
  block: Block,
  offset: number,
): { readonly start: number; readonly indent: string; readonly isTimed: boolean } | undefined {
  const lines = linesOf(block);
  const own = lines.findIndex((line) => line.start <= offset && offset <= line.end);
  const sheet =
    lines[own]?.is === "row" ? lines.findLastIndex((line, at) => at < own && line.is === "sheet") : own;
  const line = lines[sheet];
  if (line === undefined) return undefined;
  let begin = line.start;
  while (begin > 0 && !/[\r\n]/.test(block.text[begin - 1]!)) begin--;
  // An entry may stand in the line of its date.
  const indent = block.text.slice(begin, line.start);
  if (indent.trim() !== "") return undefined;
  return { start: line.start, indent, isTimed: line.time !== undefined };
}
