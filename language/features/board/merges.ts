import { unsettledIn } from "../../room/unsettled.ts";
import { lineNumber, nameOfFile } from "../files-in-text.ts";
import { locationOf, type View } from "../view.ts";
import type { BoardLine } from "./board-card.ts";

/** Files in which a merge left two versions: what the board shows goes by the upper one. */
export function mergeLines({ checked }: View): BoardLine[] {
  return unsettledIn(checked.logbook).map(({ block, start, end }): BoardLine => {
    const { path, text } = block.file;
    return {
      key: `merge ${path}`,
      name: nameOfFile(path),
      text: `line ${lineNumber(text, block.start + start)}: two versions; the upper counts until you choose, and nothing is written into this file from here`,
      tone: "bad",
      task: null,
      place: locationOf({ block, start, end }),
      card: null,
    };
  });
}
