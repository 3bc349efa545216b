import { type Generated, generate, mulberry32 } from "./generate.ts";

/**
 * A generated log as it was before some edits: of every so many entries one was corrected, added, taken out or dated anew, all over its
 * years. What was before and what is now, as files.
 */
export interface Edited {
  readonly before: Generated["files"];
  readonly after: Generated["files"];
  readonly entries: number;
  readonly edits: number;
}

/** @param share the part of the entries that are edited, 0 to 1 */
export function edited(wanted: number, share: number): Edited {
  const { files, entries } = generate(wanted);
  const random = mulberry32(11);
  let edits = 0;
  const before = files.map(({ path, text }) => {
    if (path === "room.tank") return { path, text };
    const lines = text.split("\n").flatMap((line) => {
      if (!line.startsWith(" ") || random() >= share) return [line];
      edits++;
      const which = random();
      if (which < 0.5) return [line.replace(/\d+(?=\D*$)/, (number) => String(Number(number) + 1))];
      return which < 0.75 ? [] : [line, line.replace(/^\s*(\S+)/, "  t1")];
    });
    return { path, text: lines.join("\n") };
  });
  return { before, after: files, entries, edits };
}
