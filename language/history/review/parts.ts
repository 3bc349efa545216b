import { isoOf } from "../../book/dates.ts";
import type { LineFact, LogLine } from "../log-lines.ts";
import type { Unit } from "../match-lines.ts";

/** One value of a line that is another than it was. */
export interface Part {
  /** `pH`, `volume`; empty where the line is about one thing. `time`, `day`, `text` for these. */
  readonly about: string;
  /** Undefined where it was not said. */
  readonly before: string | undefined;
  readonly after: string | undefined;
}

/** What of a line is another, value by value. */
export function partsOf(before: Unit, after: Unit): Part[] {
  const [was, now] = [before.line!, after.line!];
  const parts: Part[] = [];
  const add = (about: string, old: string, fresh: string): void => {
    if (old !== fresh) parts.push({ about, before: old || undefined, after: fresh || undefined });
  };
  if (before.block.name !== after.block.name) {
    const isDay = before.block.kind === "day" && after.block.kind === "day";
    const named = ({ block }: Unit): string =>
      block.kind === "day" && !Number.isNaN(block.day) ? isoOf(block.day) : block.name;
    add(isDay ? "day" : "below", named(before), named(after));
  }
  add("time", was.time, now.time);
  add("station", was.station, now.station);
  if (was.kind === now.kind || !isReadable(was) || !isReadable(now)) add("kind", was.word, now.word);
  parts.push(...factParts(was.facts, now.facts));
  add("text", was.note, now.note);
  if (parts.length > 0 || was.content === now.content) return parts;
  return [{ about: "", before: was.content, after: now.content }];
}

const isReadable = ({ kind }: LogLine): boolean => kind === "entry" || kind === "row";

/** By what each fact is about, in order; what is left on both sides is told as one that became another. */
function factParts(was: readonly LineFact[], now: readonly LineFact[]): Part[] {
  const left = new Map<string, LineFact[]>();
  for (const fact of was) left.set(fact.about, [...(left.get(fact.about) ?? []), fact]);
  const parts: Part[] = [];
  const fresh: LineFact[] = [];
  for (const fact of now) {
    const old = left.get(fact.about)?.shift();
    if (old === undefined) fresh.push(fact);
    else if (old.value !== fact.value)
      parts.push({ about: fact.about, before: old.value || undefined, after: fact.value || undefined });
  }
  const gone = was.filter((fact) => left.get(fact.about)?.includes(fact) === true);
  for (let at = 0; at < Math.max(gone.length, fresh.length); at++) {
    const [old, added] = [gone[at], fresh[at]];
    if (old !== undefined && added !== undefined)
      parts.push({ about: "", before: saidOf(old), after: saidOf(added) });
    else if (old !== undefined) parts.push({ about: old.about, before: old.value, after: undefined });
    else parts.push({ about: added!.about, before: undefined, after: added!.value });
  }
  return parts;
}

const saidOf = ({ about, value }: LineFact): string => [about, value].filter((part) => part !== "").join(" ");

/** `pH 7.2 -> 7.4`, `pH 7.4 added`, `08:40 -> 09:40`. */
export function partText({ about, before, after }: Part): string {
  const name = about === "" || about === "time" ? "" : `${about} `;
  if (before === undefined) return `${name}${valueText(after)} added`.replace("  ", " ");
  if (after === undefined) return `${name}${valueText(before)} taken out`.replace("  ", " ");
  // A value that has an arrow of its own, as that of a move.
  if (`${before} ${after}`.includes("->")) return `${name}${after} (it was ${before})`;
  return `${name}${valueText(before)} -> ${valueText(after)}`;
}

/** A cell of a round that was not measured says so. */
const valueText = (value: string | undefined): string => (value === "-" ? "not read" : (value ?? ""));
