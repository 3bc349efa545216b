import type { Block } from "../../book/source.ts";
import { cutBlock } from "./cut.ts";

/** How a new line stands among those of its day: as they do. */

/** How the entries of a day are indented; no deeper than the heads of a sheet, else they would be its rows. */
export function indentIn(block: Block): string {
  const lines = cutBlock(block);
  const line = lines.findLast(({ is }) => is === "entry" || is === "sheet");
  const own = line === undefined ? "" : block.text.slice(line.start, line.first);
  return /^[ \t]+$/.test(own) ? own : "  ";
}

/** Kinds begin under those of the entries that are there, where the tank leaves the room. */
export function gapFor(block: Block | undefined, indent: string, tank: string): number {
  const lines = block === undefined ? [] : cutBlock(block);
  const line = lines.findLast(
    (each) => each.is === "entry" && each.time === undefined && each.what !== undefined,
  );
  if (line === undefined) return 1;
  return Math.max(1, line.what!.start - line.start - indent.length - tank.length);
}
