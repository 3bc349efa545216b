import Papa from "papaparse";
import { toTsv } from "../../../language/features/grid/copy.ts";
import type { Desk } from "./desk.ts";
import { isWide } from "./row.ts";

/** Copy, cut and paste by the browser's own events, as tables elsewhere exchange them: tab-separated. */

export function listenToClipboard(desk: Desk): void {
  const { grid } = desk.table;
  const isGrid = (): boolean =>
    grid.contains(document.activeElement) && !desk.input.isOpen && desk.cursor.row >= 0;
  // Said to the browser: there is something to copy here though nothing is selected as text.
  for (const name of ["beforecopy", "beforecut", "beforepaste"])
    document.addEventListener(name, (event) => isGrid() && event.preventDefault());
  const copy = (event: ClipboardEvent): boolean => {
    const text = copied(desk);
    if (text === undefined) {
      desk.say("This selection is still being read: copy once more.");
      return false;
    }
    event.clipboardData?.setData("text/plain", text);
    return true;
  };
  document.addEventListener("copy", (event) => {
    if (!isGrid()) return;
    event.preventDefault();
    if (copy(event)) desk.say(`${desk.moves.selectionWords} copied`);
  });
  document.addEventListener("cut", (event) => {
    if (!isGrid()) return;
    event.preventDefault();
    if (copy(event)) void desk.changes.clear();
  });
  document.addEventListener("paste", (event) => {
    if (!isGrid()) return;
    event.preventDefault();
    const text = event.clipboardData?.getData("text/plain") ?? "";
    if (text !== "") void desk.changes.paste(fromTsv(text));
  });
}

/** The selection as one text; undefined where rows of it are not here yet. */
function copied(desk: Desk): string | undefined {
  const { top, bottom, left, right } = desk.cursor.box;
  if (!desk.rows.has(top, bottom)) return desk.changes.copiedAhead;
  const cells: string[][] = [];
  for (let at = top; at <= bottom; at++) {
    const row = desk.rows.at(at)!;
    const width = right - left + 1;
    cells.push(
      isWide(row)
        ? Array.from({ length: width }, (_, col) => (col === 0 ? row.cells[0]!.text : ""))
        : row.cells.slice(left, right + 1).map(({ text }) => text),
    );
  }
  return toTsv(cells);
}

/** Rows of cells; the line end behind the last row is no row. */
export function fromTsv(text: string): string[][] {
  const whole = text.replace(/\r?\n$/, "");
  const { data, errors } = Papa.parse<string[]>(whole, {
    delimiter: "\t",
    newline: lineEndOf(whole),
    header: false,
    skipEmptyLines: false,
  });
  // A quote that nobody closes is a character like others.
  return errors.some(({ type }) => type === "Quotes")
    ? whole.split(/\r\n|\r|\n/).map((line) => line.split("\t"))
    : data;
}

/** What ends the rows, not the lines within a cell. */
function lineEndOf(text: string): "\r\n" | "\n" | "\r" {
  const outside = text.replace(/(^|[\t\r\n])"(?:[^"]|"")*"/g, "$1");
  return outside.includes("\r\n") ? "\r\n" : outside.includes("\n") ? "\n" : "\r";
}
