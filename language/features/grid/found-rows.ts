import type { Block } from "../../book/source.ts";
import type { Logbook } from "../../room/logbook.ts";
import type { View } from "../view.ts";
import { compareKeys, filterOf, sortKey } from "./filter.ts";
import type { ColumnId, Face, GridColumn, GridQuery, GridRow } from "./grid-model.ts";

/** Rows of which a face has few: rounds and definitions. Their cells are made of those that are seen, or looked for. */
export interface RowMaker {
  readonly id: string;
  readonly blocks: readonly Block[];
  readonly make: (columns: readonly ColumnId[]) => GridRow;
}

/** What a sort and a filter found, by ids; as with entries it stays until it is asked for anew. */
interface Kept {
  readonly ids: readonly string[];
  /** All there were then. */
  readonly known: ReadonlySet<string>;
  readonly problem: string;
}

const kept = new WeakMap<Logbook, Map<string, Kept>>();
const mostKept = 4;

export function foundRows(
  view: View,
  face: Face,
  { sort = [], filter = {}, turn }: GridQuery,
  columns: readonly GridColumn[],
  all: readonly RowMaker[],
): { readonly rows: readonly RowMaker[]; readonly problem: string } {
  const filters = Object.entries(filter).filter(([, wanted]) => wanted.trim() !== "");
  if (sort.length === 0 && filters.length === 0) return { rows: all, problem: "" };
  const { logbook } = view.checked;
  const key = JSON.stringify([face, sort, filter, turn]);
  let views = kept.get(logbook);
  if (views === undefined) {
    views = new Map();
    kept.set(logbook, views);
  }
  const known = views.get(key);
  const made = known === undefined ? found() : followed(known);
  views.delete(key);
  views.set(key, made);
  for (const old of views.keys()) {
    if (views.size <= mostKept) break;
    views.delete(old);
  }
  const byId = new Map(all.map((row) => [row.id, row]));
  return { rows: made.ids.map((id) => byId.get(id)!), problem: made.problem };

  function found(): Kept {
    const has = new Set(columns.map(({ id }) => id));
    const wanted = [...new Set([...filters.map(([id]) => id), ...sort.map(({ column }) => column)])].filter(
      (id) => has.has(id),
    );
    const tests = filters.map(([id, text]) => ({ at: wanted.indexOf(id), ...filterOf(text) }));
    const texts = all.map((row) => {
      const { cells } = row.make(wanted);
      return wanted.map((_, at) => (cells.length === wanted.length ? cells[at]! : cells[0]!).text);
    });
    const order = all
      .map((_, at) => at)
      .filter((at) => tests.every((test) => test.at < 0 || test.isMet(texts[at]![test.at]!)));
    const by = sort.map(({ column, isDown }) => ({ at: wanted.indexOf(column), isDown: isDown === true }));
    const keys = texts.map((row) => by.map(({ at }) => (at < 0 ? "" : sortKey(row[at]!))));
    order.sort((a, b) => {
      for (const [index, { isDown }] of by.entries()) {
        const compared = compareKeys(keys[a]![index]!, keys[b]![index]!, isDown);
        if (compared !== 0) return compared;
      }
      return a - b;
    });
    return {
      ids: order.map((at) => all[at]!.id),
      known: new Set(all.map(({ id }) => id)),
      problem: tests.map(({ problem }) => problem).find((problem) => problem !== "") ?? "",
    };
  }

  function followed({ ids, known: had, problem }: Kept): Kept {
    const now = new Set(all.map(({ id }) => id));
    const fresh = new Map<string, string[]>();
    const atEnd: string[] = [];
    all.forEach(({ id }, at) => {
      if (had.has(id)) return;
      const before = all[at - 1]?.id;
      if (before === undefined) atEnd.push(id);
      else fresh.set(before, [...(fresh.get(before) ?? []), id]);
    });
    const order: string[] = [];
    const push = (first: string): void => {
      for (const stack = [first]; stack.length > 0; ) {
        const id = stack.pop()!;
        order.push(id);
        stack.push(...(fresh.get(id) ?? []).reverse());
        fresh.delete(id);
      }
    };
    for (const id of ids) if (now.has(id)) push(id);
    for (const id of atEnd) push(id);
    for (const before of [...fresh.keys()]) for (const id of fresh.get(before) ?? []) push(id);
    return { ids: order, known: now, problem };
  }
}
