import type { LogMatching, Unit } from "../match-lines.ts";

/** Where the lines of a log stand now that stood elsewhere then. */
export interface LineMap {
  /** Where a line begins now; undefined for one that is gone. @param start the offset of a place in it, in front of what it says */
  now(path: string, start: number): { readonly path: string; readonly start: number } | undefined;
}

interface Stretch {
  readonly start: number;
  readonly end: number;
  readonly path: string;
  /** What is to be added to an offset. */
  readonly shift: number;
  /** Where a line that may have changed inside begins; NaN for a block that is letter for letter the same. */
  readonly to: number;
}

/** @param isSame whether a file is the same on both sides, and so was not matched */
export function lineMap({ sameBlocks, units }: LogMatching, isSame: (path: string) => boolean): LineMap {
  const byPath = new Map<string, Stretch[]>();
  const add = (path: string, stretch: Stretch): void => {
    const known = byPath.get(path);
    if (known === undefined) byPath.set(path, [stretch]);
    else known.push(stretch);
  };
  const addSame = (before: Place, after: Place): void =>
    add(before.path, {
      start: before.start,
      end: before.start + before.text.length,
      path: after.path,
      shift: after.start - before.start,
      to: Number.NaN,
    });
  for (const { before, after } of sameBlocks) addSame(before, after);
  for (const { before, after } of units) {
    if (before === undefined || after?.line === undefined) continue;
    if (after.line.kind === "shared") {
      addSame(placeOf(before), placeOf(after));
      continue;
    }
    const to = after.block.start + after.line.start;
    const first = after.line.text.length - after.line.text.trimStart().length;
    add(before.block.path, {
      start: before.start,
      end: before.end,
      path: after.block.path,
      shift: 0,
      to: to + first,
    });
  }
  for (const stretches of byPath.values()) stretches.sort((a, b) => a.start - b.start);
  return {
    now(path, start) {
      if (isSame(path)) return { path, start };
      const found = holding(byPath.get(path) ?? [], start);
      if (found === undefined) return undefined;
      return { path: found.path, start: Number.isNaN(found.to) ? start + found.shift : found.to };
    },
  };
}

interface Place {
  readonly path: string;
  readonly start: number;
  readonly text: string;
}

/** Of lines that both sides have: what of them is not the same stands above. */
function placeOf({ block, line }: Unit): Place {
  const { start, text } = line!;
  return { path: block.path, start: block.start + start, text };
}

function holding(stretches: readonly Stretch[], offset: number): Stretch | undefined {
  let low = 0;
  let high = stretches.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (stretches[middle]!.start <= offset) low = middle;
    else high = middle - 1;
  }
  const found = stretches[low];
  return found !== undefined && found.start <= offset && offset < found.end ? found : undefined;
}
