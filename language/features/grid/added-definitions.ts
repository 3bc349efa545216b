import type { Block } from "../../book/source.ts";
import { lineEndOf, ownEnd } from "../lines.ts";
import type { Edit, View } from "../view.ts";

/** Where new definitions go in the text. */

/** A definition that is added, and behind which block. */
export interface Added {
  readonly text: string;
  readonly path: string;
  readonly after: Block | undefined;
}

/** New definitions as edits, parted by blank lines as the others of their file are. */
export function addedEdits(view: View, added: readonly Added[]): Edit[] {
  const byPlace = new Map<string, Added[]>();
  for (const each of added) {
    const key = `${each.path} ${each.after?.start ?? -1}`;
    byPlace.set(key, [...(byPlace.get(key) ?? []), each]);
  }
  return [...byPlace.values()].map((each): Edit => {
    const { path, after } = each[0]!;
    const text = view.checked.logbook.sources.get(path)?.text ?? "";
    const eol = lineEndOf(text);
    const texts = each.map((one) => one.text.trimEnd().replaceAll("\n", eol));
    if (after === undefined) {
      // Before all days of a file that defines nothing.
      const put = texts.join(eol) + eol;
      return { path, start: 0, end: 0, text: text === "" ? put : `${put}${eol}` };
    }
    const isParted = isPartedBehind(after);
    const at = after.start + ownEnd(after.text);
    return { path, start: at, end: at, text: texts.map((one) => eol + (isParted ? eol : "") + one).join("") };
  });
}

/** Whether a definition stands a blank line below another of its sort; where there is no other, whether any does. */
function isPartedBehind({ file, definition }: Block): boolean {
  const followed = file.blocks.filter(
    (block, at) => block.kind === "definition" && file.blocks[at + 1]?.kind === "definition",
  );
  const own = followed.filter(
    (block) =>
      block.definition?.word === definition?.word &&
      file.blocks[file.blocks.indexOf(block) + 1]?.definition?.word === definition?.word,
  );
  return (own.length > 0 ? own : followed).some(({ text }) =>
    /^(?:\r\n|\n|\r)[ \t]*(?:\r\n|\n|\r)/.test(text.slice(ownEnd(text))),
  );
}
