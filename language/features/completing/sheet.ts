import { linesOf, type SheetLine } from "../../book/entry.ts";
import { parameters } from "../../book/parameters.ts";
import type { Block } from "../../book/source.ts";
import { UNITS } from "../../quantity/units.ts";
import { Piece } from "../../syntax/pieces.ts";
import { padTo, widthOf } from "../columns.ts";
import { lineOfText } from "../lines.ts";
import type { View } from "../view.ts";
import type { Context } from "./context.ts";
import type { Offers } from "./offer.ts";

/** Sheets: heads and rows as in the last round, which is most often the next. */

export interface RoundSeen {
  readonly day: number;
  /** Heads with their units in brackets, as written. */
  readonly heads: readonly string[];
  /** The targets of its rows, in their order. */
  readonly targets: readonly string[];
}

/** The last sheet up to a place: in the block before `at`, else in the latest day before it that has one. */
export function lastSheet(view: View, block: Block, at: number): RoundSeen | undefined {
  const own = sheetsIn(block).filter((sheet) => sheet.end <= at);
  if (own.length > 0) return own.at(-1);
  const groups = view.checked.logbook.dayGroups;
  for (let index = groups.length - 1; index >= 0; index--) {
    const { day, blocks } = groups[index]!;
    if (day >= block.day) continue;
    // A year without a round: there is none that is usual.
    if (day < block.day - 366) return undefined;
    for (const each of [...blocks].reverse()) {
      if (!each.text.includes("sheet")) continue;
      const found = sheetsIn(each).at(-1);
      if (found !== undefined) return found;
    }
  }
  return undefined;
}

function sheetsIn(block: Block): (RoundSeen & { readonly start: number; readonly end: number })[] {
  const sheets: { day: number; heads: string[]; targets: string[]; start: number; end: number }[] = [];
  for (const line of linesOf(block)) {
    if (line.is === "sheet")
      sheets.push({
        day: block.day,
        heads: headsOf(block, line),
        targets: [],
        start: line.start,
        end: line.end,
      });
    else if (line.is === "row" && line.target !== undefined && sheets.length > 0) {
      const sheet = sheets.at(-1)!;
      sheet.targets.push(line.target.text);
      sheet.end = line.end;
    }
  }
  return sheets;
}

function headsOf(block: Block, { cells }: SheetLine): string[] {
  const heads: string[] = [];
  for (const cell of cells) {
    const text = block.text.slice(cell.start, cell.end);
    if (cell.kind === Piece.columnUnit && heads.length > 0) heads[heads.length - 1] += ` ${text}`;
    else if (cell.kind === Piece.word) heads.push(text);
  }
  return heads;
}

/** The heads of a sheet: those of the last round that are not there yet, parameters, species. */
export function offerHeads(context: Context, block: Block, offers: Offers): void {
  const { view, pieces, others, isColumnUnit } = context;
  const last = pieces.count - 1;
  if (isColumnUnit) {
    const parameter = parameters.find((each) => each.name === pieces.word[last]);
    if (parameter === undefined) return;
    for (const unit of UNITS)
      if (unit.dimension === parameter.dimension && unit.symbol !== "")
        offers.add({
          label: unit.symbol,
          sort: "unit",
          text: context.isAtEnd ? `${unit.symbol})` : unit.symbol,
        });
    return;
  }
  const round = lastSheet(view, block, context.insert.start - block.start - context.before.length);
  const missing = round?.heads.filter((head) => !others.has(head.split(" ")[0]!)) ?? [];
  if (missing.length > 1)
    offers.add({ label: missing.join("  "), sort: "usual", detail: "as in the last round" });
  for (const head of missing) offers.add({ label: head, sort: "parameter", detail: "as in the last round" });
  for (const { name, title } of parameters)
    if (!others.has(name))
      offers.add({ label: name, sort: "parameter", detail: title, about: { is: "parameter", name } });
  for (const { name, title } of view.checked.book.species.values())
    if (!others.has(name))
      offers.add({ label: name, sort: "species", detail: title || "a count", about: { is: "name", name } });
}

/** A row of a sheet: the tanks of the last round in its order, then the others; in a cell what is not measured. */
export function offerRow(context: Context, block: Block, offers: Offers): void {
  const { view, pieces } = context;
  const time = pieces.count > 0 && pieces.kind[0] === Piece.time ? 1 : 0;
  const here = context.insert.start - block.start;
  const lines = linesOf(block);
  const head = [...lines].reverse().find((line) => line.is === "sheet" && line.end < here) as
    | SheetLine
    | undefined;
  if (head === undefined) return;
  if (pieces.count > time) {
    const column = head.columns[pieces.count - time - 1];
    if (column !== undefined)
      offers.add({ label: "-", sort: "word", detail: `${column.word}: not measured`, text: "-" });
    return;
  }
  const headAt = lines.indexOf(head);
  const written = new Set<string>();
  for (const line of lines.slice(headAt + 1)) {
    if (line.is !== "row") break;
    if (line.start !== here && line.target !== undefined) written.add(line.target.text);
  }
  const round = lastSheet(view, block, head.start - 1);
  const width = firstCell(block, head) - 4;
  const put = (name: string, detail: string, sort: "tank" | "system"): void => {
    if (written.has(name)) return;
    const padded = padTo(name, Math.max(width, widthOf(name) + 2));
    offers.add({
      label: name,
      sort,
      detail,
      text: context.isAtEnd ? padded : name,
      about: { is: "name", name },
    });
  };
  const { book } = view.checked;
  const known = new Map(book.stations.map((station) => [station.name, station]));
  for (const name of round?.targets ?? []) {
    const station = known.get(name);
    if (station?.kind === "tank" || station?.kind === "system") put(name, station.title, station.kind);
  }
  for (const station of book.stations)
    if (station.kind === "tank" || station.kind === "system") put(station.name, station.title, station.kind);
}

/** The column in which the first cells stand, by where the first head stands. */
function firstCell(block: Block, head: SheetLine): number {
  const line = lineOfText(block.text, head.start);
  const first = head.cells[0];
  return first === undefined ? 11 : widthOf(block.text.slice(line.start, first.start));
}
