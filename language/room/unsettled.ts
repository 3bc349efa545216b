import type { Block, Source } from "../book/source.ts";
import type { Logbook } from "./logbook.ts";

/** Where a merge left two versions and nobody chose: what is computed goes by the upper one, and nobody writes there unasked. */
export interface Unsettled {
  readonly block: Block;
  /** The first mark of the file, in the block. */
  readonly start: number;
  readonly end: number;
  readonly message: string;
}

/** The first mark of each file that has one. */
export function unsettledIn({ sources }: Logbook): Unsettled[] {
  return [...sources.values()].flatMap((source) => markOf(source) ?? []);
}

const known = new WeakMap<Source, { readonly text: string; readonly mark: Unsettled | undefined }>();

/** Kept until the file is edited. */
export function markOf(source: Source): Unsettled | undefined {
  const kept = known.get(source);
  if (kept?.text === source.text) return kept.mark;
  const mark = /^\ufeff?(?:<{7}|={7}|>{7}|\|{7})/m.test(source.text) ? firstMark(source) : undefined;
  known.set(source, { text: source.text, mark });
  return mark;
}

function firstMark({ blocks }: Source): Unsettled | undefined {
  for (const block of blocks)
    for (const { code, start, end, message } of [...block.problems, ...block.facts.problems])
      if (code === "syntax/conflict") return { block, start, end, message };
  return undefined;
}

/** Why nothing is written into a file with marks. @param file its name */
export const unsettledWords = (file: string): string =>
  `a merge left two versions in ${file}: choose one first, there`;
