import { kindNumber, kindOf } from "../../book/entries/registry.ts";
import { namesInShort } from "../../features/names-in-short.ts";
import type { DayReport, WorkReport } from "../schema.ts";

/** Places where the same is due, told together: `r1 .. r4  clean`. */

export interface MergedStop {
  readonly names: string;
  readonly stage: DayReport["round"][number]["stage"];
  readonly before: string;
  readonly work: readonly WorkReport[];
}

/** Neighbours of the round with the same work become one stop; their litres are added. Like work of one stop becomes one. */
export function mergeStops(round: DayReport["round"]): MergedStop[] {
  return mergePlaces(round).map((stop) => ({ ...stop, work: mergeWork(stop.work) }));
}

/** `test nitrate` and `test pH` that were done together and are late together: `test nitrate, pH`. */
function mergeWork(work: readonly WorkReport[]): WorkReport[] {
  const merged: WorkReport[] = [];
  for (const each of work) {
    const [word, ...rest] = each.act.split(" ");
    const like = merged.findIndex(
      (other) =>
        rest.length > 0 &&
        isList(word) &&
        other.act.startsWith(`${word} `) &&
        other.litres === null &&
        each.litres === null &&
        other.text === each.text &&
        other.note === each.note &&
        other.last === each.last,
    );
    const known = merged[like];
    if (known === undefined) merged.push(each);
    else merged[like] = { ...known, act: `${known.act}, ${rest.join(" ")}` };
  }
  return merged;
}

/** Whether what is done is written as a list. */
function isList(word: string | undefined): boolean {
  const kind = kindNumber(word ?? "");
  return kind !== undefined && kindOf(kind).list === true;
}

function mergePlaces(round: DayReport["round"]): MergedStop[] {
  const merged: (Omit<MergedStop, "names" | "work"> & { names: string[]; work: WorkReport[] })[] = [];
  for (const { at, stage, before, work } of round) {
    const last = merged.at(-1);
    if (last !== undefined && last.stage === stage && isSame(last.work, work)) {
      last.names.push(at);
      last.work = last.work.map((each, index) => ({
        ...each,
        litres: sum(each.litres, work[index]!.litres),
      }));
    } else merged.push({ names: [at], stage, before, work: [...work] });
  }
  return merged.map(({ names, ...rest }) => ({ ...rest, names: namesInShort(names) }));
}

function isSame(a: readonly WorkReport[], b: readonly WorkReport[]): boolean {
  if (a.length !== b.length) return false;
  return a.every((each, at) => {
    const other = b[at]!;
    return (
      each.act === other.act &&
      each.text === other.text &&
      each.last === other.last &&
      each.note === other.note
    );
  });
}

function sum(a: WorkReport["litres"], b: WorkReport["litres"]): WorkReport["litres"] {
  return a === null || b === null ? (a ?? b) : { low: a.low + b.low, high: a.high + b.high };
}
