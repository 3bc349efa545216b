import type { Span } from "../view.ts";

/** More edits of one text than this are worth to be fewer: each costs who makes it a walk over the text. A choice of this tool. */
const most = 400;

/** The same text by fewer edits where they are very many: those near one another become one, with what stands between them. */
export function fewEdits<Each extends Span & { readonly text: string }>(
  text: string,
  edits: readonly Each[],
): readonly Each[] {
  let made = edits;
  for (let near = 64; made.length > most; near *= 4) made = joined(text, made, near);
  return made;
}

function joined<Each extends Span & { readonly text: string }>(
  text: string,
  edits: readonly Each[],
  near: number,
): Each[] {
  const made: Each[] = [];
  let parts: string[] = [];
  const close = (): void => {
    const last = made.at(-1);
    if (last !== undefined) made[made.length - 1] = { ...last, text: parts.join("") };
  };
  for (const edit of edits) {
    const last = made.at(-1);
    if (last !== undefined && edit.start - last.end <= near) {
      parts.push(text.slice(last.end, edit.start), edit.text);
      made[made.length - 1] = { ...last, end: edit.end };
    } else {
      close();
      parts = [edit.text];
      made.push(edit);
    }
  }
  close();
  return made;
}
