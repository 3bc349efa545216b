import { isoOf } from "../../book/dates.ts";
import type { Block } from "../../book/source.ts";
import type { Logbook } from "../../room/logbook.ts";
import { cutOnce, type LineCut } from "./cut.ts";
import { dateOf, type EntriesFace, entryIn, kindOfFace, slotIn, slotOfColumn, writtenIn } from "./entries.ts";
import { compareKeys, type Filter, filterOf, sortKey } from "./filter.ts";
import type { ColumnId, GridQuery } from "./grid-model.ts";
import { idOfLine, lineOfId, linesOfBlock, serialOf } from "./lines.ts";
import { cutSome } from "./quick-cut.ts";

/**
 * What a sort and a filter found among all lines, as numbers: kept while it is looked at. An edit takes out what is gone and puts what is new
 * behind the line it stands behind; nothing else moves or goes before it is asked for anew.
 */
export interface FoundEntries {
  readonly blocks: readonly Block[];
  /** By row its block and the number of its line. */
  readonly block: Int32Array;
  readonly id: Int32Array;
  readonly problem: string;
}

interface Kept extends FoundEntries {
  /** By block what it is called and said, and the number from which on its lines are new. */
  readonly serials: readonly number[];
  readonly texts: readonly string[];
  readonly fresh: readonly number[];
}

const kept = new WeakMap<Logbook, Map<string, Kept>>();
/** So many views keep what they found. */
const mostKept = 4;

export function foundEntries(
  logbook: Logbook,
  face: EntriesFace,
  query: GridQuery,
  blocks: readonly Block[],
): FoundEntries {
  const key = JSON.stringify([face, query.sort, query.filter, query.turn]);
  let views = kept.get(logbook);
  if (views === undefined) {
    views = new Map();
    kept.set(logbook, views);
  }
  const known = views.get(key);
  const made = known === undefined ? found(face, query, blocks) : followed(known, face, query, blocks);
  views.delete(key);
  views.set(key, made);
  for (const old of views.keys()) {
    if (views.size <= mostKept) break;
    views.delete(old);
  }
  return made;
}

/** What a line says in a column, for who looks for it. */
export function saidIn(block: Block, line: LineCut, id: ColumnId): string {
  if (id === "date" && line.is !== "day") return dateOf(block, line).text;
  const slot = slotOfColumn(id);
  if (slot !== undefined) return slotIn(block.text, entryIn(block, line), slot).text;
  return writtenIn(block.text, line, id).text;
}

function found(face: EntriesFace, { sort = [], filter = {} }: GridQuery, blocks: readonly Block[]): Kept {
  const kind = kindOfFace(face)?.word;
  const filters = Object.entries(filter)
    .filter(([, wanted]) => wanted.trim() !== "")
    .map(([id, wanted]): [string, Filter] => [id, filterOf(wanted)]);
  const onDay = filters.filter(([id]) => id === "date");
  const mayBe = quickTest(kind, filters);
  const rows: number[] = [];
  const ids: number[] = [];
  const keys: (number | string)[][] = sort.map(() => []);
  blocks.forEach((block, at) => {
    // All lines of a day are of its date.
    if (!Number.isNaN(block.day) && !onDay.every(([, { isMet }]) => isMet(isoOf(block.day)))) return;
    const lines = linesOfBlock(block);
    for (const [line, index] of cutSome(block, mayBe)) {
      if (kind !== undefined && saidIn(block, line, "what") !== kind) continue;
      // What is no cell is found by all its text.
      if (!filters.every(([id, { isMet }]) => isMet(saidIn(block, line, id)))) continue;
      rows.push(at);
      ids.push(idOfLine(lines, index));
      sort.forEach(({ column }, by) => {
        keys[by]!.push(sortKey(saidIn(block, line, column)));
      });
    }
  });
  const order = Array.from(rows, (_, at) => at);
  if (sort.length > 0)
    order.sort((a, b) => {
      for (let by = 0; by < sort.length; by++) {
        const compared = compareKeys(keys[by]![a]!, keys[by]![b]!, sort[by]!.isDown === true);
        if (compared !== 0) return compared;
      }
      return a - b;
    });
  return {
    blocks,
    serials: blocks.map(serialOf),
    texts: blocks.map(({ text }) => text),
    fresh: blocks.map((block) => linesOfBlock(block).fresh),
    block: Int32Array.from(order, (at) => rows[at]!),
    id: Int32Array.from(order, (at) => ids[at]!),
    problem: filters.map(([, each]) => each.problem).find((problem) => problem !== "") ?? "",
  };
}

/** Whether a line may be one that is wanted, by its raw text in small letters; undefined where that tells nothing. */
function quickTest(
  kind: string | undefined,
  filters: readonly (readonly [string, Filter])[],
): ((raw: string) => boolean) | undefined {
  // The date stands in the head of the day.
  const wanted = filters.flatMap(([id, { needles }]) =>
    id === "date" || needles.length === 0 ? [] : [needles],
  );
  if (kind !== undefined) wanted.push([kind.toLowerCase()]);
  if (wanted.length === 0) return undefined;
  return (raw) => wanted.every((needles) => needles.some((needle) => raw.includes(needle)));
}

function followed(known: Kept, face: EntriesFace, query: GridQuery, blocks: readonly Block[]): Kept {
  const isSame =
    known.blocks.length === blocks.length &&
    blocks.every((block, at) => block === known.blocks[at] && block.text === known.texts[at]);
  if (isSame) return known;
  const places = new Map(blocks.map((block, at) => [serialOf(block), at]));
  const placeOf = known.serials.map((serial) => places.get(serial) ?? -1);
  // Files that were read anew are new lines all of them.
  if (placeOf.filter((place) => place >= 0).length * 2 < blocks.length) return found(face, query, blocks);
  const placeBefore = new Map(known.serials.map((serial, at) => [serial, at]));
  let size = known.id.length;
  /** New lines by the line that they stand behind; those of new days at the end. */
  const newBehind = new Map<string, number[]>();
  const atEnd: [number, number][] = [];
  blocks.forEach((block, at) => {
    const was = placeBefore.get(serialOf(block));
    if (was !== undefined && known.texts[was] === block.text) return;
    const lines = linesOfBlock(block);
    for (let line = 0; line < lines.starts.length; line++) {
      const id = idOfLine(lines, line);
      if (was !== undefined && id < known.fresh[was]!) continue;
      size++;
      const before = line === 0 ? -1 : idOfLine(lines, line - 1);
      if (before < 0) atEnd.push([at, id]);
      else newBehind.set(`${at} ${before}`, [...(newBehind.get(`${at} ${before}`) ?? []), id]);
    }
  });
  const kind = kindOfFace(face)?.word;
  const isOfKind = (at: number, id: number): boolean => {
    if (kind === undefined) return true;
    const block = blocks[at]!;
    const line = cutOnce(block)[lineOfId(linesOfBlock(block), id)];
    return line !== undefined && (line.is === "text" || saidIn(block, line, "what") === kind);
  };
  const withNew = new Set([...newBehind.keys()].map((key) => Number(key.split(" ")[0])));
  const rows = new Int32Array(size);
  const ids = new Int32Array(size);
  let length = 0;
  const push = (first: number, id: number, isKnown: boolean): void => {
    const stack: [number, number][] = [[first, id]];
    for (let next = stack.pop(); next !== undefined; next = stack.pop()) {
      const [at, line] = next;
      // What was another kind when it was found stays, until it is looked for anew.
      if ((isKnown && at === first && line === id) || isOfKind(at, line)) {
        rows[length] = at;
        ids[length++] = line;
      }
      if (!withNew.has(at)) continue;
      const fresh = newBehind.get(`${at} ${line}`) ?? [];
      newBehind.delete(`${at} ${line}`);
      for (const each of fresh.reverse()) stack.push([at, each]);
    }
  };
  for (let row = 0; row < known.id.length; row++) {
    const was = known.block[row]!;
    const at = placeOf[was]!;
    if (at < 0) continue;
    const block = blocks[at]!;
    const id = known.id[row]!;
    if (block.text === known.texts[was]) {
      rows[length] = at;
      ids[length++] = id;
    } else if (lineOfId(linesOfBlock(block), id) >= 0) push(at, id, true);
  }
  for (const [at, id] of atEnd) push(at, id, false);
  for (const [key, fresh] of [...newBehind]) {
    const at = Number(key.split(" ")[0]);
    if (!newBehind.delete(key)) continue;
    for (const id of fresh) push(at, id, false);
  }
  return {
    blocks,
    serials: blocks.map(serialOf),
    texts: blocks.map(({ text }) => text),
    fresh: blocks.map((block) => linesOfBlock(block).fresh),
    block: rows.slice(0, length),
    id: ids.slice(0, length),
    problem: known.problem,
  };
}
