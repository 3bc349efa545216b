import { Source } from "../../book/source.ts";
import { type CompletionSort, completions } from "../completion.ts";
import type { Span, View } from "../view.ts";
import { cutText } from "./cut.ts";
import { cutDefinitionText, definitionCell, propertyColumn } from "./definition-rows.ts";
import { changeDefinition } from "./edit-definition.ts";
import { changeLine, cutState, entryOf } from "./edit-line.ts";
import { EditSession } from "./edit-session.ts";
import { slotIn, slotOfColumn, writtenIn } from "./entries.ts";
import type { CellRef, ColumnId, NewRow } from "./grid-model.ts";
import { lineOfId, linesOfBlock, startsIn } from "./lines.ts";

/** What may be typed into a cell: what is offered at its place in the text, as far as it fits one cell. */
export interface CellCompletion {
  readonly label: string;
  readonly detail: string;
  readonly sort: CompletionSort;
  /** What is put in, and in place of what of the typed text. */
  readonly text: string;
  readonly replace: Span;
}

/** What each column takes of what is offered at its place. */
const sorts: Readonly<Record<string, readonly CompletionSort[]>> = {
  tank: ["tank", "system", "group", "gear", "room"],
  what: ["kind"],
};
/** Stands where nothing is typed yet. */
const nothing = "x";

/** @param typed what is in the cell @param caret where in it the next letter goes */
export function cellCompletions(
  view: View,
  { row, column }: CellRef,
  typed: string,
  caret: number,
): CellCompletion[] {
  const [is, serial, id] = row.split(" ");
  const session = new EditSession(view);
  const block = is === "round" ? undefined : session.blockOf(serial);
  if (block === undefined) return [];
  const shown = typed.trim() === "" ? nothing : typed;
  if (is === "definition") {
    const { word } = block.definition!;
    const text = changeDefinition(block.text, word, column, shown);
    if (typeof text !== "string") return [];
    const cut = cutDefinitionText(text, word, startsIn(text));
    // Of several statements it is not told which one is typed in.
    if (cut.properties.filter((each) => column === propertyColumn(each.word)).length > 1) return [];
    return offered(view, block.file.path, text, definitionCell(text, cut, column).at, column, typed, caret);
  }
  const line = lineOfId(linesOfBlock(block), Number(id));
  if (line < 0 || block.kind !== "day") return [];
  const state = changeLine(session.stateOf(block, line), column, shown);
  if ("is" in state) return [];
  const start = linesOfBlock(block).starts[line]!;
  const text =
    block.text.slice(0, start) +
    state.text +
    block.text.slice(start + session.stateOf(block, line).text.length);
  const cut = cutText(text, startsIn(text), true)[line];
  const slot = slotOfColumn(column);
  let place: Span | undefined;
  if (slot === undefined) place = cut === undefined ? undefined : writtenIn(text, cut, column).at;
  else {
    const at = slotIn(state.above + state.text, entryOf(state), slot).at;
    const by = start - state.above.length;
    place = at === undefined ? undefined : { start: at.start + by, end: at.end + by };
  }
  return offered(view, block.file.path, text, place, column, typed, caret);
}

/** The same in a row that is not written yet. @param date its day */
export function newRowCompletions(
  view: View,
  row: NewRow,
  column: ColumnId,
  caret: number,
  date: string,
): CellCompletion[] {
  const typed = row[column] ?? "";
  const said = (id: ColumnId): string => row[id]?.trim() ?? "";
  const words = column === "tank" ? [] : column === "what" ? [said("tank")] : [said("tank"), said("what")];
  if (words.includes("")) return [];
  const before = `${date}\n  ${words.map((word) => `${word} `).join("")}`;
  const text = `${before}${typed}\n`;
  const cut = cutState({ text: text.slice(date.length + 1, -1), above: `${date}\n` });
  if (column !== "tank" && column !== "what" && cut.is !== "entry") return [];
  const place = { start: before.length, end: before.length + typed.length };
  return offered(view, view.source.path, text, place, column, typed, caret);
}

function offered(
  view: View,
  path: string,
  text: string,
  place: Span | undefined,
  column: ColumnId,
  typed: string,
  caret: number,
): CellCompletion[] {
  if (place === undefined) return [];
  // A text stands one further in, behind its quote.
  const quote = text[place.start] === '"' && !typed.trimStart().startsWith('"') ? 1 : 0;
  const lead = typed.trim() === "" ? 0 : typed.length - typed.trimStart().length;
  const start = place.start + quote - lead;
  const offset = typed.trim() === "" ? start : Math.max(place.start, start + caret);
  const wanted = sorts[column];
  const scratch: View = { ...view, source: new Source(path, text) };
  return completions(scratch, offset).items.flatMap(
    ({ label, detail, sort, insertText, isSnippet, insert }) => {
      if (wanted?.includes(sort) === false) return [];
      const plain = (isSnippet ? withoutPlaces(insertText) : insertText).trim();
      // What is typed itself is no offer, and whole lines fill no cell.
      const isTyped = plain === text.slice(insert.start, insert.end);
      if (isTyped || /[\r\n]/.test(plain) || insert.start < place.start) return [];
      const replace = { start: insert.start - start, end: insert.end - start };
      return [{ label, detail, sort, text: plain, replace }];
    },
  );
}

/** A snippet without its places: what stands in them stays. */
function withoutPlaces(snippet: string): string {
  return snippet
    .replace(/\$\{\d+:((?:[^}\\]|\\.)*)\}/g, "$1")
    .replace(/\$\{\d+\}|\$\d+/g, "")
    .replace(/\\(.)/g, "$1");
}
