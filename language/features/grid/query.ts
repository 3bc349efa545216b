import type { Block } from "../../book/source.ts";
import type { View } from "../view.ts";
import { cutBlock } from "./cut.ts";
import { definitionColumns, definitionRows } from "./definition-rows.ts";
import { type EntriesFace, entryColumns, entryRow, kindOfFace, minutesOf } from "./entries.ts";
import { foundEntries } from "./found-entries.ts";
import { foundRows } from "./found-rows.ts";
import type { ColumnId, Face, GridColumn, GridQuery, GridRow, GridWindow } from "./grid-model.ts";
import { blockOfSerial, lineOfId, linesOfBlock } from "./lines.ts";
import { marked } from "./marks.ts";
import { roundColumns, roundRows, roundsIn } from "./round-rows.ts";

/** A window of a face: so many rows from a place on, of all that there are. */
export function gridRows(view: View, face: Face, query: GridQuery): GridWindow {
  view.checked.refresh();
  if (face.is === "entries") return entriesWindow(view, face, query);
  const rounds = face.is === "rounds" ? roundsIn(view, face) : undefined;
  const columns = face.is === "rounds" ? roundColumns(view, face, rounds) : definitionColumns(face);
  const shown = shownOf(columns, query);
  const all = face.is === "rounds" ? roundRows(view, face, rounds) : definitionRows(view, face);
  const { rows, problem } = foundRows(view, face, query, columns, all);
  const seen = rows.slice(Math.max(0, query.from), Math.max(0, query.from) + Math.max(0, query.count));
  const made = seen.map((row) => row.make(shown));
  const blocks = new Set(seen.flatMap((row) => row.blocks));
  return {
    columns,
    shown,
    total: rows.length,
    from: query.from,
    rows: query.isUnmarked === true ? made : marked(view, made, blocks),
    problem,
  };
}

/** The ids of rows, for who pastes into more than is on screen. */
export function gridRowIds(view: View, face: Face, query: GridQuery): readonly string[] {
  return gridRows(view, face, { ...query, columns: [], isUnmarked: true }).rows.map(({ id }) => id);
}

/** Rows by their ids, in the order asked for, those that are gone left out: for who copies or sums up more than is on screen. */
export function gridRowsById(
  view: View,
  face: Face,
  ids: readonly string[],
  columns: readonly ColumnId[],
): readonly GridRow[] {
  view.checked.refresh();
  if (face.is !== "entries") {
    const all = face.is === "rounds" ? roundRows(view, face) : definitionRows(view, face);
    const byId = new Map(all.map((row) => [row.id, row]));
    return ids.flatMap((id) => byId.get(id)?.make(columns) ?? []);
  }
  const minutes = new Map<Block, Float64Array>();
  return ids.flatMap((id) => {
    const [is, serial, line] = id.split(" ");
    const block = is === "line" ? blockOfSerial(Number(serial)) : undefined;
    if (block === undefined || view.checked.logbook.sources.get(block.file.path) !== block.file) return [];
    const at = lineOfId(linesOfBlock(block), Number(line));
    if (at < 0) return [];
    const own = minutes.get(block) ?? minutesOf(cutBlock(block));
    minutes.set(block, own);
    return [entryRow(block, at, columns, own[at]!)];
  });
}

export function gridColumns(view: View, face: Face): readonly GridColumn[] {
  if (face.is === "entries") return entryColumns(face);
  return face.is === "rounds" ? roundColumns(view, face) : definitionColumns(face);
}

function shownOf(columns: readonly GridColumn[], { columns: wanted }: GridQuery): readonly ColumnId[] {
  const known = new Set(columns.map(({ id }) => id));
  return wanted?.filter((id) => known.has(id)) ?? columns.flatMap(({ id, isShown }) => (isShown ? [id] : []));
}

/** The blocks of the entries: all but the definitions, in the order of files and lines. */
export function entryBlocks(view: View, { path }: EntriesFace): readonly Block[] {
  const { logbook } = view.checked;
  const blocks = path === undefined ? logbook.blocks() : (logbook.sources.get(path)?.blocks ?? []);
  return blocks.filter(({ kind }) => kind !== "definition");
}

function entriesWindow(view: View, face: EntriesFace, query: GridQuery): GridWindow {
  const columns = entryColumns(face);
  const shown = shownOf(columns, query);
  const blocks = entryBlocks(view, face);
  const { from, count } = query;
  const { total, places, problem } = isPlain(face, query)
    ? inOrder(blocks, from, count)
    : foundPlaces(view, face, query, blocks);
  const minutes = new Map<Block, Float64Array>();
  const rows = places.map(([block, at]): GridRow => {
    let own = minutes.get(block);
    if (own === undefined) {
      own = minutesOf(cutBlock(block));
      minutes.set(block, own);
    }
    return entryRow(block, at, shown, own[at]!);
  });
  const seen = new Set(places.map(([block]) => block));
  return {
    columns,
    shown,
    total,
    from,
    rows: query.isUnmarked === true ? rows : marked(view, rows, seen),
    problem,
  };
}

function isPlain(face: EntriesFace, { sort = [], filter = {} }: GridQuery): boolean {
  const isFiltered = Object.values(filter).some((wanted) => wanted.trim() !== "");
  return kindOfFace(face) === undefined && sort.length === 0 && !isFiltered;
}

interface Places {
  readonly total: number;
  readonly places: readonly (readonly [Block, number])[];
  readonly problem: string;
}

/** By how many lines each block has: only those of the window are read. */
function inOrder(blocks: readonly Block[], from: number, count: number): Places {
  const places: [Block, number][] = [];
  let total = 0;
  for (const block of blocks) {
    const here = linesOfBlock(block).starts.length;
    const first = Math.max(0, from - total);
    const end = Math.min(here, from + count - total);
    for (let at = first; at < end; at++) places.push([block, at]);
    total += here;
  }
  return { total, places, problem: "" };
}

function foundPlaces(view: View, face: EntriesFace, query: GridQuery, blocks: readonly Block[]): Places {
  const found = foundEntries(view.checked.logbook, face, query, blocks);
  const total = found.id.length;
  const places: [Block, number][] = [];
  for (let row = Math.max(0, query.from); row < Math.min(total, query.from + query.count); row++) {
    const block = found.blocks[found.block[row]!]!;
    places.push([block, lineOfId(linesOfBlock(block), found.id[row]!)]);
  }
  return { total, places, problem: found.problem };
}
